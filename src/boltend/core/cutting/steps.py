"""How a length is bought, and what a shorter plan must reach to matter."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol


class Aim(Protocol):
    """What a proof is for."""

    def shorter(self, length: Fraction) -> Fraction:
        """Give the greatest cut length that is better than `length` in what matters, in inches.

        A proof that no plan is so short is enough. Less than 0: nothing could be better.
        """
        ...


@dataclass(frozen=True, slots=True)
class Steps:
    """Cloth is bought in whole `step`s; `squaring` is cut off once, and the share `kept` survives a wash."""

    step: Fraction
    squaring: Fraction = Fraction(0)
    kept: Fraction = Fraction(1)

    def bought(self, cut: Fraction) -> Fraction:
        """Give the length to buy for a length that is cut, in inches: a whole number of steps."""
        if not cut:
            return Fraction(0)
        return -(-(cut + self.squaring) / self.kept // self.step) * self.step

    def shorter(self, length: Fraction) -> Fraction:
        """Give the greatest cut length that buys a step less."""
        if not length:
            return Fraction(-1)
        return max(Fraction(0), (self.bought(length) - self.step) * self.kept - self.squaring)


@dataclass(frozen=True, slots=True)
class AtMost:
    """It matters only whether a plan takes at most `length` inches."""

    length: Fraction

    def shorter(self, length: Fraction) -> Fraction:
        """Give the length itself while the plan is longer."""
        return self.length if length > self.length else Fraction(-1)
