"""The order in which a person cuts a plan, as data."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.core.cutting.plans import Plan
from boltend.core.cutting.shapes import Direction


@dataclass(frozen=True, slots=True)
class CutStep:
    """One step.

    `square`: square the end of `count` pieces of cloth, losing `size`. `take`: lay out `count` of the stock
    item. `strip`: cut `count` strips `size` wide, running `direction`, from each. `sub_cut`: from each of
    those strips cut `count` segments `size` long (over the strip's run). `trim`: cut each such segment into
    `count` pieces, each `size` along the strip's width. `part` names what the pieces are for.
    """

    kind: Literal["take", "square", "strip", "sub_cut", "trim"]
    stock: str
    count: int
    size: Fraction
    direction: Direction | None = None
    part: str = ""
    across: Fraction | None = None
    along: Fraction | None = None
    pieces: int = 0


def cut_order(plan: Plan, squaring: Fraction = Fraction(0)) -> list[CutStep]:
    """List what to do, first thing first; steps that are alike are one step with a count."""
    raise NotImplementedError


def stacks_of(layers: int, most: int = 8) -> int:
    """How many stacks `layers` of cloth take at `most` a stack: 16 at 8 are 2 (common practice, no source)."""
    raise NotImplementedError
