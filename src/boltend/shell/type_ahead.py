"""Typing at a choice that is not open: what was typed, letter by letter, and the name that it means."""

import time
import unicodedata
from collections.abc import Sequence

PAUSE = 1.0
"""Seconds after which a letter that does not go on with what was typed begins anew."""


def beginning(names: Sequence[str], typed: str) -> list[str]:
    """The names that begin with what was typed; the one that is called just so first."""
    said = low(typed)
    fits = [name for name in names if low(name).startswith(said)]
    return sorted(fits, key=lambda name: low(name) != said)


def low(text: str) -> str:
    """A text as it is compared, blanks and all."""
    return unicodedata.normalize("NFC", text).casefold()


class TypeAhead:
    """What was typed at a choice that is not open, letter by letter."""

    def __init__(self) -> None:
        self.typed = ""
        self.before = ""
        """What stood there before anything was typed."""
        self._when = 0.0

    def add(self, letter: str, names: Sequence[str], holds: str, before: str) -> str | None:
        """The name that is meant with one more letter; None where no name begins so.

        `holds` is the name that stands there, `before` its text, which is empty for a default. A letter that
        goes on with what was typed goes on with it, however slowly somebody types; the first one again goes
        to the next name that begins with it.
        """
        late, self._when = time.monotonic() - self._when > PAUSE, time.monotonic()
        if not self.typed:
            self.before = before
        typed = self.typed + letter
        if not beginning(names, typed) and self.typed:
            if set(low(typed)) == {low(letter)}:
                typed = letter
            elif late and beginning(names, letter):
                typed, self.before = letter, before
        self.typed = typed
        at = names.index(holds) + 1 if holds in names and len(typed) == 1 else 0
        return self._meant([*names[at:], *names[:at]], "" if len(typed) == 1 else holds)

    def take_back(self, names: Sequence[str], holds: str) -> str:
        """The name that is meant with one letter less; without any, what stood there before."""
        self.typed = self.typed[:-1]
        return (self._meant(names, holds) or "") if self.typed else self.before

    def _meant(self, names: Sequence[str], holds: str) -> str | None:
        fits = beginning(names, self.typed)
        if not fits or low(fits[0]) == low(self.typed):
            return fits[0] if fits else None
        return holds if holds in fits else fits[0]

    def says(self, name: str, names: Sequence[str]) -> str:
        """What was typed, and what it means."""
        count = len(beginning(names, self.typed))
        among = f", 1 of {count} that begin so" if count > 1 else ""
        return f"Typed “{self.typed}”: {name}{among}. Backspace takes a letter back."
