"""One pool of fabric: all tabs' pieces on the same cloth are cut together."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction

from boltend.core.contract import Line
from boltend.core.cutting import Plan, Unplaced
from boltend.core.cutting.engine import EFFORT
from boltend.core.cutting.proofs import USUAL
from boltend.core.flow import Result, Workbook
from boltend.core.pool.buying import GoodsLine, Purchase, pooled_goods, purchase
from boltend.core.pool.cloths import Cloth, cloth_of
from boltend.core.pool.cutter import Cutter, Stopping, cut_here
from boltend.core.pool.demand import Demand, demand_of
from boltend.core.pool.heaps import Gathered, Heap, gather, open_fabrics
from boltend.core.pool.planner import Planner, Searching, stock_of
from boltend.core.pool.printed import Printed
from boltend.core.pool.snapshot import Snapshot, snapshot_of
from boltend.core.pool.uncut import blocks_uncut
from boltend.core.project.model import Tab
from boltend.core.values import KINDS, NotationError, Price


@dataclass(frozen=True)
class FabricPlan:
    """One fabric: what is cut from it and how, and what is bought.

    `alone` tells of each tab what it would buy if every tab bought its own and nothing were in hand (inches,
    or pieces of a precut), `separate` the sum. `named` is no for the heap of a tab whose pieces name no
    fabric: `chosen_as` has the labels of its givens that would name one. `at_widths` is what its one tab
    would buy of it at other usable widths (both inches). `whole` is no where something is not planned:
    `troubles` say what, or `plan.unplaced` does.
    """

    cloth: Cloth
    named: bool
    demand: Demand
    plan: Plan | None = None
    buy: Purchase = field(default_factory=Purchase)
    alone: tuple[tuple[str, Fraction], ...] = ()
    printed: Printed | None = None
    at_widths: tuple[tuple[Fraction, Fraction], ...] = ()
    troubles: tuple[str, ...] = ()
    chosen_as: tuple[str, ...] = ()

    @property
    def separate(self) -> Fraction:
        """What all tabs would buy if each bought its own, as `alone` has it."""
        return sum((amount for _, amount in self.alone), Fraction(0))

    @property
    def unplaced(self) -> tuple[Unplaced, ...]:
        """Pieces that the plan does not cut, and why."""
        return self.plan.unplaced if self.plan is not None else ()

    @property
    def whole(self) -> bool:
        """Whether all that is wanted of this fabric is planned."""
        return self.plan is not None and not self.plan.unplaced and not self.demand.troubles

    @property
    def notes(self) -> tuple[Line, ...]:
        """What the plan rests on: joins, and settings that tabs disagree about."""
        return (*self.cloth.notes, *self.demand.notes)


@dataclass(frozen=True)
class Lists:
    """To cut and To buy of a whole project.

    `left_out` are the tabs aside or done, `missing` those that are not worked out: the lists are not whole
    without them; `stopped` are those whose search was stopped early; `open` tells that a longer search may
    find less to buy; `blocks_uncut` that blocks are counted whose fabric no tab cuts. `total` adds what has
    a price in the project's currency; `unpriced` names what has none, `measured` the tabs that could buy
    something with a price and do not. `first` is what tabs have done before anything is cut.
    """

    fabrics: tuple[FabricPlan, ...]
    goods: tuple[GoodsLine, ...]
    left_out: tuple[tuple[str, str], ...]
    missing: tuple[tuple[str, str], ...]
    copies: int
    total: Price | None
    unpriced: tuple[str, ...]
    troubles: tuple[str, ...] = ()
    stopped: tuple[str, ...] = ()
    measured: tuple[str, ...] = ()
    open: bool = False
    blocks_uncut: bool = False
    first: tuple[tuple[str, Line | str], ...] = ()


class Pool:
    """Makes the lists, and remembers the plans of each fabric as long as nothing of it changes.

    A plan follows from the project alone, never from what was planned before: the same project always has
    the same lists. So plans of two projects are not set beside each other here; whoever does so (a ladder)
    takes `boltend.core.cutting.at_least` for the smaller one. `effort`,
    `units`, `cutter` and `stacks` are those of `Searching`.
    """

    def __init__(
        self, effort: int = EFFORT, units: int = USUAL, cutter: Cutter = cut_here, stacks: bool = True
    ) -> None:
        self.how = Searching(effort, units, cutter, stacks)
        self._known: dict[object, object] = {}

    def lists(self, book: Workbook, tabs: Iterable[Tab] | None = None) -> Lists:
        """To cut and To buy as the project stands, or as these tabs alone would have them."""
        return self.lists_of(snapshot_of(book, tabs))

    def lists_of(
        self,
        snapshot: Snapshot,
        job: Stopping | None = None,
        *,
        first: bool = False,
        hear: Callable[[str], None] = lambda _: None,
    ) -> Lists:
        """The same from a snapshot: safe in another thread, for it reads nothing that ever changes.

        With `job` it can be stopped: the plans are then the best so far, and are not remembered. With `first`
        it makes no long search, and `Lists.open` tells whether one could buy less. `hear` gets the name of
        each fabric when its turn comes.
        """
        copies, trouble = _copies(snapshot)
        gathered = gather(snapshot, copies)
        planner = Planner(self._known, job, self.how, first)
        fabrics = tuple(_fabric(heap, snapshot, planner, hear) for heap in gathered.heaps)
        self._known = planner.used  # at once, so that two threads at most plan something twice
        goods = pooled_goods(gathered.goods)
        currency = snapshot.basis.settings.currency
        lists = _with_total(fabrics, goods, gathered, copies, trouble, currency)
        return replace(lists, open=planner.open, blocks_uncut=blocks_uncut(snapshot))

    def close(self) -> None:
        """Let go of what the cutter holds; the pool can still be used."""
        end = getattr(self.how.cutter, "end", None)
        if end is not None:
            end()


def _fabric(heap: Heap, snapshot: Snapshot, planner: Planner, hear: Callable[[str], None]) -> FabricPlan:
    cloth, named = cloth_of(heap, snapshot), heap.fabric is not None
    hear(cloth.name)
    if cloth.hinders:
        return FabricPlan(cloth, named, Demand(), troubles=(*cloth.hinders, *cloth.troubles))
    stock = stock_of(cloth)
    if stock is None:
        return FabricPlan(
            cloth, named, Demand(), troubles=("squaring takes all of the cloth.", *cloth.troubles)
        )
    demand = demand_of(heap, cloth)
    tabs = [share.tab for share in heap.shares]
    plan = planner.pooled(demand, stock, cloth)
    return FabricPlan(
        cloth=cloth,
        named=named,
        demand=demand,
        plan=plan,
        buy=purchase(cloth, plan),
        alone=tuple(zip(tabs, planner.alone(demand, stock, cloth), strict=True)),
        printed=planner.printed(heap, cloth),
        troubles=(*cloth.troubles, *demand.troubles),
        at_widths=heap.shares[0].at_widths if len(tabs) == 1 else (),
        chosen_as=() if named else _chosen_as(snapshot.results[heap.shares[0].key]),
    )


def _chosen_as(result: Result) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.label for each in open_fabrics(result)))


def _copies(snapshot: Snapshot) -> tuple[int, str]:
    raw = snapshot.project.settings.get("copies", 1)
    try:
        copies = KINDS["count"].from_toml(raw, snapshot.basis.how)
    except NotationError as error:
        return 1, f"the project's copies: {error} The lists are for one."
    if copies < 1:
        return 1, "the project's copies must be 1 or more. The lists are for one."
    return copies, ""


def _with_total(
    fabrics: tuple[FabricPlan, ...],
    goods: tuple[GoodsLine, ...],
    gathered: Gathered,
    copies: int,
    trouble: str,
    currency: str,
) -> Lists:
    bought = [(f.cloth.name, f.buy.cost) for f in fabrics if f.buy.length or f.buy.packs]
    bought += [(line.goods.name, line.cost) for line in goods]
    # A plugin may price its goods in money of its own; no rate of exchange is known here.
    costs = [cost for _, cost in bought if cost is not None and cost.currency == currency]
    return Lists(
        fabrics=fabrics,
        goods=goods,
        left_out=tuple(gathered.left_out),
        missing=tuple(gathered.missing),
        copies=copies,
        total=Price(sum((c.amount for c in costs), Fraction(0)), currency) if costs else None,
        unpriced=tuple(
            dict.fromkeys(name for name, cost in bought if cost is None or cost.currency != currency)
        ),
        troubles=(trouble,) if trouble else (),
        stopped=tuple(gathered.stopped),
        measured=tuple(gathered.measured),
        first=tuple(gathered.first),
    )
