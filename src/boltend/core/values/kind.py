"""What every kind of value can do: be read, shown, kept in a file, given as JSON, and checked."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from boltend.core.values.errors import NotationError
from boltend.core.values.notation import Notation
from boltend.core.values.surd import Number, Surd

_MOST_TOML = 10**12
_LONGEST_NUMBER = 4096
"""Bits of a numerator or denominator in a plugin's answer; honest exact arithmetic stays far below."""


class Kind:
    """One kind of value; stateless, shared, and made once.

    The values themselves differ from kind to kind (a Fraction, a Price, a text), so the common interface says
    ``Any``; each kind's own methods say what they take and give.
    """

    name: str = ""
    takes_whole_numbers = False
    """Whether a TOML whole number may stand for a bare one."""

    def read(self, text: str, how: Notation, unit: str = "") -> Any:
        """Return the value that `text` means, a bare number in the given's shown `unit`.

        Raises:
            NotationError: pointing at the character, with what would do.
        """
        raise NotImplementedError

    def show(self, value: Any, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return exact text that reads back equal; with `say_kind` a length says finished or cut.

        A value that no text gives back (a root not yet rounded) is shown rounded, behind ``≈``.
        """
        raise NotImplementedError

    def also(self, value: Any, how: Notation, unit: str = "") -> str | None:
        """Return the value in the other system, rounded, behind ``≈`` (never readable back), or None."""
        return None

    def from_toml(self, raw: object, how: Notation, unit: str = "") -> Any:
        """Return the value that a TOML value of a project file means.

        Raises:
            NotationError: it is of the wrong type, or does not read.
        """
        if isinstance(raw, str):
            return self.read(raw, how, unit)
        if type(raw) is int and self.takes_whole_numbers and abs(raw) < _MOST_TOML:
            return self.read(str(raw), how, unit)
        raise self.toml_refusal(raw, how, unit)

    def to_toml(self, value: Any, how: Notation, unit: str = "") -> Any:
        """Return the TOML value that reads back equal: a text, unless the kind says otherwise."""
        return self.show(value, how, unit)

    def to_json(self, value: Any, how: Notation, unit: str = "", unrounded: Number | None = None) -> Any:
        """Return the JSON form of vocabulary.md; `unrounded` is a length before its one rounding."""
        raise NotImplementedError

    def check(self, value: object) -> str | None:
        """Return what is wrong with a Python value of this kind, as a plugin answers it; None if nothing."""
        raise NotImplementedError

    def toml_refusal(self, raw: object, how: Notation, unit: str) -> NotationError:
        """Return the error for a TOML value of the wrong type, with the text to write instead."""
        text = _shown_raw(raw)
        if isinstance(raw, float) and (suggestion := self._instead_of_float(raw, how, unit)):
            why, way_out = "a TOML decimal is not kept exactly", f'write it in quotes: "{suggestion}"'
            return NotationError(text, 0, why, way_out, (suggestion,))
        wanted = "a text in quotes or a whole number" if self.takes_whole_numbers else "a text in quotes"
        return NotationError(text, 0, f"this says no {self.name.replace('_', ' ')}", f"write {wanted}")

    def _instead_of_float(self, raw: float, how: Notation, unit: str) -> str:
        """The text that says in this kind's notation what the decimal meant; ``""`` if there is none."""
        try:
            return self.show(self.read(plain_float(raw), how, unit), how, unit)
        except (NotationError, ValueError):
            return ""


def plain_float(raw: float) -> str:
    """Return the decimal that a TOML float was written as, without an exponent."""
    return format(Decimal(repr(raw)), "f")


def check_number(
    value: object, least: int | None, most: int, *, root: bool = True, whole: bool = False
) -> str | None:
    """Return what is wrong with an exact number from a plugin; None if nothing."""
    if type(value) is int or (type(value) is Fraction and not whole):  # nearly every number, and all is well
        top, under = value.numerator, value.denominator
        small = max(top.bit_length(), under.bit_length()) <= _LONGEST_NUMBER
        if small and abs(top) <= most * under and (least is None or top >= least * under):
            return None
    allowed: tuple[type, ...] = (int,) if whole else (int, Fraction, Surd) if root else (int, Fraction)
    if isinstance(value, bool) or not isinstance(value, allowed):
        wanted = "a whole number (int)" if whole else "an exact number (Fraction)"
        return f"{type(value).__name__} where {wanted} is wanted"
    assert isinstance(value, int | Fraction | Surd)
    parts = (value.a, value.b) if isinstance(value, Surd) else (Fraction(value),)
    if any(max(p.numerator.bit_length(), p.denominator.bit_length()) > _LONGEST_NUMBER for p in parts):
        return "a number of too many digits: round it to its step"
    if least is not None and value < least:
        return f"a value below {least}"
    return f"a value beyond {most}" if value > most or value < -most else None


def json_number(value: int | Fraction) -> int | float:
    """Return a number as JSON has it: whole where it is."""
    return value.numerator if value.denominator == 1 else float(value)


def _shown_raw(raw: object) -> str:
    """The TOML value at fault as text, short whatever it holds."""
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, int):
        return str(raw) if abs(raw) < _MOST_TOML else "a very large number"
    return repr(raw) if isinstance(raw, float) else f"({type(raw).__name__})"
