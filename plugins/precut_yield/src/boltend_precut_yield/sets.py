"""How many whole sets of pieces come out of one precut."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.plugin import (
    CuttingPlan,
    Job,
    Part,
    Sheet,
    Stock,
    Yield,
    cutting_plan,
    floor_div,
    yield_of,
)
from boltend_precut_yield.precut_sheet import PrecutSheet

LAST_TRY = 60
"""Pieces up to which one set more is sought at length: a larger search is slow and rarely finds it."""


@dataclass(frozen=True, slots=True)
class Sets:
    """`each` whole sets out of one precut, or, where that is none, one set out of `precuts` of them.

    `layout` is how these are cut; `by_area` is what the area of one precut would promise.
    """

    each: int
    precuts: int
    by_area: int
    layout: Yield | CuttingPlan


def area_of(parts: Sequence[Part]) -> Fraction:
    """Square inches of all pieces of one set."""
    return sum((part.across * part.along * part.count for part in parts), Fraction(0))


def most_sets(parts: Sequence[Part], sheet: PrecutSheet, job: Job | None) -> Sets | None:
    """The most sets that this search finds in one precut; None where a piece of it fits no precut.

    Pieces of one size are cut by the exact yield, several by the engine's plan for one precut: first the most
    sets that a quick plan holds, then, while they are few pieces, a set more by a longer search.
    """
    usable = sheet.usable
    by_area = floor_div(usable[0] * usable[1], area_of(parts))
    alone = _one_size(parts, usable)
    if alone is not None and alone.pieces >= (count := sum(part.count for part in parts)):
        return Sets(alone.pieces // count, 1, by_area, alone)
    search = _Search(parts, usable, job)
    each = search.quick(by_area)
    while each < by_area and search.pieces * (each + 1) <= LAST_TRY and search.fits(each + 1, at_length=True):
        each += 1
    if each and search.best is not None:
        return Sets(each, 1, by_area, search.best)
    across = cutting_plan(list(parts), Stock((Sheet(sheet.name, *usable),)), search.quiet)
    if across.unplaced:
        return None
    return Sets(0, sum(across.sheets_used.values()), by_area, across)


def _one_size(parts: Sequence[Part], usable: tuple[Fraction, Fraction]) -> Yield | None:
    sizes = {(part.across, part.along, part.may_turn) for part in parts}
    return yield_of(sizes.pop(), usable) if len(sizes) == 1 else None


class _Quiet:
    """Passes the wish to stop on to the engine; its plans are no answers of ours, so they stay here."""

    def __init__(self, job: Job | None) -> None:
        self.job = job

    def stopped(self) -> bool:
        return self.job is not None and self.job.stopped()

    def better(self, answer: object, bound: object) -> None:
        """Nobody waits for a plan."""


class _Search:
    """Tries numbers of sets, and keeps the plan of the most that fit."""

    def __init__(self, parts: Sequence[Part], usable: tuple[Fraction, Fraction], job: Job | None) -> None:
        self.parts, self.quiet = parts, _Quiet(job)
        self.stock = Stock((Sheet("precut", *usable, 1),))
        self.pieces = sum(part.count for part in parts)
        self.best: CuttingPlan | None = None

    def quick(self, most: int) -> int:
        """The most sets, by halving; a plan that fits is proof, one that does not is taken as a no."""
        low = 0
        while low < most and not self.quiet.stopped():
            middle = (low + most + 1) // 2
            if self.fits(middle, at_length=False):
                low = middle
            else:
                most = middle - 1
        return low

    def fits(self, sets: int, *, at_length: bool) -> bool:
        """Whether a plan is found for so many sets."""
        if self.quiet.stopped():
            return False
        parts = [replace(part, count=part.count * sets) for part in self.parts]
        plan = (
            cutting_plan(parts, self.stock, self.quiet)
            if at_length
            else cutting_plan(parts, self.stock, effort=0)
        )
        if plan.unplaced:
            return False
        self.best = plan
        return True
