"""From a cutting plan to what is bought: squaring, prewash loss, the shop's step, packs and money."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.core.contract import Goods
from boltend.core.cutting import Plan
from boltend.core.pool.cloths import Cloth
from boltend.core.values import KINDS, Notation, Price, ceil_div, nearest, per_length, show_length, up
from boltend.core.values.units import INCHES, shown_unit

CENT = Fraction(1, 100)
YARD = Fraction(36)


@dataclass(frozen=True)
class Purchase:
    """What is bought of one cloth.

    `length` is what the shop cuts, `needed` what it must at least be (inches); of a precut `packs` are
    bought for the `pieces` that are missing. `have_used` is the length or the number of pieces taken from
    what is in hand. `cost` is None where there is no price. `least` tells that no way of cutting from edge
    to edge buys less.
    """

    needed: Fraction = Fraction(0)
    length: Fraction = Fraction(0)
    packs: int = 0
    pieces: int = 0
    have_used: Fraction = Fraction(0)
    cost: Price | None = None
    least: bool = False


def purchase(cloth: Cloth, plan: Plan) -> Purchase:
    """What must be bought for a plan."""
    if cloth.precut is not None:
        return _packs(cloth, plan)
    needed = needed_length(cloth, plan.length_used)
    length = up(needed, cloth.settings.buying_step)
    cost = _cost_of_length(cloth, length)
    return Purchase(
        needed=needed,
        length=length,
        have_used=_length_in_hand_used(cloth, plan),
        cost=cost,
        least=length == least_length(cloth, plan),
    )


def needed_length(cloth: Cloth, cut: Fraction) -> Fraction:
    """The least length to buy for a length that is cut: squared once, and with its prewash loss."""
    return (cut + cloth.squaring) / cloth.kept if cut else Fraction(0)


def least_length(cloth: Cloth, plan: Plan) -> Fraction:
    """What even the best way of cutting would have to buy, in inches and the shop's step."""
    return up(needed_length(cloth, plan.bound), cloth.settings.buying_step)


def _packs(cloth: Cloth, plan: Plan) -> Purchase:
    assert cloth.precut is not None  # asked by the caller
    have, each = int(cloth.have), cloth.precut.pieces
    used = sum(plan.sheets_used.values())
    missing, least = max(0, used - have), max(0, int(plan.bound) - have)
    packs = ceil_div(missing, each)
    cost = _money(cloth.price, cloth.price.amount * packs) if cloth.price else None
    return Purchase(
        packs=packs,
        pieces=missing,
        have_used=Fraction(min(used, have)),
        cost=cost,
        least=packs == ceil_div(least, each),
    )


def _length_in_hand_used(cloth: Cloth, plan: Plan) -> Fraction:
    cut = sum((each.length_used for each in plan.sheetplans if each.along is not None), Fraction(0))
    return min(cloth.have, (cut + cloth.squaring) / cloth.kept) if cut else Fraction(0)


def _cost_of_length(cloth: Cloth, length: Fraction) -> Price | None:
    if cloth.price is None:
        return None
    yard = per_length(cloth.price, "yard")
    return _money(cloth.price, yard.amount * length / YARD)


@dataclass(frozen=True)
class GoodsLine:
    """Something bought by the piece, for all the tabs that want the very same of it.

    The same is what has one name, unit and price, or no price where only one is said. Amounts are added;
    of goods that tell their exact part the
    parts are, and rounded up once, so that what one tab leaves on its last spool serves the next. `parts` are
    those of the tabs that tell one; `asked` is what each tab asks for, before any rounding, and `separate`
    what would be bought if every tab bought its own.
    """

    tabs: tuple[str, ...]
    goods: Goods
    parts: tuple[Fraction, ...] = ()
    separate: Fraction = Fraction(0)
    asked: tuple[Fraction, ...] = ()

    @property
    def cost(self) -> Price | None:
        """What it costs, to the cent; None where it has no price."""
        price = self.goods.price_each
        return None if price is None else _money(price, price.amount * Fraction(self.goods.amount))


def pooled_goods(wanted: Iterable[tuple[str, Goods]]) -> tuple[GoodsLine, ...]:
    """A line for all goods of one name, unit and price; without a price they take the only one said."""
    every = list(wanted)
    prices: dict[tuple[str, str], set[Price]] = {}
    for _, goods in every:
        if goods.price_each is not None:
            prices.setdefault((goods.name, goods.unit), set()).add(goods.price_each)
    kinds: dict[tuple[str, str, Price | None], dict[str, list[Goods]]] = {}
    for tab, goods in every:
        said = prices.get((goods.name, goods.unit), set())
        price = next(iter(said)) if len(said) == 1 else goods.price_each
        priced = replace(goods, price_each=price)
        kinds.setdefault((goods.name, goods.unit, price), {}).setdefault(tab, []).append(priced)
    return tuple(_line(by_tab) for by_tab in kinds.values())


def _line(by_tab: dict[str, list[Goods]]) -> GoodsLine:
    every = [goods for alike in by_tab.values() for goods in alike]
    parts = [part for alike in by_tab.values() if (part := _part(alike))]
    return GoodsLine(
        tabs=tuple(by_tab),
        goods=replace(every[0], amount=_amount(every), part=_part(every) or None),
        parts=tuple(parts),
        separate=sum((_amount(alike) for alike in by_tab.values()), Fraction(0)),
        asked=tuple(_whole(alike) + _part(alike) for alike in by_tab.values()),
    )


def _part(alike: Iterable[Goods]) -> Fraction:
    return sum((Fraction(goods.part) for goods in alike if goods.part is not None), Fraction(0))


def _amount(alike: Iterable[Goods]) -> Fraction:
    """What is bought of goods that are the same: parts together up to a whole one, and the other amounts."""
    alike = tuple(alike)
    return _whole(alike) + up(_part(alike), 1)


def _whole(alike: Iterable[Goods]) -> Fraction:
    return sum((Fraction(goods.amount) for goods in alike if goods.part is None), Fraction(0))


def _money(price: Price, amount: Fraction) -> Price:
    return Price(nearest(amount, CENT), price.currency)


def amount_words(goods: Goods, amount: Fraction, how: Notation) -> str:
    """`1 spool`, `2 spools`, `1 1/2 yd` as cloth is written."""
    if goods.unit in INCHES and shown_unit(goods.unit, how) == goods.unit:
        return show_length(amount * INCHES[goods.unit], how, goods.unit)
    unit = goods.unit if amount <= 1 else units_of(goods)
    return f"{KINDS['number'].show(amount, how)} {unit}".strip()


def units_of(goods: Goods) -> str:
    """More than one of a unit: as the goods say it, or with an s; yd, m and what ends in s stay."""
    if goods.units or goods.unit in INCHES or goods.unit.endswith("s"):
        return goods.units or goods.unit
    return goods.unit + ("es" if goods.unit.endswith(("x", "ch", "sh")) else "s")
