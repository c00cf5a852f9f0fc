"""Prices of pieces, and the bound that they certify, in whole numbers and fractions.

Let a piece of kind i be worth y_i. Where no strip of width h holds pieces worth more than h, no plan of
strips is shorter than the worth of all pieces wanted: every strip pays for what it holds. (Linear duality;
the bound at every step is Farley's: "A note on bounding a class of linear programming problems, including
cutting stock problems", Operations Research 38 (1990), from memory.) Cloth in hand that costs nothing is
charged at the dearest rate that any of its own strips reaches, and its depth taken off.

Prices come from HiGHS in floats, are rounded down to whole numbers, and everything after that is exact.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from boltend.core.cutting.proving.pricing import Pricer
from boltend.core.cutting.proving.strips import Ints
from boltend.core.cutting.proving.work import Work

SCALE = 10**6


@dataclass(frozen=True)
class Source:
    """Cloth that gives strips: its place in the stock (None: the endless bolt) and its depth in units."""

    place: int | None
    pricer: Pricer
    depth: int | None


@dataclass(frozen=True)
class Certified:
    """Whole prices, each worth 1/`rate` of a unit of length, and what follows: `bound` in units.

    `charges` are what a unit of each source's depth costs; 1 for the endless bolt. `worths` hold, for each
    source, the worth of the best strip of each width, in whole prices.
    """

    prices: Ints
    rate: Fraction
    charges: tuple[Fraction, ...]
    worths: tuple[Ints, ...]
    bound: Fraction


def certified(
    sources: Sequence[Source], wanted: Sequence[int], prices: Sequence[float], work: Work
) -> Certified:
    """Give the bound that these prices prove, whatever they are."""
    whole = np.array([max(0, int(price * SCALE)) for price in prices], dtype=np.int64)
    found: dict[int, Ints] = {}
    for source in sources:
        if id(source.pricer) not in found:
            found[id(source.pricer)] = source.pricer.values(whole, work).astype(np.int64)
    worths = tuple(found[id(source.pricer)] for source in sources)
    rate = Fraction(SCALE)
    for source, worth in zip(sources, worths, strict=True):
        if source.depth is None:
            rate = max(rate, _dearest(source.pricer.strips.widths, worth))
    charges = tuple(
        Fraction(1) if source.depth is None else _dearest(source.pricer.strips.widths, worth) / rate
        for source, worth in zip(sources, worths, strict=True)
    )
    worth_of_all = sum(int(price) * count for price, count in zip(whole, wanted, strict=True)) / rate
    in_hand = sum(
        (charge * source.depth for charge, source in zip(charges, sources, strict=True) if source.depth),
        Fraction(0),
    )
    return Certified(whole, rate, charges, worths, worth_of_all - in_hand)


def _dearest(widths: Sequence[int], worths: Ints) -> Fraction:
    """Give the most that a unit of width is worth in any strip."""
    ratios = (Fraction(int(worth), width) for width, worth in zip(widths, worths, strict=True))
    return max(ratios, default=Fraction(0))
