"""The picture of a strip-pieced grid: the finished unit, and beside it a strip set of each kind with its
cuts."""

from fractions import Fraction

from boltend.plugin import Rect, Rule, Shape
from boltend_block_units.strip_grid_sets import Grid, Kind, strip_length


def picture(grid: Grid, dark: str | None, light: str | None) -> list[Shape]:
    """The unit's patches; then, one under the other, the sets as cut, with a rule for each cut across."""
    patch, fills = grid.size / grid.patches, (dark or "dark", light or "light")
    shapes: list[Shape] = [
        Rect(x * patch, y * patch, patch, patch, fills[(x + y) % 2])
        for y in range(grid.patches)
        for x in range(grid.patches)
    ]
    left, top = grid.size + patch, Fraction(0)
    for kind in grid.kinds:
        if kind.segments:
            shapes += _set(kind, grid, fills, left, top)
            top += grid.sewn + patch
    return shapes


def _set(kind: Kind, grid: Grid, fills: tuple[str, str], left: Fraction, top: Fraction) -> list[Shape]:
    """One set as it is sewn; the two outer strips show a seam more."""
    ((segments, _), *_) = kind.lengths(grid.segments_each)
    long, wide, y = strip_length(segments, grid), grid.strip.cut - 2 * grid.seam, top
    shapes: list[Shape] = []
    for n, letter in enumerate(kind.name):
        high = wide + grid.seam * ((n == 0) + (n == grid.patches - 1))
        shapes.append(Rect(left, y, long, high, fills["AB".index(letter)], kind.name if n == 0 else ""))
        y += high
    cuts = (left + k * grid.strip.cut for k in range(1, segments + 1))
    return [*shapes, *(Rule(x, top, x, y) for x in cuts)]
