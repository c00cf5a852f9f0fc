"""Check a plan by itself, in whole numbers, without anything of the search that made it."""

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from boltend.core.cutting.plans import Kind, Plan, Sheetplan, Stack, Strip
from boltend.core.cutting.shapes import Bolt, Part, PlanError, Sheet, Stock

COARSEST = Fraction(1, 64)
"""The most that a rounded size may differ from the one that was asked for, inches."""


def check_plan(plan: Plan, demand: Sequence[Part], stock: Stock) -> None:
    """Raise `PlanError` unless the plan is what it says.

    Looked at: every part stands in one kind of its own size; strips side by side lie inside the cloth, stacks
    side by side inside their strip, and pieces above each other inside its width (so nothing overlaps, and
    every cut runs from edge to edge: strips, then stacks, then pieces); pieces are turned only where they may
    be; every piece is cut or named as not placed; no more cloth is used than there is; no bound is above the
    answer, and `proved` is said only where they are equal.
    """
    checker = _Checker(plan, demand, stock)
    checker.kinds()
    for each in plan.sheetplans:
        checker.sheetplan(each)
    checker.copies()
    checker.counts()
    checker.claim()


class _Checker:
    def __init__(self, plan: Plan, demand: Sequence[Part], stock: Stock) -> None:
        self.plan, self.demand, self.stock = plan, demand, stock
        self.by_label = {kind.label: kind for kind in plan.kinds}
        self.cut = dict.fromkeys(self.by_label, 0)
        self.unit = self._unit()

    def _unit(self) -> int:
        """Find the common denominator of everything in sight, so that all sums below are of integers."""
        sizes = [size for kind in self.plan.kinds for size in (kind.across, kind.along)]
        sizes += [size for part in self.demand for size in (part.across, part.along)]
        sizes += list(self.stock.lengths())
        for each in self.plan.sheetplans:
            sizes += [each.across] + ([] if each.along is None else [each.along])
            for strip in each.strips:
                sizes += [strip.width, *(stack.across for stack in strip.stacks)]
                sizes += [stack.along for stack in strip.stacks]
        return lcm(*(size.denominator for size in sizes))

    def whole(self, length: Fraction) -> int:
        """Give a length in whole units."""
        units = length * self.unit
        if units.denominator != 1:
            raise PlanError(f"{length} in does not lie on the plan's grid")
        return units.numerator

    def kinds(self) -> None:
        if len(self.by_label) != len(self.plan.kinds):
            raise PlanError("two sizes bear the same label")
        seen = sorted(place for kind in self.plan.kinds for place in kind.members)
        if seen != [place for place, part in enumerate(self.demand) if part.count]:
            raise PlanError("some part stands in no kind, or in two")
        for kind in self.plan.kinds:
            for place, (name, count) in zip(kind.members, kind.shares, strict=True):
                self._member(kind, self.demand[place], name, count)

    def _member(self, kind: Kind, part: Part, name: str, count: int) -> None:
        if (part.name, part.count) != (name, count):
            raise PlanError(f"{part.name}: {part.count} wanted, the plan has {name}: {count}")
        if kind.may_turn and not (part.may_turn or part.across == part.along):
            raise PlanError(f"{part.name}: the plan would turn it, and it may not turn")
        ways = [(part.across, part.along)] + ([(part.along, part.across)] if part.may_turn else [])
        most = 0 if self.plan.exact else self.whole_up(COARSEST)
        for across, along in ways:
            over = (self.whole(kind.across) - self.whole(across), self.whole(kind.along) - self.whole(along))
            if all(0 <= each <= most for each in over):
                return
        raise PlanError(
            f"{part.name}: {part.across} × {part.along} in wanted, not {kind.across} × {kind.along}"
        )

    def whole_up(self, length: Fraction) -> int:
        return -(-length * self.unit // 1)

    def sheetplan(self, each: Sheetplan) -> None:
        item = self._item(each)
        across = item.across if isinstance(item, Sheet) else item.width
        along = item.along if isinstance(item, Sheet) else item.length
        if each.across > across or (along is not None and (each.along is None or each.along > along)):
            raise PlanError(f"{each.name}: the plan takes more than the cloth's own size")
        if each.direction == "along" and each.along is None:
            raise PlanError(f"{each.name}: strips along an endless bolt have no end")
        if each.copies < 1 or (each.index is None and each.copies != 1):
            raise PlanError(f"{each.name}: {each.copies} copies")
        wide, long = self.whole(each.across), None if each.along is None else self.whole(each.along)
        run, depth = (wide, long) if each.direction == "across" else (long or 0, wide)
        used = 0
        for strip in each.strips:
            if strip.times < 1:
                raise PlanError(f"{each.name}: a strip that is cut {strip.times} times")
            used += self.whole(strip.width) * strip.times
            self._strip(each, strip, run)
        if depth is not None and used > depth:
            raise PlanError(f"{each.name}: the strips need {used} of {depth} units")

    def _item(self, each: Sheetplan) -> Sheet | Bolt:
        if each.index is not None and not 0 <= each.index < len(self.stock.sheets):
            raise PlanError(f"{each.name}: no such cloth in the stock")
        item = self.stock.bolt if each.index is None else self.stock.sheets[each.index]
        if item is None or item != each.item:
            raise PlanError(f"{each.name}: not the cloth that the stock has there")
        return item

    def _strip(self, each: Sheetplan, strip: Strip, run: int) -> None:
        width, used = self.whole(strip.width), 0
        for stack in strip.stacks:
            kind = self._kind(stack)
            across, along = self.whole(stack.across), self.whole(stack.along)
            beside, above = (across, along) if each.direction == "across" else (along, across)
            if above * stack.high > width:
                raise PlanError(f"{each.name}: {stack.part} stands out of its strip")
            used += beside * stack.times
            self.cut[kind.label] += stack.pieces * strip.times * each.copies
        if used > run:
            raise PlanError(f"{each.name}: the pieces need {used} of {run} units of the strip")

    def _kind(self, stack: Stack) -> Kind:
        if stack.part not in self.by_label:
            raise PlanError(f"{stack.part}: nobody asked for it")
        kind = self.by_label[stack.part]
        if stack.high < 1 or stack.times < 1:
            raise PlanError(f"{stack.part}: an empty stack")
        if stack.turned and not kind.may_turn:
            raise PlanError(f"{stack.part}: turned, and it may not turn")
        lying = (kind.along, kind.across) if stack.turned else (kind.across, kind.along)
        if (stack.across, stack.along) != lying:
            raise PlanError(f"{stack.part}: cut to {stack.across} × {stack.along} in, which is not its size")
        return kind

    def copies(self) -> None:
        used: dict[int | None, int] = {}
        for each in self.plan.sheetplans:
            used[each.index] = used.get(each.index, 0) + each.copies
        for index, count in used.items():
            item = None if index is None else self.stock.sheets[index]
            most = 1 if item is None or isinstance(item, Bolt) else item.count
            if most is not None and count > most:
                raise PlanError(f"{count} of a cloth of which there are {most}")

    def counts(self) -> None:
        missing = dict.fromkeys(self.by_label, 0)
        label = {place: kind.label for kind in self.plan.kinds for place in kind.members}
        places = {(part.name, id(part)): place for place, part in enumerate(self.demand)}
        for each in self.plan.unplaced:
            place = places.get((each.part.name, id(each.part)))
            if place is None or not 0 < each.count <= each.part.count:
                raise PlanError(f"{each.part.name}: named as not placed, and not wanted so")
            missing[label[place]] += each.count
        for kind in self.plan.kinds:
            cut, lacking = self.cut[kind.label], missing[kind.label]
            if cut + lacking < kind.count or (lacking and cut + lacking > kind.count):
                raise PlanError(f"{kind.label}: {kind.count} wanted, {cut} cut, {lacking} not placed")

    def claim(self) -> None:
        lacking = sum(each.count for each in self.plan.unplaced)
        if self.plan.bound > self.plan.answer and not lacking:
            raise PlanError(f"the bound {self.plan.bound} is above the answer {self.plan.answer}")
        if self.plan.proved and self.plan.bound != self.plan.answer:
            raise PlanError("called proved, and the bound is not the answer")
        least = self.plan.least
        if least is not None and not (self.plan.bound <= least <= self.plan.answer or lacking):
            raise PlanError(f"the least {least} is not between the bound and the answer {self.plan.answer}")
