"""Texts of several scripts on paper: which parts read from right to left, and Arabic letters joined."""

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from boltend.core.values import visible

_RIGHT_TO_LEFT = ("R", "AL")
_STRONG = ("L", *_RIGHT_TO_LEFT)
_SIZE = re.compile(r"(?<=≈) (?=\d)|(?<=\d) (?=(?:\d+/\d+|in|ft|yd|cm|mm|m)\b)")
FIRST_STRONG, END = "\u2068", "\u2069"
"""Signs that set a part of a line apart, so that it turns neither what stands before it nor after."""


def seen(text: str) -> str:
    """A text as it may stand on paper: nothing in it unseen, and no line parts a number from its unit."""
    return _SIZE.sub("\N{NO-BREAK SPACE}", visible(text))


class Part(NamedTuple):
    """A part of a line, and whether it reads from right to left."""

    words: str
    turned: bool


def reads_from_right(text: str) -> bool:
    """Whether the first letter that has a direction reads from right to left (as HTML's dir=auto has it)."""
    for character in text:
        direction = unicodedata.bidirectional(character)
        if direction in _STRONG:
            return direction in _RIGHT_TO_LEFT
    return False


def parts_of(text: str) -> Iterator[Part]:
    """A line in parts: each from a letter that reads from right to left to the last one before another."""
    if text.isascii():
        if text:
            yield Part(text, False)
        return
    start, first, last = 0, -1, -1
    for at, character in enumerate(text):
        direction = unicodedata.bidirectional(character)
        if direction in _RIGHT_TO_LEFT:
            first, last = (at if first < 0 else first), at
        elif direction == "NSM" and last == at - 1 and last >= 0:
            last = at  # a mark over the letter before it
        elif direction == "L" and first >= 0:
            yield from _two(text, start, first, last + 1)
            start, first, last = last + 1, -1, -1
    if first >= 0:
        yield from _two(text, start, first, last + 1)
        start = last + 1
    if start < len(text):
        yield Part(text[start:], False)


def _two(text: str, start: int, first: int, end: int) -> Iterator[Part]:
    if start < first:
        yield Part(text[start:first], False)
    yield Part(text[first:end], True)


def isolated(text: str) -> str:
    """A line with each part that reads from right to left between signs that set it apart."""
    if text.isascii():
        return text
    return "".join(f"{FIRST_STRONG}{part}{END}" if turned else part for part, turned in parts_of(text))


@lru_cache(maxsize=1)
def _shapes() -> dict[str, dict[str, str]]:
    """Arabic letters (and lam with alef) by their shapes: isolated, initial, medial, final.

    From the character database that Python has: the presentation forms say what they are forms of.
    """
    found: dict[str, dict[str, str]] = {}
    for code in (*range(0xFB50, 0xFC00), *range(0xFE70, 0xFEFD)):
        form, *letters = unicodedata.decomposition(chr(code)).split() or [""]
        if form.strip("<>") in ("isolated", "initial", "medial", "final"):
            name = "".join(chr(int(letter, 16)) for letter in letters)
            found.setdefault(name, {})[form.strip("<>")] = chr(code)
    return found


def joined(text: str) -> str:
    """Arabic letters in the shapes that they take beside each other; every other character stays."""
    if not any("\u0600" <= character <= "\u06ff" for character in text):
        return text
    shapes = _shapes()
    letters = _letters(text, shapes)
    found = []
    for at, letter in enumerate(letters):
        forms = shapes.get(letter)
        if forms is None:
            found.append(letter)
            continue
        before = "initial" in shapes.get(_beside(letters, at, -1), ()) and "final" in forms
        after = "final" in shapes.get(_beside(letters, at, 1), ()) and "initial" in forms
        form = ("medial" if after else "final") if before else ("initial" if after else "isolated")
        found.append(forms.get(form, letter))
    return "".join(found)


def _letters(text: str, shapes: dict[str, dict[str, str]]) -> list[str]:
    """The characters, but lam with alef as one."""
    found: list[str] = []
    for character in text:
        if found and len(found[-1]) == 1 and found[-1] + character in shapes and found[-1] == "\u0644":
            found[-1] += character
        else:
            found.append(character)
    return found


def _beside(letters: list[str], at: int, step: int) -> str:
    """The nearest letter before or after; marks over letters are stepped over."""
    at += step
    while 0 <= at < len(letters) and unicodedata.combining(letters[at][0]):
        at += step
    return letters[at] if 0 <= at < len(letters) else ""
