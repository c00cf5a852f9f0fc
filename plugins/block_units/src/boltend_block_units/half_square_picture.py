"""The picture of a half-square triangle: the finished unit, and beside it the pair of squares with its
cuts."""

from fractions import Fraction

from boltend.plugin import Polygon, Rect, Rule, Shape

CUTS = {
    "two at a time": ((0, 0, 2, 2),),
    "four at a time": ((0, 0, 2, 2), (0, 2, 2, 0)),
    "eight at a time": ((0, 0, 2, 2), (0, 2, 2, 0), (1, 0, 1, 2), (0, 1, 2, 1)),
}
"""The cuts of a pair of squares, each from (x, y) to (x, y), in halves of the square."""


def picture(
    method: str, size: Fraction, square: Fraction, light: str | None, dark: str | None
) -> list[Shape]:
    """The finished unit of a size, and the square as cut; inches."""
    left, half = size + square / 8, square / 2
    return [
        Polygon(((0, 0), (size, 0), (0, size)), light or "light", "light"),
        Polygon(((size, 0), (size, size), (0, size)), dark or "dark", "dark"),
        Rect(left, 0, square, square, light or "light", "light and dark square"),
        *(Rule(left + x1 * half, y1 * half, left + x2 * half, y2 * half) for x1, y1, x2, y2 in CUTS[method]),
    ]
