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
from boltend.shell.start_without import without

Shell = Any

BED = "How many of my blocks cover this bed, and what for borders, binding and backing?"
MANY = "So many blocks of one size: how large, and what for two borders and binding?"
REACH = "Which borders bring my top to the size I want?"
BACKING = "How much backing, and which batting?"
PRECUT = "How many blocks do my precuts make, and which quilts?"
THREAD = "How much thread will the quilting take, and how long?"
ROUND = "How much do the borders and the binding round my top take?"
YARDS = "I have these yards of fabric: how large a quilt of squares?"
STRAIGHT = "How much thread will the piecing take?"
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
    first = {"1 borders": "width", "0 fabrics": "have"}
    return {at: [row[first[at]] for row in v] if at in first else v for at, v in filled.items()}


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
                "0 widths": ["60 1/4", "60 3/8", "60 1/4"],
                "0 heights": ["72"],
                "1 target_width": "70",
                "1 target_height": "84",
            },
        ),
        (REACH, "top 60 by 72, three borders", {"0 widths": ["60"], "0 heights": ["72"]}),
        (BACKING, "backing for 87 x 93", {"0 widths": ["87 finished"], "0 heights": ["93 finished"]}),
        (BACKING, "backing for 87 x 93 cm", {"0 widths": ["87 cm finished"]}),
        (BACKING, "backing for a top of 70 by 85", {"0 widths": ["70"], "0 heights": ["85"]}),
        (BACKING, "my quilt measures 70 by 85, backing", {"0 widths": ["70"], "0 heights": ["85"]}),
        (BACKING, "backing, 70 70 1/4 by 85", {"0 widths": ["70", "70 1/4"], "0 heights": ["85"]}),
        (BACKING, "how much to back 70 by 85", {"0 widths": ["70 finished"], "0 heights": ["85 finished"]}),
        (THREAD, "thread to quilt 60 by 72", {"0 widths": ["60 finished"], "0 heights": ["72 finished"]}),
        (ENOUGH, "5 yd enough for a 70 by 85 top", {"0 width": "70 cut", "0 height": "85 cut"}),
        (ENOUGH, "5 yd enough for 70 by 85", {"0 width": "70", "0 height": "85"}),
        (
            REACH,
            "My top measures 60 1/4, 60 3/8 and 60 1/4 across by 72 long: borders to at least 70 by 84",
            {"0 widths": ["60 1/4", "60 3/8", "60 1/4"], "0 heights": ["72"], "1 target_height": "84"},
        ),
        (REACH, "top 72 long by 60 wide, borders", {"0 widths": ["60"], "0 heights": ["72"]}),
        (REACH, "top 60 in wide and 72 in long", {"0 widths": ["60 in"], "0 heights": ["72 in"]}),
        (REACH, "top (60 by 72), borders", {"0 widths": ["60"], "0 heights": ["72"]}),
        (
            MANY,
            "20 blocks of 12 in, two borders (2 in and 4 in) and the binding",
            {"0 blocks": 20, "0 block_width": "12 in", "1 borders": ["2 in", "4 in"]},
        ),
        (MANY, "30 blocks (9 in finished), border 4 in", {"0 blocks": 30, "0 block_width": "9 in"}),
        (
            MANY,
            "thirty finished 9 in blocks, borders 2 in and 4 in, and binding",
            {"0 blocks": 30, "0 block_width": "9 in", "1 borders": ["2 in", "4 in"]},
        ),
        (
            MANY,
            "30 9 in blocks with two borders, 2 in and 4 in",
            {"0 blocks": 30, "0 block_width": "9 in", "1 borders": ["2 in", "4 in"]},
        ),
        (MANY, "30 blocks of 9 in, two borders 2 in and 4 in, binding", {"1 borders": ["2 in", "4 in"]}),
        (MANY, "30 blocks of 9 in, borders of 2 and 4", {"0 blocks": 30, "1 borders": ["2", "4"]}),
        (MANY, "30 blocks, borders 2 in, 3 in and 5 in", {"1 borders": ["2 in", "3 in", "5 in"]}),
        (MANY, "30 blocks of 9 in, two borders of 3 in", {"1 borders": ["3 in", "3 in"]}),
        (MANY, "two borders, 30 blocks of 9 in", {"0 blocks": 30, "0 block_width": "9 in"}),
        (MANY, "12 12 in blocks", {"0 blocks": 12, "0 block_width": "12 in"}),
        (MANY, "30 blocks of 12 1/2 in raw", {"0 block_width": "12 1/2 in cut"}),
        (MANY, "30 blocks, finished size 12 in", {"0 blocks": 30}),
        (MANY, "20 blocks of 12 in with 2 in sashing", {"0 sash": "2 in"}),
        (
            STRAIGHT,
            "2 in sashing for 5 by 6 blocks of 9 in",
            {"0 across": 5, "0 down": 6, "0 block_width": "9 in"},
        ),
        (MANY, "30 blocks and a border of 5 in", {"0 blocks": 30, "1 borders": ["5 in"]}),
        (REACH, "top 60 by 72, borders to at least 70 in wide", {"1 target_width": "70 in"}),
        (PRECUT, "40 squares of a 10 in square pack", {"0 precuts": 40, "0 precut": "10 in square pack"}),
        (PRECUT, "thirty-two 10 in squares", {"0 precuts": 32, "0 precut": "10 in square pack"}),
        (TRIM, "blocks of 12 1/2, 12 3/8 and 12 1/4", {"0 sizes": ["12 1/2", "12 3/8", "12 1/4"]}),
        (TRIM, "blocks 12 1/2 12 3/8 12 1/4, uneven", {"0 sizes": ["12 1/2", "12 3/8", "12 1/4"]}),
        (
            TRIM,
            "they finish at 12, 11 7/8, 12 1/8",
            {"0 sizes": ["12 finished", "11 7/8 finished", "12 1/8 finished"]},
        ),
        (ENOUGH, "is it enough for 87 by 93", {"0 width": "87", "0 height": "93"}),
        (ENOUGH, "is 5 yd backing enough for 87 by 93", {"0 width": "87", "0 printed": "5 yd"}),
        (ENOUGH, "5 yd backing printed 87 by 93", {"0 height": "93", "0 printed": "5 yd"}),
        (ENOUGH, "pattern says 5 yards, 87 by 93", {"0 width": "87", "0 printed": "5 yards"}),
        (
            BACKING,
            "backing batting 87 by 93 finished",
            {"0 widths": ["87 finished"], "0 heights": ["93 finished"]},
        ),
        (BACKING, "87 finished by 93 finished", {"0 widths": ["87 finished"], "0 heights": ["93 finished"]}),
        (BACKING, "an 87 x 93 in quilt", {"0 widths": ["87 in finished"], "0 heights": ["93 in finished"]}),
        (BACKING, "a baby quilt, 36 by 44", {"0 widths": ["36 finished"]}),
        (BACKING, "a bed quilt of 87 by 93", {"0 widths": ["87 finished"], "0 heights": ["93 finished"]}),
        (BACKING, "a quilt top of 87 by 93", {"0 widths": ["87"], "0 heights": ["93"]}),
        (BACKING, "my finished top 87 by 93", {"0 widths": ["87 finished"], "0 heights": ["93 finished"]}),
        (BACKING, "backing 87by93 raw", {"0 widths": ["87"], "0 heights": ["93"]}),
        (BACKING, "87 by 93 raw", {"0 widths": ["87"], "0 heights": ["93"]}),
        (ENOUGH, "87 by 93 cut", {"0 width": "87 cut", "0 height": "93 cut"}),
        (BACKING, "backing 87 by 93 from 42 in wide cloth", {"1 usable_width": "42 in"}),
        (BACKING, "wide back 108 for 90 by 100", {"0 widths": ["90 finished"], "1 usable_width": "108"}),
        (
            BED,
            "queen 60 x 80, drop 13, 9 in blocks, cover",
            {"0 bed": "US queen", "0 drop": "13", "1 block_width": "9 in"},
        ),
        (
            BED,
            "a bed of 54 by 75, drop of 12",
            {"0 mattress_width": "54", "0 mattress_length": "75", "0 drop": "12"},
        ),
        (BED, "queen 60 x 82", {"0 bed": "US queen", "0 mattress_length": "82"}),
        (
            REACH,
            "borders 60 1/4 60 3/8 60 1/4 by 72 to 70 by 84",
            {"0 widths": ["60 1/4", "60 3/8", "60 1/4"], "0 heights": ["72"], "1 target_width": "70"},
        ),
        (BED, "queen drop 13 tuck 10", {"0 drop": "13", "0 tuck": "10"}),
        (PRECUT, "12 fat quarters", {"0 precut": "fat quarter", "0 precuts": 12}),
        (
            MANY,
            "30 blocks 9 in sashing 2 in border 4 in",
            {"0 block_width": "9 in", "0 sash": "2 in", "1 borders": ["4 in"]},
        ),
        (
            ROUND,
            "borders 2 in and 5 in to a 48 by 60 top",
            {"0 widths": ["48"], "1 borders": ["2 in", "5 in"]},
        ),
        (
            YARDS,
            "40 squares of 5 in from 1 1/2 yards and 2 yd of 42 in cloth",
            {"0 piece_width": "5 in", "0 fabrics": ["1 1/2 yd", "2 yd"], "0 usable_width": "42 in"},
        ),
        (REACH, "top 60 60 1/4 by 72 72 1/2", {"0 widths": ["60", "60 1/4"], "0 heights": ["72", "72 1/2"]}),
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
        (BED, "a queen bed 60 x 80, drop 13, 9 in blocks", ()),
        (BED, "a queen bed, 60 by 72 quilt", ("60", "72")),
        (MANY, "30 blocks of 9 in, two borders 2 in and 4 in, binding", ()),
        (MANY, "30 blocks of 9 in, two borders", ()),
        (MANY, "30 blocks of 9 in, three borders 2 in and 4 in", ("3",)),
        (MANY, "30 blocks, two borders 60", ("60",)),
        (REACH, "top 60 by 72, two borders to 70 by 84", ()),
        (ENOUGH, "is 5 yd backing enough for 87 by 93", ()),
        (BACKING, "backing for 87 by 93 top, 42 and 108, batting", ()),
        (BACKING, "backing for 87 by 93, lines 7 in", ("7 in",)),
    ],
)
def test_what_was_not_used_is_told(host: Any, question: str, sentence: str, left: tuple[str, ...]) -> None:
    start = next(s for s in host.starts if s.question == question)
    assert taken(sentence, start.tabs, host.specs, host.table, Notation()).left == left


@pytest.mark.parametrize(
    ("sentence", "told"),
    [
        ("binding 60 x 72, 2 1/2 in strips", ("60 finished", "72 finished", "2 1/2 in")),
        ("binding 60 by 72 throw", ("60 finished", "72 finished")),
        ("binding for a 60 by 72 top", ("60 cut", "72 cut")),
        ("binding for a 60 x 72 quilt, 60 finished", ("60 finished", "72 finished")),
        ("binding 60 1/2 by 72 1/2 raw", ("60 1/2 cut", "72 1/2 cut")),
    ],
)
def test_as_what_a_size_was_taken_is_told(host: Any, sentence: str, told: tuple[str, ...]) -> None:
    got = taken(sentence, [("T", "binding", {})], host.specs, host.table, Notation())
    assert tuple(text for _, text in got.said) == told


def test_of_several_widths_of_cloth_the_others_are_compared(host: Any) -> None:
    start = next(s for s in host.starts if s.question == BACKING)
    for sentence, width, others in (
        ("backing for 87 by 93 top, 42 and 108", "42", ["108"]),
        ("backing at 42 in and at 90 in or 108 in", "42 in", ["90 in", "108 in"]),
    ):
        got = taken(sentence, start.tabs, host.specs, host.table, Notation())
        assert got.givens[1] == {"usable_width": width, "other_widths": others}
        assert got.left == ()


def test_what_a_top_measures_is_no_width_of_cloth(host: Any) -> None:
    start = next(s for s in host.starts if s.question == BACKING)
    got = taken("backing, top measures 87, 87 1/2, 60 1/4", start.tabs, host.specs, host.table, Notation())
    assert got.givens[1] == {}
    metric = taken("backing 110 wide", start.tabs, host.specs, host.table, Notation("cm"))
    assert metric.givens[1] == {"usable_width": "110"}


def test_no_border_takes_the_borders_away(host: Any) -> None:
    start = next(s for s in host.starts if s.question == BED)
    bare, not_heard = without(start, "queen bed, 9 in blocks, no border", host.specs)
    assert not_heard == ""
    assert [name for name, _, _ in bare.tabs] == ["Bed", "Blocks", "Top", "Binding", "Backing", "Batting"]
    givens = {name: givens for name, _, givens in bare.tabs}
    assert givens["Binding"]["width"] == {"from": "Top", "take": "width"}
    assert (givens["Blocks"]["border_least"], givens["Blocks"]["border_most"]) == ("0", "0")
    assert without(start, "queen bed, a border", host.specs) == (start, "")
    other = next(s for s in host.starts if s.question == BACKING)
    assert without(other, "backing without a border", host.specs) == (other, "without a border")


async def test_a_bed_without_borders_is_worked_out(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("queen bed 60 x 80, drop 13, 9 in blocks, no border")
        await it.press("enter")
        await it.sees("Drop at each side 13; Block width 9 in.", "Widest border 0")
        names = [tab.name for tab in it.desk.project.tabs]
        assert names == ["Bed", "Blocks", "Top", "Binding", "Backing", "Batting"]
        assert [it.state(name) for name in names] == ["worked out"] * len(names)
        # 86 by 93 in are covered by 10 by 11 blocks of 9 in.
        top = it.desk.project.tab("Top")
        assert it.desk.book.results[top.key].found["blocks"] == 110


async def test_what_was_not_used_and_the_tip_stand_on_lines_of_their_own(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("backing for 87 by 93 top, 7 in lines, batting")
        await it.press("enter")
        await it.sees("Not used: 7 in.")
        rows = [row.strip() for row in it.rows()]
        assert "! Not used: 7 in." in rows
        assert any(row.startswith("Shift+F5: ") for row in rows)


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


async def test_a_border_more_than_the_question_has_gets_a_fabric_too(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("30 blocks of 9 in, three borders 1 in, 2 in and 4 in, binding")
        await it.press("enter")
        await it.sees("Borders 1 in, 2 in, 4")
        rows = it.given("Borders")["borders"]
        assert [row["fabric"] for row in rows] == ["Inner border", "Outer border", "Border 3"]
        assert {"Inner border", "Outer border", "Border 3"} <= {row.name for row in it.desk.project.fabrics}
        # 45 + 2 × (1 + 2 + 4) by 54 + 14.
        borders = it.desk.project.tab("Borders")
        assert it.desk.book.results[borders.key].found["width"] == 59


async def test_one_kind_stands_in_the_line_of_a_size(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("backing and batting for a quilt of 87 by 93")
        await it.press("enter")
        await it.sees("Widths of the top 87 finished; Heights of the top 93")
        row = next(row for row in it.rows() if row.startswith("  Widths of the top"))
        assert row.split() == ["Widths", "of", "the", "top", ">87", "finished"]
        top = it.desk.project.tab("Top")
        assert it.desk.book.results[top.key].found["width"] == 87
