"""Bars in cells: amounts beside each other, each as long as it is large, from nothing on."""

from collections.abc import Sequence
from fractions import Fraction

_EIGHTHS = " ▏▎▍▌▋▊▉"
_FULL = "█"
_PLAIN = "#"


def bars(
    amounts: Sequence[Fraction | None],
    width: int,
    *,
    ascii: bool = False,  # noqa: A002 - the word that `draw` is called with
) -> list[str] | None:
    """A bar of at most `width` cells for each amount, empty where there is none.

    None where bars would tell nothing: fewer than two amounts, all of them equal, or one less than nothing.
    To an eighth of a cell, in ASCII to a whole one; what is more than nothing has at least the least sign.
    """
    known = [amount for amount in amounts if amount is not None]
    if len(known) < 2 or width < 1 or min(known) < 0 or min(known) == max(known):
        return None
    parts, most = (1 if ascii else 8), max(known)
    return [
        "" if not amount else _bar(max(1, round(amount * width * parts / most)), parts) for amount in amounts
    ]


def _bar(length: int, parts: int) -> str:
    if parts == 1:
        return _PLAIN * length
    return _FULL * (length // parts) + _EIGHTHS[length % parts].strip()
