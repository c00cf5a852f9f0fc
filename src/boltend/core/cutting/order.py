"""The order in which a person cuts a plan, as data: kinds of step, sizes and counts, no wording."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.core.cutting.plans import Plan, Sheetplan, Stack, Strip
from boltend.core.cutting.shapes import Direction


@dataclass(frozen=True, slots=True)
class CutStep:
    """One step on the cloth named `stock`; sizes in inches.

    - `take`: lay out `count` of it, all cut alike.
    - `square`: square its end, which loses `size`; `direction` is the direction of the cut.
    - `strip`: from each, cut `count` strips, `size` wide, that run in `direction`.
    - `sub_cut`: from each of these strips cut `count` segments, `size` long on the strip's run.
    - `trim`: cut each of these segments into `count` pieces, `size` each on the strip's width; one piece of
      less than the strip's width is trimmed to it.

    `sub_cut` and `trim` name the `part`, its size `across` × `along` as it lies, and how many `pieces` the
    step gives in all (a `sub_cut` that a `trim` follows gives none by itself).
    """

    kind: Literal["take", "square", "strip", "sub_cut", "trim"]
    stock: str
    count: int
    size: Fraction = Fraction(0)
    direction: Direction | None = None
    part: str = ""
    across: Fraction | None = None
    along: Fraction | None = None
    pieces: int = 0


def cut_order(plan: Plan, squaring: Fraction = Fraction(0)) -> list[CutStep]:
    """List what to do, first thing first; `squaring` is the loss at the end of the cloth, in inches.

    The endless bolt is squared once, where its first strip begins; what is in hand has its own squaring
    taken off before it comes into the stock.
    """
    return [step for each in plan.sheetplans for step in _sheet(each, squaring)]


def _sheet(each: Sheetplan, squaring: Fraction) -> Iterator[CutStep]:
    yield CutStep("take", each.name, each.copies, across=each.across, along=each.along)
    if squaring > 0 and each.along is None:
        yield CutStep("square", each.name, 1, squaring, each.direction)
    for strip in each.strips:
        yield CutStep("strip", each.name, strip.times, strip.width, each.direction)
        for stack in strip.stacks:
            yield from _stack(each, strip, stack)


def _stack(each: Sheetplan, strip: Strip, stack: Stack) -> Iterator[CutStep]:
    beside, above = (stack.across, stack.along) if each.direction == "across" else (stack.along, stack.across)
    pieces = stack.pieces * strip.times * each.copies
    trims = stack.high > 1 or above < strip.width
    size = (stack.across, stack.along)
    yield CutStep("sub_cut", each.name, stack.times, beside, None, stack.part, *size, 0 if trims else pieces)
    if trims:
        yield CutStep("trim", each.name, stack.high, above, None, stack.part, *size, pieces)
