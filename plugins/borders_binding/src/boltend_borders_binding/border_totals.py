"""Which widths of one to four borders reach a size, in order and one by one: plain whole-number arithmetic.

Widths are whole numbers of the step. A *total* is the sum of a plan's widths on one side of the top.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from heapq import heappop, heappush
from itertools import groupby, islice
from typing import Literal, NamedTuple

from boltend.plugin import ceil_div

Order = Literal["even", "widening", "narrowing", "any"]
Reach = Literal["exactly", "at least", "nearest"]


SIZES_FIRST = 3
"""Sizes that are listed with one split each before the first has its others."""


class Limits(NamedTuple):
    """How many borders, each from `low` to `high` steps wide, in which order from the inside out."""

    many: int
    low: int
    high: int
    order: Order

    @property
    def totals(self) -> range:
        """Every total that some plan has; even borders have every so-manieth."""
        stride = self.many if self.order == "even" else 1
        return range(self.many * self.low, self.many * self.high + 1, stride)


class Totals(NamedTuple):
    """The totals of sides and ends, and by how much each misses what is wanted (less where below)."""

    sides: int
    ends: int
    over_width: Fraction
    over_height: Fraction

    @property
    def cost(self) -> tuple[Fraction, Fraction, Fraction, Fraction]:
        """Least missed in both together first, then the larger miss, then rather over than below."""
        wide, high = abs(self.over_width), abs(self.over_height)
        return wide + high, max(wide, high), -self.over_width, -self.over_height


Over = Callable[[int], tuple[Fraction, Fraction]]
"""By how much a total is over, across and down."""


def totals_in_order(limits: Limits, over: Over, reach: Reach, alike: bool) -> Iterator[Totals]:
    """Every pair of totals that reaches, best first (`Totals.cost`)."""
    wide = [(over(total)[0], total) for total in limits.totals]
    high = [(over(total)[1], total) for total in limits.totals]
    if alike:
        both = (Totals(t, t, a, b) for (a, t), (b, _) in zip(wide, high, strict=True))
        yield from sorted((t for t in both if _reaches(t, reach)), key=lambda t: t.cost)
        return
    wide, high = (sorted(_kept(each, reach), key=lambda o: (abs(o[0]), -o[0])) for each in (wide, high))
    for _, group in groupby(_by_sum(wide, high), key=lambda t: t.cost[0]):
        yield from sorted(group, key=lambda t: t.cost)


def _kept(each: list[tuple[Fraction, int]], reach: Reach) -> list[tuple[Fraction, int]]:
    if reach == "nearest":
        return each
    return [(over, total) for over, total in each if (over == 0 if reach == "exactly" else over >= 0)]


def _reaches(totals: Totals, reach: Reach) -> bool:
    least = min(totals.over_width, totals.over_height)
    return reach == "nearest" or (least >= 0 if reach == "at least" else least == 0 == max(totals[2:]))


def _by_sum(wide: list[tuple[Fraction, int]], high: list[tuple[Fraction, int]]) -> Iterator[Totals]:
    """All pairs, the least missed in both together first, without making them all."""
    if not wide or not high:
        return
    heap = [(abs(wide[0][0]) + abs(high[0][0]), 0, 0)]
    while heap:
        _, i, j = heappop(heap)
        yield Totals(wide[i][1], high[j][1], wide[i][0], high[j][0])
        if j + 1 < len(high):
            heappush(heap, (abs(wide[i][0]) + abs(high[j + 1][0]), i, j + 1))
        if j == 0 and i + 1 < len(wide):
            heappush(heap, (abs(wide[i + 1][0]) + abs(high[0][0]), i + 1, 0))


Plan = tuple[tuple[int, int], ...]
"""(sides, ends) of each border from the inside out."""


def plans_of(limits: Limits, totals: Totals, alike: bool) -> Iterator[Plan]:
    """Every plan of such totals: the narrowest inner border first, its ends nearest to its sides.

    Narrowing borders are counted from the outside in, so there the outermost is narrowest first.
    """
    for plan in _plans(limits, limits.many, totals.sides, totals.ends, (limits.low, limits.low), alike):
        yield plan[::-1] if limits.order == "narrowing" else plan


def usual_plan(limits: Limits, totals: Totals) -> Plan:
    """The split that a shop would name: of two borders the inner one third, the outer two thirds.

    Of three one, two and three parts of six, of four one to four of ten; each to the nearest step (a half
    the narrower way) within what the limits and the order leave. Common practice, no source.
    """
    plan = tuple(zip(_shared(limits, totals.sides), _shared(limits, totals.ends), strict=True))
    return plan[::-1] if limits.order == "narrowing" else plan


def _shared(limits: Limits, total: int) -> list[int]:
    widths: list[int] = []
    least = limits.low
    for part in range(1, limits.many + 1):
        left = limits.many - part + 1
        parts = sum(range(part, limits.many + 1))
        share = ceil_div(2 * total * part - parts, 2 * parts)
        fits = _widths(limits, left, total, least)
        width = min(max(share, fits[0]), fits[-1])
        widths.append(width)
        total -= width
        least = limits.low if limits.order == "any" else width
    return widths


def in_order(limits: Limits, pairs: Iterator[Totals], alike: bool) -> Iterator[tuple[Totals, Plan]]:
    """Every plan of such totals: of a few sizes the usual split each, then their other splits, and so on.

    Splits of one size are alike from outside: they must not hide that there are other sizes.
    """
    while few := list(islice(pairs, SIZES_FIRST)):
        usual = [(totals, usual_plan(limits, totals)) for totals in few]
        yield from usual
        for totals, first in usual:
            yield from ((totals, plan) for plan in plans_of(limits, totals, alike) if plan != first)


def _plans(
    limits: Limits, left: int, sides: int, ends: int, least: tuple[int, int], alike: bool
) -> Iterator[Plan]:
    if left == 0:
        yield ()
        return
    for x in _widths(limits, left, sides, least[0]):
        choices = (
            [x] if alike else sorted(_widths(limits, left, ends, least[1]), key=lambda y: (abs(y - x), y))
        )
        for y in choices:
            after = (limits.low, limits.low) if limits.order == "any" else (x, y)
            for rest in _plans(limits, left - 1, sides - x, ends - y, after, alike):
                yield ((x, y), *rest)


def _widths(limits: Limits, left: int, total: int, least: int) -> range:
    """The widths of the next border that leave a total which the others can have."""
    if limits.order == "even":
        return range(total // left, total // left + 1)
    low = max(least, total - (left - 1) * limits.high)
    high = total // left if limits.order != "any" else total - (left - 1) * limits.low
    return range(low, min(high, limits.high) + 1)
