"""The setting triangles of a set on point, finished, as polygons along the four edges.

Where the outermost points float inside the edge, neighbouring triangles would overlap between a point and the
edge. The seam that is sewn last there runs on to the edge, and what is under it is trimmed off, so a finished
triangle has lost a corner or two.
"""

from fractions import Fraction

from boltend.plugin import Number
from boltend_quilt_setting.on_point_layout import OnPoint

Point = tuple[Number, Number]
Corners = tuple[Point, ...]

ZERO = Fraction(0)
HALF = Fraction(1, 2)


def setting_triangles(layout: OnPoint) -> list[Corners]:
    """All side triangles, then the corners: top left, top right, bottom right, bottom left."""
    width, height = layout.width, layout.height

    def turned(corners: Corners) -> Corners:
        return tuple((width - x, height - y) for x, y in corners)

    top = _along_top(layout, layout.across)
    left = [_mirrored(corners) for corners in _along_top(layout, layout.down)]
    corners = _corner_triangles(layout)
    return [*top, *left, *map(turned, top), *map(turned, left), *corners, *map(turned, corners)]


def _mirrored(corners: Corners) -> Corners:
    """Across the diagonal through the top left corner: what is along the top comes to lie along the left."""
    return tuple((y, x) for x, y in corners)


def _along_top(layout: OnPoint, blocks: int) -> list[Corners]:
    """The triangles along the top from left to right, between so many blocks.

    From every point a seam runs up to the right, that of a row; from the last one up to the left, that of the
    corner triangle.
    """
    reach, clear = HALF * layout.long_edge, layout.clear
    made: list[Corners] = []
    for number in range(1, blocks):
        middle = layout.beyond + number * layout.pitch
        deep = (middle, reach)
        if clear <= 0:
            made.append(((middle - reach, ZERO), (middle + reach, ZERO), deep))
            continue
        before, after = middle - HALF * layout.pitch, middle + HALF * layout.pitch
        left: Corners = ((before, clear), (before + clear, ZERO))
        right: Corners = ((after + clear, ZERO),)
        if number == blocks - 1:
            right = ((after - clear, ZERO), (after, clear))
        made.append((*left, *right, deep))
    return made


def _corner_triangles(layout: OnPoint) -> list[Corners]:
    """Top left, sewn last and whole, and top right, which it trims where both meet at one block's point."""
    width, leg, clear = layout.width, layout.leg, layout.clear
    top_left: Corners = ((ZERO, ZERO), (leg, ZERO), (ZERO, leg))
    upper: Corners = ((width - leg, ZERO),)
    lower: Corners = ((width, leg),)
    if clear > 0 and layout.across == 1:
        upper = ((HALF * width, clear), (HALF * width + clear, ZERO))
    if clear > 0 and layout.down == 1:
        lower = ((width, HALF * layout.height - clear), (width - clear, HALF * layout.height))
    return [top_left, (*upper, (width, ZERO), *lower)]
