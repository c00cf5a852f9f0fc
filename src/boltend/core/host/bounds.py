"""What an answer of a stranger may hold, looked at in the worker before any of it is sent.

The screen's process checks what it gets (`settle`); here is kept from it what it could not even take apart
without holding up a key: a million of anything, numbers of a million digits, texts of a megabyte.
"""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from typing import Any, get_args

from boltend.core.contract import Answer, Cannot, Goods, Line, Piece, Run, Shape, Shown
from boltend.core.host.faults import plain
from boltend.core.host.frames import MOST_BITS
from boltend.core.values import Surd

MOST_PARTS = 100_000
"""Values in one answer, of all kinds together: ten thousand shapes, the most of a picture, hold fewer."""

MOST_CHARACTERS = 200_000
"""Characters of all texts together, some fifty pages: they are laid out for the screen all at once."""

MOST_TEXT = 2_000
"""Characters of one text; a longer one is cut."""

_DEEPEST = 6

_OURS: tuple[type, ...] = (Line, Shown, Piece, Run, Goods, *get_args(Shape))


class TooMuch(Exception):
    """An answer that is too large to be one. Its words go on from `its answer`."""


def bounded(answer: Answer) -> Answer:
    """The same answer, its texts cut and without control characters. Raises `TooMuch`."""
    left, room = MOST_PARTS, MOST_CHARACTERS
    wrong = False
    for value in _values(answer, _DEEPEST):
        left -= 1
        if left < 0:
            raise TooMuch(f"holds more than {MOST_PARTS} values.")
        if isinstance(value, str):
            wrong = wrong or len(value) > MOST_TEXT or not value.isprintable()
            room -= min(len(value), MOST_TEXT)
            if room < 0:
                raise TooMuch(f"holds more than {MOST_CHARACTERS} characters.")
        elif isinstance(value, int | Fraction | Surd) and _bits(value) > MOST_BITS:
            raise TooMuch("holds a number of too many digits.")
    return _mended(answer) if wrong else answer


def plain_cannot(cannot: Cannot) -> Cannot:
    """The declared error in short words without control characters."""
    return Cannot(*map(plain_words, (cannot.given, cannot.why, cannot.way_out)))


def _values(value: object, deep: int) -> Iterator[object]:
    """Every value in an answer; what is no part of the contract is left to those who refuse it."""
    if isinstance(value, str | int | Fraction | Surd):
        yield value
    elif deep:
        inner: Iterator[object] = iter(())
        if isinstance(value, Mapping):
            inner = iter(value.values())
        elif isinstance(value, tuple | list):
            inner = iter(value)
        elif is_dataclass(value) and not isinstance(value, type):
            inner = iter([getattr(value, f.name) for f in fields(value)])
        yield None
        for part in inner:
            yield from _values(part, deep - 1)


def _bits(value: int | Fraction | Surd) -> int:
    parts = (value.a, value.b) if isinstance(value, Surd) else (value,)
    return max(max(p.numerator.bit_length(), p.denominator.bit_length()) for p in parts)


def _mended(answer: Answer) -> Answer:
    """Only words that are shown: a text that is found is refused where it is settled."""
    shown = ("working", "cautions", "first", "pieces", "runs", "goods", "picture")
    return replace(answer, **{name: _with_plain_words(getattr(answer, name)) for name in shown})


def _with_plain_words(value: Any) -> Any:
    """The same value, of the same classes; rows of it as a tuple."""
    if type(value) is str:
        return plain_words(value)
    if type(value) in _OURS:
        parts = value if isinstance(value, tuple) else [getattr(value, f.name) for f in fields(value)]
        return type(value)(*map(_with_plain_words, parts))
    return tuple(map(_with_plain_words, value)) if type(value) in (tuple, list) else value


def plain_words(text: str) -> str:
    """A text of any origin, cut, without control characters; it stays one line."""
    return plain(text if len(text) <= MOST_TEXT else text[: MOST_TEXT - 1] + "…")
