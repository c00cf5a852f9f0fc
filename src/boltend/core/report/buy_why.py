"""Why so much is bought of one thing, line by line: what tabs ask for, what is in hand, each rounding."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from boltend.core.cutting import Part, Plan
from boltend.core.pool import FabricPlan, GoodsLine
from boltend.core.pool.buying import amount_words, units_of
from boltend.core.report.list_steps import say_length, say_size
from boltend.core.report.words import say_line
from boltend.core.values import KINDS, Notation, Price, decimal_text, up


@dataclass(frozen=True)
class Why:
    """One line; `tab` is the name of the tab that it is about, where it is about one."""

    words: str
    tab: str = ""


def say_price(price: Price | None, how: Notation) -> str:
    """A price as text; nothing where there is none."""
    return "" if price is None else str(KINDS["price"].show(price, how))


def fabric_why(fabric: FabricPlan, how: Notation) -> Iterator[Why]:
    """The working of one fabric, from what the tabs ask for to what it costs; none where it is not planned.

    Lengths are exact, as the plan has them: inches of the bolt along its selvage.
    """
    if fabric.plan is None:
        return
    said = say_length if fabric.cloth.precut is None else None
    for (tab, alone), group in zip(fabric.alone, fabric.demand.groups, strict=True):
        amount = said(alone, how, "yd") if said else _pieces(alone)
        yield Why(f"“{tab}” asks for (alone it would take {amount}):", tab)
        yield from (Why(each, tab) for each in _parts(fabric, group, how))
    yield from (Why(say_line(note, how)) for note in fabric.notes)
    yield from map(Why, _precut_sum(fabric) if fabric.cloth.precut else _bolt_sum(fabric, how))
    buy, price = fabric.buy, fabric.cloth.price
    if (buy.length or buy.packs) and price is not None and buy.cost is not None:
        bought = say_length(buy.length, how, "yd") if said else _packs(fabric)
        yield Why(f"{bought} × {say_price(price, how)} = {say_price(buy.cost, how)}")


def _parts(fabric: FabricPlan, group: list[Part], how: Notation) -> Iterator[str]:
    """`30 × cornerstone: 2 in × 2 in`, and strips of what is sewn from several."""
    for part in group:
        use = fabric.demand.uses[part.name]
        what = f"strip of {use.name}" if use.run and "strip" not in use.name else use.name
        yield f"{part.count} × {what}: {say_size(part.across, part.along, how)}"


def _bolt_sum(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    plan, cloth, buy = fabric.plan, fabric.cloth, fabric.buy
    assert plan is not None  # asked by the caller
    step = cloth.settings.buying_step
    if cloth.have:
        used = f"{say_length(buy.have_used, how)} of it are used" if buy.have_used else "none of it is of use"
        square = f", {say_length(cloth.squaring, how)} of that to square its end" if _squared(fabric) else ""
        yield f"In hand {say_length(cloth.have, how, 'yd')}: {used}{square}"
    if not buy.length:
        yield "Nothing is cut off the bolt: nothing to buy"
        return
    together = "Cut together off the bolt" if len(fabric.alone) > 1 else "Cut off the bolt"
    yield f"{together}: {_strips(plan, how)}{say_length(plan.length_used, how)}, along the selvage"
    length = plan.length_used + cloth.squaring
    if cloth.squaring:
        parts = f"{say_length(plan.length_used, how)} + {say_length(cloth.squaring, how)}"
        yield f"With the squaring of the end: {parts} = {say_length(length, how)}"
    if cloth.kept != 1:
        loss = KINDS["percent"].show(cloth.settings.prewash_along, how)
        yield f"Before the wash, which takes {loss}: {say_length(buy.needed, how)}"
    bought = say_length(buy.length, how, "yd")
    exact = f" ({say_length(buy.length, how)})" if say_length(buy.length, how) != bought else ""
    yield f"Up to the next {say_length(step, how, 'yd')} of the shop: {bought}{exact}"
    if len(fabric.alone) > 1:
        each = " + ".join(say_length(alone, how, "yd") for _, alone in fabric.alone)
        yield f"Each tab on its own, and nothing in hand: {each} = {say_length(fabric.separate, how, 'yd')}"


def _strips(plan: Plan, how: Notation) -> str:
    """`2 strips × 6 7/8 in + 7 strips × 2 1/4 in = `: what the length is made of, unless it is one strip."""
    counts = Counter[Fraction]()
    for each in plan.sheetplans:
        if each.along is None:
            counts.update({strip.width: strip.times for strip in each.strips})
    if counts.total() == 1:
        return ""
    said = (
        f"{count} {'strip' if count == 1 else 'strips'} × {say_length(width, how)}"
        for width, count in sorted(counts.items(), reverse=True)
    )
    return f"{' + '.join(said)} = "


def _squared(fabric: FabricPlan) -> bool:
    return bool(fabric.buy.have_used and fabric.cloth.squaring)


def _precut_sum(fabric: FabricPlan) -> Iterator[str]:
    precut, buy = fabric.cloth.precut, fabric.buy
    assert precut is not None  # asked by the caller
    hand = int(buy.have_used)
    yield f"Cut into, all tabs together: {_pieces(buy.pieces + hand)}"
    if fabric.cloth.have:
        yield f"In hand {int(fabric.cloth.have)}, of which {hand} are used: {_pieces(buy.pieces)} to buy"
    if buy.packs and precut.pieces > 1:
        yield f"{precut.pieces} in a pack, up to whole packs: {_packs(fabric)}"


def _packs(fabric: FabricPlan) -> str:
    precut, packs = fabric.cloth.precut, fabric.buy.packs
    unit = "piece" if precut is not None and precut.pieces == 1 else "pack"
    return f"{packs} {unit}{'' if packs == 1 else 's'}"


def _pieces(count: Fraction | int) -> str:
    return f"{count} {'piece' if count == 1 else 'pieces'}"


def goods_why(line: GoodsLine, how: Notation) -> Iterator[Why]:
    """The working of something that is bought by the piece."""
    goods = line.goods
    for tab, asked in zip(line.tabs, line.asked, strict=True):
        yield Why(f"“{tab}” asks for {_of(asked, line, how)}", tab)
    total, amount = sum(line.asked, Fraction(0)), Fraction(goods.amount)
    bought = amount_words(goods, amount, how)
    if total != amount:
        yield Why(f"Together {_of(total, line, how)}, up to whole ones: {bought}")
    if line.separate > amount:
        yield Why(f"Each tab on its own: {amount_words(goods, line.separate, how)}")
    if line.cost is not None:
        yield Why(f"{bought} × {say_price(goods.price_each, how)} = {say_price(line.cost, how)}")


def _of(amount: Fraction, line: GoodsLine, how: Notation) -> str:
    """`1 spool`, `≈ 0.42 of a spool`: up to a hundredth, since it must cover."""
    if line.goods.part is None:
        return amount_words(line.goods, amount, how)
    shown = up(amount, Fraction(1, 100))
    unit = f"of a {line.goods.unit}" if amount <= 1 else units_of(line.goods)
    return f"{'' if shown == amount else '≈ '}{decimal_text(shown, 2)} {unit}"
