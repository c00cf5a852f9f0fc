"""Plans for heaps of fabric, remembered as long as nothing of them changes."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.core.cutting import Aim, AtMost, Bolt, Plan, Proof, Sheet, Steps, Stock, plan_pooled
from boltend.core.cutting.engine import EFFORT
from boltend.core.cutting.proofs import USUAL
from boltend.core.pool.buying import least_length, needed_length
from boltend.core.pool.cloths import Cloth, at_width
from boltend.core.pool.cutter import CutTask, Cutter, Groups, Quiet, Stopping, cut_here
from boltend.core.pool.demand import Demand, demand_of
from boltend.core.pool.heaps import Heap
from boltend.core.pool.printed import Printed, compare
from boltend.core.values import up

IN_HAND = "in hand"
"""The name of a length in hand, in a plan's steps and leftovers."""

SHORT_SEARCH = 15_000
"""Steps of a search (see `boltend.core.cutting.plan`): about a sixteenth of a whole one."""


@dataclass(frozen=True)
class Searching:
    """How plans are searched for.

    `effort` and `units` stand for time, as in `cutting.plan` and `Proof`: for good plans, and for the proof
    of each (0: none is looked for). `cutter` makes the plans that may take long; without `stacks` strips are
    simple ones.
    """

    effort: int = EFFORT
    units: int = USUAL
    cutter: Cutter = cut_here
    stacks: bool = True


class Planner:
    """Makes plans; `known` holds those of before by what they were made from, `used` those of this time.

    With `first` no long search is made; `open` then tells that one would be.
    """

    def __init__(
        self,
        known: dict[object, object],
        job: Stopping | None = None,
        how: Searching | None = None,
        first: bool = False,
    ) -> None:
        self.known, self.used = known, dict[object, object]()
        self.how = how or Searching()
        self.first, self.open = first, False
        self.job = job
        self.quiet = None if job is None else Quiet(job)

    def pooled(self, demand: Demand, stock: Stock, cloth: Cloth) -> Plan:
        """The plan of all tabs together. Where a yardage is printed the plan must be good to the inch."""
        return self._plan(demand.groups, stock, cloth, to_the_inch=cloth.printed is not None)

    def alone(self, demand: Demand, stock: Stock, cloth: Cloth) -> list[Fraction]:
        """What each tab would buy if it bought for itself, and nothing were in hand: inches or sheets."""
        bare = Stock((), stock.bolt) if stock.bolt else stock
        plans = [self._plan([group], bare, cloth) for group in demand.groups]
        if cloth.precut is not None:
            return [Fraction(plan.answer) for plan in plans]
        return [up(needed_length(cloth, plan.length_used), cloth.settings.buying_step) for plan in plans]

    def printed(self, heap: Heap, cloth: Cloth) -> Printed | None:
        """How the printed yardage compares with what is cut off a bolt, nothing being in hand."""
        if cloth.printed is None or cloth.precut is not None:
            return None
        printed = cloth.printed
        bare = self._bare(heap, cloth)
        if bare.unplaced:
            return None  # what cannot be cut at all is no matter of yards; the list tells of it
        needed = needed_length(cloth, bare.length_used)
        as_wide = any(piece.across == cloth.usable for share in heap.shares for piece in share.pieces)
        made_for = cloth.settings.usable_width if as_wide else None
        return compare(
            printed, needed, cloth.settings, lambda at: self._enough(heap, at_width(cloth, at)), made_for
        )

    def _bare(self, heap: Heap, cloth: Cloth) -> Plan:
        groups = demand_of(heap, cloth).groups
        return self._plan(groups, Stock((), Bolt(cloth.usable)), cloth, to_the_inch=True)

    def _enough(self, heap: Heap, cloth: Cloth) -> bool:
        """Whether the printed length is enough of this cloth, for all that fits its width."""
        groups, stock = demand_of(heap, cloth).groups, Stock((), Bolt(cloth.usable))
        key = ("enough", tuple(map(tuple, groups)), stock, cloth.printed, cloth.squaring, cloth.kept)
        return bool(self._once(key, lambda: self._is_enough(groups, stock, cloth)))

    def _is_enough(self, groups: Groups, stock: Stock, cloth: Cloth) -> bool:
        printed = cloth.printed or Fraction(0)
        quick = self._quick(groups, stock, 0)
        if quick.unplaced or needed_length(cloth, quick.bound) > printed:
            return False
        if needed_length(cloth, quick.length_used) <= printed:
            return True
        best = self._long(groups, stock, AtMost(printed * cloth.kept - cloth.squaring)) or quick
        return needed_length(cloth, best.length_used) <= printed

    def _plan(self, groups: Groups, stock: Stock, cloth: Cloth, *, to_the_inch: bool = False) -> Plan:
        key = (tuple(map(tuple, groups)), stock, to_the_inch, cloth.squaring, cloth.kept,
               cloth.settings.buying_step)  # fmt: skip
        found = self._once(key, lambda: self._search(groups, stock, cloth, to_the_inch))
        assert isinstance(found, Plan)  # the key is a plan's
        return found

    def _search(self, groups: Groups, stock: Stock, cloth: Cloth, to_the_inch: bool) -> Plan:
        """Search long only where it can pay: not where a short search buys the least that there can be.

        The short search comes first all the same: shorter plans leave larger pieces over.
        """
        steps = None if cloth.precut else Steps(cloth.settings.buying_step, cloth.squaring, cloth.kept)
        for effort in (0, min(SHORT_SEARCH, self.how.effort)):
            quick = self._quick(groups, stock, effort)
            if quick.proved or (effort and not to_the_inch and _buys_least(quick, cloth)):
                return replace(quick, steps=steps)
        best = self._long(groups, stock, None if to_the_inch else steps) or quick
        return replace(best, steps=steps)

    def _long(self, groups: Groups, stock: Stock, aim: Aim | None) -> Plan | None:
        """Search as long as it may take; not in a first round, which only notes that there is more to do."""
        if self.first:
            self.open = True
            return None
        proof = Proof(self.how.units, aim) if self.how.units else None
        task = CutTask(tuple(map(tuple, groups)), stock, self.how.effort, proof, self.how.stacks)
        return self.how.cutter(task, self.job)

    def _quick(self, groups: Groups, stock: Stock, effort: int) -> Plan:
        return plan_pooled(groups, stock, self.quiet, stacks=self.how.stacks, effort=effort)

    def _once(self, key: object, make: Callable[[], object]) -> object:
        found = self.used.get(key)
        if found is None:
            found = self.known.get(key)
        if found is None:
            before, self.open = self.open, False
            found = make()
            more, self.open = self.open, self.open or before
            early = isinstance(found, Plan) and found.stopped
            if more or early or (self.job is not None and self.job.stopped()):
                return found  # it is shown, not kept
        self.used[key] = found
        return found


def _buys_least(plan: Plan, cloth: Cloth) -> bool:
    if cloth.precut is not None:
        return False  # a whole sheet left over is worth more than the time
    bought = up(needed_length(cloth, plan.length_used), cloth.settings.buying_step)
    return bought == least_length(cloth, plan)


def stock_of(cloth: Cloth) -> Stock | None:
    """What a cloth is cut from: a length in hand first, then the bolt. None: squaring leaves nothing.

    Pieces of a precut are all alike, so that those in hand are not told from those to buy.
    """
    room = cloth.room
    if room.across <= 0 or (room.along is not None and room.along <= 0):
        return None
    if cloth.precut is not None:
        assert room.along is not None  # a precut has a length
        return Stock((Sheet(cloth.precut.name, room.across, room.along),), None)
    length = cloth.have * cloth.kept - cloth.squaring
    return Stock((Bolt(room.across, length, IN_HAND),) if length > 0 else (), Bolt(room.across))
