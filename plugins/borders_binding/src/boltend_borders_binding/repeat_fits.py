"""Where a pieced border's repeat fits round a top with a plain spacer: plain arithmetic."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from boltend.plugin import ceil_div, floor_div, nearest, up
from boltend_borders_binding.border_rows import LEAST_WIDTH

CORNERS = 4
"""Of a border: between the repeats of two edges, each a square of the border's width."""


class Side(NamedTuple):
    """One direction: a spacer on both edges, repeats along it, what is left over (below 0: too little)."""

    spacer: Fraction
    repeats: int
    left_over: Fraction

    @property
    def each(self) -> Fraction:
        """What every repeat has to give or take."""
        return abs(self.left_over) / self.repeats


class Fit(NamedTuple):
    """A fit both ways, of a repeat that is as given or smaller."""

    repeat: Fraction
    across: Side
    down: Side

    @property
    def repeats(self) -> int:
        """Along all four edges."""
        return 2 * (self.across.repeats + self.down.repeats)

    @property
    def cost(self) -> tuple[object, ...]:
        """Exact before eased; then wider spacer least, least unlike, largest repeat, least easing."""
        x, y = self.across.spacer, self.down.spacer
        easing = max(self.across.each, self.down.each)
        return easing > 0, max(x, y), abs(x - y), -self.repeat, easing, x, y


class Asked(NamedTuple):
    """What a fit is looked for: the top's finished (width, height) and the limits."""

    top: tuple[Fraction, Fraction]
    repeat: Fraction
    repeat_least: Fraction
    spacer_least: Fraction
    spacer_most: Fraction
    step: Fraction
    ease_most: Fraction
    size_step: Fraction

    @property
    def spacers(self) -> list[Fraction]:
        """No spacer, or one on the step between the least and the most.

        None is narrower than a border can be, also where it goes on rounded to the size step.
        """
        rounded = up(LEAST_WIDTH, self.size_step) - self.size_step / 2  # from here on it rounds to no less
        least = max(self.spacer_least, LEAST_WIDTH, rounded)
        low, high = ceil_div(least, self.step), floor_div(self.spacer_most, self.step)
        return [Fraction(0), *(units * self.step for units in range(low, high + 1))]

    @property
    def repeats(self) -> list[Fraction]:
        """The repeat as it is, then smaller ones on the step."""
        below = range(ceil_div(self.repeat, self.step) - 1, 0, -1)
        smaller = [units * self.step for units in below if units * self.step >= self.repeat_least]
        return [self.repeat, *smaller]


def side_of(length: Fraction, repeat: Fraction, spacer: Fraction) -> Side:
    """The whole number of repeats that is nearest, at least one."""
    inside = length + 2 * spacer
    repeats = max(1, int(nearest(inside / repeat, Fraction(1))))
    return Side(spacer, repeats, inside - repeats * repeat)


def fits(asked: Asked, most: int) -> list[Fit]:
    """The best `most` fits in the order of `Fit.cost`."""
    found: list[tuple[Fraction, list[Side], list[Side]]] = []
    for repeat in asked.repeats:
        each = [
            [s for spacer in asked.spacers if (s := side_of(length, repeat, spacer)).each <= asked.ease_most]
            for length in asked.top
        ]
        if each[0] and each[1]:
            found.append((repeat, each[0], each[1]))
    best: list[Fit] = []
    for exact in (True, False):
        for level in asked.spacers:
            best += sorted(_at(found, level, exact), key=lambda fit: fit.cost)
            if len(best) >= most:
                return best[:most]
    return best


def _at(
    found: Sequence[tuple[Fraction, list[Side], list[Side]]], level: Fraction, exact: bool
) -> Iterator[Fit]:
    """The fits, exact or eased, whose wider spacer is `level`."""
    for repeat, wide, high in found:
        pairs = [(a, d) for a in wide if a.spacer == level for d in high if d.spacer <= level]
        pairs += [(a, d) for d in high if d.spacer == level for a in wide if a.spacer < level]
        for across, down in pairs:
            if exact == (across.left_over == 0 == down.left_over):
                yield Fit(repeat, across, down)


def nearest_miss(asked: Asked) -> Fit:
    """What would have to be eased least, where that is more than the easing."""

    def least(length: Fraction) -> Side:
        sides = (side_of(length, asked.repeat, s) for s in asked.spacers)
        return min(sides, key=lambda side: (side.each, side.spacer))

    return Fit(asked.repeat, least(asked.top[0]), least(asked.top[1]))
