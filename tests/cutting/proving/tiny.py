"""Tiny demands at random (always the same ones), as the oracle wants them and as the engine does."""

from collections.abc import Sequence
from fractions import Fraction
from random import Random

from boltend.core.cutting import Bolt, Part, Sheet, Stock

from .oracle import Cloth, Want

UNIT = Fraction(1, 2)
"""Inches for one of the oracle's units: any would do."""


def wants(
    chance: Random, run: int, kinds: int = 3, copies: int = 4, tallest: int | None = None
) -> list[Want]:
    """Draw 1 to `kinds` sizes that fit the run: near the whole of it, about half of it, or many beside and
    above each other.
    """
    found = []
    for _ in range(chance.randint(1, kinds)):
        across = chance.randint(2, max(2, chance.choice([run, run // 2, run // 5])))
        along = chance.randint(1, chance.choice([tallest or run + 3, 4]))
        found.append(Want(across, along, chance.randint(1, copies), chance.random() < 0.6))
    return found


def parts(found: Sequence[Want]) -> list[Part]:
    """The same for the engine."""
    return [
        Part(f"p{n}", want.across * UNIT, want.along * UNIT, want.copies, want.may_turn)
        for n, want in enumerate(found)
    ]


def bolt(run: int, in_hand: Sequence[Cloth] = ()) -> Stock:
    """An endless bolt, after pieces in hand."""
    pieces = tuple(Bolt(each.across * UNIT, each.along * UNIT, f"rest {n}") for n, each in enumerate(in_hand))
    return Stock(pieces, Bolt(run * UNIT))


def sheets(cloths: Sequence[Cloth]) -> Stock:
    """Sheets only."""
    return Stock(
        tuple(
            Sheet(f"s{n}", each.across * UNIT, each.along * UNIT, each.copies)
            for n, each in enumerate(cloths)
        )
    )
