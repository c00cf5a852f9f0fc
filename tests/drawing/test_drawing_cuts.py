"""Pictures of cutting plans: whole plans by hand, and against the plan's own rectangles."""

from collections import Counter
from fractions import Fraction
from textwrap import dedent

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.cutting import Bolt, Part, Plan, Sheet, Stock, plan
from boltend.core.drawing import CutPicture, cells_of, cut_pictures, draw_cut, legend
from boltend.core.drawing.cut_pictures import WASTE
from boltend.core.values import Notation, Number, show_length


def inches(value: Number) -> str:
    return show_length(value, Notation())


def part(name: str, across: str, along: str, count: int, may_turn: bool = True) -> Part:
    return Part(name, Fraction(across), Fraction(along), count, may_turn)


def bolt(*parts: Part, width: str = "42") -> Plan:
    return plan(parts, Stock((), Bolt(Fraction(width))))


def by_hand(text: str) -> list[str]:
    return dedent(text).strip("\n").splitlines()


def test_a_bolt_with_equal_strips_drawn_once() -> None:
    """84 squares of 6 in: 12 strips of seven, drawn once.

    Beside `12 × 6 in` 70 columns are left: 9 from seam to seam, seven times. So 6 in are 4 1/2 rows: five.
    """
    (picture,) = cut_pictures(bolt(part("patch", "6", "6", 84)), inches, fill="Slate")
    assert (picture.title, picture.key) == ("Off the bolt", ("A 6 in × 6 in: patch",))
    drawn = draw_cut(picture, 80, 12)
    assert drawn.lines() == by_hand("""
                  ←───────────────── 42 in, selvage to selvage ──────────────────→
                  ┏━━━━━━━━┯━━━━━━━━┯━━━━━━━━┯━━━━━━━━┯━━━━━━━━┯━━━━━━━━┯━━━━━━━━┓
                  ┃        │        │        │        │        │        │        ┃
        12 × 6 in ┃A 6 in ×│A 6 in ×│A 6 in ×│A 6 in ×│A 6 in ×│A 6 in ×│A 6 in ×┃
                  ┃  6 in  │  6 in  │  6 in  │  6 in  │  6 in  │  6 in  │  6 in  ┃
                  ┃        │        │        │        │        │        │        ┃
                  ┗━━━━━━━━┷━━━━━━━━┷━━━━━━━━┷━━━━━━━━┷━━━━━━━━┷━━━━━━━━┷━━━━━━━━┛
        """)
    assert legend(drawn, 60) == []


def test_precuts_alike_are_one_picture_with_their_waste() -> None:
    """Three bricks of 9 in × 3 in out of each square of 10 in; a row is an inch, and a column half of one.

    The inch that is left is drawn two rows high, for its words.
    """
    made = plan([part("brick", "9", "3", 21)], Stock((Sheet("square", Fraction(10), Fraction(10)),)))
    (picture,) = cut_pictures(made, inches)
    assert (picture.title, picture.copies) == ("7 pieces alike, each 10 in × 10 in", 7)
    drawn = draw_cut(picture, 28, 13)
    assert drawn.lines() == by_hand("""
             ←────── 10 in ──────→
             ┏━━━━━━━━━━━━━━━━━┯━┓
        3 in ┃  A 9 in × 3 in  │░┃
             ┃                 │░┃
             ┠─────────────────┼─┨
        3 in ┃  A 9 in × 3 in  │░┃
             ┃                 │░┃
             ┠─────────────────┼─┨
        3 in ┃  A 9 in × 3 in  │░┃
             ┃                 │░┃
             ┠─────────────────┴─┨
             ┃░░░░ 1 in left ░░░░┃
             ┗━━━━━━━━━━━━━━━━━━━┛
        """)
    assert legend(drawn, 40) == ["[░] waste"]


def test_lengths_longer_than_the_cloth_is_wide_lie_to_the_right() -> None:
    (picture,) = cut_pictures(bolt(part("panel", "42", "84", 2, may_turn=False)), inches)
    assert picture.title == "Off the bolt, its length to the right"
    lines = draw_cut(picture, 60, 20).lines()
    assert "2 × 84 in" in lines[0]
    assert "42 in" in lines[len(lines) // 2]
    assert sum("A 42 in × 84 in" in line for line in lines) == 1


def test_a_long_cloth_in_hand_shows_its_rest_cut_short() -> None:
    made = plan([part("strip", "42", "2", 3)], Stock((Bolt(Fraction(42), Fraction(180), "in hand"),)))
    (picture,) = cut_pictures(made, inches)
    assert picture.title == "From what is in hand, 42 in × 180 in"
    text = "\n".join(draw_cut(picture, 78, 20).lines())
    assert "3 × 2 in" in text
    assert "174 in left" in text


def test_five_yards_stay_legible() -> None:
    made = bolt(
        part("block", "6.5", "6.5", 60),
        part("sash", "6.5", "2", 71),
        part("stone", "2", "2", 80),
        part("binding", "42", "2.5", 8),
    )
    assert made.length_used > 100
    pictures = cut_pictures(made, inches)
    for picture in pictures:
        drawn = draw_cut(picture, 78, 20)
        text = "\n".join(drawn.lines())
        assert len(drawn.rows) <= 20
        assert all(band.words in text for band in picture.bands if band.patches)
        # Every strip's pieces bear their letters.
        assert {line[0] for line in picture.key} <= set(text)


PARTS = st.builds(
    Part,
    st.sampled_from(["a", "b", "c", "d"]),
    st.integers(4, 160).map(lambda n: Fraction(n, 4)),
    st.integers(4, 160).map(lambda n: Fraction(n, 4)),
    st.integers(1, 30),
    st.booleans(),
)
STOCKS = st.sampled_from(
    [
        Stock((), Bolt(Fraction(42))),
        Stock((Bolt(Fraction(42), Fraction(9), "in hand"),), Bolt(Fraction(42))),
        Stock((Bolt(Fraction(42), Fraction(90), "in hand"),), Bolt(Fraction(42))),
        Stock((Sheet("square", Fraction(10), Fraction(10)),)),
        Stock((Sheet("quarter", Fraction(18), Fraction(21)),)),
        Stock((Sheet("roll", Fraction(42), Fraction(5, 2)),)),
    ]
)


def unique(parts: list[Part]) -> list[Part]:
    return list({part.name: part for part in parts}.values())


@settings(deadline=None, max_examples=60)
@given(st.lists(PARTS, min_size=1, max_size=4).map(unique), STOCKS)
def test_a_picture_has_the_pieces_of_its_plan(parts: list[Part], stock: Stock) -> None:
    made = plan(parts, stock, effort=0)
    pictures = cut_pictures(made, inches, fill="Slate")
    drawn: Counter[tuple[Fraction, Fraction]] = Counter()
    for picture in pictures:
        inside(picture)
        for band in picture.bands:
            times = int(band.words.partition(" × ")[0]) if " × " in band.words else 1
            for patch in band.patches:
                size = min(patch.length, patch.width), max(patch.length, patch.width)
                drawn[size] += times * picture.copies
    planned = Counter({(min(p.across, p.along), max(p.across, p.along)): 0 for _, _, p in made.placements()})
    for _, _, placed in made.placements():
        planned[min(placed.across, placed.along), max(placed.across, placed.along)] += 1
    assert drawn == planned


def inside(picture: CutPicture) -> None:
    """Pieces lie in their strips and not on each other: their areas add up to no more than the strips'."""
    shapes = picture.shapes()
    strips = [shape for shape in shapes if shape.fill == WASTE]
    pieces = [shape for shape in shapes if shape.fill != WASTE]
    for piece in pieces:
        assert (
            sum(
                strip.x <= piece.x
                and strip.y <= piece.y
                and piece.x + piece.width <= strip.x + strip.width
                and piece.y + piece.height <= strip.y + strip.height
                for strip in strips
            )
            == 1
        )
    for n, one in enumerate(pieces):
        for other in pieces[:n]:
            apart_x = one.x >= other.x + other.width or other.x >= one.x + one.width
            apart_y = one.y >= other.y + other.height or other.y >= one.y + one.height
            assert apart_x or apart_y


@settings(deadline=None, max_examples=60)
@given(
    st.lists(PARTS, min_size=1, max_size=4).map(unique),
    STOCKS,
    st.integers(0, 130),
    st.integers(0, 50),
    st.booleans(),
)
def test_it_keeps_to_its_cells(
    parts: list[Part], stock: Stock, columns: int, rows: int, ascii_: bool
) -> None:
    for picture in cut_pictures(plan(parts, stock, effort=0), inches, fill="日本"):
        drawn = draw_cut(picture, columns, rows, ascii=ascii_)
        assert len(drawn.rows) <= rows
        assert drawn.width <= columns
        assert {cells_of(line) for line in drawn.lines()} <= {drawn.width}
        if ascii_:
            assert "".join(drawn.lines()).isascii()


@pytest.mark.parametrize("size", [(78, 20), (118, 36)])
def test_a_narrow_strip_is_as_high_as_its_words(size: tuple[int, int]) -> None:
    """Strips of 1 in would be less than a row high: each has its words all the same."""
    made = bolt(part("a", "42", "1", 2), part("b", "30", "1.25", 1), part("c", "20", "1.5", 1))
    (picture,) = cut_pictures(made, inches)
    text = "\n".join(draw_cut(picture, *size).lines())
    assert all(band.words in text for band in picture.bands if band.patches)


def test_an_empty_plan_has_no_pictures() -> None:
    assert cut_pictures(bolt(), inches) == ()
