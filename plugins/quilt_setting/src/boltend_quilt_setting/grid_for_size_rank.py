"""All grids that reach a target, and the order in which they are offered."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from heapq import nsmallest
from typing import Literal, NamedTuple

from boltend_quilt_setting.grid_for_size_axis import Axis

Reach = Literal["exactly", "at least", "nearest"]

AT_LEAST_ORDER = (
    "order: least area over the target first, then sides and ends most alike, then the narrower border, then "
    "fewer blocks, then tall before wide"
)
NEAREST_ORDER = (
    "order: the larger of the two misses least first, then their sum, then less of it too small, then sides "
    "and ends most alike, then the narrower border, then fewer blocks, then tall before wide"
)
"""Cloth that nobody asked for comes first: it is bought, quilted and bound. A narrow border is blocks
instead, and the blocks are what the quilt is about; whoever wants fewer sets the least border higher."""


class Plan(NamedTuple):
    """So many blocks each way, and borders of so many steps at the sides and at the ends."""

    across: int
    down: int
    sides: int
    ends: int


@dataclass(frozen=True, slots=True)
class Search:
    """What grids are made from: both directions, and whether sides and ends are alike.

    `inner`: whether there are blocks between those counted, as on point. `lost`: what the product of the two
    pitches lacks because a root was rounded, 0 where there is none.
    """

    wide: Axis
    high: Axis
    alike: bool
    inner: bool
    lost: int = 0

    def blocks(self, plan: Plan) -> int:
        """All blocks."""
        return plan.across * plan.down + self.inner * (plan.across - 1) * (plan.down - 1)

    def over(self, plan: Plan) -> tuple[int, int]:
        """How much wider and higher than the target it is."""
        return self.wide.over(plan.across, plan.sides), self.high.over(plan.down, plan.ends)

    def by_cover(self, plan: Plan) -> tuple[int, ...]:
        """The rank of what covers: its area, then its looks."""
        over_width, over_height = self.over(plan)
        area = (self.wide.target + over_width) * (self.high.target + over_height)
        return area + plan.across * plan.down * self.lost, *self._looks(plan)

    def by_miss(self, plan: Plan) -> tuple[int, ...]:
        """The rank of what comes near: the larger miss, their sum, how much is short, then its looks."""
        overs = self.over(plan)
        misses = [abs(over) for over in overs]
        return max(misses), sum(misses), sum(-over for over in overs if over < 0), *self._looks(plan)

    def _looks(self, plan: Plan) -> tuple[int, ...]:
        """Of grids as good in size: most alike, narrower, fewer blocks, and at last the tall one."""
        return abs(plan.sides - plan.ends), plan.sides + plan.ends, self.blocks(plan), plan.across


def ranked(search: Search, reach: Reach, hair: int, most: int) -> tuple[list[Plan], int]:
    """The first `most` plans in their order, and how many there are in all.

    A miss up to `hair` counts as exact.
    """
    order: Callable[[Plan], tuple[int, ...]] = search.by_miss
    if reach == "at least":
        plans, order = list(_reaching(search)), search.by_cover
    elif reach == "nearest":
        plans = list(_near(search))
    else:
        plans = [p for p in _near(search) if max(map(abs, search.over(p))) <= hair]
    return nsmallest(most, plans, key=order), len(plans)


def _reaching(search: Search) -> Iterator[Plan]:
    """Every plan from which nothing can be taken: no row, no column, no step of a border."""
    wide, high = list(search.wide.reaching()), list(search.high.reaching())
    if not search.alike:
        for across, sides in wide:
            for down, ends in high:
                yield Plan(across, down, sides, ends)
        return
    # One direction or the other needs this border, and each has the fewest blocks for it.
    for steps in {steps for _, steps in (*wide, *high)}:
        yield Plan(search.wide.least_count(steps), search.high.least_count(steps), steps, steps)


def _near(search: Search) -> Iterator[Plan]:
    """Every count of blocks that may come near, each with the border that comes nearest."""
    wide, high = search.wide, search.high
    if not search.alike:
        ends = {down: high.nearest(down) for down in high.near()}
        for across in wide.near():
            sides = wide.nearest(across)
            for down, end in ends.items():
                yield Plan(across, down, sides, end)
        return
    for across in wide.near():
        for down in high.near():
            # The larger miss grows both ways from where the two are as large: one of two borders is best.
            needed = wide.borders.about(-wide.over(across, 0) - high.over(down, 0), 4)
            yield min((Plan(across, down, b, b) for b in needed), key=search.by_miss)
