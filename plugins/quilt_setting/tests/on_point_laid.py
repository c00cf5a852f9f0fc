"""A top on point laid out on the straight, turned by 45°, and measured: what the calculator is held against.

The oracle knows nothing of the calculator's arithmetic: it lays blocks, sashes and crossings on a straight
grid, turns that, reads the quilt's edge off what it has laid, and cuts the setting triangles out of what is
left by the seams as they are sewn.
"""

from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise
from typing import Any

from shapely import box, set_precision, union_all  # type: ignore[import-untyped]  # it ships no types
from shapely.affinity import rotate, translate  # type: ignore[import-untyped]  # it ships no types
from shapely.geometry import LineString, MultiPolygon, Polygon  # type: ignore[import-untyped]  # it ships no types

FAR = 1000.0
TINY = 1e-7
FINE = 1e-11
"""A grid for what shapely works out: corners that differ in a float's last digit become one."""


def whole(part: Any) -> Any:
    """The part, without the crumbs that a float's last digit leaves where parts touch at a point."""
    return set_precision(max(getattr(part, "geoms", [part]), key=lambda each: (each.area, each.length)), FINE)


def faces(shape: Any) -> MultiPolygon:
    """What of a shape has area."""
    return MultiPolygon([each for each in getattr(shape, "geoms", [shape]) if each.geom_type == "Polygon"])


class Laid:
    """The top, laid out: rows run along u, one after another along v, both turned by 45° at the end."""

    def __init__(self, top: dict[str, Any]) -> None:
        self.b, self.t, self.a, self.d = float(top["block"]), float(top["sash"]), top["across"], top["down"]
        self.p, self.float = self.b + self.t, float(top["float"])
        self.edge = top["edge"] or ("cornerstone centres" if self.t else "points")
        self.squares = bool(top["cornerstones"])
        # The corner block's centre must come to lie half a lattice step inside either edge.
        first, next_down = (rotate(self.cell(n, n), -45, (0, 0)).centroid for n in (0, 1))
        self.step = next_down.x - first.x
        assert abs(rotate(self.cell(-1, 1), -45, (0, 0)).centroid.y - first.y - self.step) < TINY
        self.shift = (self.step / 2 - first.x, self.step / 2 - first.y)
        self.blocks = {
            (m, n) for m in range(-self.d, self.a + 1) for n in range(self.a + self.d) if self.holds(m, n)
        }

    def cell(self, m: int, n: int) -> Polygon:
        return box(m * self.p, n * self.p, m * self.p + self.b, n * self.p + self.b)

    def turned(self, shape: Any) -> Any:
        return translate(rotate(shape, -45, (0, 0)), *self.shift)

    def holds(self, m: int, n: int) -> bool:
        centre = self.turned(self.cell(m, n)).centroid
        return bool(
            TINY < centre.x < self.a * self.step - TINY and TINY < centre.y < self.d * self.step - TINY
        )

    @cached_property
    def crossings(self) -> set[tuple[int, int]]:
        return {(m + i, n + j) for m, n in self.blocks for i in (0, 1) for j in (0, 1)}

    def crossing(self, m: int, n: int) -> Polygon:
        return box(m * self.p - self.t, n * self.p - self.t, m * self.p, n * self.p)

    @cached_property
    def rect(self) -> Polygon:
        """The quilt's edge, read off the parts that it goes by, and the float outside it."""
        if self.edge == "points" or not self.t:
            by = [self.turned(self.cell(*at)) for at in self.blocks]
        else:
            by = [self.turned(self.crossing(*at)) for at in self.crossings]
            if self.edge == "cornerstone centres":
                by = [each.centroid for each in by]
        x1, y1, x2, y2 = union_all(by).bounds
        return box(x1 - self.float, y1 - self.float, x2 + self.float, y2 + self.float)

    def loose(self) -> float:
        """How far the outermost points of what is sewn lie inside the edge; below 0 where it is trimmed."""
        outer = union_all([self.turned(part) for _, part in self.straight]).bounds
        return float(outer[0] - self.rect.bounds[0])

    def across_sashes(self) -> set[tuple[int, int]]:
        """Places of sashes within block rows, each before its block."""
        return {(m + i, n) for m, n in self.blocks for i in (0, 1)} if self.t else set()

    def along_sashes(self) -> set[tuple[int, int]]:
        """Places of sashes between block rows, each above its block."""
        return {(m, n + j) for m, n in self.blocks for j in (0, 1)} if self.t else set()

    def sash_rows(self) -> Iterator[tuple[int, list[int]]]:
        for n in sorted({n for _, n in self.crossings}):
            yield n, sorted(m for m, row in self.crossings if row == n)

    @cached_property
    def straight(self) -> list[tuple[str, Polygon]]:
        """All parts but the setting triangles, before they are turned."""
        b, t, p = self.b, self.t, self.p
        # Neighbours along the edge differ by one in both places, so counted blocks have the corner's colour.
        made = [("inner" if (m + n) % 2 else "counted", self.cell(m, n)) for m, n in self.blocks]
        made += [("sash", box(m * p - t, n * p, m * p, n * p + b)) for m, n in self.across_sashes()]
        if self.t and self.squares:
            made += [("sash", box(m * p, n * p - t, m * p + b, n * p)) for m, n in self.along_sashes()]
            made += [("cornerstone", self.crossing(m, n)) for m, n in self.crossings]
        elif self.t:
            made += [
                ("long sash", box(ms[0] * p - t, n * p - t, ms[-1] * p, n * p)) for n, ms in self.sash_rows()
            ]
        return made

    @cached_property
    def core(self) -> list[tuple[str, Polygon]]:
        """The same, turned and trimmed at the quilt's edge."""
        cut = [(kind, whole(self.turned(part).intersection(self.rect))) for kind, part in self.straight]
        return [(kind, part) for kind, part in cut if part.area > TINY]

    @cached_property
    def block_rows(self) -> dict[int, list[int]]:
        return {n: sorted(m for m, row in self.blocks if row == n) for _, n in self.blocks}

    @cached_property
    def corner_lines(self) -> tuple[float, float, float, float]:
        """Where what is sewn ends: its first and last v, its first and last u."""
        rows = self.block_rows
        return (
            min(rows) * self.p - self.t, max(rows) * self.p + self.p,
            min(ms[0] for ms in rows.values()) * self.p - self.t,
            max(ms[-1] for ms in rows.values()) * self.p + self.p,
        )  # fmt: skip

    def row_ends(self) -> Iterator[tuple[float, float, int]]:
        """Row ends with a side triangle: the u where it is sewn on, its first v, and which way it lies.

        Along the top and the left a triangle also covers the end of the sash row before,
        else that of the one after.
        """
        low, high = self.corner_lines[2:]
        top_right = max(n for n, ms in self.block_rows.items() if ms[-1] * self.p + self.p > high - TINY)
        bottom_left = max(n for n, ms in self.block_rows.items() if ms[0] * self.p - self.t < low + TINY)
        for n, ms in self.block_rows.items():
            if n != top_right:
                yield ms[-1] * self.p + self.p, n * self.p - (self.t if n < top_right else 0), 1
            if n != bottom_left:
                yield ms[0] * self.p - self.t, n * self.p - (self.t if n < bottom_left else 0), -1

    @cached_property
    def setting(self) -> list[Polygon]:
        """What is left, parted by the seams: first what the corner seams part off, then row by row."""
        sewn_rows = union_all([self.turned(part) for _, part in self.straight], grid_size=FINE)
        left = faces(self.rect.difference(sewn_rows, grid_size=FINE))
        low, high, first, last = self.corner_lines
        places = [box(-FAR, -FAR, FAR, low), box(-FAR, high, FAR, FAR), box(last, -FAR, FAR, FAR),
                  box(-FAR, -FAR, first, FAR)]  # fmt: skip
        places += [
            box(*((u, v, FAR) if way > 0 else (-FAR, v, u)), v + self.p) for u, v, way in self.row_ends()
        ]
        made = []
        for place in map(self.turned, places):
            made.append(whole(place.intersection(left, grid_size=FINE)))
            left = faces(left.difference(place, grid_size=FINE))
        assert left.area < TINY
        return made


def seams_as_sewn(laid: Laid) -> Iterator[float]:
    """The finished length of every straight seam, in the order of sewing."""
    b, t, p = laid.b, laid.t, laid.p
    rows = laid.block_rows

    def kept(u1: float, v1: float, u2: float, v2: float) -> float:
        line = laid.turned(LineString([(u1, v1), (u2, v2)]))
        return float(line.intersection(laid.rect).length)

    for n, ms in rows.items():
        for m in ms:
            if t:
                yield kept(m * p + b, n * p, m * p + b, n * p + b)
            if t or m != ms[0]:
                yield kept(m * p, n * p, m * p, n * p + b)
    if t and laid.squares:
        for n, ms in laid.sash_rows():
            for left, right in pairwise(ms):
                for u in (left * p, right * p - t):
                    yield kept(u, n * p - t, u, n * p)
    # The others run between setting triangles, and end at the quilt's edge or at another seam.
    hidden = union_all([part.buffer(-1e-8) for part in laid.setting])
    for u, v, _ in laid.row_ends():
        yield open_length(laid, [(u, v), (u, v + p)], hidden)
    low, high, first, last = laid.corner_lines
    between = {v for n in rows for v in ((n * p, n * p + b) if t else (n * p,))}
    for v in between - (set() if t else {low}):
        yield open_length(laid, [(-FAR, v), (FAR, v)], hidden)
    for v in (low, high):
        yield open_length(laid, [(-FAR, v), (FAR, v)], hidden)
    for u in (first, last):
        yield open_length(laid, [(u, -FAR), (u, FAR)], hidden)


def open_length(laid: Laid, ends: list[tuple[float, float]], hidden: Any) -> float:
    return float(laid.turned(LineString(ends)).intersection(laid.rect).difference(hidden).length)
