"""Small pictures, written by hand: what must stand there, character by character."""

from collections.abc import Sequence
from fractions import Fraction
from textwrap import dedent

import pytest

from boltend.core.contract import Note, Polygon, Rect, Rule, Shape
from boltend.core.drawing import Picture, Run, draw, legend, patterns
from boltend.core.values import Notation, Number, show_length


def inches(value: Number) -> str:
    return show_length(value, Notation())


def by_hand(text: str) -> list[str]:
    return dedent(text).strip("\n").splitlines()


def drawn(shapes: Sequence[Shape], columns: int, rows: int, **how: object) -> list[str]:
    return [line.rstrip() for line in draw(shapes, columns, rows, **how).lines()]  # type: ignore[arg-type]


def straight_set() -> list[Shape]:
    """Two by two blocks of 8 in with sashes of 2 in and a cornerstone."""
    spans = ((0, 8, False), (8, 2, True), (10, 8, False))
    return [
        Rect(x, y, wide, high, "stone" if sash and level else "sash" if sash or level else "block")
        for y, high, level in spans
        for x, wide, sash in spans
    ]


def on_point() -> list[Shape]:
    """Two blocks of 8 in from point to point, side by side, and what makes them a rectangle."""
    blocks = [Polygon(((x + 4, 0), (x + 8, 4), (x + 4, 8), (x, 4)), "block") for x in (0, 8)]
    corners = ((0, 0), (16, 0), (16, 8), (0, 8))
    near = (((4, 0), (0, 4)), ((16, 4), (12, 0)), ((12, 8), (16, 4)), ((0, 4), (4, 8)))
    triangles = [Polygon((corner, *pair), "setting") for corner, pair in zip(corners, near, strict=True)]
    sides = [Polygon(((4, y), (12, y), (8, 4)), "setting") for y in (0, 8)]
    return [*blocks, *triangles, *sides]


def backing() -> list[Shape]:
    """Two panels of 40 in × 30 in, one above the other, and the quilt in their middle."""
    return [
        Rect(0, 0, 40, 30, "backing", "panel"),
        Rect(0, 30, 40, 30, "backing", "panel"),
        Rect(5, 5, 30, 50, "top", "quilt"),
    ]


def test_a_straight_set_with_sashes() -> None:
    # One row is 1 in and one column half an inch: 18 in take 18 rows and 36 columns from edge to edge.
    assert drawn(straight_set(), 37, 19) == by_hand("""
        ┏━━━━━━━━━━━━━━━┯━━━┯━━━━━━━━━━━━━━━┓
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┠───────────────┼───┼───────────────┨
        ┃░░░░░░░░░░░░░░░│▒▒▒│░░░░░░░░░░░░░░░┃
        ┠───────────────┼───┼───────────────┨
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┃               │░░░│               ┃
        ┗━━━━━━━━━━━━━━━┷━━━┷━━━━━━━━━━━━━━━┛
        """)


def test_the_same_at_half_the_size_in_ascii() -> None:
    picture = draw(straight_set(), 19, 10, ascii=True)
    assert picture.lines() == by_hand("""
        +-------+-+-------+
        |       |/|       |
        |       |/|       |
        |       |/|       |
        +-------+-+-------+
        +-------+-+-------+
        |       |/|       |
        |       |/|       |
        |       |/|       |
        +-------+-+-------+
        """)
    # The stone is a column wide and no row high: two lines with nothing between.
    assert legend(picture, 40, ascii=True) == ["[ ] block   [/] sash   [=] stone"]


def test_a_strip_thinner_than_a_cell_is_one_thick_line() -> None:
    sash = Fraction(1, 4)
    shapes = [
        Rect(0, 0, 20, 9, "block"),
        Rect(0, 9, 20, sash, "sash"),
        Rect(0, 9 + sash, 20, 9, "block"),
    ]
    picture = draw(shapes, 23, 11)
    assert picture.lines() == by_hand("""
        ┏━━━━━━━━━━━━━━━━━━━━━┓
        ┃                     ┃
        ┃                     ┃
        ┃                     ┃
        ┃                     ┃
        ┣━━━━━━━━━━━━━━━━━━━━━┫
        ┃                     ┃
        ┃                     ┃
        ┃                     ┃
        ┃                     ┃
        ┗━━━━━━━━━━━━━━━━━━━━━┛
        """)
    assert legend(picture, 40) == ["[ ] block   [━] sash"]


def test_blocks_on_point() -> None:
    # A row is 1 in, so that a seam at 45° moves two columns a row: four dots down, four across.
    assert drawn(on_point(), 33, 9) == by_hand("""
        ┏━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━┓
        ┃    ⢀⠔⠁░⠈⠢⡀         ⢀⠔⠁░⠈⠢⡀    ┃
        ┃  ⢀⠔⠁░░░░░⠈⠢⡀     ⢀⠔⠁░░░░░⠈⠢⡀  ┃
        ┃⢀⠔⠁░░░░░░░░░⠈⠢⡀ ⢀⠔⠁░░░░░░░░░⠈⠢⡀┃
        ┃⡁░░░░░░░░░░░░░⢈⠶⡁░░░░░░░░░░░░░⢈┃
        ┃⠈⠢⡀░░░░░░░░░⢀⠔⠁ ⠈⠢⡀░░░░░░░░░⢀⠔⠁┃
        ┃  ⠈⠢⡀░░░░░⢀⠔⠁     ⠈⠢⡀░░░░░⢀⠔⠁  ┃
        ┃    ⠈⠢⡀░⢀⠔⠁         ⠈⠢⡀░⢀⠔⠁    ┃
        ┗━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━┛
        """)


def test_blocks_on_point_in_ascii() -> None:
    assert drawn(on_point(), 33, 9, ascii=True) == by_hand("""
        +-------------------------------+
        |     .'/'.           .'/'.     |
        |   .'/////'.       .'/////'.   |
        | .'/////////'.   .'/////////'. |
        |'/////////////'.'/////////////'|
        |'.///////////.' './//////////.'|
        |  './//////.'     './//////.'  |
        |    './//.'         './//.'    |
        +-------------------------------+
        """)


def test_a_backing_with_its_size_and_the_seam_under_the_quilt() -> None:
    picture = draw(backing(), 27, 17, show=inches)
    assert picture.lines() == by_hand("""
              ←────── 40 in ──────→
            ↑ ┏━━━━━━━━━━━━━━━━━━━┓
            │ ┃░┌───────────────┐░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
        60 in ┠─┤╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌├─┨
            │ ┃░│     quilt     │░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
            │ ┃░│               │░┃
            │ ┃░└───────────────┘░┃
            ↓ ┗━━━━━━━━━━━━━━━━━━━┛
        """)
    assert legend(picture, 60) == ["[ ] top   [░] backing: panel"]


def test_things_side_by_side_each_have_their_size() -> None:
    shapes = [Rect(0, 0, 6, 4, "goose"), Rect(8, 0, 8, 8, "goose")]
    assert drawn(shapes, 33, 10, show=inches) == by_hand("""
         6 in × 4 in       8 in × 8 in
        ┏━━━━━━━━━━━┓   ┏━━━━━━━━━━━━━━━┓
        ┃           ┃   ┃               ┃
        ┃           ┃   ┃               ┃
        ┃           ┃   ┃               ┃
        ┗━━━━━━━━━━━┛   ┃               ┃
                        ┃               ┃
                        ┃               ┃
                        ┃               ┃
                        ┗━━━━━━━━━━━━━━━┛
        """)


def test_a_rule_is_a_seam_and_a_note_stands_where_it_is_put() -> None:
    shapes: list[Shape] = [Rect(0, 0, 8, 4, "cloth"), Rule(4, 0, 4, 4), Note(9, 2, "× 2")]
    assert drawn(shapes, 24, 5) == by_hand("""
        ┏━━━━━━━┯━━━━━━━┓
        ┃       │       ┃
        ┃       │       ┃ × 2
        ┃       │       ┃
        ┗━━━━━━━┷━━━━━━━┛
        """)


def test_a_label_is_whole_or_not_there() -> None:
    """ "wide border" takes 11 cells: in one line if there are as many, else in two, else it is left out."""
    tall = [Rect(0, 0, 5, 40, "a", "wide border")]
    assert words_in(draw(tall, 14, 60)) == ["wide border"]
    assert words_in(draw(tall, 13, 60)) == ["wide border"]
    assert words_in(draw(tall, 12, 60)) == ["wide", "border"]
    assert words_in(draw(tall, 12, 25)) == []


def words_in(picture: Picture) -> list[str]:
    return [run.text.strip() for row in picture.rows for run in row if run.kind == "label"]


def test_a_long_label_is_broken_at_its_blanks() -> None:
    assert words_in(draw([Rect(0, 0, 10, 10, "a", "light and dark square")], 21, 11)) == [
        "light and",
        "dark square",
    ]


def test_every_cell_knows_its_fill_and_kind() -> None:
    row = draw(straight_set(), 37, 19).rows[9]
    assert row == (
        Run("┃", "sash", "line"),
        Run("░" * 15, "sash", "fill"),
        Run("│", "stone", "seam"),
        Run("▒▒▒", "stone", "fill"),
        Run("│", "sash", "seam"),
        Run("░" * 15, "sash", "fill"),
        Run("┃", "sash", "line"),
    )


def test_seams_closer_than_two_rows_are_dots() -> None:
    blocks = [Rect(x * 2, y * 2, 2, 2, "block") for y in range(8) for x in range(8)]
    picture = draw(blocks, 17, 9)
    lines = picture.lines()
    assert (lines[0], lines[-1]) == ("┏━━━━━━━━━━━━━━━┓", "┗━━━━━━━━━━━━━━━┛")
    assert {line.strip("┃") for line in lines[1:-1]} == {SEAMS_BY_HAND}
    assert legend(picture, 60) == ["[ ] block"]


# A seam in every row and every second column, through the middle of a cell, which lies between its second and
# third row of dots and between its two columns: of two as near the lower and the right one are taken. So the
# third dots of both columns in every cell, and all of the right column in every second.
SEAMS_BY_HAND = "⠤⢼⠤⢼⠤⢼⠤⢼⠤⢼⠤⢼⠤⢼⠤"


def test_seams_too_close_for_dots_are_left_out_and_it_says_so() -> None:
    many = [Rect(x, y, 1, 1, "block") for y in range(40) for x in range(40)]
    picture = draw(many, 17, 9)
    assert picture.left_out
    assert legend(picture, 60) == ["[ ] block   (seams too close together to draw)"]
    assert set(picture.lines()[1:-1]) == {"┃               ┃"}


def test_patterns_tell_fills_apart() -> None:
    shapes = [Rect(x, 0, 1, 4, f"cloth {x}") for x in range(7)]
    assert len(set(patterns(shapes).values())) == 7
    many = [Rect(x, 0, 1, 4, f"cloth {x}") for x in range(24)]
    marks = patterns(many)
    assert all(marks[f"cloth {x}"] != marks[f"cloth {x + 1}"] for x in range(23))
    assert patterns([Rect(0, 0, 9, 9, "waste"), Rect(0, 0, 5, 5, "Slate")])["waste"] == "░"
    assert patterns([Rect(0, 0, 9, 9, "Slate"), Rect(0, 0, 5, 5, "Moss")])["Slate"] == " "


@pytest.mark.parametrize(
    ("columns", "rows", "says"),
    [
        (60, 3, "40 in × 60 in: backing, top"),
        (27, 3, "40 in × 60 in: backing, top"),
        (26, 40, None),
        (11, 40, ""),
        (13, 1, "40 in × 60 in"),
        (12, 1, "backing, top"),
        (5, 1, ""),
        (0, 9, ""),
        (9, 0, ""),
    ],
)
def test_without_room_a_line_says_what_there_would_be(columns: int, rows: int, says: str | None) -> None:
    picture = draw(backing(), columns, rows, show=inches)
    assert picture.drawn == (says is None)
    if says is not None:
        assert picture.lines() == ([says] if says else [])


def test_nothing_to_draw() -> None:
    assert draw([], 40, 20) == Picture((), 0, drawn=False)
    flat = [Rect(0, 0, 0, 5, "a"), Rect(3, 3, 7, 0, "b"), Polygon(((0, 0), (1, 1)), "c")]
    assert draw(flat, 40, 20, show=inches).lines() == []
