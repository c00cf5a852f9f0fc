"""Which grids so many blocks make, and in which order they are offered."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import Literal

from boltend.plugin import ceil_div, floor_div

Shape = Literal["any", "square", "near square", "tall", "wide"]

NEAR = Fraction(5, 4)
"""Near square: the longer side is at most this many times the shorter. Ours, no source."""
LONG = Fraction(2)
"""A quilt longer than this many times its width is rather a runner. Ours, no source."""


@dataclass(frozen=True)
class Block:
    """What stands in the grid: finished block, sash between blocks, border on each side; inches."""

    width: Fraction
    height: Fraction
    sash: Fraction
    border: Fraction

    def size(self, across: int, down: int) -> tuple[Fraction, Fraction]:
        """Finished width and height of a quilt of so many blocks."""
        edge = 2 * self.border - self.sash
        return across * (self.width + self.sash) + edge, down * (self.height + self.sash) + edge

    def turned(self) -> "Block":
        """The same with width and height exchanged."""
        return Block(self.height, self.width, self.sash, self.border)


@dataclass(frozen=True)
class Grid:
    """`across` × `down` blocks, the finished size that they make, and the blocks left over."""

    across: int
    down: int
    width: Fraction
    height: Fraction
    spare: int

    @property
    def proportion(self) -> Fraction:
        """The longer side over the shorter: 1 is square."""
        return max(self.width, self.height) / min(self.width, self.height)


def grids(blocks: int, block: Block, shape: Shape) -> list[Grid]:
    """Every grid of the shape that no other one within the blocks beats both ways, best first.

    The order: first near squares, then quilts up to twice as long as wide, in both fewest blocks left over
    before nearest to square; then runners, nearest to square first; of equals tall before wide. Proportion
    goes first because 31 blocks leave none over only as a strip one block wide, which nobody wants before
    5 × 6 with one left over; and of runners for the same reason.

    A grid within n blocks has at most √n of them one way or the other, so twice √n grids are looked at.
    """
    made = [_grid(blocks, block, across, down) for across, down in _candidates(blocks, block, shape)]
    return sorted(_unbeaten(made), key=_order)


def _grid(blocks: int, block: Block, across: int, down: int) -> Grid:
    width, height = block.size(across, down)
    return Grid(across, down, width, height, blocks - across * down)


def _candidates(blocks: int, block: Block, shape: Shape) -> Iterator[tuple[int, int]]:
    side = isqrt(blocks)
    on_its_side: dict[Shape, Shape] = {"tall": "wide", "wide": "tall"}
    for across in range(1, side + 1):
        if down := _most_down(blocks, block, across, shape):
            yield across, down
    for down in range(1, side + 1):
        if across := _most_down(blocks, block.turned(), down, on_its_side.get(shape, shape)):
            yield across, down


def _most_down(blocks: int, block: Block, across: int, shape: Shape) -> int:
    """The most blocks down, for so many across, that keep the shape; 0 where none do."""
    width, _ = block.size(across, 1)
    most = blocks // across
    edge, pitch = 2 * block.border - block.sash, block.height + block.sash
    if shape == "wide":
        most = min(most, ceil_div(width - edge, pitch) - 1)
    elif shape != "any" and shape != "tall":
        most = min(most, floor_div(width * (NEAR if shape == "near square" else 1) - edge, pitch))
    _, height = block.size(across, most)
    return most if most > 0 and _has(shape, width, height) else 0


def _has(shape: Shape, width: Fraction, height: Fraction) -> bool:
    if shape == "square":
        return width == height
    if shape == "near square":
        return max(width, height) <= NEAR * min(width, height)
    if shape == "tall":
        return width < height
    return shape == "any" or width > height


def _unbeaten(made: list[Grid]) -> list[Grid]:
    """Without those that another is at least as large as both ways."""
    kept: list[Grid] = []
    for grid in sorted(made, key=lambda g: (-g.across, -g.down)):
        if not kept or grid.down > kept[-1].down:
            kept.append(grid)
    return kept


def _order(grid: Grid) -> tuple[int, Fraction, Fraction, int]:
    proportion, spare = grid.proportion, Fraction(grid.spare)
    # Of two grids alike in all else the one with fewer across is the tall one.
    if proportion > LONG:
        return 2, proportion, spare, grid.across
    return int(proportion > NEAR), spare, proportion, grid.across
