"""From a person's sizes to a search in whole numbers, and from its plans to grids with their sizes."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.plugin import ROOT2, Cannot, Number, Surd, ceil_div, floor_div
from boltend_quilt_setting.grid_for_size_axis import Axis, Borders, Scale
from boltend_quilt_setting.grid_for_size_rank import Plan, Reach, Search, ranked

BlocksSet = Literal["straight", "on point"]

MOST_BLOCKS = 500
"""Blocks in one row: as many as a set takes."""
_LARGEST = 3000
"""Inches: more than the sums of the largest target, border and sash, and of a block more than is needed."""


@dataclass(frozen=True, slots=True)
class Grid:
    """`across` × `down` blocks, `blocks` in all (on point with the inner ones), bordered; finished inches.

    `over_width` and `over_height` are below 0 where it falls short.
    """

    across: int
    down: int
    blocks: int
    border_sides: Fraction
    border_ends: Fraction
    width: Number
    height: Number
    over_width: Number
    over_height: Number

    def row(self) -> dict[str, object]:
        """Its values by name."""
        return {name: getattr(self, name) for name in self.__slots__}


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked for; finished inches. `hair`: a miss up to this counts as exact on point, where √2 makes
    no whole steps.
    """

    target: tuple[Fraction, Fraction]
    block: tuple[Fraction, Fraction]
    sash: Fraction
    blocks_set: BlocksSet
    border_least: Fraction
    border_most: Fraction
    step: Fraction
    alike: bool
    hair: Fraction

    @property
    def on_point(self) -> bool:
        """Whether the blocks stand on a corner."""
        return self.blocks_set == "on point"

    def ranked(self, reach: Reach, most: int) -> tuple[list[Grid], int]:
        """The first `most` grids in their order, and how many there are in all.

        Raises `Cannot` for no border, too many blocks, or oblong blocks on point.
        """
        search, hair = self._search()
        plans, total = ranked(search, reach, hair, most)
        return [self._grid(plan, search.blocks(plan)) for plan in plans], total

    def bare(self) -> Grid:
        """The fewest blocks that cover the target without any border, whatever borders are allowed.

        Raises `Cannot` as `ranked` does; a row may be a few blocks longer than one that is bordered.
        """
        search, _ = self._search()
        plan = Plan(search.wide.least_count(0), search.high.least_count(0), 0, 0)
        return self._grid(plan, search.blocks(plan))

    def _search(self) -> tuple[Search, int]:
        low, high = ceil_div(self.border_least, self.step), floor_div(self.border_most, self.step)
        if low > high:
            why = "No whole number of border steps lies between the narrowest border and the widest."
            raise Cannot("border_most", why, "Widen the limits, or take a finer step.")
        if self.on_point and self.block[0] != self.block[1]:
            raise Cannot(
                "block_height", "Blocks on point are square.", "Leave it empty, or set them straight."
            )
        hair = self.hair if self.on_point else Fraction(0)
        scale = Scale.holding((*self.target, *self.block, self.sash, self.step, hair), _LARGEST)
        borders = Borders(low, high, scale.of(self.step))
        wide, high_ = (self._axis(at, borders, scale) for at in (0, 1))
        pitch = int((self.block[0] + self.sash) * scale.unit)
        lost = pitch * pitch * (2 * scale.one * scale.one - scale.root * scale.root) if self.on_point else 0
        return Search(wide, high_, self.alike, self.on_point, lost), scale.of(hair)

    def _axis(self, at: int, borders: Borders, scale: Scale) -> Axis:
        pitch, target = self.block[at] + self.sash, scale.of(self.target[at])
        if self.on_point:
            axis = Axis(target, scale.rooted(pitch), 0, borders)
        else:
            axis = Axis(target, scale.of(pitch), scale.of(self.sash), borders)
        if axis.least_count(borders.low) > MOST_BLOCKS:
            name = "block_height" if at and self.block[0] != self.block[1] else "block_width"
            raise Cannot(name, f"That takes more than {MOST_BLOCKS} blocks in a row.", "Take larger blocks.")
        return axis

    def _grid(self, plan: Plan, blocks: int) -> Grid:
        sides, ends = plan.sides * self.step, plan.ends * self.step
        width, height = (
            self._top(count, at) + 2 * border
            for at, (count, border) in enumerate(((plan.across, sides), (plan.down, ends)))
        )
        over = width - self.target[0], height - self.target[1]
        return Grid(plan.across, plan.down, blocks, sides, ends, width, height, *over)

    def _top(self, count: int, at: int) -> Fraction | Surd:
        if self.on_point:
            return count * (self.block[at] + self.sash) * ROOT2
        return count * (self.block[at] + self.sash) - self.sash
