"""The whole-number grid that all sizes of one task lie on."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

FINEST = 10**7
"""A task is never more than this many units across; beyond it sizes say nothing to a person."""

INCH_STEP = Fraction(1, 64)
METRIC_STEP = Fraction(1, 254)  # 0.1 mm, exactly, since 1 in is 25.4 mm


@dataclass(frozen=True, slots=True)
class Grid:
    """One unit in inches; `exact` is no where sizes had to be rounded to it."""

    unit: Fraction
    exact: bool = True

    @staticmethod
    def of(lengths: Iterable[Fraction]) -> "Grid":
        """Find the largest unit that divides every length (inches); a coarse one where that is too fine."""
        found = [Fraction(length) for length in lengths if length]
        if not found:
            return Grid(Fraction(1))
        below = lcm(*(length.denominator for length in found))
        unit = Fraction(gcd(*(length.numerator * (below // length.denominator) for length in found)), below)
        if max(found) / unit <= FINEST:
            return Grid(unit)
        metric, inch = (
            sum(1 for length in found if (length / step).denominator == 1)
            for step in (METRIC_STEP, INCH_STEP)
        )
        return Grid(METRIC_STEP if metric > inch else INCH_STEP, exact=False)

    def up(self, length: Fraction) -> int:
        """Give a piece's size in units: exact on an exact grid, else rounded up."""
        return -(-length // self.unit)

    def down(self, length: Fraction) -> int:
        """Give the cloth's size in units: exact on an exact grid, else rounded down."""
        return length // self.unit

    def inches(self, units: int) -> Fraction:
        """Give units back as inches."""
        return units * self.unit
