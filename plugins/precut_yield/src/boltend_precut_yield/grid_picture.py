"""The picture of a grid of blocks with its border."""

from fractions import Fraction

from boltend.plugin import Rect
from boltend_precut_yield.grids import Block, Grid

MOST_BLOCKS = 3600
"""60 × 60: above this the blocks of a row are drawn as one, or all as one where the rows are as many."""


def picture(grid: Grid, block: Block) -> list[Rect]:
    """The border (or the edge), the sash as one ground, and on it the blocks; finished inches."""
    inside_width, inside_height = grid.width - 2 * block.border, grid.height - 2 * block.border
    shapes = []
    if block.border:
        shapes.append(Rect(Fraction(0), Fraction(0), grid.width, grid.height, "border"))
    if block.sash:
        shapes.append(Rect(block.border, block.border, inside_width, inside_height, "sash"))
    rows = [(block.border + r * (block.height + block.sash), block.height) for r in range(grid.down)]
    columns = [(block.border + c * (block.width + block.sash), block.width) for c in range(grid.across)]
    if grid.across * grid.down > MOST_BLOCKS:
        columns = [(block.border, inside_width)]
    if len(rows) > MOST_BLOCKS:
        rows = [(block.border, inside_height)]
    return shapes + [Rect(x, y, width, height, "block") for y, height in rows for x, width in columns]
