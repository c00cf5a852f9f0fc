"""The kinds that are plain numbers: count, number, percent, and time."""

from __future__ import annotations

import re
from fractions import Fraction

from boltend.core.values.errors import NotationError
from boltend.core.values.exact import plain
from boltend.core.values.kind import Kind, check_number, json_number, plain_float
from boltend.core.values.measures import TIME, read_amount
from boltend.core.values.notation import Notation
from boltend.core.values.numbers import decimal_text
from boltend.core.values.scan import Scanner, guarded
from boltend.core.values.surd import Number
from boltend.core.values.units import MINUTES

_MOST_COUNT = 10**9
_MOST_NUMBER = 10**12 - 1


class CountKind(Kind):
    """How many: an int, 0 or more."""

    name = "count"
    takes_whole_numbers = True

    def read(self, text: str, how: Notation, unit: str = "") -> int:
        """Return the whole number that `text` is."""
        return guarded(text, _read_count)

    def show(self, value: int, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return its digits, without separators."""
        return str(value)

    def to_toml(self, value: int, how: Notation, unit: str = "") -> int:
        """Return a TOML whole number."""
        return value

    def to_json(self, value: int, how: Notation, unit: str = "", unrounded: Number | None = None) -> int:
        """Return a whole number."""
        return value

    def check(self, value: object) -> str | None:
        """Accept an int of 0 or more."""
        return check_number(value, 0, _MOST_COUNT, whole=True)


class NumberKind(Kind):
    """A number without a unit: a Fraction."""

    name = "number"
    takes_whole_numbers = True

    def read(self, text: str, how: Notation, unit: str = "") -> Fraction:
        """Return the exact number that `text` is."""
        return guarded(text, self._read)

    def _read(self, text: str) -> Fraction:
        scan = Scanner(text)
        sign = scan.sign("a number")
        value = sign * scan.number("2.5").value
        self._behind(scan)
        scan.end()
        return value

    def _behind(self, scan: Scanner) -> None:
        """Take what may stand behind the number."""

    def show(self, value: Number, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``2.5``, ``1/3`` or ``16``."""
        exact = isinstance(value, int | Fraction) and plain(Fraction(value))
        return exact or f"≈ {decimal_text(value, 3)}"

    def from_toml(self, raw: object, how: Notation, unit: str = "") -> Fraction:
        """Return the number; a TOML decimal means what its digits say."""
        if isinstance(raw, float):
            raw = plain_float(raw)  # inf and nan come out as words, which do not read
        return super().from_toml(raw, how, unit)  # type: ignore[no-any-return]  # it calls our own read

    def to_toml(self, value: Fraction, how: Notation, unit: str = "") -> str | int:
        """Return a whole number where it is one, else a text, which keeps it exact."""
        return self.show(value, how, unit) if value.denominator != 1 else value.numerator

    def to_json(
        self, value: Fraction, how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> int | float:
        """Return a JSON number."""
        return json_number(value)

    def check(self, value: object) -> str | None:
        """Accept int, Fraction and Surd."""
        return check_number(value, None, _MOST_NUMBER)


class PercentKind(NumberKind):
    """Parts of a hundred: 10 % is Fraction(10)."""

    name = "percent"

    def _behind(self, scan: Scanner) -> None:
        scan.spaces()
        if scan.take("%"):
            return
        at = scan.pos
        word = scan.word()
        if word and word not in ("percent", "pct"):
            scan.fail(at, f"“{word[:20]}” has no meaning behind a percentage", "write it as 10 %")

    def show(self, value: Number, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``10 %``."""
        return f"{super().show(value, how, unit)} %"

    def to_toml(self, value: Fraction, how: Notation, unit: str = "") -> str:
        """Return the text with its sign, so that the file says what it is."""
        return self.show(value, how, unit)


class TimeKind(Kind):
    """A time in minutes (Fraction), 0 or more."""

    name = "time"
    takes_whole_numbers = True

    def read(self, text: str, how: Notation, unit: str = "") -> Fraction:
        """Return minutes of a text like ``2 h 30 min``; a bare number is in `unit`, or minutes."""
        if unit and unit not in MINUTES:
            raise ValueError(f"{unit!r} is no unit of time; units: {', '.join(MINUTES)}")
        return guarded(text, lambda typed: self._read(typed, unit or "min"))

    def _read(self, text: str, unit: str) -> Fraction:
        scan = Scanner(text)
        value = read_amount(scan, TIME, unit, {})
        scan.end()
        if _shown_time(value) is None:
            raise NotationError(text, 0, "this is finer than can be kept", "write fewer digits")
        return value

    def show(self, value: Number, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``2 h 30 min``."""
        exact = isinstance(value, int | Fraction) and _shown_time(Fraction(value))
        return exact or f"≈ {decimal_text(value, 1)} min"

    def to_json(
        self, value: Fraction, how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> int | float:
        """Return minutes."""
        return json_number(value)

    def check(self, value: object) -> str | None:
        """Accept int, Fraction and Surd minutes, 0 or more."""
        return check_number(value, 0, TIME.most)


def _read_count(text: str) -> int:
    scan = Scanner(text)
    scan.sign("a count", may_be_negative=False)
    match = re.compile(r"([0-9]+)[.]").match(text, scan.pos)
    if match:
        whole = int(match[1]) if len(match[1]) < 10 else 0
        scan.fail(match.end() - 1, "a count is whole", "write a whole number", str(whole), str(whole + 1))
    number = scan.number("16")
    if number.value.denominator != 1:
        scan.fail(number.start, "a count is whole", "write a whole number", str(int(number.value)))
    if number.value > _MOST_COUNT:
        scan.fail(number.start, f"more than {_MOST_COUNT}", "write a smaller number")
    scan.spaces()
    joined = re.compile(r"(?:x|by|times)(?![a-z])", re.IGNORECASE).match(text, scan.pos)
    if joined:
        scan.refuse_two(scan.pos, joined.end())
    if scan.peek().isalpha():
        scan.fail(scan.pos, "a count has no unit", "write the number alone", text[: scan.pos].strip())
    scan.end()
    return int(number.value)


def _shown_time(minutes: Fraction) -> str | None:
    hours, rest = divmod(minutes, 60)
    text = plain(rest)
    if text is None or hours < 0:
        return None
    if not hours:
        return f"{text} min"
    return f"{hours} h {text} min" if rest else f"{hours} h"
