"""One pool of fabric: all tabs' pieces on the same cloth are cut together."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from boltend.core.contract import Goods
from boltend.core.cutting import Bolt, Plan, Sheet, Stock, plan_pooled
from boltend.core.flow import Workbook
from boltend.core.pool.buying import Purchase, needed_length, purchase
from boltend.core.pool.cloths import Cloth, cloth_of, unnamed
from boltend.core.pool.demand import Demand, demand_of
from boltend.core.pool.heaps import Gathered, Heap, gather
from boltend.core.pool.printed import Printed, compare
from boltend.core.project.model import Tab
from boltend.core.values import KINDS, NotationError, Price, nearest, up


@dataclass(frozen=True)
class FabricPlan:
    """One fabric: what is cut from it and how, and what is bought.

    `separate` is what would be bought if every tab bought its own and nothing were in hand (inches, or
    pieces of a precut).
    `named` is no for the heap of a tab whose pieces name no fabric.
    """

    cloth: Cloth
    named: bool
    demand: Demand
    plan: Plan | None = None
    buy: Purchase = field(default_factory=Purchase)
    separate: Fraction = Fraction(0)
    printed: Printed | None = None
    troubles: tuple[str, ...] = ()


@dataclass(frozen=True)
class GoodsLine:
    """Something bought by the piece, for one tab."""

    tab: str
    goods: Goods
    cost: Price | None


@dataclass(frozen=True)
class Lists:
    """To cut and To buy of a whole project.

    `left_out` are the tabs aside or done, `missing` those that are not worked out: the lists are not whole
    without them. `total` adds what has a price; `unpriced` names what has none.
    """

    fabrics: tuple[FabricPlan, ...]
    goods: tuple[GoodsLine, ...]
    left_out: tuple[tuple[str, str], ...]
    missing: tuple[tuple[str, str], ...]
    copies: int
    total: Price | None
    unpriced: tuple[str, ...]
    troubles: tuple[str, ...] = ()


class Pool:
    """Makes the lists, and remembers the plan of each fabric as long as nothing of it changes."""

    def __init__(self) -> None:
        self._known: dict[object, Plan] = {}

    def lists(self, book: Workbook, tabs: Iterable[Tab] | None = None) -> Lists:
        """To cut and To buy as the project stands, or as these tabs alone would have them."""
        copies, trouble = _copies(book)
        gathered = gather(book, copies, tabs)
        before, self._known = self._known, {}
        fabrics = tuple(self._fabric(heap, book, before) for heap in gathered.heaps)
        goods = tuple(GoodsLine(tab, g, _goods_cost(g)) for tab, g in gathered.goods)
        return _with_total(fabrics, goods, gathered, copies, trouble, book.basis.settings.currency)

    def _fabric(self, heap: Heap, book: Workbook, before: dict[object, Plan]) -> FabricPlan:
        cloth = (
            unnamed(book.basis, heap.name)
            if heap.fabric is None
            else cloth_of(heap.fabric, book.project, book.basis, book.table)
        )
        demand = demand_of(heap, cloth)
        if cloth.troubles or demand.troubles:
            return FabricPlan(
                cloth, heap.fabric is not None, demand, troubles=(*cloth.troubles, *demand.troubles)
            )
        stock = stock_of(cloth, cloth.usable)
        if stock is None:
            return FabricPlan(cloth, heap.fabric is not None, demand, troubles=("squaring takes all of it.",))
        plan = self._plan(demand, stock, before)
        return FabricPlan(
            cloth=cloth,
            named=heap.fabric is not None,
            demand=demand,
            plan=plan,
            buy=purchase(cloth, plan),
            separate=self._separate(demand, cloth, stock, before),
            printed=self._printed(heap, cloth, plan, before),
            troubles=tuple(f"{u.count} of {u.part.name} cannot be cut: {u.why}." for u in plan.unplaced),
        )

    def _plan(self, demand: Demand, stock: Stock, before: dict[object, Plan]) -> Plan:
        key = tuple(map(tuple, demand.groups)), stock
        plan = self._known.get(key) or before.get(key) or plan_pooled(demand.groups, stock)
        self._known[key] = plan
        return plan

    def _separate(self, demand: Demand, cloth: Cloth, stock: Stock, before: dict[object, Plan]) -> Fraction:
        """What all tabs would buy if each bought for itself, and nothing were in hand."""
        total = Fraction(0)
        for group in demand.groups:
            plan = self._plan(Demand([group]), Stock((), stock.bolt) if stock.bolt else stock, before)
            if cloth.precut is not None:
                total += sum(plan.sheets_used.values())
            else:
                total += up(needed_length(cloth, plan.length_used), cloth.settings.buying_step)
        return total

    def _printed(self, heap: Heap, cloth: Cloth, plan: Plan, before: dict[object, Plan]) -> Printed | None:
        if cloth.printed is None or cloth.precut is not None:
            return None
        bare = (
            self._plan(demand_of(heap, cloth), Stock((), Bolt(cloth.usable)), before) if cloth.have else plan
        )

        def need_at(width: Fraction) -> Fraction:
            usable = width * (1 - cloth.settings.prewash_across / 100)
            other = plan_pooled(demand_of(heap, cloth, usable).groups, Stock((), Bolt(usable)))
            return needed_length(cloth, other.length_used)

        step, width = cloth.settings.buying_step, cloth.settings.usable_width
        return compare(cloth.printed, needed_length(cloth, bare.length_used), step, width, need_at)


def stock_of(cloth: Cloth, usable: Fraction) -> Stock | None:
    """What a cloth is cut from: what is in hand first, then what is bought. None: squaring leaves nothing."""
    if cloth.precut is not None:
        across, along = cloth.precut.width - cloth.squaring, cloth.precut.length - cloth.squaring
        if across <= 0 or along <= 0:
            return None
        in_hand = (
            (Sheet(f"{cloth.precut.name}, in hand", across, along, int(cloth.have)),) if cloth.have else ()
        )
        return Stock((*in_hand, Sheet(cloth.precut.name, across, along)), None)
    length = cloth.have * cloth.kept - cloth.squaring
    return Stock((Bolt(usable, length, "in hand"),) if length > 0 else (), Bolt(usable))


def _copies(book: Workbook) -> tuple[int, str]:
    raw = book.project.settings.get("copies", 1)
    try:
        copies = KINDS["count"].from_toml(raw, book.basis.how)
    except NotationError as error:
        return 1, f"the project's copies: {error}"
    return (copies, "") if copies >= 1 else (1, "the project's copies must be 1 or more.")


def _goods_cost(goods: Goods) -> Price | None:
    if goods.price_each is None:
        return None
    return Price(
        nearest(goods.price_each.amount * Fraction(goods.amount), Fraction(1, 100)), goods.price_each.currency
    )


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
    costs = [cost for _, cost in bought if cost is not None]
    return Lists(
        fabrics=fabrics,
        goods=goods,
        left_out=tuple(gathered.left_out),
        missing=tuple(gathered.missing),
        copies=copies,
        total=Price(sum((c.amount for c in costs), Fraction(0)), currency) if costs else None,
        unpriced=tuple(dict.fromkeys(name for name, cost in bought if cost is None)),
        troubles=(trouble,) if trouble else (),
    )
