"""Sewing with shapely: cloth as polygons that are laid together, sewn, cut and opened.

It knows no calculator and none of their formulas: only where a seam runs, and that cloth opens along it.
y runs upwards here. A line is two points; its left is what lies to the left on the way from one to the other.
"""

from collections.abc import Iterable
from math import hypot
from typing import NamedTuple

from shapely import union_all  # type: ignore[import-untyped]  # it ships no types
from shapely.affinity import affine_transform, rotate  # type: ignore[import-untyped]  # it ships no types
from shapely.geometry import LineString, Polygon, box  # type: ignore[import-untyped]  # it ships no types

HAIR = 1e-6
FAR = 1e4
"""Further than any cloth here."""

Point = tuple[float, float]


class Line(NamedTuple):
    """A straight line from one point through another."""

    start: Point
    end: Point

    def aside(self, left: float) -> "Line":
        """The parallel so far to the left."""
        (x1, y1), (x2, y2) = self
        far = hypot(x2 - x1, y2 - y1)
        dx, dy = -(y2 - y1) / far * left, (x2 - x1) / far * left
        return Line((x1 + dx, y1 + dy), (x2 + dx, y2 + dy))

    def turned(self) -> "Line":
        """The same line the other way."""
        return Line(self.end, self.start)


class Patch(NamedTuple):
    """A piece of one fabric as it lies."""

    shape: Polygon
    fabric: str


Work = list[Patch]


def left_of(line: Line) -> Polygon:
    """All that lies to the left of a line."""
    (x1, y1), (x2, y2) = line
    far = hypot(x2 - x1, y2 - y1)
    ux, uy = (x2 - x1) / far * FAR, (y2 - y1) / far * FAR
    a, b = (x1 - ux, y1 - uy), (x1 + ux, y1 + uy)
    return Polygon([a, b, (b[0] - uy, b[1] + ux), (a[0] - uy, a[1] + ux)])


def cut(work: Work, line: Line) -> Work:
    """What lies to the left of a cut."""
    plane = left_of(line)
    kept = [Patch(patch.shape.intersection(plane), patch.fabric) for patch in work]
    return [patch for patch in kept if patch.shape.area > HAIR**2]


def flipped(work: Work, line: Line) -> Work:
    """Turned over along a line."""
    (x1, y1), (x2, y2) = line
    dx, dy = x2 - x1, y2 - y1
    long = dx * dx + dy * dy
    a, b = (dx * dx - dy * dy) / long, 2 * dx * dy / long
    move = [a, b, b, -a, x1 - a * x1 - b * y1, y1 - b * x1 + a * y1]
    return [Patch(affine_transform(patch.shape, move), patch.fabric) for patch in work]


def stitches(under: Work, over: Work, seam: Line) -> float:
    """How long a seam is: as far as there is cloth in both layers."""
    layers = [union_all([patch.shape.buffer(HAIR / 100) for patch in work]) for work in (under, over)]
    (x1, y1), (x2, y2) = seam
    far = hypot(x2 - x1, y2 - y1)
    ux, uy = (x2 - x1) / far * FAR, (y2 - y1) / far * FAR
    whole = LineString([(x1 - ux, y1 - uy), (x1 + ux, y1 + uy)])
    return float(whole.intersection(layers[0]).intersection(layers[1]).length)


def sew(under: Work, over: Work, seam: Line, tape: list[float] | None = None) -> Work:
    """Two works, one upon the other, sewn along a line and opened: what lies left of it is used.

    A `tape` takes down how long the seam is.
    """
    if tape is not None:
        tape.append(stitches(under, over, seam))
    return cut(under, seam) + flipped(cut(over, seam), seam)


def covers(work: Work, shape: Polygon) -> bool:
    """Whether the cloth has no hole or gap anywhere in a shape."""
    cloth = union_all([patch.shape.buffer(HAIR) for patch in work])
    return bool(shape.difference(cloth).area < HAIR)


def shown(work: Work, fabric: str, shape: Polygon) -> Polygon:
    """What a shape shows of one fabric."""
    return union_all([patch.shape.intersection(shape) for patch in work if patch.fabric == fabric])


def alike(one: Polygon, other: Polygon, hair: float = 1e-5) -> bool:
    """Whether two shapes are the same, but for the noise of floats."""
    return bool(one.symmetric_difference(other).area < hair * max(1.0, one.length))


def square(fabric: str, side: float, x: float = 0, y: float = 0) -> Work:
    """A square of cloth with its lower left corner at (x, y)."""
    return [Patch(box(x, y, x + side, y + side), fabric)]


def triangle(fabric: str, *corners: Point) -> Work:
    """A triangle of cloth."""
    return [Patch(Polygon(corners), fabric)]


def centred(side: float, at: Point, turned: float = 0) -> Polygon:
    """A square round a point, turned by so many degrees."""
    (x, y), half = at, side / 2
    return rotate(box(x - half, y - half, x + half, y + half), turned)


def largest(work: Work, shapes: Iterable[tuple[float, Polygon]]) -> float:
    """The largest size whose shape is still covered, of shapes that grow."""
    best = 0.0
    for size, shape in shapes:
        if not covers(work, shape):
            break
        best = size
    return best
