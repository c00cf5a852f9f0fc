"""Pictures of quarter-square triangles: the unit finished, and beside it the square with its cuts."""

from fractions import Fraction

from boltend.plugin import Polygon, Rect, Rule, Shape


def triangles_picture(size: Fraction, square: Fraction, fabric: str | None) -> list[Shape]:
    """One finished triangle on its long side, and the square that gives four."""
    fill, half = fabric or "triangle", size / 2
    return [
        Polygon(((0, half), (size, half), (half, 0)), fill, "triangle"),
        *crossed(size + square / 8, square, fill, "square"),
    ]


def hourglass_picture(size: Fraction, square: Fraction, light: str | None, dark: str | None) -> list[Shape]:
    """One finished unit, light above and below, and the pair of squares with both cuts."""
    none, half = Fraction(0), size / 2
    corners = ((none, none), (size, none), (size, size), (none, size))
    fills = (light or "light", dark or "dark")
    return [
        *(Polygon((corners[n - 1], corners[n], (half, half)), fills[n % 2], fills[n % 2]) for n in range(4)),
        *crossed(size + square / 8, square, light or "light", "light and dark square"),
    ]


def crossed(left: Fraction, square: Fraction, fill: str, label: str) -> list[Shape]:
    """A square at `left` that is cut on both diagonals."""
    return [
        Rect(left, 0, square, square, fill, label),
        Rule(left, 0, left + square, square),
        Rule(left, square, left + square, 0),
    ]
