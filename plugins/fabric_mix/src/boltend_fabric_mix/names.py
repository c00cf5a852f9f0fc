"""Names and numbers in words."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import down

MOST_NAMES = 8
"""Names that a sentence lists; more are counted."""

FINE = Fraction(1, 100)
"""A contrast is told no finer, and never more than it is."""


def named(names: Sequence[str], word: str = "and") -> str:
    """A list in words: `Slate`, `Slate and Moss`, `Slate, Moss and 12 more`."""
    if len(names) > MOST_NAMES:
        return f"{', '.join(names[: MOST_NAMES - 1])} {word} {len(names) - MOST_NAMES + 1} more"
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {word} {names[-1]}"


def counted(number: int, one: str) -> str:
    """`1 block`, `2 blocks`."""
    return f"{number} {one}" if number == 1 else f"{number} {one}s"


def contrast(value: Fraction) -> str:
    """A contrast in figures, down to a hundredth: `21.35`."""
    hundredths = int(down(value, FINE) * 100)
    whole, rest = divmod(hundredths, 100)
    return f"{whole}.{rest:02}".rstrip("0").rstrip(".")


def pairs_said(
    pairs: Sequence[tuple[int, int]], names: Sequence[str], apart: Sequence[Sequence[Fraction]]
) -> str:
    """Pairs with their contrasts: `Slate and Moss (4.1), Slate and Fern (6)`; the same colour is named so."""
    said = [
        f"{names[i]} and {names[j]} ({'the same colour' if not apart[i][j] else contrast(apart[i][j])})"
        for i, j in pairs[:MOST_NAMES]
    ]
    rest = len(pairs) - MOST_NAMES
    return "; ".join(said) + (f"; and {rest} more" if rest > 0 else "")
