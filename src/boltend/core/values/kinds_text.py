"""The kinds that are words: choice, yes_no, fabric, text, colour."""

from __future__ import annotations

import re
import unicodedata
from difflib import get_close_matches

from boltend.core.values.errors import NotationError
from boltend.core.values.kind import Kind
from boltend.core.values.notation import Notation
from boltend.core.values.scan import checked, guarded, refuse_unseen
from boltend.core.values.surd import Number

LONGEST_TEXT = 500
"""Characters of a name or a note."""

COLOURS = {
    "black": "#000000", "white": "#ffffff", "grey": "#808080", "gray": "#808080", "silver": "#c0c0c0",
    "red": "#ff0000", "maroon": "#800000", "orange": "#ffa500", "yellow": "#ffff00", "gold": "#ffd700",
    "olive": "#808000", "green": "#008000", "lime": "#00ff00", "teal": "#008080", "aqua": "#00ffff",
    "blue": "#0000ff", "navy": "#000080", "purple": "#800080", "fuchsia": "#ff00ff", "pink": "#ffc0cb",
    "brown": "#a52a2a", "tan": "#d2b48c", "beige": "#f5f5dc", "ivory": "#fffff0",
}  # fmt: skip
"""Plain names of colours (W3C, CSS Color Module Level 4, named colours)."""

_YES_NO = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}


class WordKind(Kind):
    """A kind whose value is the text itself: what they have in common."""

    def show(self, value: str, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return the text."""
        return value

    def to_json(self, value: str, how: Notation, unit: str = "", unrounded: Number | None = None) -> str:
        """Return the text."""
        return value

    def check(self, value: object) -> str | None:
        """Accept a str that reads as itself."""
        if not isinstance(value, str):
            return f"{type(value).__name__} where a text is wanted"
        try:
            read = self.read(value, Notation())
        except NotationError as error:
            return str(error)
        return None if read == value else f"{value[:40]!r} should be written {read[:40]!r}"


class TextKind(WordKind):
    """Free text, or the name of a fabric: normalised (NFC), stripped, at most 500 characters."""

    def __init__(self, name: str, *, may_be_empty: bool) -> None:
        self.name = name
        self._may_be_empty = may_be_empty

    def read(self, text: str, how: Notation, unit: str = "") -> str:
        """Return the text, normalised and stripped."""
        return guarded(text, self._read)

    def _read(self, text: str) -> str:
        if not isinstance(text, str):
            raise TypeError(f"a text is read, not {type(text).__name__}")
        if len(text) > LONGEST_TEXT:
            raise NotationError(
                text, LONGEST_TEXT, f"this is {len(text)} characters long", f"keep it to {LONGEST_TEXT}"
            )
        for at, character in enumerate(text):
            refuse_unseen(text, at, character)
        good = unicodedata.normalize("NFC", text).strip()
        if len(good) > LONGEST_TEXT:  # a few characters grow under NFC
            raise NotationError(text, LONGEST_TEXT, "this is too long", f"keep it to {LONGEST_TEXT}")
        if not good and not self._may_be_empty:
            raise NotationError(text, 0, "a name is missing", "write one")
        return good


class ChoiceKind(WordKind):
    """One of a few words, made for each given: the option's own text.

    Args:
        options: the options as they are shown, in order.
    """

    name = "choice"

    def __init__(self, options: tuple[str, ...]) -> None:
        self.options = options
        self._known = {_folded(option): option for option in options}
        if len(self._known) != len(options):
            raise ValueError(f"two options are written alike: {', '.join(options)}")

    def read(self, text: str, how: Notation, unit: str = "") -> str:
        """Return the option that `text` names; capitals, spaces and underscores do not matter."""
        return guarded(text, self._read)

    def _read(self, text: str) -> str:
        if isinstance(text, str) and text in self.options:
            return text
        option = self._known.get(_folded(checked(text)))
        if option is None:
            near = get_close_matches(_folded(text), self._known, n=1, cutoff=0.5)
            offers = tuple(self._known[name] for name in near) or self.options
            raise NotationError(text, 0, "this is none of the choices", "write one of them", offers)
        return option


class YesNoKind(Kind):
    """Yes or no: a bool. A word on the screen and the command line, a boolean in the file."""

    name = "yes_no"

    def read(self, text: str, how: Notation, unit: str = "") -> bool:
        """Return True for yes."""
        return guarded(text, _read_yes_no)

    def show(self, value: bool, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``yes`` or ``no``."""
        return "yes" if value else "no"

    def from_toml(self, raw: object, how: Notation, unit: str = "") -> bool:
        """Return a TOML boolean; anything else is refused."""
        if isinstance(raw, bool):
            return raw
        text = raw if isinstance(raw, str) else type(raw).__name__
        raise NotationError(text, 0, "this is neither true nor false", "write true or false, without quotes")

    def to_toml(self, value: bool, how: Notation, unit: str = "") -> bool:
        """Return a TOML boolean."""
        return value

    def to_json(self, value: bool, how: Notation, unit: str = "", unrounded: Number | None = None) -> bool:
        """Return a JSON boolean."""
        return value

    def check(self, value: object) -> str | None:
        """Accept a bool."""
        return None if isinstance(value, bool) else f"{type(value).__name__} where a bool is wanted"


class ColourKind(WordKind):
    """A colour: ``#rrggbb`` in lower case."""

    name = "colour"

    def read(self, text: str, how: Notation, unit: str = "") -> str:
        """Return the colour of ``#rrggbb``, ``#rgb`` or a plain name such as ``navy``."""
        return guarded(text, _read_colour)


def _read_yes_no(text: str) -> bool:
    word = _folded(checked(text))
    if word not in _YES_NO:
        raise NotationError(text, 0, "this is neither yes nor no", "write", ("yes", "no"))
    return _YES_NO[word]


def _read_colour(text: str) -> str:
    word = checked(text).strip().casefold()
    if word in COLOURS:
        return COLOURS[word]
    start = len(text) - len(text.lstrip())
    if not word.startswith("#"):
        near = get_close_matches(word, COLOURS, n=1, cutoff=0.6)
        raise NotationError(
            text, start, "this is no colour known here", "write one as #rrggbb or by a plain name",
            (*near, f"#{word}"),
        )  # fmt: skip
    wrong = re.search(r"[^0-9a-f]", word[1:])
    if wrong:
        raise NotationError(
            text, start + 1 + wrong.start(), "only 0 to 9 and a to f stand in a colour", "write it as #rrggbb"
        )
    if len(word) == 4:
        return "#" + "".join(2 * digit for digit in word[1:])
    if len(word) != 7:
        raise NotationError(
            text, start + len(word), "a colour has three or six digits", "write it as #rrggbb"
        )
    return word


def _folded(option: str) -> str:
    return re.sub(r"[\s_]+", " ", option).strip().casefold()
