"""A plan: which cloth, cut into which strips, in the order in which a person cuts them."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from boltend.core.cutting.shapes import Bolt, Direction, Part, Sheet, Stock
from boltend.core.cutting.steps import Steps


@dataclass(frozen=True, slots=True)
class Stack:
    """Equal pieces above each other in a strip, and `times` such stacks side by side.

    `across` and `along` are the size of one piece as it lies on the cloth (turned or not); `high` is how
    many lie above each other over the strip's width. `part` names every part that this size serves,
    joined by " + "; `Plan.kinds` tells how many are whose.
    """

    part: str
    across: Fraction
    along: Fraction
    high: int = 1
    turned: bool = False
    times: int = 1

    @property
    def pieces(self) -> int:
        """How many pieces this makes in one strip."""
        return self.high * self.times


@dataclass(frozen=True, slots=True)
class Strip:
    """`times` strips alike, each `width` wide, sub-cut into `stacks` from one end.

    A strip that runs across the cloth takes its width from the length of the cloth; one that runs along
    it takes it from the width.
    """

    width: Fraction
    stacks: tuple[Stack, ...]
    times: int = 1


@dataclass(frozen=True, slots=True)
class Placed:
    """One piece where it lies: its near corner and its size on the cloth, in inches."""

    part: str
    across_from: Fraction
    along_from: Fraction
    across: Fraction
    along: Fraction
    turned: bool


@dataclass(frozen=True, slots=True)
class Leftover:
    """`count` rectangles of cloth that stay whole, from the stock item `name`."""

    across: Fraction
    along: Fraction
    count: int
    name: str


@dataclass(frozen=True, slots=True)
class Sheetplan:
    """`copies` of one stock item, all cut the same way; the endless bolt has one copy and no `along`.

    `index` is the item's place among `Stock.sheets`, None for the endless bolt.
    """

    index: int | None
    name: str
    item: Sheet | Bolt
    across: Fraction
    along: Fraction | None
    direction: Direction
    strips: tuple[Strip, ...]
    copies: int = 1

    @property
    def length_used(self) -> Fraction:
        """The sum of the strips' widths: what is cut off in the direction of cutting, of one copy."""
        return sum((strip.width * strip.times for strip in self.strips), Fraction(0))

    def placements(self) -> Iterator[Placed]:
        """Yield every piece of one copy, strip by strip, as exact rectangles."""
        offset = Fraction(0)
        for strip in self.strips:
            for _ in range(strip.times):
                yield from _in_strip(strip, offset, self.direction)
                offset += strip.width


def _in_strip(strip: Strip, offset: Fraction, direction: Direction) -> Iterator[Placed]:
    run = Fraction(0)
    for stack in strip.stacks:
        beside, above = (stack.across, stack.along) if direction == "across" else (stack.along, stack.across)
        for _ in range(stack.times):
            for level in range(stack.high):
                at = offset + level * above
                near = (run, at) if direction == "across" else (at, run)
                yield Placed(stack.part, *near, stack.across, stack.along, stack.turned)
            run += beside


@dataclass(frozen=True, slots=True)
class Kind:
    """One cut size and the parts that it serves, in the order of the demand.

    `shares` are names and counts, `members` the same parts' places in the demand.
    """

    label: str
    across: Fraction
    along: Fraction
    may_turn: bool
    shares: tuple[tuple[str, int], ...]
    members: tuple[int, ...]

    @property
    def size(self) -> tuple[Fraction, Fraction, bool]:
        """What makes two kinds the same: its sides (the shorter first where it may turn), may it turn."""
        if self.may_turn:
            return min(self.across, self.along), max(self.across, self.along), True
        return self.across, self.along, False

    @property
    def count(self) -> int:
        """How many pieces of this size are wanted in all."""
        return sum(count for _, count in self.shares)


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Pieces that the plan does not cut, and why."""

    part: Part
    count: int
    why: str


NOT_ENOUGH = "not enough cloth in hand"


@dataclass(frozen=True)
class Plan:
    """A whole cutting plan for a demand, with what is certain about it.

    `goal` says what was made small: the `length` of the endless bolt (inches), or the number of `sheets`, or
    the `area` of those that are cut into (square inches) where there are several sizes of them.
    `bound` is a certified lower bound on the same, for *any* way of cutting from edge to edge; `least`, where
    a proof was looked for, one for plans of strips only: simple ones, or with `stacks` of equal pieces, and
    no wider than `widest` where that is a limit. `proved` is set only where the answer equals `bound`.
    `steps` tell how the length is bought, where that was part of the proof. `demand` and `stock` are those it
    was made for; `exact` is no where sizes had to be rounded (pieces up, cloth down) to a common grid, and
    `notes` say so.
    """

    demand: tuple[Part, ...]
    stock: Stock
    sheetplans: tuple[Sheetplan, ...]
    kinds: tuple[Kind, ...]
    goal: Literal["length", "sheets", "area"]
    bound: Fraction
    proved: bool
    leftovers: tuple[Leftover, ...] = ()
    unplaced: tuple[Unplaced, ...] = ()
    notes: tuple[str, ...] = ()
    stacks: bool = True
    stopped: bool = False
    exact: bool = True
    least: Fraction | None = None
    widest: Fraction | None = None
    steps: Steps | None = None

    @cached_property
    def length_used(self) -> Fraction:
        """Inches cut off the endless bolt; 0 where there is none."""
        ends = (each.length_used for each in self.sheetplans if each.along is None)
        return sum(ends, Fraction(0))

    @cached_property
    def sheets_used(self) -> dict[str, int]:
        """How many of each stock item (but the endless bolt) are cut into, by name, 0 where none is."""
        names = [item_name(item, n) for n, item in enumerate(self.stock.sheets)]
        used = dict.fromkeys(names, 0)
        for each in self.sheetplans:
            if each.along is not None:
                used[each.name] += each.copies
        return used

    @cached_property
    def answer(self) -> Fraction:
        """What `goal` names: inches of bolt, number of sheets in all, or their square inches."""
        if self.goal == "length":
            return self.length_used
        if self.goal == "sheets":
            return Fraction(sum(self.sheets_used.values()))
        whole = (each.across * (each.along or 0) * each.copies for each in self.sheetplans)
        return sum(whole, Fraction(0))

    @property
    def lacking(self) -> bool:
        """Whether pieces that fit the cloth are not cut, since there is not enough of it."""
        return any(each.why == NOT_ENOUGH for each in self.unplaced)

    @cached_property
    def cut_counts(self) -> dict[str, int]:
        """How many pieces of each kind are cut, by the kind's label."""
        counts = {kind.label: 0 for kind in self.kinds}
        for each in self.sheetplans:
            for strip in each.strips:
                for stack in strip.stacks:
                    counts[stack.part] += stack.pieces * strip.times * each.copies
        return counts

    @cached_property
    def used_area(self) -> Fraction:
        """Square inches of all pieces that are cut."""
        area = {kind.label: kind.across * kind.along for kind in self.kinds}
        return sum((area[label] * count for label, count in self.cut_counts.items()), Fraction(0))

    def placements(self) -> Iterator[tuple[str, int, Placed]]:
        """Yield (stock item, its number from 1, piece) for every piece, named by part, lazily.

        Pieces of one size that serve several parts are handed out in the order of the demand; any beyond
        what was asked bear the name "spare".
        """
        names = {kind.label: _names(kind) for kind in self.kinds}
        numbers: dict[str, int] = {}
        for each in self.sheetplans:
            for _ in range(each.copies):
                numbers[each.name] = numbers.get(each.name, 0) + 1
                for placed in each.placements():
                    name = next(names[placed.part])
                    yield (
                        each.name,
                        numbers[each.name],
                        Placed(
                            name,
                            placed.across_from,
                            placed.along_from,
                            placed.across,
                            placed.along,
                            placed.turned,
                        ),
                    )


def _names(kind: Kind) -> Iterator[str]:
    for name, count in kind.shares:
        for _ in range(count):
            yield name
    while True:
        yield "spare"


def item_name(item: Sheet | Bolt, index: int) -> str:
    """Name a stock item: its own name, made unique by its place where there is none."""
    return item.name or f"{'piece' if isinstance(item, Bolt) else 'sheet'} {index + 1}"
