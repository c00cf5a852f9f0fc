"""A framed square cut once on its diagonal, for the corners of a block whose centre is set on point."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import ROOT2, Cannot, Settings
from boltend_block_units.framed_rounds import Frame
from boltend_block_units.parts import HALF_PART, Exact, Size, half_square


@dataclass(frozen=True, slots=True)
class Halved:
    """What the halves of a framed square go round; inches.

    `trim`: the raw side it is trimmed to, then cut once; `least` how that came about where a block's size
    was given; `block`, `on_point` the finished sides of the block and of its centre; `left` the finished
    width that the last round keeps; `oversize` how much longer the legs are made than they finish.
    """

    trim: Fraction
    least: Size | None
    block: Exact
    on_point: Exact
    left: Fraction
    oversize: Fraction


def halve(frame: Frame, block: Fraction | None, oversize: Fraction, setting: Settings) -> Halved:
    """The halves of a framed square, for a block of a finished size or for the largest that they give.

    Raises `Cannot` where the square is too small for the block, or trimming it takes a whole round.
    """
    outer = frame.rounds[-1].width
    if block is None:
        legs = frame.sewn - oversize - setting.seam * HALF_PART
        if legs <= 0:
            raise Cannot("centre", "halved, nothing of the corners shows.", "Make the square larger.")
        return Halved(frame.sewn, None, 2 * legs, legs * ROOT2, outer, oversize)
    exact = half_square(block / 2 + oversize, setting.seam)
    least = Size(exact, setting.cut_up(exact))
    short = least.cut - frame.sewn
    if short > 0:
        raise Cannot(
            "rounds",
            f"the framed square is {_said(short)} too small for the corners of that block.",
            f"Make the last round {_said(short / 2)} wider, or take a larger centre.",
        )
    left = outer + short / 2
    if left <= 0:
        raise Cannot("rounds", "trimming the framed square for that block takes the whole last round.",
                     "Leave the last round out, or make the rounds or the centre smaller.")  # fmt: skip
    return Halved(least.cut, least, block, block / ROOT2, left, oversize)


def _said(inches: Fraction) -> str:
    """A length in an error: errors are words, so in inches as a decimal, with the millimetres."""
    return f"{float(inches):.4g} in ({float(inches * Fraction(254, 10)):.4g} mm)"
