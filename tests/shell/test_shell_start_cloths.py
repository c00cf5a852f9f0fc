"""Cloth in hand in a typed question: which question it finds, and the rows that it fills."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.core.host import Host
from boltend.core.values import Notation
from boltend.shell.app import host_bench
from boltend.shell.start_numbers import taken
from boltend.shell.start_offers import (
    example_lines,
    examples,
    found_lines,
    list_lines,
    start_lines,
    tab_lines,
)

Shell = Any

YARDS = "I have these yards of fabric: how large a quilt of squares?"
LEFT = "Is the fabric that I have left enough for my borders?"
PRECUT = "How many blocks do my precuts make, and which quilts?"
WHOLE = "My precut squares are the blocks, left whole: which quilts do they make?"
PRINTED = "Is the yardage that is printed for my backing enough?"


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


@pytest.fixture(scope="module")
def lines(host: Any) -> Any:
    asked = [*start_lines(host), *list_lines(empty=True)]
    return [*asked, *example_lines(examples()), *tab_lines(host, but={line.words for line in asked})]


def filled(host: Any, question: str, sentence: str, system: Any = "in") -> Any:
    start = next(s for s in host.starts if s.question == question)
    return taken(sentence, start.tabs, host.specs, host.table, Notation(system))


THREE = [{"have": "3 yd", "name": "cream"}, {"have": "2 yd", "name": "blue"},
         {"have": "1 yd", "name": "rust"}]  # fmt: skip


@pytest.mark.parametrize(
    ("sentence", "givens"),
    [
        ("3 yd cream, 2 yd blue, 1 yd rust, 9 in squares", {"piece_width": "9 in", "fabrics": THREE}),
        ("3 yards of cream, 2 yds of blue and 1 yard rust, how large, plain 9 in squares",
         {"piece_width": "9 in", "fabrics": THREE}),
        ("5 yards of one fabric, how many 6 in squares",
         {"piece_width": "6 in", "fabrics": [{"have": "5 yd"}]}),
        ("1 1/2 yd dark blue for squares", {"fabrics": [{"have": "1 1/2 yd", "name": "dark blue"}]}),
        ("8 fat quarters and 2 yd of cream, 5 in squares",
         {"piece_width": "5 in", "fabrics": [{"have": "2 yd", "name": "cream"}],
          "precuts": [{"precut": "fat quarter", "how_many": 8}]}),
        ("20 fat quarters, 9 x 12 in pieces",
         {"piece_width": "9 in", "piece_height": "12 in",
          "precuts": [{"precut": "fat quarter", "how_many": 20}]}),
        ("2 yd cream for a 60 x 80 quilt of 5 in squares",
         {"piece_width": "5 in", "fabrics": [{"have": "2 yd", "name": "cream"}]}),
        ("cream, blue and rust in 9 in squares", {"piece_width": "9 in"}),
        ("40 squares of 5 in from 2 yd",  # out of yards squares are cut
         {"piece_width": "5 in", "fabrics": [{"have": "2 yd"}]}),
        ("v3 yd, 1/2/3 yd, yd 3", {}),
    ],
)  # fmt: skip
def test_the_rows_that_a_sentence_fills(host: Any, sentence: str, givens: dict[str, object]) -> None:
    assert filled(host, YARDS, sentence).givens == (givens, {})


def test_metres_are_read_in_either_system(host: Any) -> None:
    for system in ("in", "cm"):
        got = filled(host, YARDS, "2.5 m cream, 1 metre blue", system).givens[0]["fabrics"]
        assert got == [{"have": "2.5 m", "name": "cream"}, {"have": "1 m", "name": "blue"}]


def test_what_was_put_where_is_told_and_what_was_not_is_left(host: Any) -> None:
    got = filled(host, YARDS, "3 yd cream at 12.50, 2 fat quarters, 9 in squares")
    assert got.said == (
        ("Yards in hand", "3 yd cream"),
        ("Fat quarters and other precuts", "2 × fat quarter"),
        ("Square, or piece width", "9 in cut, which finishes at 8 1/2 in"),
    )
    assert got.left == ("12.50",)


def test_a_pieces_finished_size_is_told_as_it_was_said(host: Any) -> None:
    said = dict(filled(host, YARDS, "3 yd cream, 9 in finished squares").said)
    assert said["Square, or piece width"] == "9 in finished"
    metric = dict(filled(host, YARDS, "3 m cream, 20 cm squares", "cm").said)
    # The seam of this notation is 1/4 in, 0.635 cm.
    assert metric["Square, or piece width"] == "20 cm cut, which finishes at 18.73 cm"


def test_what_is_left_of_a_fabric_and_its_border(host: Any) -> None:
    got = filled(host, LEFT, "2 1/4 yd left, border 6 in on a 65 x 80 top, enough?")
    assert got.givens == (
        {"have": "2 1/4 yd", "top_width": "65 cut", "top_height": "80 cut",
         "borders": [{"name": "Border 1", "fabric": "Border 1", "width": "6 in"}]},
    )  # fmt: skip


def test_a_size_that_is_no_pieces_fills_no_precut(host: Any) -> None:
    got = filled(host, PRECUT, "fat quarters for a 60 x 80 quilt of 5 in squares")
    assert got.givens[0] == {"precut": "fat quarter"}
    assert set(got.left) == {"60", "80", "5 in"}


TEN = "10 in square pack"


@pytest.mark.parametrize(
    ("sentence", "row", "size", "sash"),
    [
        ("one 10 in square pack of 42, 1 in sashing", {"how_many": 42, "precut": TEN}, "10 in", "1 in"),
        ("42 squares of 10 in, 1 in sashing", {"how_many": 42, "precut": TEN}, "10 in", "1 in"),
        ("forty-two 10 in squares with 1 in sashing", {"how_many": 42, "precut": TEN}, "10 in", "1 in"),
        # A pack has 42 by our own table of precuts.
        ("two 10 in square packs, sashing 1 in", {"how_many": 84, "precut": TEN}, "10 in", "1 in"),
        ("2 in sashing and my 10 in square pack", {"precut": TEN}, "10 in", "2 in"),
        ("60 squares of 5 in", {"how_many": 60, "precut": "5 in square pack"}, "5 in", None),
    ],
)
def test_squares_that_are_left_whole(
    host: Any, lines: Any, sentence: str, row: dict[str, object], size: str, sash: str | None
) -> None:
    assert found_lines(lines, sentence)[0].words == WHOLE
    got = filled(host, WHOLE, sentence)
    assert got.givens == ({"precuts": [row], "piece_width": size}, {"sash": sash} if sash else {})
    assert got.left == ()


@pytest.mark.parametrize(
    ("sentence", "many"),
    [
        ("one 10 in square pack of 42, what can I make", 42),
        ("two 10 in square packs, how many blocks", 84),  # 42 and 40 in each by our own table of precuts
        ("two 2 1/2 in strip rolls, how many blocks", 80),
        ("5 in squares, three packs, how many blocks", 126),
        ("2 1/2 in strip roll, 40 strips, how big", 40),
        ("a 10 in square pack, how many blocks", None),
    ],
)
def test_packs_are_the_precuts_in_them(host: Any, sentence: str, many: int | None) -> None:
    got = filled(host, PRECUT, sentence)
    assert got.givens[0].get("precuts") == many
    assert got.left == ()


async def test_a_pack_of_squares_is_set_with_a_sash_by_one_sentence(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("one 10 in square pack of 42, 1 in sashing")
        await it.press("enter")
        await it.sees("42 × 10 in square pack", "10 in cut, which finishes", "at 9 1/2 in")
        quilt = it.desk.project.tab("Quilt")
        found = it.desk.book.results[quilt.key].found
        # 6 by 7 of 9 1/2 in, with 5 and 6 sashes of 1 in between.
        assert (found["across"], found["down"]) == (6, 7)
        assert (found["width"], found["height"]) == (62, Fraction(145, 2))


@pytest.mark.parametrize(
    ("sentence", "first"),
    [
        ("3 yd cream, 2 yd blue, 1 yd rust, how large, 9 in squares", YARDS),
        ("I have 3 yards of cream, 2 yd of blue, plain 9 in squares, how large?", YARDS),
        ("5 yards of one fabric, how many 6 in squares", YARDS),
        ("how many 6 in squares from 5 yd", YARDS),
        ("8 fat quarters, how large a quilt of 5 in squares", YARDS),
        ("how big a quilt from 4 yards of fabric", YARDS),
        ("2 1/4 yd left, border 6 in on a 65 x 80 top, enough?", LEFT),
        ("is 1 yd enough for a 4 in border round a 50 x 60 top", LEFT),
        ("a pattern prints 5 yd of backing: is it enough?", PRINTED),
        ("how many blocks from 12 fat quarters", PRECUT),
        ("40 squares of a 10 in square pack, blocks of four 5 in, how big", PRECUT),
    ],
)
def test_the_question_that_a_sentence_finds_first(lines: Any, sentence: str, first: str) -> None:
    assert found_lines(lines, sentence)[0].words == first


async def test_the_first_question_of_all_is_answered_by_one_sentence(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("3 yd cream, 2 yd blue, 1 yd rust, how large, 9 in squares")
        await it.press("enter")
        # 4 × 11, 4 × 7 and 4 × 3 squares: 84, of which nine by nine of 8 1/2 in are 76 1/2 in.
        await it.sees("Pieces in all", "84")
        await it.press("f6")
        await it.sees("Blocks across", "9", "76 1/2 in finished")


async def test_quilts_asked_for_beside_squares_are_of_these(shell: Shell) -> None:
    text = (
        'boltend = 1\n[[tab]]\nname = "Cut"\ncalculator = "pieces_in_hand"\n[tab.given]\n'
        'piece_width = "9 in"\n[[tab.given.fabrics]]\nhave = "3 yd"\n'
    )
    async with shell(text=text, bench=host_bench) as it:
        await it.press("f7")
        await it.type("which quilts do so many blocks make")
        await it.press("enter")
        await it.sees("44", "from “Cut” · Pieces in all", "from “Cut” · Width of", "from “Cut” · Height of")
