"""What a set on point is made of: lattice, edge, counts and finished sizes, as plain exact arithmetic.

The lattice: blocks stand on a corner, their centres `block + sash` apart along the diagonal rows. The
rows run up to the right; row 1 is the block at the top left corner. Distances to the quilt's edge are counted
from the line through the centres of the outer cornerstones (without a sash: through the blocks' points).
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from boltend.plugin import ROOT2, Number

Edge = Literal["points", "cornerstone centres", "sash all round"]
Tips = Literal["none", "half", "whole"]

SASHES_OUT: dict[Edge, int] = {"points": -1, "cornerstone centres": 0, "sash all round": 1}
"""How many half diagonals of the sash the edge lies outside the outer cornerstones' centres."""


@dataclass(frozen=True)
class OnPoint:
    """`across` × `down` blocks on point, counted along the edges, and inner ones between; finished inches.

    `float_` is how far the edge lies outside the place that `edge` names. Without a sash all three edges are
    the blocks' points, and `cornerstones` says nothing.
    """

    block: Fraction
    across: int
    down: int
    sash: Fraction
    edge: Edge
    cornerstones: bool
    float_: Fraction

    @property
    def sashes_out(self) -> int:
        """−1, 0 or 1 half diagonals of the sash between the outer cornerstones' centres and the edge."""
        return SASHES_OUT[self.edge] if self.sash else 0

    @cached_property
    def half_diagonal(self) -> Number:
        """From a block's centre to its point."""
        return self.block / 2 * ROOT2

    @cached_property
    def half_cornerstone(self) -> Number:
        """From a cornerstone's centre to its point; 0 without a sash."""
        return self.sash / 2 * ROOT2

    @cached_property
    def pitch(self) -> Number:
        """From block to block along the quilt's edge."""
        return (self.block + self.sash) * ROOT2

    @cached_property
    def beyond(self) -> Number:
        """How far the edge lies outside the outer cornerstones' centres."""
        return self.sashes_out * self.half_cornerstone + self.float_

    @cached_property
    def clear(self) -> Number:
        """How far the outermost points float inside the edge; below 0 where the edge cuts through a sash."""
        return self.beyond - self.half_cornerstone

    @cached_property
    def width(self) -> Number:
        """Finished width."""
        return self.across * self.pitch + 2 * self.beyond

    @cached_property
    def height(self) -> Number:
        """Finished height."""
        return self.down * self.pitch + 2 * self.beyond

    @cached_property
    def long_edge(self) -> Number:
        """Long side of a side triangle, which lies on the quilt's edge."""
        return 2 * (self.half_diagonal + self.beyond)

    @cached_property
    def leg(self) -> Number:
        """Short side of a corner triangle; not above 0 where the sash leaves no corner."""
        return self.half_diagonal + 2 * self.beyond

    @property
    def inner_blocks(self) -> int:
        """Blocks in between those counted along the edges, often plain or alternate ones."""
        return (self.across - 1) * (self.down - 1)

    @property
    def blocks(self) -> int:
        """All blocks."""
        return self.across * self.down + self.inner_blocks

    @property
    def side_triangles(self) -> int:
        """Setting triangles along the edges, without the corners."""
        return 2 * (self.across - 1) + 2 * (self.down - 1)

    @property
    def tips(self) -> int:
        """Places on the edge where a block points outwards."""
        return 2 * (self.across + self.down)

    @property
    def rows(self) -> int:
        """Diagonal rows of blocks."""
        return self.across + self.down - 1

    def row_blocks(self, row: int) -> int:
        """Blocks of a diagonal row, from 1."""
        ends = min(row, self.rows + 1 - row)
        return 2 * min(ends, self.across, self.down) - 1

    def row_sashes(self, row: int) -> int:
        """Places for a sash along the sash row after block row `row`; 0 is the one before the first."""
        ends = min(row, self.rows - row)
        return min(2 * ends + 1, 2 * self.across, 2 * self.down)

    @property
    def sashes(self) -> int:
        """Short sashes: four round every counted block; without cornerstones only those within block rows."""
        if not self.sash:
            return 0
        return 4 * self.across * self.down if self.cornerstones else self.blocks + self.rows

    @property
    def long_sashes(self) -> int:
        """Sashes between the diagonal rows, and before and after them: only without cornerstones."""
        return 0 if self.cornerstones or not self.sash else self.rows + 1

    @property
    def inner_cornerstones(self) -> int:
        """Cornerstones that touch no edge."""
        if not (self.sash and self.cornerstones):
            return 0
        return 2 * self.across * self.down - self.across - self.down

    @property
    def tip_cornerstones(self) -> Tips:
        """What is sewn in where a block points at the edge: nothing, a half or a whole cornerstone.

        A half has its long side on the straight of grain, so it serves as far as the cornerstone's centre;
        an edge further out needs whole ones, which it cuts through up to their points.
        """
        if not (self.sash and self.cornerstones) or self.beyond == -self.half_cornerstone:
            return "none"
        return "half" if self.beyond <= 0 else "whole"

    @property
    def cornerstone_count(self) -> int:
        """Whole cornerstones, those at the edge among them where they are sewn in whole."""
        return self.inner_cornerstones + (self.tips if self.tip_cornerstones == "whole" else 0)

    @property
    def half_cornerstones(self) -> int:
        """Triangles at the edge."""
        return self.tips if self.tip_cornerstones == "half" else 0

    @property
    def slanted_sashes(self) -> int:
        """Short sashes that end on the slant at the quilt's edge, where nothing is sewn to them."""
        if not self.sash or self.beyond != -self.half_cornerstone:
            return 0
        return 2 * self.tips - 4 if self.cornerstones else 2 * self.rows

    @cached_property
    def long_sash_end(self) -> Number:
        """How far a long sash runs on beyond the sash that it crosses last."""
        return max(Fraction(0), self.sash + min(Fraction(0), self.beyond) * ROOT2)

    def long_sash(self, row: int) -> Number:
        """Finished length of the long sash after block row `row`, to its furthest corner."""
        count = self.row_sashes(row)
        return count * self.block + (count - 1) * self.sash + 2 * self.long_sash_end
