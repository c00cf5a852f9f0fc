"""The numbers of a typed question: put where they plainly belong, and nowhere else."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.host import Host
from boltend.core.values import Notation
from boltend.shell.app import host_bench
from boltend.shell.looks import Place
from boltend.shell.start_numbers import taken

Shell = Any

BED = "How many of my blocks cover this bed, and what for borders, binding and backing?"
MANY = "So many blocks of one size: how large, and what for two borders and binding?"
REACH = "Which borders bring my top to the size I want?"
BACKING = "How much backing, and which batting?"
PRECUT = "How many blocks do my precuts make, and which quilts?"
THREAD = "How much thread will the quilting take, and how long?"
TRIM = "My blocks came out unequal: what do I trim them to?"
ENOUGH = "Is the yardage that is printed for my backing enough?"


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


def said(host: Any, question: str, sentence: str, system: Any = "in") -> dict[str, object]:
    """Each given that is filled, under its tab's number."""
    start = next(s for s in host.starts if s.question == question)
    got = taken(sentence, start.tabs, host.specs, host.table, Notation(system))
    filled = {f"{n} {name}": value for n, givens in enumerate(got.givens) for name, value in givens.items()}
    return {place: [row["width"] for row in v] if "borders" in place else v for place, v in filled.items()}


@pytest.mark.parametrize(
    ("question", "sentence", "filled"),
    [
        (MANY, "thirty blocks of 9 in", {"0 blocks": 30, "0 block_width": "9 in"}),
        (MANY, "30 blocks, 9 1/2 in square blocks", {"0 blocks": 30, "0 block_width": "9 1/2 in"}),
        (MANY, "twenty-four blocks", {"0 blocks": 24}),
        (MANY, "two dozen blocks", {"0 blocks": 24}),
        (MANY, "a dozen blocks of 12.5 cm", {"0 blocks": 12, "0 block_width": "12.5 cm"}),
        (
            BED,
            "a queen bed, drop 13 in, from 9 in blocks, at least covering",
            {"0 bed": "US queen", "0 drop": "13 in", "1 block_width": "9 in"},
        ),
        (BED, "a twin xl with 10 in drop", {"0 bed": "US twin XL", "0 drop": "10 in"}),
        (
            REACH,
            "my top measures 60 1/4, 60 3/8, 60 1/4 by 72: borders to at least 70 by 84",
            {
                "0 widths": ["60 1/4 in", "60 3/8 in", "60 1/4 in"],
                "0 heights": ["72 in"],
                "1 target_width": "70",
                "1 target_height": "84",
            },
        ),
        (REACH, "top 60 by 72, three borders", {"0 widths": ["60 in"], "0 heights": ["72 in"]}),
        (BACKING, "backing for 87 x 93", {"0 widths": ["87 in"], "0 heights": ["93 in"]}),
        (
            MANY,
            "thirty finished 9 in blocks, borders 2 in and 4 in, and binding",
            {"0 blocks": 30, "0 block_width": "9 in", "1 borders": ["2 in", "4 in"]},
        ),
        (MANY, "30 9 in blocks with two borders, 2 in and 4 in", {"0 blocks": 30, "0 block_width": "9 in"}),
        (MANY, "30 blocks and a border of 5 in", {"0 blocks": 30, "1 borders": ["5 in"]}),
        (REACH, "top 60 by 72, borders to at least 70 in wide", {"1 target_width": "70 in"}),
        (PRECUT, "40 squares of a 10 in square pack", {"0 precuts": 40, "0 precut": "10 in square pack"}),
        (PRECUT, "thirty-two 10 in squares", {"0 precuts": 32, "0 precut": "10 in square pack"}),
        (TRIM, "blocks of 12 1/2, 12 3/8 and 12 1/4", {"0 sizes": ["12 1/2 in", "12 3/8 in", "12 1/4 in"]}),
        (ENOUGH, "is it enough for 87 by 93", {"0 width": "87", "0 height": "93"}),
    ],
)
def test_what_is_plainly_meant(host: Any, question: str, sentence: str, filled: dict[str, object]) -> None:
    got = said(host, question, sentence)
    assert {place: got.get(place) for place in filled} == filled


@pytest.mark.parametrize(
    "sentence",
    [
        "", "blocks", "how many in one", "30", "9 in", "1/2", "30/9/2026 blocks", "v2 blocks", "blocks, 9 in",
        "two borders", "-", "½½ blocks", "blocks of 9 in blocks of" + " 1" * 200, "9 yd by", "by by 7",
    ],
)  # fmt: skip
def test_what_may_mean_anything_fills_nothing_wrong(host: Any, sentence: str) -> None:
    got = said(host, MANY, sentence)
    assert got in ({}, {"0 block_width": "9 in"} if "blocks of 9 in" in sentence else {})


@pytest.mark.parametrize(
    ("question", "sentence", "left"),
    [
        (MANY, "thirty blocks of 9 in", ()),
        (MANY, "thirty blocks of 9 in from 42 in wide cloth", ("42 in",)),
        (MANY, "the quilt is 72 in wide", ("72 in",)),
        (THREAD, "lines 7 in, thread 40", ("7 in", "40")),
        (BED, "a queen bed, drop 13 in, 9 in blocks, 3 borders", ("3",)),
    ],
)
def test_what_was_not_used_is_told(host: Any, question: str, sentence: str, left: tuple[str, ...]) -> None:
    start = next(s for s in host.starts if s.question == question)
    assert taken(sentence, start.tabs, host.specs, host.table, Notation()).left == left


def test_lines_so_far_apart_are_spaced_so(host: Any) -> None:
    assert said(host, THREAD, "quilting in lines 2 in apart") == {"1 spacing": "2 in"}


def test_a_wanted_size_is_not_taken_for_the_one_in_hand(host: Any) -> None:
    got = said(host, REACH, "borders that bring it to 70 by 84")
    assert got["1 target_width"] == "70"
    assert "0 widths" not in got


def test_a_king_is_not_guessed_in_centimetres(host: Any) -> None:
    assert "0 bed" not in said(host, BED, "a king bed", "cm")
    assert said(host, BED, "a king bed")["0 bed"] == "US king"


@given(st.text(max_size=120) | st.text("0123456789 /.,;x×½by inblocksof", max_size=60))
@settings(max_examples=200, deadline=None)
def test_whatever_is_typed_each_value_that_is_taken_reads(host: Any, sentence: str) -> None:
    start = next(s for s in host.starts if s.question == REACH)
    got = taken(sentence, start.tabs, host.specs, host.table, Notation())
    for (_, calculator, _), givens in zip(start.tabs, got.givens, strict=True):
        for name, raw in givens.items():
            spec = host.specs[calculator].by_name[name]
            spec.reader.from_toml(raw, Notation(), spec.unit)


async def test_the_numbers_of_the_question_stand_in_the_fields(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks of 9 in, two borders and binding")
        await it.press("enter")
        await it.sees("From your question: Blocks in hand 30; Block width 9 in.")
        assert it.given("Blocks") == {"blocks": 30, "block_width": "9 in"}
        await it.sees("Width", "45 in", "54 in")  # five by six of 9 in
        await it.press("ctrl+z")
        assert it.desk.project.tabs == (), "one edit, one undo"


async def test_the_cursor_is_in_what_is_still_wanting(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks, two borders")
        await it.press("enter")
        await it.sees("From your question: Blocks in hand 30.")
        assert it.view.place == Place("block_width")


async def test_also_where_a_tab_is_added(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.press("escape", "f7")
        await it.sees("What do you want to know?")
        await it.type("backing for a quilt of 87 by 93 in")
        await it.press("enter")
        await it.sees("From your question")
        await it.press("f8")
        await it.sees("To buy ·")
        assert "From your question" not in it.text(), "it is said in passing"
        assert "87" in str(it.given(it.desk.project.tabs[0].name))


async def test_a_tab_that_is_added_takes_its_size_from_the_tab_before(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks of 9 in, a border of 2 in")
        await it.press("enter")
        await it.sees("From your question: Blocks in hand 30; Block width 9 in; Borders 2 in.")
        await it.press("f6", "f6", "f7")
        await it.sees("What do you want to know?")
        await it.type("which batting covers it")
        await it.press("enter")
        await it.sees("Linked: Width of the quilt to", "“Borders”, Height of the quilt to “Borders”;")
        assert it.given("Batting")["width"] == {"from": "Borders", "take": "width"}
        await it.press("ctrl+z")
        assert [tab.name for tab in it.desk.project.tabs] == ["Blocks", "Borders", "Binding"], "one edit"
