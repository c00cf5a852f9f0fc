"""Where everything in a set on point lies, for its picture; finished inches from the top left corner.

Every place is looked up, none is worked out twice: exact arithmetic with √2 is slow, and a top has hundreds
of corners along a few lines.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from boltend.plugin import Number
from boltend_quilt_setting.on_point_layout import OnPoint

Point = tuple[Number, Number]
Ref = tuple[int, int, int]
"""A corner of what stands on point at a place: half pitches across and down, and which corner of it."""

ZERO = Fraction(0)
WEST, NORTH, EAST, SOUTH = range(4)
TOP, RIGHT, BOTTOM, LEFT = range(4)

ALONG = (
    {WEST: 0, NORTH: 1, EAST: 2},
    {NORTH: 0, EAST: 1, SOUTH: 2},
    {WEST: 0, SOUTH: 1, EAST: 2},
    {NORTH: 0, WEST: 1, SOUTH: 2},
)
"""For each edge: the corners that may lie outside it, as they follow along it (rightwards or downwards)."""

TO_PREVIOUS: tuple[dict[int, int], ...] = ({0: 1, 1: 0}, {1: 1, 2: 0}, {2: 0, 3: 1}, {3: 0, 0: 1})
TO_NEXT: tuple[dict[int, int], ...] = ({1: 1, 2: 0}, {2: 1, 3: 0}, {3: 0, 0: 1}, {0: 0, 1: 1})
"""For each edge and each corner of a polygon (its west one is 0, clockwise): whether the side to the corner
before, or after, runs inwards and further along the edge (1), or inwards and back (0)."""


class Lattice:
    """Places by half pitches from the outer crossings at the top left, counted across and down.

    Crossings of sashes (without a sash: points of blocks) lie where the two counts add up to an odd number,
    centres of blocks where both are odd (those counted along the edges) or both even (inner ones).
    """

    def __init__(self, layout: OnPoint) -> None:
        self.layout = layout
        half = Fraction(1, 2) * layout.pitch
        most = 2 * max(layout.across, layout.down)
        self.at = [layout.beyond + half * n for n in range(most + 1)]
        self.block = self._around(layout.half_diagonal)
        self.crossing = self._around(layout.half_cornerstone)
        self.cuts_points, self.cuts_centres = layout.clear < 0, layout.beyond < 0
        if self.cuts_points:
            # Where a side at 45° meets the edge beside a crossing's three corners, back and further along it.
            wide = self._around(-layout.clear)
            narrow = self._around(layout.half_cornerstone + layout.beyond)
            self.met = [((w[0], n[0]), w, (n[1], w[1])) for w, n in zip(wide, narrow, strict=True)]

    def _around(self, reach: Number) -> list[tuple[Number, Number]]:
        return [(at - reach, at + reach) for at in self.at]

    def diamond(self, x: int, y: int) -> tuple[Point, ...]:
        """A block on point at a place: its west, north, east and south corners."""
        (west, east), (north, south) = self.block[x], self.block[y]
        return (west, self.at[y]), (self.at[x], north), (east, self.at[y]), (self.at[x], south)

    def corner(self, ref: Ref) -> Point:
        """A corner of a crossing, wherever the quilt's edge is."""
        x, y, which = ref
        if which in (WEST, EAST):
            return self.crossing[x][which == EAST], self.at[y]
        return self.at[x], self.crossing[y][which == SOUTH]

    def trimmed(self, refs: Sequence[Ref]) -> tuple[Point, ...]:
        """The part within the quilt's edge of a rectangle on point, given clockwise from its west corner."""
        if not self.cuts_points:
            return tuple(map(self.corner, refs))
        edges = [self._outside(ref) for ref in refs]
        if edges == [None] * 4:
            return tuple(map(self.corner, refs))
        points: list[Point] = []
        for point in self._points(refs, edges):
            if not points or point not in (points[0], points[-1]):
                points.append(point)
        return tuple(points)

    def _points(self, refs: Sequence[Ref], edges: list[int | None]) -> Iterator[Point]:
        for n, (ref, edge) in enumerate(zip(refs, edges, strict=True)):
            if edge is None:
                yield self.corner(ref)
                continue
            if edges[n - 1] != edge and n in TO_PREVIOUS[edge]:
                yield self._meets(ref, edge, TO_PREVIOUS[edge][n])
            if edges[(n + 1) % 4] != edge and n in TO_NEXT[edge]:
                yield self._meets(ref, edge, TO_NEXT[edge][n])

    def _outside(self, ref: Ref) -> int | None:
        """The edge that a crossing's corner lies outside of."""
        x, y, which = ref
        layout = self.layout
        if y == 0:
            edge = TOP
        elif x == 2 * layout.across:
            edge = RIGHT
        elif y == 2 * layout.down:
            edge = BOTTOM
        elif x == 0:
            edge = LEFT
        else:
            return None
        along = ALONG[edge].get(which)
        out = along is not None and (along == 1 or self.cuts_centres)
        return edge if out else None

    def _meets(self, ref: Ref, edge: int, further: int) -> Point:
        """Where a side from a corner outside meets the edge."""
        x, y, which = ref
        layout, along = self.layout, ALONG[edge][which]
        if edge in (TOP, BOTTOM):
            return self.met[x][along][further], ZERO if edge == TOP else layout.height
        return ZERO if edge == LEFT else layout.width, self.met[y][along][further]
