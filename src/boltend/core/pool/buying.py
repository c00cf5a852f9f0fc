"""From a cutting plan to what is bought: squaring, prewash loss, the shop's step, packs and money."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.core.contract import Goods
from boltend.core.cutting import Plan
from boltend.core.pool.cloths import Cloth
from boltend.core.values import Price, ceil_div, nearest, per_length, up

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


def pooled_goods(wanted: Iterable[tuple[str, Goods]]) -> list[tuple[tuple[str, ...], Goods]]:
    """Goods of one name, unit and price made one, their amounts added; with the tabs that want them.

    An amount is all that goods tell, already whole where they are sold whole: what two tabs leave on their
    last spools is not shared.
    """
    kinds: dict[tuple[str, str, Price | None], list[tuple[str, Goods]]] = {}
    for tab, goods in wanted:
        kinds.setdefault((goods.name, goods.unit, goods.price_each), []).append((tab, goods))
    return [
        (
            tuple(dict.fromkeys(tab for tab, _ in alike)),
            replace(alike[0][1], amount=sum((Fraction(goods.amount) for _, goods in alike), Fraction(0))),
        )
        for alike in kinds.values()
    ]


def goods_cost(goods: Goods) -> Price | None:
    """What goods cost, to the cent; None where they have no price."""
    price = goods.price_each
    return None if price is None else _money(price, price.amount * Fraction(goods.amount))


def _money(price: Price, amount: Fraction) -> Price:
    return Price(nearest(amount, CENT), price.currency)
