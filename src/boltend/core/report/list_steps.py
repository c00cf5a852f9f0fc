"""The cutting order of one fabric as sentences that a person follows at the table."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby

from boltend.core.cutting import Kind, Plan, Sheetplan, Stack, Strip, stacks_of
from boltend.core.pool import FabricPlan
from boltend.core.report.words import say_line
from boltend.core.values import Notation, show_length


def say_length(inches: Fraction, how: Notation, unit: str = "") -> str:
    """A length of cloth or of a cut, exact."""
    return show_length(inches, how, unit)


def say_size(across: Fraction, along: Fraction, how: Notation) -> str:
    """A size: across the cloth, then along it."""
    return f"{say_length(across, how)} × {say_length(along, how)}"


def cut_steps(fabric: FabricPlan, how: Notation) -> tuple[str, ...]:
    """What to do with one fabric, first thing first: a sentence or two a step."""
    if fabric.plan is None:
        return ()
    steps = _Steps(fabric, fabric.plan, how)
    cuts = tuple(said for each in fabric.plan.sheetplans for said in steps.of(each))
    return (*cuts, *later_steps(fabric, how)) if cuts else ()


def later_steps(fabric: FabricPlan, how: Notation) -> tuple[str, ...]:
    """What is left to do once pieces that were cut large are sewn, tab by tab."""
    said = dict.fromkeys(
        (use.tab, say_line(use.later, how)) for use in fabric.demand.uses.values() if use.later
    )
    return tuple(f"Later, for “{tab}”: {words}." for tab, words in said)


STACKS = "A stack is layers of cloth, laid upon each other and cut through at once."


def use_names(fabric: FabricPlan, kind: Kind) -> str:
    """What pieces of one size are, with the tab where two tabs have pieces of that name."""
    said = []
    for name, _ in kind.shares:
        use = fabric.demand.uses[name]
        alone = len(fabric.demand.tabs_of[use.name]) == 1
        said.append(use.name if alone else f"{use.name} for “{use.tab}”")
    return " or ".join(dict.fromkeys(said))


class _Steps:
    """Says the steps of a plan; it counts the precuts in hand as they are taken."""

    def __init__(self, fabric: FabricPlan, plan: Plan, how: Notation) -> None:
        self.fabric, self.how = fabric, how
        self.cloth, self.layers = fabric.cloth, fabric.cloth.settings.layers
        self.names = {kind.label: use_names(fabric, kind) for kind in plan.kinds}
        self.in_hand = int(fabric.cloth.have)

    def of(self, each: Sheetplan) -> Iterator[str]:
        yield self._take(each)
        for width, strips in groupby(each.strips, key=lambda strip: strip.width):
            yield self._strips(each, width, list(strips))

    def _take(self, each: Sheetplan) -> str:
        squaring = self._length(self.cloth.squaring)
        if self.cloth.precut is not None:
            return self._take_precuts(each)
        if each.along is not None:
            size = say_size(each.across, each.along, self.how)
            if not self.cloth.squaring:
                return f"Take what is in hand: {size}."
            return f"Take what is in hand. Square its end: {squaring} is lost, and {size} is left."
        bought = say_length(self.fabric.buy.length, self.how, "yd")
        squared = f" Square its end: {squaring} is lost." if self.cloth.squaring else ""
        return f"Take the {bought} that you buy.{squared}"

    def _take_precuts(self, each: Sheetplan) -> str:
        taken = min(self.in_hand, each.copies)
        self.in_hand -= taken
        hand = "" if not taken else " in hand" if taken == each.copies else f" ({taken} of them in hand)"
        size = say_size(each.across, each.along or Fraction(0), self.how)
        squared = "squared to " if self.cloth.squaring else ""
        if each.copies == 1:
            return f"Take 1 piece{hand}, {squared}{size}."
        stacks = self._stacks(each.copies)
        return f"Take {each.copies} pieces{hand}, {squared}{size}, {stacks}. Cut all of them alike."

    def _strips(self, each: Sheetplan, width: Fraction, strips: list[Strip]) -> str:
        run = each.across if each.direction == "across" else each.along or Fraction(0)
        count = sum(strip.times for strip in strips)
        whole = [strip for strip in strips if _whole(each, strip, run)]
        others = [strip for strip in strips if strip not in whole]
        sentences = [f"Cut {self._strips_of(each, count, width, run)}."]
        sentences += [self._kept(strip, count) for strip in whole]
        noun = "length" if self._is_length(width, run) else "strip"
        for number, strip in enumerate(others):
            if count == 1:
                head = "From it cut"
            elif strip.times == 1:
                another = number and others[number - 1].times == 1
                head = f"From {'another' if another else 'one'} {noun} cut"
            else:
                head = self._from_each(each, strip.times, noun, all_of_them=strip.times == count)
            sentences.append(f"{head}: {'; '.join(self._stack(each, strip, s) for s in strip.stacks)}.")
        return " ".join(sentences)

    def _from_each(self, each: Sheetplan, times: int, noun: str, *, all_of_them: bool) -> str:
        """What is done with strips that are cut alike; those of stacked precuts lie in a stack already."""
        if each.copies > 1 or self.layers == 1:
            return f"From each {noun} cut" if all_of_them else f"From each of {times} {noun}s cut"
        stacks = "in one stack" if times <= self.layers else self._stacks(times)
        return f"Lay {'the' if all_of_them else times} {noun}s {stacks} and cut from each"

    def _kept(self, strip: Strip, count: int) -> str:
        name = self.names[strip.stacks[0].part]
        if strip.times == count:
            return f"{'It stays' if count == 1 else 'They stay'} whole: {name}."
        return f"{strip.times} {'stays' if strip.times == 1 else 'stay'} whole: {name}."

    def _strips_of(self, each: Sheetplan, count: int, width: Fraction, run: Fraction) -> str:
        """`8 strips 2 1/2 in wide from selvage to selvage`; longer than the cloth is wide, it is a length."""
        if self._is_length(width, run):
            lengths = f"{count} {'length' if count == 1 else 'lengths'} of {self._length(width)}"
            return f"{lengths} from selvage to selvage"
        strips = f"{count} {'strip' if count == 1 else 'strips'} {self._length(width)} wide"
        return f"{strips}{self._direction(each, run)}"

    def _is_length(self, width: Fraction, run: Fraction) -> bool:
        """Whether a strip of the bolt is longer than it is wide from selvage to selvage."""
        return self.cloth.precut is None and width > run

    def _direction(self, each: Sheetplan, run: Fraction) -> str:
        if self.cloth.precut is None:
            return " from selvage to selvage"
        print_ = f", {each.direction} the print" if self.cloth.one_way else ""
        return f" and {self._length(run)} long{print_}"

    def _stack(self, each: Sheetplan, strip: Strip, stack: Stack) -> str:
        across = each.direction == "across"
        beside, above = (stack.across, stack.along) if across else (stack.along, stack.across)
        size = f"{say_size(stack.across, stack.along, self.how)} ({self.names[stack.part]})"
        if stack.high > 1:
            parts = "part" if stack.times == 1 else "parts"
            return f"{stack.times} {parts} of {self._length(beside)}, each cut into {stack.high} of {size}"
        if above < strip.width:
            return f"{stack.times} of {self._length(beside)}, trimmed to {size}"
        return f"{stack.times} of {size}"

    def _stacks(self, layers: int) -> str:
        stacks = stacks_of(layers, self.layers)
        if stacks == 1:
            return f"in one stack of {layers} layers" if layers > 1 else "in one layer"
        return f"in {stacks} stacks of at most {self.layers} {'layers' if self.layers > 1 else 'layer'}"

    def _length(self, inches: Fraction) -> str:
        return say_length(inches, self.how)


def _whole(each: Sheetplan, strip: Strip, run: Fraction) -> bool:
    """Whether a strip is one piece from end to end."""
    if len(strip.stacks) != 1 or strip.stacks[0].pieces != 1:
        return False
    stack = strip.stacks[0]
    beside, above = (stack.across, stack.along) if each.direction == "across" else (stack.along, stack.across)
    return beside == run and above == strip.width
