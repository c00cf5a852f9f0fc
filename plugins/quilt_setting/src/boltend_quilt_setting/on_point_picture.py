"""The picture of a set on point: blocks, sashes, cornerstones and setting triangles, in finished inches."""

from collections.abc import Iterator

from boltend.plugin import Polygon
from boltend_quilt_setting.on_point_lattice import EAST, NORTH, SOUTH, WEST, Lattice
from boltend_quilt_setting.on_point_layout import OnPoint
from boltend_quilt_setting.on_point_triangles import setting_triangles

MOST_PARTS = 2000
"""Above this many blocks and sashes a diagonal row is drawn as one: a part would be smaller than a cell."""


def picture(layout: OnPoint) -> list[Polygon]:
    """The parts as polygons, filled by role; one polygon a row where there are more than `MOST_PARTS`."""
    lattice = Lattice(layout)
    if layout.blocks + layout.sashes + layout.cornerstone_count > MOST_PARTS:
        parts = [*_whole_rows(lattice), *_long_sashes(lattice)]
    else:
        parts = [*_blocks(lattice), *_short_sashes(lattice)]
        parts += _cornerstones(lattice) if layout.cornerstones else _long_sashes(lattice)
    return [*parts, *(Polygon(corners, "setting") for corners in setting_triangles(layout))]


def _blocks(lattice: Lattice) -> Iterator[Polygon]:
    across, down = lattice.layout.across, lattice.layout.down
    for y in range(1, 2 * down):
        for x in range(1 if y % 2 else 2, 2 * across, 2):
            yield Polygon(lattice.diamond(x, y), "block" if y % 2 else "inner block")


def _whole_rows(lattice: Lattice) -> Iterator[Polygon]:
    """Every diagonal row of blocks, with its short sashes, as one polygon."""
    layout = lattice.layout
    for row in range(1, layout.rows + 1):
        low, high = max(1, 2 * row + 1 - 2 * layout.down), min(2 * layout.across - 1, 2 * row - 1)
        y, far_y = 2 * row - low, 2 * row - high
        refs = ((low - 1, y, SOUTH), (high, far_y - 1, EAST), (high + 1, far_y, NORTH), (low, y + 1, WEST))
        yield Polygon(lattice.trimmed(refs), "block")


def _sash_rows(layout: OnPoint) -> Iterator[list[tuple[int, int]]]:
    """Places of the crossings along every sash row, up to the right."""
    for row in range(layout.rows + 1 if layout.sash else 0):
        total = 2 * row + 1
        low, high = max(0, total - 2 * layout.down), min(2 * layout.across, total)
        yield [(x, total - x) for x in range(low, high + 1)]


def _short_sashes(lattice: Lattice) -> Iterator[Polygon]:
    """Between two crossings down to the right; with cornerstones also between two up to the right."""
    layout = lattice.layout
    for places in _sash_rows(layout):
        for x, y in places:
            if x < 2 * layout.across and y < 2 * layout.down:
                refs = ((x, y, SOUTH), (x, y, EAST), (x + 1, y + 1, NORTH), (x + 1, y + 1, WEST))
                yield Polygon(lattice.trimmed(refs), "sash")
        for x, y in places[:-1] if layout.cornerstones else ():
            refs = ((x, y, NORTH), (x + 1, y - 1, WEST), (x + 1, y - 1, SOUTH), (x, y, EAST))
            yield Polygon(lattice.trimmed(refs), "sash")


def _long_sashes(lattice: Lattice) -> Iterator[Polygon]:
    """Every sash row in one, from crossing to crossing."""
    for places in _sash_rows(lattice.layout):
        first, last = places[0], places[-1]
        refs = ((*first, WEST), (*last, NORTH), (*last, EAST), (*first, SOUTH))
        yield Polygon(lattice.trimmed(refs), "sash")


def _cornerstones(lattice: Lattice) -> Iterator[Polygon]:
    for places in _sash_rows(lattice.layout):
        for x, y in places:
            corners = lattice.trimmed(((x, y, WEST), (x, y, NORTH), (x, y, EAST), (x, y, SOUTH)))
            if len(corners) > 2:  # else the edge leaves nothing of it
                yield Polygon(corners, "cornerstone")
