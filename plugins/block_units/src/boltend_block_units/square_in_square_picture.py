"""The picture of a square in a square, finished, and beside it a square for two of its corners."""

from fractions import Fraction

from boltend.plugin import Polygon, Rect, Rule, Shape
from boltend_block_units.parts import Exact


def picture(
    whole: Exact, corner: Fraction, centre_fabric: str | None, corner_fabric: str | None
) -> list[Shape]:
    """The unit of a finished size, its centre on point, and a corner square with its cut; inches."""
    half, left = whole / 2, whole + corner / 8
    fill = corner_fabric or "corner"
    corners = ((0, 0), (whole, 0), (whole, whole), (0, whole))
    points = ((half, 0), (whole, half), (half, whole), (0, half))
    return [
        Polygon(points, centre_fabric or "centre", "centre"),
        *(Polygon((points[n - 1], corners[n], points[n]), fill, "corner") for n in range(4)),
        Rect(left, 0, corner, corner, fill, "square for corners"),
        Rule(left, corner, left + corner, 0),
    ]
