"""The picture of a framed square, finished; halved, the block that four corners make."""

from fractions import Fraction

from boltend.plugin import Polygon, Rect, Rule, Shape
from boltend_block_units.framed_halved import Halved
from boltend_block_units.framed_rounds import Frame, Laid
from boltend_block_units.parts import Exact


def picture(frame: Frame, half: Halved | None, centre_fabric: str | None) -> list[Shape]:
    """Every strip of the finished square; with the cut, and beside it the block, where it is halved."""
    size = frame.finished
    shapes: list[Shape] = []
    for each in frame.rounds:
        shapes += _round(each, (size - each.after) / 2)
    at = (size - frame.core) / 2
    shapes.append(Rect(at, at, frame.core, frame.core, centre_fabric or "centre", "centre"))
    if half is None:
        return shapes
    return [*shapes, Rule(0, size, size, 0), *_block(half.block, size + size / 8)]


def _round(each: Laid, at: Fraction) -> list[Shape]:
    """Sides left and right, as long as the square so far; ends above and below, from edge to edge."""
    fill, wide, near, far = (
        each.fabric or each.name,
        each.width,
        at + each.width,
        at + each.width + each.before,
    )
    return [
        Rect(at, near, wide, each.before, fill, "side"),
        Rect(far, near, wide, each.before, fill, "side"),
        Rect(at, at, each.after, wide, fill, "end"),
        Rect(at, far, each.after, wide, fill, "end"),
    ]


def _block(size: Exact, left: Fraction) -> list[Shape]:
    half, right = size / 2, left + size
    corners = ((left, 0), (right, 0), (right, size), (left, size))
    points = ((left + half, 0), (right, half), (left + half, size), (left, half))
    return [
        Polygon(points, "centre on point", "centre on point"),
        *(Polygon((points[n - 1], corners[n], points[n]), "corner", "corner") for n in range(4)),
    ]
