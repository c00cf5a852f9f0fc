"""The name that somebody probably meant, in bounded time: a project may hold ten thousand names and slips."""

from __future__ import annotations

from bisect import bisect
from collections.abc import Iterable
from functools import lru_cache

_LONGEST = 80
"""Characters of a name that is compared: comparing takes the square of them."""
_ALL = 100
"""Names that are all compared; of more, only those beside the word in the alphabet."""
_BESIDE = 20


def likeliest(word: str, names: Iterable[str], cutoff: float = 0.6) -> str | None:
    """The name most like a word, or None where none is like it (a ratio below `cutoff`).

    Among more than a hundred names one is found only if it begins as the word does.
    """
    from difflib import get_close_matches  # late: most projects hold no slip

    if len(word) > _LONGEST:
        return None
    known = tuple(names)
    if len(known) > _ALL:
        order, folded = _in_order(known)
        at = bisect(folded, word.casefold())
        known = order[max(0, at - _BESIDE) : at + _BESIDE]
    close = get_close_matches(word, [name for name in known if len(name) <= _LONGEST], 1, cutoff)
    return close[0] if close else None


@lru_cache(maxsize=4)
def _in_order(names: tuple[str, ...]) -> tuple[tuple[str, ...], list[str]]:
    order = sorted(set(names), key=lambda name: (name.casefold(), name))
    return tuple(order), [name.casefold() for name in order]
