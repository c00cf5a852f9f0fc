"""What a straight set is made of: counts, finished sizes and seams, as plain exact arithmetic.

The order of sewing, which the seams depend on: the blocks of a row are joined side by side with the short
upright sashes between them; with cornerstones a row of sashes is joined in the same way; then the rows,
and the sash rows or long sashes between them, are joined one under the other.
"""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Layout:
    """`across` × `down` blocks of `block_width` × `block_height`, sashed `sash` wide; finished inches.

    `all_round`: the sash runs round the outside too. `cornerstones`: squares where sashes cross. Both say
    nothing where `sash` is 0.
    """

    block_width: Fraction
    block_height: Fraction
    across: int
    down: int
    sash: Fraction
    all_round: bool
    cornerstones: bool

    @property
    def sash_columns(self) -> int:
        """Upright lines of sash: one fewer than blocks across, or one more all round; 0 without a sash."""
        return self._lines(self.across)

    @property
    def sash_rows(self) -> int:
        """Level lines of sash."""
        return self._lines(self.down)

    def _lines(self, blocks: int) -> int:
        if self.sash == 0:
            return 0
        return blocks + 1 if self.all_round else blocks - 1

    @property
    def width(self) -> Fraction:
        """Finished width: blocks and sash columns."""
        return self.across * self.block_width + self.sash_columns * self.sash

    @property
    def height(self) -> Fraction:
        """Finished height: blocks and sash rows."""
        return self.down * self.block_height + self.sash_rows * self.sash

    @property
    def sashes_down(self) -> int:
        """Short upright sashes, each as long as a block is high."""
        return self.sash_columns * self.down

    @property
    def sashes_across(self) -> int:
        """Short level sashes, each as long as a block is wide: only where there are cornerstones."""
        return self.across * self.sash_rows if self.cornerstones else 0

    @property
    def long_sashes(self) -> int:
        """Level sashes as long as the top is wide: only where there are no cornerstones."""
        return 0 if self.cornerstones else self.sash_rows

    @property
    def cornerstone_count(self) -> int:
        """Squares where an upright line of sash crosses a level one."""
        return self.sash_columns * self.sash_rows if self.cornerstones else 0

    @property
    def joins_in_row(self) -> int:
        """Seams within one row: one fewer than the parts that stand side by side."""
        return self.across + self.sash_columns - 1

    @property
    def row_seams(self) -> int:
        """Seams between the rows, blocks' and sashes' together."""
        return self.down + self.sash_rows - 1

    def seams(self, allowance: Fraction) -> Fraction:
        """Length of all seams, each once, where every part is `2 allowance` over its finished size.

        With the seam allowance: raw edge to raw edge. With 0: the finished length, what a ditch shows.
        """
        over = 2 * allowance
        in_rows = self.down * self.joins_in_row * (self.block_height + over)
        in_sash_rows = self.sash_rows * self.joins_in_row * (self.sash + over) if self.cornerstones else 0
        return in_rows + in_sash_rows + self.row_seams * (self.width + over)
