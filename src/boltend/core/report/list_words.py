"""To cut and To buy as words: what every printed form and the shell show, each in its own way."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.core.cutting import Kind, Leftover, Plan, claim_of, standing_of
from boltend.core.drawing import CutPicture, cut_pictures
from boltend.core.pool import FabricPlan, GoodsLine, Lists
from boltend.core.pool.buying import amount_words, units_of
from boltend.core.pool.planner import IN_HAND
from boltend.core.pool.printed import Printed
from boltend.core.report.buy_why import Why, fabric_why, goods_why, say_price
from boltend.core.report.list_steps import STACKS, cut_steps, say_length, say_size, use_names
from boltend.core.report.near import say_near
from boltend.core.report.price_places import PricePlace, place_of_fabric, place_of_goods
from boltend.core.report.price_words import no_fabric, no_price_of_goods
from boltend.core.report.words import say_line
from boltend.core.values import KINDS, Notation, decimal_text, down, up

NOT_WHOLE = "not whole"
"""Beside a total that something is missing from."""


@dataclass(frozen=True)
class CutSheet:
    """One fabric to cut: the steps in order with pictures, which pieces they are, and what is left.

    `of_fabric` is no for what is done before any is cut.
    """

    title: str
    facts: tuple[str, ...]
    steps: tuple[str, ...]
    pieces: tuple[str, ...]
    leftovers: tuple[str, ...]
    notes: tuple[str, ...]
    pictures: tuple[CutPicture, ...] = ()
    of_fabric: bool = True


@dataclass(frozen=True)
class BuyRow:
    """One thing to buy, or to take from what is in hand."""

    what: str
    amount: str
    price: str
    cost: str
    notes: tuple[str, ...] = ()
    why: tuple[Why, ...] = ()
    priced: PricePlace | None = None


@dataclass(frozen=True)
class BuySheet:
    """All that is bought, with the total and what it leaves out; `whole` is no where something is missing."""

    rows: tuple[BuyRow, ...]
    total: str
    notes: tuple[str, ...]
    whole: bool = True

    @property
    def total_row(self) -> BuyRow:
        """The last row: what all of it costs, or all of what is there."""
        return BuyRow("Total", "" if self.whole else NOT_WHOLE, "", self.total)

    def without_price(self, but: BuyRow) -> tuple[BuyRow, ...]:
        """The other rows that are bought without a price, and whose price is said as that of a row."""
        place = but.priced
        return tuple(
            row for row in self.rows
            if place is not None and row != but
            and row.priced is not None and row.priced.lacking and row.priced.is_like(place)
        )  # fmt: skip


def cut_sheets(lists: Lists, how: Notation) -> tuple[CutSheet, ...]:
    """What is done first of all, then a sheet for each fabric, in the order in which tabs first name them."""
    said = tuple(first_steps(lists, how))
    first = (CutSheet(BEFORE, (), said, (), (), (), of_fabric=False),) if said else ()
    return (*first, *(_cut_sheet(fabric, how) for fabric in lists.fabrics))


def first_steps(lists: Lists, how: Notation) -> Iterator[str]:
    """What is done before anything is cut, tab by tab."""
    yield from (f"For “{tab}”: {say_line(words, how)}." for tab, words in lists.first)


def _cut_sheet(fabric: FabricPlan, how: Notation) -> CutSheet:
    plan, troubles = fabric.plan, tuple(fabric_troubles(fabric, how))
    if plan is None:
        return CutSheet(fabric_title(fabric), (_NOT_PLANNED, *troubles), (), (), (), ())
    steps = cut_steps(fabric, how)
    stacked = (STACKS,) if any(" stack" in step for step in steps) else ()
    return CutSheet(
        title=fabric_title(fabric),
        facts=(*_facts(fabric, how), *stacked, *troubles),
        steps=steps,
        pieces=tuple(_pieces(fabric, plan, kind, how) for kind in plan.kinds if plan.cut_counts[kind.label]),
        leftovers=(*_rest(fabric, how), *(_leftover(fabric, each, how) for each in plan.leftovers)),
        notes=(*_standing(fabric, plan, how), *plan_notes(fabric, how)),
        pictures=cut_pictures(
            plan,
            lambda inches: say_near(inches, how, fabric.cloth.settings.size_step),
            fill=fabric.cloth.name,
            names=lambda kind: use_names(fabric, kind),
        ),
    )


BEFORE = "Before anything is cut"

BLOCKS_UNCUT = "The blocks' own fabric is not in this list: no tab cuts it."

_NOT_PLANNED = "This fabric cannot be planned:"


def fabric_title(fabric: FabricPlan) -> str:
    """`Slate`, or for a heap of its own `Binding (fabric not named)`."""
    return fabric.cloth.name if fabric.named else f"{fabric.cloth.name} (fabric not named)"


def fabric_troubles(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    """What is wrong with a fabric, and which pieces cannot be cut from it; whole sentences."""
    yield from (_sentence(trouble) for trouble in fabric.troubles)
    for each in fabric.unplaced:
        use = fabric.demand.uses[each.part.name]
        size = say_size(each.part.across, each.part.along, how)
        yield f"Not cut: {each.count} × {use.name} of “{use.tab}”, {size}: {each.why}."


def plan_notes(fabric: FabricPlan, how: Notation) -> tuple[str, ...]:
    """What a plan rests on: joins, settings that tabs disagree about, sizes that had to be rounded."""
    engine = fabric.plan.notes if fabric.plan is not None else ()
    return (*(say_line(note, how) for note in fabric.notes), *map(_sentence, engine))


def _sentence(words: str) -> str:
    said = words[:1].upper() + words[1:]
    return said if said.endswith((".", "!", "?")) else f"{said}."


def _facts(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    cloth = fabric.cloth
    along, across = cloth.settings.prewash_along, cloth.settings.prewash_across
    if cloth.precut is not None:
        yield f"{cloth.precut.name}: each {say_size(cloth.precut.width, cloth.precut.length, how)}."
    else:
        yield f"Usable width {say_length(cloth.settings.usable_width, how)}."
    if along or across:
        loss = f"{KINDS['percent'].show(along, how)} along and {KINDS['percent'].show(across, how)} across"
        wide = "" if cloth.precut else f", and is then {say_length(cloth.usable, how)} wide"
        yield f"Prewash it first: it loses {loss}{wide}."
    if cloth.one_way:
        yield "A one-way print: no piece is turned."


_HALVES = {"half": ", each then cut once on the diagonal", "quarter": ", each then cut twice on the diagonal"}


def _pieces(fabric: FabricPlan, plan: Plan, kind: Kind, how: Notation) -> str:
    lacking = {each.part.name: each.count for each in plan.unplaced}
    parts = []
    for name, wanted in kind.shares:
        use, count = fabric.demand.uses[name], wanted - lacking.get(name, 0)
        if count:
            parts.append(f"{count} × {use.name} for “{use.tab}”{_HALVES.get(use.made_from, '')}")
    spare = plan.cut_counts[kind.label] - kind.count
    if spare > 0:
        parts.append(f"{spare} to spare")
    return f"{say_size(kind.across, kind.along, how)}: {'; '.join(parts)}"


def _rest(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    """What the shop's step leaves of the bought length, beyond the last cut."""
    cloth, buy = fabric.cloth, fabric.buy
    rest = (buy.length - buy.needed) * cloth.kept
    if buy.length and rest > 0:
        yield f"{say_size(cloth.usable, rest, how)}, at the end of the bought length"


def _leftover(fabric: FabricPlan, left: Leftover, how: Notation) -> str:
    size = say_size(left.across, left.along, how)
    many = size if left.count == 1 else f"{left.count} of {size}"
    of_hand = fabric.cloth.precut is None and left.name == IN_HAND
    return f"{many}, of what was in hand" if of_hand else many


def _standing(fabric: FabricPlan, plan: Plan, how: Notation) -> Iterator[str]:
    """How good the plan is: never more than is proved."""
    if not plan.sheetplans:
        return
    some = "" if fabric.whole else " Pieces that are not cut are not counted."
    if plan.goal == "length" and not plan.length_used:
        yield f"All of it comes out of what is in hand.{some}"
        return
    used = _amount(plan, plan.answer, how)
    claim = claim_of(
        standing_of(plan),
        lambda amount: _amount(plan, amount, how),
        lambda amount: say_length(amount, how, "yd") if plan.goal == "length" else _amount(plan, amount, how),
    )
    yield f"A plan of {used}: {claim}.{some}"
    if plan.stopped:
        yield "Stopped early: the best found so far."


def _amount(plan: Plan, amount: Fraction, how: Notation) -> str:
    if plan.goal == "sheets":
        return f"{amount} {'piece' if amount == 1 else 'pieces'}"
    return say_length(amount, how)


def buy_sheet(lists: Lists, how: Notation) -> BuySheet:
    """The shopping list."""
    rows = [
        replace(_buy_row(each, how), why=(*fabric_why(each, how),), priced=place_of_fabric(each, how))
        for each in lists.fabrics
    ]
    rows += [
        replace(_goods_row(each, how), why=(*goods_why(each, how),), priced=place_of_goods(each))
        for each in lists.goods
    ]
    whole = not lists.missing and all(fabric.whole for fabric in lists.fabrics)
    return BuySheet(tuple(rows), say_price(lists.total, how), tuple(list_notes(lists)), whole)


def _goods_row(line: GoodsLine, how: Notation) -> BuyRow:
    goods = line.goods
    notes = [f"for {', '.join(f'“{tab}”' for tab in line.tabs)}"]
    if len(line.parts) > 1:
        units = f"of a {goods.unit}" if max(line.parts) <= 1 else units_of(goods)
        notes.append(f"{_parts(line.parts)} {units}")
    if line.separate > goods.amount:
        notes.append(f"{amount_words(goods, line.separate, how)} if each tab bought its own")
    notes += no_price_of_goods(line)
    price, cost = say_price(goods.price_each, how), say_price(line.cost, how)
    return BuyRow(goods.name, amount_words(goods, Fraction(goods.amount), how), price, cost, tuple(notes))


def _parts(parts: tuple[Fraction, ...]) -> str:
    """`≈ 0.31 + 0.42`: each up to a hundredth, since it must cover."""
    shown = [up(part, Fraction(1, 100)) for part in parts]
    about = "" if tuple(shown) == parts else "≈ "
    return about + " + ".join(decimal_text(part, 2) for part in shown)


def list_troubles(lists: Lists) -> Iterator[str]:
    """How many quilts the lists are for, and what they lack."""
    yield from map(_sentence, lists.troubles)
    if lists.copies > 1:
        yield f"For {lists.copies} copies of the quilt."
    for fabric in lists.fabrics:
        if not fabric.whole:
            yield f"Not whole: not all of {fabric_title(fabric)} is planned; To cut says why."
    for name, why in lists.missing:
        yield f"Not whole: “{name}” is not worked out ({why.rstrip('.')})."
    for name in lists.stopped:
        yield f"“{name}” was stopped early: the lists have the best that it found so far."
    if lists.blocks_uncut:
        yield BLOCKS_UNCUT
    if lists.unpriced:
        yield f"The total leaves out what has no price: {', '.join(lists.unpriced)}."


def list_notes(lists: Lists) -> Iterator[str]:
    """What the lists rest on, and what they leave out."""
    yield from list_troubles(lists)
    for name, flag in lists.left_out:
        yield f"“{name}” is {flag}, so it is not in the lists."
    if lists.measured and lists.total is not None:
        tabs = ", ".join(f"“{tab}”" for tab in lists.measured)
        yield f"Only measured, so not in the total: {tabs}. No package, roll or spool is chosen there."


def _buy_row(fabric: FabricPlan, how: Notation) -> BuyRow:
    buy, title, price = fabric.buy, fabric_title(fabric), say_price(fabric.cloth.price, how)
    troubles = tuple(fabric_troubles(fabric, how))
    if fabric.plan is None:
        return BuyRow(title, "cannot be planned", price, "", troubles)
    if fabric.cloth.precut is not None:
        amount, notes = _pack_words(fabric)
    else:
        amount = say_length(buy.length, how, "yd") if buy.length else ""
        notes = tuple(_length_notes(fabric, how))
    cost = say_price(buy.cost, how) if amount else ""
    notes = (*notes, *(no_fabric(fabric) if amount else ()))
    return BuyRow(title, amount or "nothing to buy", price if amount else "", cost, (*troubles, *notes))


def _pack_words(fabric: FabricPlan) -> tuple[str, tuple[str, ...]]:
    precut, buy = fabric.cloth.precut, fabric.buy
    assert precut is not None  # asked by the caller
    used, hand = buy.pieces + int(buy.have_used), int(buy.have_used)
    single = precut.pieces == 1
    unit = ("piece" if single else "pack") + ("" if buy.packs == 1 else "s")
    notes = [f"{precut.name}: {used} cut into" + (f", {hand} of them in hand" if hand else "")]
    if buy.packs and not single:
        notes.append(f"{precut.pieces} in a pack, {buy.packs * precut.pieces - buy.pieces} of them to spare")
    if fabric.separate > used and len(fabric.demand.groups) > 1:
        notes.append(f"{fabric.separate} if each tab cut its own")
    return (f"{buy.packs} {unit}" if buy.packs else ""), tuple(notes)


def _length_notes(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    buy, cloth = fabric.buy, fabric.cloth
    if buy.length:
        squared = f", {say_length(cloth.squaring, how)} of it to square the end" if cloth.squaring else ""
        washed = f", with {KINDS['percent'].show(cloth.settings.prewash_along, how)} lost in the wash"
        washed = washed if cloth.settings.prewash_along else ""
        yield f"{say_length(buy.needed, how)} needed{squared}{washed}"
    if buy.have_used:
        hand = f"{say_length(buy.have_used, how)} of the {say_length(cloth.have, how, 'yd')} in hand are used"
        squared = f", {say_length(cloth.squaring, how)} of it to square its end" if cloth.squaring else ""
        yield f"{hand}{squared}"
    elif cloth.have:
        yield f"the {say_length(cloth.have, how, 'yd')} in hand are of no use for it"
    if fabric.separate > buy.length and len(fabric.demand.groups) > 1:
        yield f"{say_length(fabric.separate, how, 'yd')} if each tab bought its own"
    if fabric.at_widths:
        said = (f"{say_length(at, how)}: {say_length(buys, how, 'yd')}" for at, buys in fabric.at_widths)
        yield f"at {', '.join(said)}"
    if fabric.printed is not None:
        yield say_printed(fabric.printed, how, cloth.settings.buying_step)


def say_printed(printed: Printed, how: Notation, step: Fraction) -> str:
    """How a printed yardage compares, in one sentence; `step` is the shop's, in inches."""
    length, by = say_length(printed.length, how, "yd"), _by(printed, how, step)
    if printed.verdict == "enough":
        return f"the {length} printed is enough, with {by} to spare" if printed.by else (
            f"the {length} printed is just enough")  # fmt: skip
    if printed.verdict == "generous":
        return f"the {length} printed is generous by {by}"
    if printed.by >= step:
        takes = say_length(up(printed.length + printed.by, step), how, "yd")
        by = f"{by}, for it takes {takes}"
    if printed.would_do is not None:
        width = say_length(printed.would_do, how)
        return f"the {length} printed is short by {by}; it would do at a usable width of {width}"
    tried = say_length(printed.tried, how) if printed.tried is not None else ""
    pieces = f"these pieces would not do with it at any usable width up to {tried}"
    if printed.made_for is not None:
        made_for = say_length(printed.made_for, how)
        pieces = f"{pieces}, but they are made for {made_for}: try a wider one in the tab"
    return f"the {length} printed is short by {by}; {pieces}"


def _by(printed: Printed, how: Notation, step: Fraction) -> str:
    """A difference as the shop counts: in its own steps where there is a whole one, with the exact length."""
    exact = say_length(printed.by, how)
    steps = (up if printed.verdict == "short" else down)(printed.by, step)
    return exact if printed.by < step else f"{say_length(steps, how, 'yd')} ({exact})"
