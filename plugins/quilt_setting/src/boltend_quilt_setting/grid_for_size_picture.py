"""The picture of a grid within its border."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from boltend.plugin import Polygon, Rect
from boltend_quilt_setting import on_point_picture, straight_picture
from boltend_quilt_setting.grid_for_size_search import Grid, Wanted
from boltend_quilt_setting.on_point_layout import Edge, OnPoint
from boltend_quilt_setting.straight_layout import Layout


def picture(grid: Grid, wanted: Wanted) -> list[Rect | Polygon]:
    """The border and within it the set, as the calculator of that set draws it; finished inches."""
    if not (grid.border_sides or grid.border_ends):
        return list(_set(grid, wanted))
    border = Rect(Fraction(0), Fraction(0), grid.width, grid.height, "border")
    return [border, *_moved(_set(grid, wanted), grid.border_sides, grid.border_ends)]


def _set(grid: Grid, wanted: Wanted) -> Sequence[Rect | Polygon]:
    block, sash, none = wanted.block, wanted.sash, Fraction(0)
    if not wanted.on_point:
        return straight_picture.picture(Layout(*block, grid.across, grid.down, sash, False, False))
    edge: Edge = "cornerstone centres" if sash else "points"
    return on_point_picture.picture(OnPoint(block[0], grid.across, grid.down, sash, edge, True, none))


def _moved(shapes: Sequence[Rect | Polygon], right: Fraction, down: Fraction) -> Iterator[Rect | Polygon]:
    for shape in shapes:
        if isinstance(shape, Rect):
            yield shape._replace(x=shape.x + right, y=shape.y + down)
        else:
            yield shape._replace(corners=tuple((x + right, y + down) for x, y in shape.corners))
