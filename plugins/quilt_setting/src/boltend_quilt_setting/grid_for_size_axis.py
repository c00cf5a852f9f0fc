"""One direction of a grid: so many blocks, and the border that brings them to the target.

All lengths here are whole numbers of a `Scale`, in which sums and comparisons of lengths with a √2 are exact
and cost what whole numbers cost: a search may look at ten thousands of grids.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt, lcm


@dataclass(frozen=True, slots=True)
class Scale:
    """A length of p + q·√2, in `unit`ths of an inch, stands as the whole number p · `one` + q · `root`.

    `root` is √2 · `one` rounded down. Where p and q have at most b bits, |p + q·√2| is 0 or above
    1 ÷ 2^(b + 2), for p² − 2q² is a whole number. With `one` = 2^(2b + 8) what `root` lost, at most |q|, is
    too little to turn a comparison, and equal lengths stand as equal numbers.
    """

    unit: int
    one: int
    root: int

    @classmethod
    def holding(cls, lengths: Iterable[Fraction], largest: int) -> "Scale":
        """A scale for sums of these lengths, each up to `largest` inches, and for products of two of them."""
        unit = lcm(*(length.denominator for length in lengths))
        bits = (16 * (largest * unit) ** 2).bit_length()
        one = 1 << (2 * bits + 8)
        return cls(unit, one, isqrt(2 * one * one))

    def of(self, length: Fraction) -> int:
        """A length without a root."""
        return int(length * self.unit) * self.one

    def rooted(self, length: Fraction) -> int:
        """√2 times a length."""
        return int(length * self.unit) * self.root


@dataclass(frozen=True, slots=True)
class Borders:
    """The borders that may be sewn: `low` to `high` whole steps of `step`."""

    low: int
    high: int
    step: int

    def about(self, total: int, parts: int) -> tuple[int, int]:
        """How many steps are just not above, and just not below, `total` ÷ `parts`, within the limits."""
        steps, rest = divmod(total, parts * self.step)
        return self._clamped(steps), self._clamped(steps + (rest > 0))

    def _clamped(self, steps: int) -> int:
        return min(max(steps, self.low), self.high)


@dataclass(frozen=True, slots=True)
class Axis:
    """One direction: a `target`, and n blocks that make n · `pitch` − `gap` without a border."""

    target: int
    pitch: int
    gap: int
    borders: Borders

    def over(self, count: int, steps: int) -> int:
        """How much so many blocks with a border at both ends are over the target; below 0: short of it."""
        return count * self.pitch - self.gap + 2 * steps * self.borders.step - self.target

    def least_count(self, steps: int) -> int:
        """The fewest blocks, at least 1, that reach the target with this border."""
        return max(1, -(self.over(0, steps) // self.pitch))

    def reaching(self) -> Iterator[tuple[int, int]]:
        """Every count with the least border that reaches the target, from which nothing can be taken.

        With one block fewer, or the border a step narrower where that is allowed, it would fall short.
        """
        low, high = self.borders.low, self.borders.high
        for count in range(self.least_count(high), self.least_count(low) + 1):
            steps = self.borders.about(-self.over(count, 0), 2)[1]
            if count == 1 or self.over(count - 1, steps) < 0:
                yield count, steps

    def near(self) -> range:
        """The counts that are worth a look for the nearest.

        None that is too large already with one block fewer and the narrowest border, none that is too small
        still with one block more and the widest.
        """
        fits = -self.over(0, self.borders.high) // self.pitch
        return range(max(1, fits), self.least_count(self.borders.low) + 1)

    def nearest(self, count: int) -> int:
        """The border that misses the target least; of two that miss alike the one that reaches it."""
        narrower, wider = self.borders.about(-self.over(count, 0), 2)
        return narrower if abs(self.over(count, narrower)) < abs(self.over(count, wider)) else wider
