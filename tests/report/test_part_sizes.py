"""How large the parts of a picture are: by hand, and from whole quilts' exact corners."""

from fractions import Fraction

from boltend.core.contract import Polygon, Rect, Rule
from boltend.core.report.part_sizes import part_sizes
from boltend.core.values import Notation, Number, Surd, show_length


def inches(value: Number) -> str:
    return show_length(value, Notation())


def test_a_size_a_width_or_two_widths() -> None:
    shapes = [
        Rect(0, 0, 9, 12, "block"), Rect(10, 0, 9, 12, "block"),
        Rect(9, 0, 1, 12, "Slate", "sash"), Rect(0, 12, 19, 1, "Slate", "sash"),
        Rect(0, 13, 19, Fraction("2.5"), "Slate", "border"), Rect(19, 0, 2, 13, "Slate", "border"),
        Rule(0, 0, 9, 12),
    ]  # fmt: skip
    assert part_sizes(shapes, inches) == {
        "block": "9 in × 12 in", "sash": "1 in wide", "border": "2 1/2 in and 2 in wide",
    }  # fmt: skip


def test_a_block_on_point_by_its_sides() -> None:
    """A square of 9 in on its point is 9√2 across: its sides are 9 in again."""
    half = Surd(0, Fraction(9, 2))
    square = Polygon(((half, 0), (2 * half, half), (half, 2 * half), (0, half)), "block")
    assert part_sizes([square], inches) == {"block": "9 in × 9 in"}


def test_a_mitred_border_by_its_width() -> None:
    sides = [
        Polygon(((0, 0), (40, 0), (37, 3), (3, 3)), "Fog", "border"),
        Polygon(((0, 0), (3, 3), (3, 27), (0, 30)), "Fog", "border"),
    ]
    assert part_sizes(sides, inches) == {"border": "3 in wide"}


def test_what_is_of_many_sizes_or_no_rectangle_has_none() -> None:
    unlike = [Rect(0, 0, n, n, "patch") for n in (1, 2, 3)]
    triangle = Polygon(((0, 0), (9, 0), (0, 9)), "setting")
    kite = Polygon(((0, 0), (5, 1), (9, 9), (1, 5)), "kite")
    assert part_sizes([*unlike, triangle, kite], inches) == {}
