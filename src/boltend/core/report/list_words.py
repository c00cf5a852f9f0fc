"""To cut and To buy as words: what every printed form and the shell show, each in its own way."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from boltend.core.cutting import CutStep, Kind, cut_order, stacks_of
from boltend.core.pool import FabricPlan, Lists
from boltend.core.pool.printed import Printed
from boltend.core.values import KINDS, Notation, Price, show_length


@dataclass(frozen=True)
class CutSheet:
    """One fabric to cut: the steps in order, which pieces they are, and what is left."""

    title: str
    facts: tuple[str, ...]
    steps: tuple[str, ...]
    pieces: tuple[str, ...]
    leftovers: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class BuyRow:
    """One thing to buy, or to take from what is in hand."""

    what: str
    amount: str
    price: str
    cost: str
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class BuySheet:
    """All that is bought, with the total and what it leaves out."""

    rows: tuple[BuyRow, ...]
    total: str
    notes: tuple[str, ...]


def say_length(inches: Fraction, how: Notation, unit: str = "") -> str:
    """A length of cloth or of a cut, exact."""
    return show_length(inches, how, unit)


def say_price(price: Price | None, how: Notation) -> str:
    """A price as text; nothing where there is none."""
    return "" if price is None else str(KINDS["price"].show(price, how))


def cut_sheets(lists: Lists, how: Notation) -> tuple[CutSheet, ...]:
    """A sheet for each fabric, in the order in which the tabs first name them."""
    return tuple(_cut_sheet(fabric, how) for fabric in lists.fabrics)


def _cut_sheet(fabric: FabricPlan, how: Notation) -> CutSheet:
    plan = fabric.plan
    if plan is None:
        return CutSheet(fabric_title(fabric), fabric.troubles, (), (), (), ())
    steps = _Steps(fabric, how)
    return CutSheet(
        title=fabric_title(fabric),
        facts=(*_facts(fabric, how), *fabric.troubles),
        steps=tuple(steps.lines()),
        pieces=tuple(_pieces(fabric, kind, how) for kind in plan.kinds),
        leftovers=(
            *_rest(fabric, how),
            *(_leftover(x.across, x.along, x.count, how) for x in plan.leftovers),
        ),
        notes=(*_sentence(plan.claim, fabric, how), *fabric.demand.notes, *plan.notes),
    )


def fabric_title(fabric: FabricPlan) -> str:
    """`Slate`, or for a heap of its own `Binding (fabric not named)`."""
    return fabric.cloth.name if fabric.named else f"{fabric.cloth.name} (fabric not named)"


def _facts(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    cloth = fabric.cloth
    if cloth.precut is not None:
        size = f"{say_length(cloth.precut.width, how)} × {say_length(cloth.precut.length, how)}"
        yield f"{cloth.precut.name}: pieces of {size}"
        return
    yield f"Usable width {say_length(cloth.settings.usable_width, how)}"
    if cloth.settings.prewash_across or cloth.settings.prewash_along:
        along, across = (KINDS["percent"].show(p, how) for p in (
            cloth.settings.prewash_along, cloth.settings.prewash_across))  # fmt: skip
        usable = say_length(cloth.usable, how)
        yield f"Prewash it first: it loses {along} along and {across} across, and is cut at {usable}"
    if cloth.one_way:
        yield "A one-way print: no piece is turned"


class _Steps:
    """The cutting order of one fabric as sentences."""

    def __init__(self, fabric: FabricPlan, how: Notation) -> None:
        assert fabric.plan is not None  # asked by the caller
        self.how, self.fabric, self.plan = how, fabric, fabric.plan
        self.layers = fabric.cloth.settings.layers
        self.kinds = {kind.label: kind for kind in fabric.plan.kinds}
        self.copies = 1

    def lines(self) -> Iterator[str]:
        pending: list[CutStep] = []
        for step in cut_order(self.plan, self.fabric.cloth.squaring):
            if step.kind in ("sub_cut", "trim"):
                pending.append(step)
                continue
            if step.kind == "strip":
                yield from self._strip(pending)
                pending = [step]
                continue
            yield from self._strip(pending)
            pending = []
            yield from self._take(step) if step.kind == "take" else self._square(step)
        yield from self._strip(pending)

    def _take(self, step: CutStep) -> Iterator[str]:
        self.copies = step.count
        if step.along is None:
            length = say_length(self.fabric.buy.length, self.how, "yd")
            yield f"Take the {length} that you buy." if self.fabric.buy.length else "Take the cloth."
            return
        size = f"{self._length(step.across)} × {self._length(step.along)}"
        if self.fabric.cloth.precut is None:
            yield f"Take what is in hand, squared: {size}."
        elif step.count == 1:
            yield f"Take 1 of the {step.stock}, {size}."
        else:
            stacks = self._stacks(step.count)
            yield f"Take {step.count} of the {step.stock}, {size}, {stacks}, and cut each alike."

    def _square(self, step: CutStep) -> Iterator[str]:
        yield f"Square the end: {self._length(step.size)} is lost."

    def _strip(self, steps: list[CutStep]) -> Iterator[str]:
        if not steps:
            return
        strip, cuts = steps[0], steps[1:]
        along = "across the cloth, selvage to selvage" if strip.direction == "across" else "along the selvage"
        if self.fabric.cloth.precut is not None:
            along = "the one way" if strip.direction == "across" else "the other way"
        many = "1 strip" if strip.count == 1 else f"{strip.count} strips"
        stacks = "" if strip.count == 1 or self.copies > 1 else f", {self._stacks(strip.count)}"
        said = "; ".join(self._sub_cuts(cuts))
        of_each = "from it" if strip.count == 1 else "from each"
        yield f"Cut {many} of {self._length(strip.size)} {along}{stacks}; {of_each} {said}."

    def _sub_cuts(self, steps: list[CutStep]) -> Iterator[str]:
        for number, step in enumerate(steps):
            if step.kind == "trim":
                continue
            trim = steps[number + 1] if number + 1 < len(steps) and steps[number + 1].kind == "trim" else None
            yield self._sub_cut(step, trim)

    def _sub_cut(self, step: CutStep, trim: CutStep | None) -> str:
        name = self._name(step.part)
        size = f"{self._length(step.across)} × {self._length(step.along)}"
        if trim is None:
            return f"{step.count} of {size} ({name})"
        if trim.count == 1:
            return f"{step.count} of {self._length(step.size)}, trimmed to {size} ({name})"
        return f"{step.count} of {self._length(step.size)}, each cut into {trim.count} of {size} ({name})"

    def _name(self, label: str) -> str:
        kind = self.kinds[label]
        uses = [self.fabric.demand.uses[name] for name, _ in kind.shares]
        return ", ".join(dict.fromkeys(use.name for use in uses))

    def _stacks(self, layers: int) -> str:
        stacks = stacks_of(layers, self.layers)
        return "in one stack" if stacks == 1 else f"in {stacks} stacks of at most {self.layers}"

    def _length(self, inches: Fraction | None) -> str:
        return "" if inches is None else say_length(inches, self.how)


_HALVES = {"half": ", then each cut once on the diagonal", "quarter": ", then each cut twice on the diagonal"}


def _pieces(fabric: FabricPlan, kind: Kind, how: Notation) -> str:
    size = f"{say_length(kind.across, how)} × {say_length(kind.along, how)}"
    parts = []
    for name, count in kind.shares:
        use = fabric.demand.uses[name]
        parts.append(f"{count} for “{use.tab}”, {use.name}{_HALVES.get(use.made_from, '')}")
    return f"{size}: {'; '.join(parts)}"


def _rest(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    """What the shop's step leaves of the bought length, beyond the last cut."""
    cloth, buy = fabric.cloth, fabric.buy
    rest = (buy.length - buy.needed) * cloth.kept
    if buy.length and rest > 0:
        yield f"{_leftover(cloth.usable, rest, 1, how)}, at the end of the bought length"


def _leftover(across: Fraction, along: Fraction, count: int, how: Notation) -> str:
    size = f"{say_length(across, how)} × {say_length(along, how)}"
    return size if count == 1 else f"{count} of {size}"


def _sentence(claim: str, fabric: FabricPlan, how: Notation) -> Iterator[str]:
    assert fabric.plan is not None  # asked by the caller
    plan = fabric.plan
    if not plan.kinds:
        return
    if plan.goal == "sheets":
        yield claim[:1].upper() + claim[1:] + "."
        return
    least = say_length(plan.bound, how)
    if plan.proved:
        yield f"Proved least: no way of cutting from edge to edge takes less than {least}."
    else:
        used = say_length(plan.answer, how)
        yield f"A good plan of {used}; the least possible is at least {least} by area and width."


def buy_sheet(lists: Lists, how: Notation) -> BuySheet:
    """The shopping list."""
    rows = [_buy_row(fabric, how) for fabric in lists.fabrics]
    for line in lists.goods:
        goods = line.goods
        amount = f"{KINDS['number'].show(Fraction(goods.amount), how)} {goods.unit}".strip()
        rows.append(BuyRow(goods.name, amount, say_price(goods.price_each, how), say_price(line.cost, how),
                           (f"for “{line.tab}”",)))  # fmt: skip
    return BuySheet(tuple(rows), say_price(lists.total, how), tuple(list_notes(lists)))


def list_notes(lists: Lists) -> Iterator[str]:
    """What the lists rest on, and what they leave out."""
    yield from lists.troubles
    if lists.copies > 1:
        yield f"For {lists.copies} copies of the quilt."
    if lists.unpriced:
        yield f"The total leaves out what has no price: {', '.join(lists.unpriced)}."
    for name, why in lists.missing:
        yield f"Not whole: “{name}” is not worked out ({why})"
    for name, flag in lists.left_out:
        yield f"“{name}” is {flag}, so it is not in the lists."


def _buy_row(fabric: FabricPlan, how: Notation) -> BuyRow:
    cloth, buy = fabric.cloth, fabric.buy
    price = say_price(cloth.price, how)
    if fabric.plan is None:
        return BuyRow(fabric_title(fabric), "cannot be planned", price, "", fabric.troubles)
    notes = [*fabric.troubles]
    if cloth.precut is not None:
        packs = "1 pack" if buy.packs == 1 else f"{buy.packs} packs"
        amount = packs if buy.packs else "nothing"
        notes += [f"{cloth.precut.name}: {buy.pieces + int(buy.have_used)} pieces are cut into"]
        if buy.have_used:
            notes += [f"{int(buy.have_used)} of them in hand"]
    else:
        amount = say_length(buy.length, how, "yd") if buy.length else "nothing"
        notes += _length_notes(fabric, how)
    return BuyRow(
        fabric_title(fabric),
        amount,
        price,
        say_price(buy.cost, how) if amount != "nothing" else "",
        tuple(notes),
    )


def _length_notes(fabric: FabricPlan, how: Notation) -> Iterator[str]:
    buy, cloth = fabric.buy, fabric.cloth
    if buy.length:
        squared = f", {say_length(cloth.squaring, how)} of it to square the end" if cloth.squaring else ""
        yield f"{say_length(buy.needed, how)} needed{squared}"
    if buy.have_used:
        yield f"{say_length(buy.have_used, how)} from what is in hand"
    if fabric.separate > buy.length and len(fabric.demand.groups) > 1:
        yield f"{say_length(fabric.separate, how, 'yd')} if each tab bought its own"
    if fabric.printed is not None:
        yield say_printed(fabric.printed, how)


def say_printed(printed: Printed, how: Notation) -> str:
    """How a printed yardage compares, in one sentence."""
    length, by = say_length(printed.length, how, "yd"), say_length(printed.by, how)
    if printed.verdict == "enough":
        return f"the {length} printed is enough, with {by} to spare"
    if printed.verdict == "generous":
        return f"the {length} printed is generous by {by}"
    if printed.would_do is None:
        return f"the {length} printed is short by {by}, at any usable width up to 8 in wider"
    width = say_length(printed.would_do, how)
    return f"the {length} printed is short by {by}; it would do at a usable width of {width}"
