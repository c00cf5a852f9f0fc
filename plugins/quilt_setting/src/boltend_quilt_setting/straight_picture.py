"""The picture of a straight set: blocks, sashes and cornerstones in finished inches."""

from collections.abc import Iterator
from fractions import Fraction

from boltend.plugin import Rect
from boltend_quilt_setting.straight_layout import Layout

MOST_PARTS = 4000
"""Above this many parts a row is drawn as one: a part would be smaller than a cell of any screen."""

Span = tuple[Fraction, Fraction, bool]
"""Start, size, and whether it is a sash."""


def picture(layout: Layout) -> list[Rect]:
    """The parts as rectangles, filled by role; one rectangle a row where there are more than `MOST_PARTS`."""
    columns = spans(layout.across, layout.block_width, layout.sash, layout.sash_columns)
    rows = spans(layout.down, layout.block_height, layout.sash, layout.sash_rows)
    by_row = len(columns) * len(rows) > MOST_PARTS
    shapes: list[Rect] = []
    for y, height, sash_row in rows:
        if by_row or (sash_row and not layout.cornerstones):
            shapes.append(Rect(Fraction(0), y, layout.width, height, "sash" if sash_row else "block"))
        else:
            shapes += [Rect(x, y, width, height, role(s, sash_row)) for x, width, s in columns]
    return shapes


def spans(blocks: int, size: Fraction, sash: Fraction, sashes: int) -> list[Span]:
    """Blocks and sashes along one direction, from the edge."""
    return list(_spans(blocks, size, sash, sashes))


def _spans(blocks: int, size: Fraction, sash: Fraction, sashes: int) -> Iterator[Span]:
    at = Fraction(0)
    is_sash = sashes > blocks
    for _ in range(blocks + sashes):
        step = sash if is_sash else size
        yield at, step, is_sash
        at += step
        is_sash = not is_sash and sashes > 0


def role(sash_column: bool, sash_row: bool) -> str:
    """Block, sash or cornerstone, by what meets at a place."""
    if sash_column and sash_row:
        return "cornerstone"
    return "sash" if sash_column or sash_row else "block"
