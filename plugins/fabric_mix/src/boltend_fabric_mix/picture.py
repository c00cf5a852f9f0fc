"""The picture of a mix: each combination as a row of swatches."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Note, Rect, Shape
from boltend_fabric_mix.mix import Mix
from boltend_fabric_mix.names import counted

MOST_ROWS = 24
"""Combinations that are drawn: those of most blocks."""

SWATCH = Fraction(2)
"""Inches of a swatch; a row stands half a swatch from the next."""


def picture(mix: Mix, names: Sequence[str]) -> list[Shape]:
    """Swatches by combination, with the number of blocks beside each."""
    shapes: list[Shape] = []
    rows = list(mix.blocks.items())
    for number, (block, count) in enumerate(rows[:MOST_ROWS]):
        y = number * SWATCH * 3 / 2
        for at, i in enumerate(block):
            shapes.append(Rect(at * SWATCH, y, SWATCH, SWATCH, names[i], names[i]))
        shapes.append(Note(len(block) * SWATCH + SWATCH / 4, y + SWATCH / 2, f"× {count}"))
    rest = len(rows) - MOST_ROWS
    if rest > 0:
        words = f"and {counted(rest, 'more combination')}"
        shapes.append(Note(Fraction(0), MOST_ROWS * SWATCH * 3 / 2 + SWATCH / 2, words))
    return shapes
