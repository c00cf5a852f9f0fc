"""The one error of reading: what was wrong, where, and what would do."""

from __future__ import annotations

import unicodedata

_SHOWN_AT_MOST = 60
"""Characters of the person's text that a message repeats; the text itself may be a megabyte."""


class NotationError(ValueError):
    """A typed text that cannot be read.

    Attributes:
        text: what was typed, whole.
        at: 0-based index of the character at fault (``len(text)`` where something is missing at the end).
        why: what is wrong, a short clause.
        way_out: what would do, a short clause.
        offers: texts that can be typed instead, each of which reads; may be empty.
    """

    def __init__(self, text: str, at: int, why: str, way_out: str, offers: tuple[str, ...] = ()) -> None:
        self.text = text
        self.at = min(max(at, 0), len(text))
        self.why = visible(why)  # it may repeat a character that was typed
        self.way_out = visible(way_out)
        self.offers = offers
        super().__init__(text, at, why, way_out, offers)

    def __str__(self) -> str:
        """One line, safe to show: the text (shortened, escaped), why, and the way out."""
        shown, _ = _window(self.text, self.at)
        return f"“{shown}”: {self.why}; {self.way_out}." if shown else f"{self.why}; {self.way_out}."

    def pointed(self) -> str:
        """Return four lines: the text, a caret under the character at fault, why, and the way out."""
        shown, column = _window(self.text, self.at)
        return f"{shown}\n{' ' * column}^\n{self.why}\n{self.way_out}"


def visible(text: str) -> str:
    """Return `text` with every control, format and surrogate character written as ``<U+XXXX>``."""
    if text.isprintable():  # nearly every text: no character of it is unseen
        return text
    return "".join(_visible_character(c) for c in text)


def code_point(character: str) -> str:
    """Return ``U+200B`` for one character."""
    return f"U+{ord(character):04X}"


def is_unseen(character: str) -> bool:
    """Tell whether a character does not show as itself: control, bidi, zero width, surrogate, unassigned."""
    return unicodedata.category(character) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")


def _visible_character(character: str) -> str:
    return f"<{code_point(character)}>" if is_unseen(character) else character


def _window(text: str, at: int) -> tuple[str, int]:
    """The part of `text` round `at` that fits a line, and the column where the caret belongs."""
    start = max(0, at - _SHOWN_AT_MOST // 2) if len(text) > _SHOWN_AT_MOST else 0
    end = start + _SHOWN_AT_MOST
    before = ("…" if start else "") + visible(text[start:at])
    after = visible(text[at:end]) + ("…" if end < len(text) else "")
    return before + after, len(before)
