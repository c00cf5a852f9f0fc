"""What the units of a block have in common: the seam parts, the chord of a seam, whole sets.

Two cut triangles are two seams larger than their finished ones all round, so a triangle with a right angle
takes more than 2 seams in its square; how much more is geometry, and exact with √2.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from boltend.plugin import ROOT2, Cannot, Settings, Surd, ceil_div

HALF_PART = 2 + ROOT2
"""Seams that a half-square triangle's square takes beyond the finished legs: 7/8 in at 1/4 in, rounded up."""
QUARTER_PART = 2 * (1 + ROOT2)
"""Seams that a quarter-square triangle's square takes beyond its finished long side: 1 1/4 in at 1/4 in."""

Exact: TypeAlias = Fraction | Surd
"""An exact length in inches that may hold a root, and that a whole number divides exactly."""

MOST_SEAMS = 10**7
"""Inches: no length in Boltend is longer, and nobody sews 158 miles."""


@dataclass(frozen=True, slots=True)
class Size:
    """A cutting size in inches: exact, and as it is cut, rounded up once to the cutting step."""

    exact: Exact
    cut: Fraction

    @property
    def over(self) -> Exact:
        """What the rounding adds."""
        return self.cut - self.exact


def sized(exact: Exact, setting: Settings) -> Size:
    """A cutting size, rounded up once."""
    return Size(exact, setting.cut_up(exact))


def half_square(finished: Exact, seam: Fraction) -> Exact:
    """The least square that gives two half-square triangles of these finished legs; inches.

    Every finished edge lies a seam inside its raw edge. 3 in at 1/4 in: 3.8536 in. By geometry.
    """
    return finished + seam * HALF_PART


def quarter_square(finished: Exact, seam: Fraction) -> Exact:
    """The least square that gives four triangles of this finished long side; inches.

    3 in at 1/4 in: 4.2071 in. By geometry.
    """
    return finished + seam * QUARTER_PART


def chord(side: Exact, seam: Fraction) -> Exact:
    """A seam beside the diagonal of a square of this side, raw edge to raw edge; inches."""
    return side * ROOT2 - 2 * seam


def sets_for(count: int, each: int) -> int:
    """Whole sets of which each gives `each` units, for `count` of them."""
    return ceil_div(count, each)


def check_seams(seams: Exact) -> None:
    """Raise `Cannot` where so many units take more seam than a length may be."""
    if seams > MOST_SEAMS:
        raise Cannot("count", "the seams come to more than 10 000 000 in.", "Make fewer or smaller units.")


def hourglass_sewn(square: Exact, seam: Fraction) -> Exact:
    """The raw edge of an hourglass unit before it is trimmed: each of its two seams takes s√2; inches."""
    return square - 2 * seam * ROOT2


def hourglass_seams(square: Exact, seam: Fraction) -> Exact:
    """All seams of a pair of hourglass units: two beside a diagonal of the square, two of the halves."""
    return 2 * chord(square, seam) + 2 * chord(square - seam * ROOT2, seam)
