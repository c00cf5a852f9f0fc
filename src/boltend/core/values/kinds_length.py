"""The kinds that are measured: finished, cut, plain length, a list of measurements, and area."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import groupby
from typing import Any, NoReturn, TypeVar

from boltend.core.values.errors import NotationError
from boltend.core.values.exact import SHOP_PARTS, Form, in_best_form, last_resorts
from boltend.core.values.kind import Kind, check_number
from boltend.core.values.lengths import (
    CUT,
    FINISHED,
    LENGTH_KIND,
    also_length,
    convert_length,
    refuse_too_fine,
    scan_length,
    show_length,
)
from boltend.core.values.measures import AREA, LENGTH, read_amount
from boltend.core.values.notation import Notation
from boltend.core.values.numbers import decimal_text
from boltend.core.values.scan import LONGEST, Scanner, checked, guarded, readable
from boltend.core.values.surd import Number, Surd
from boltend.core.values.units import METRIC, SQUARE_INCHES, shown_unit

_R = TypeVar("_R")
MOST_MEASURED = 50
"""Measurements in one list: nobody measures a top in more places."""
_OF = re.compile(r"\s*([0-9]+)\s*of\b", re.IGNORECASE)
"""So many of one size."""
_TIMES = re.compile(r"((?:^|;|,\s)\s*[0-9]+)\s*(?:[x×*]|by\b|times\b)\s*(?=[0-9])", re.IGNORECASE)
"""What may mean so many of one size, or a size."""
_JSON_PLACES = 20  # decimals of a root in JSON, beyond any float


class LengthKind(Kind):
    """A length in inches (Fraction): finished, cut, or of no kind."""

    takes_whole_numbers = True

    def __init__(self, name: str) -> None:
        self.name = name

    def read(self, text: str, how: Notation, unit: str = "") -> Fraction:
        """Return inches; a text that says the other kind is converted by two seams."""
        return guarded(text, lambda typed: self.scan(typed, how, unit))

    def scan(self, text: str, how: Notation, unit: str) -> Fraction:
        """Do what `read` does, but leave the offers of an error untried."""
        value, said = scan_length(text, how, unit)
        if said is None or said == self.name or self.name == LENGTH_KIND:
            return value
        value = convert_length(value, said, self.name, how.seam)
        refuse_too_fine(text, value)
        return value

    def show(self, value: Number, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``12 1/2 in``, or ``12 1/2 in cut`` where the kind is asked for."""
        return show_length(value, how, unit, self.name if say_kind else "")

    def also(self, value: Number, how: Notation, unit: str = "") -> str | None:
        """Return the length in the other system, to 1/16 in or 1 mm; nothing is nothing in both."""
        return also_length(value, how, unit) if value else None

    def to_json(
        self, value: Fraction, how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> dict[str, Any]:
        """Return text, inches, unrounded, exact and kind: always all five."""
        before = value if unrounded is None else unrounded
        exact = not isinstance(before, Surd)
        return {
            "text": self.show(value, how, unit),
            "inches": str(Fraction(value)),
            "unrounded": decimal_text(before, _JSON_PLACES) if isinstance(before, Surd) else str(before),
            "exact": exact,
            "kind": self.name,
        }

    def check(self, value: object) -> str | None:
        """Accept int, Fraction and Surd inches, below zero too (what is left over may be)."""
        return check_number(value, None, LENGTH.most)


class MeasuredKind(Kind):
    """A list of measured lengths: a tuple of cut inches (Fraction), each above 0."""

    name = "measured"
    takes_whole_numbers = True

    def read(self, text: str, how: Notation, unit: str = "") -> tuple[Fraction, ...]:
        """Return the lengths of a text like ``60 1/4; 60 1/8``; one that says finished is made cut.

        So many of one size are written with ``of``: ``6 of 12 1/2; 4 of 12 3/8``.
        """
        return guarded(text, lambda typed: self._read(typed, how, unit))

    def _read(self, text: str, how: Notation, unit: str) -> tuple[Fraction, ...]:
        checked(text, MOST_MEASURED * LONGEST)
        _refuse_tight_comma(text)
        values: list[Fraction] = []
        for start, part in _parts(text):
            try:
                values += _placed(text, start, part, lambda p: _several(p, how, unit))
            except NotationError as error:
                self._refuse_times(text, error, how, unit)
            if len(values) > MOST_MEASURED:
                raise NotationError(text, start, f"more than {MOST_MEASURED} values", "leave some out")
        return tuple(values)

    def _refuse_times(self, text: str, error: NotationError, how: Notation, unit: str) -> NoReturn:
        """Refuse ``6 x 12 1/2``, which may be a size, but offer what would say so many of one."""
        of = _TIMES.sub(r"\1 of ", text)
        if of != text and readable(of, lambda typed: self._read(typed, how, unit)):
            raise NotationError(text, error.at, error.why, "for so many of one size write of", (of,))
        raise error

    def show(
        self, value: tuple[Fraction, ...], how: Notation, unit: str = "", *, say_kind: bool = False
    ) -> str:
        """Return the lengths with semicolons between; equal ones that follow each other are counted."""
        return "; ".join(_counted(value, lambda v: show_length(v, how, unit, CUT if say_kind else "")))

    def also(self, value: tuple[Fraction, ...], how: Notation, unit: str = "") -> str | None:
        """Return the lengths in the other system."""
        return "≈ " + "; ".join(_counted(value, lambda v: also_length(v, how, unit).removeprefix("≈ ")))

    def from_toml(self, raw: object, how: Notation, unit: str = "") -> tuple[Fraction, ...]:
        """Return the lengths of a TOML array of texts and whole numbers, or of one text."""
        if not isinstance(raw, list | tuple):
            return super().from_toml(raw, how, unit)  # type: ignore[no-any-return]  # it calls our own read
        if not 1 <= len(raw) <= MOST_MEASURED:
            raise NotationError("[…]", 1, f"{len(raw)} values", f"write 1 to {MOST_MEASURED}")
        values = tuple(value for item in raw for value in self._item(item, how, unit))
        if len(values) > MOST_MEASURED:
            raise NotationError("[…]", 1, f"{len(values)} values", f"write 1 to {MOST_MEASURED}")
        return values

    def _item(self, raw: object, how: Notation, unit: str) -> tuple[Fraction, ...]:
        text = str(raw) if type(raw) is int and abs(raw) <= LENGTH.most else raw
        if not isinstance(text, str):
            raise CUT_KIND.toml_refusal(raw, how, unit)
        return guarded(text, lambda typed: _several(typed, how, unit))

    def to_toml(self, value: tuple[Fraction, ...], how: Notation, unit: str = "") -> list[str]:
        """Return an array of texts, as ``["6 of 12 1/2 in", "12 3/8 in"]``."""
        return _counted(value, lambda v: show_length(v, how, unit))

    def to_json(
        self, value: tuple[Fraction, ...], how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> list[dict[str, Any]]:
        """Return a list of lengths, each a cut one."""
        return [CUT_KIND.to_json(v, how, unit) for v in value]

    def check(self, value: object) -> str | None:
        """Accept a tuple of 1 to 50 inches, each above 0."""
        if not isinstance(value, tuple) or not 1 <= len(value) <= MOST_MEASURED:
            return f"a tuple of 1 to {MOST_MEASURED} lengths is wanted"
        for item in value:
            if wrong := check_number(item, 0, LENGTH.most, root=False):
                return wrong
        return None if all(value) else "a measured length of 0"


class AreaKind(Kind):
    """An area in square inches (Fraction)."""

    name = "area"
    takes_whole_numbers = True

    def read(self, text: str, how: Notation, unit: str = "") -> Fraction:
        """Return square inches of a text like ``4 sq yd`` or ``1.5 yd²``."""
        return guarded(text, lambda typed: self._read(typed, _area_unit(unit, how)))

    def _read(self, text: str, shown: str) -> Fraction:
        scan = Scanner(text)
        value = read_amount(scan, AREA, shown, {})
        scan.end()
        if in_best_form(value, _AREA_FORMS["sq in"], SQUARE_INCHES) is None:
            raise NotationError(text, 0, "this is finer than can be kept", "write fewer digits")
        return value

    def show(self, value: Number, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``4 sq yd``."""
        shown = _area_unit(unit, how)
        exact = isinstance(value, int | Fraction) and in_best_form(
            Fraction(value), _AREA_FORMS[shown], SQUARE_INCHES
        )
        return exact or f"≈ {decimal_text(value / SQUARE_INCHES[shown], 3)} {shown}"

    def also(self, value: Number, how: Notation, unit: str = "") -> str | None:
        """Return the area in the other system, to two decimals; nothing is nothing in both."""
        if not value:
            return None
        shown = _area_unit(unit, how)
        other = shown_unit(shown, Notation("in" if shown in METRIC else "cm"))
        return f"≈ {decimal_text(value / SQUARE_INCHES[other], 2)} {other}"

    def to_json(
        self, value: Fraction, how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> dict[str, str]:
        """Return text and square_inches."""
        return {"text": self.show(value, how, unit), "square_inches": str(Fraction(value))}

    def check(self, value: object) -> str | None:
        """Accept int, Fraction and Surd square inches, 0 or more."""
        return check_number(value, 0, AREA.most)


FINISHED_KIND = LengthKind(FINISHED)
CUT_KIND = LengthKind(CUT)
PLAIN_KIND = LengthKind(LENGTH_KIND)

_AREA_LAST = (
    Form("sq in", under=64), Form("sq in", places=4), Form("sq cm", places=4), Form("sq m", places=4),
    Form("sq yd", parts=SHOP_PARTS), *last_resorts(("sq in", "sq cm", "sq yd", "sq m", "sq ft", "sq mm")),
)  # fmt: skip
_AREA_FORMS = {
    "sq in": _AREA_LAST,
    "sq ft": (Form("sq ft", parts=SHOP_PARTS), *_AREA_LAST),
    "sq yd": (Form("sq yd", parts=SHOP_PARTS), *_AREA_LAST),
    "sq mm": (Form("sq mm", places=2), *_AREA_LAST),
    "sq cm": (Form("sq cm", places=4), *_AREA_LAST),
    "sq m": (Form("sq m", places=4), *_AREA_LAST),
}


def _area_unit(unit: str, how: Notation) -> str:
    shown = shown_unit(unit, how)
    shown = shown if shown.startswith("sq ") else f"sq {shown}"
    if shown not in SQUARE_INCHES:
        raise ValueError(f"{unit!r} is no unit of area; units: {', '.join(SQUARE_INCHES)}")
    return shown


def _several(text: str, how: Notation, unit: str) -> tuple[Fraction, ...]:
    """One cut length, or so many of one: ``6 of 12 1/2``."""
    many = _OF.match(text)
    if many is None:
        return (_positive_cut(text, how, unit),)
    said = many[1].lstrip("0")
    if not said or len(said) > len(str(MOST_MEASURED)) or int(said) > MOST_MEASURED:
        raise NotationError(
            text, many.start(1), f"{said[:20] or 0} of one size", f"write 1 to {MOST_MEASURED}"
        )
    behind = many.end()
    return (_placed(text, behind, text[behind:], lambda p: _positive_cut(p, how, unit)),) * int(said)


def _positive_cut(text: str, how: Notation, unit: str) -> Fraction:
    value = CUT_KIND.scan(text, how, unit)
    if value <= 0:
        raise NotationError(text, 0, "a measured length is above 0", "write what the tape says")
    return value


def _refuse_tight_comma(text: str) -> None:
    match = re.search(r"[0-9],(?=[0-9])", text)
    if match:
        at = match.start() + 1
        before, after = text[:at], text[at + 1 :]
        raise NotationError(
            text, at, "a comma between digits: decimals, or two values?", "write",
            (f"{before}.{after}", f"{before}; {after}"),
        )  # fmt: skip


def _counted(values: tuple[Fraction, ...], show: Callable[[Fraction], str]) -> list[str]:
    """A text for each run of equal values: ``6 of 12 1/2 in`` where there are several."""
    return counted(list(map(show, values)))


def counted(texts: Sequence[str]) -> list[str]:
    """Each run of equal texts as one, with how many there are: ``6 of 12 1/2 in``. Those that count stay."""
    runs = ((text, len(list(run))) for text, run in groupby(texts))
    return [
        each
        for text, many in runs
        for each in ([f"{many} of {text}"] if many > 1 and _OF.match(text) is None else [text] * many)
    ]


def listed(text: str) -> list[str]:
    """The parts of a typed list of measurements, each as it was typed."""
    return [part.strip() for _, part in _parts(text)]


def _parts(text: str) -> list[tuple[int, str]]:
    """The values of a list and where each begins; ``;`` or a comma with a space behind it stands between."""
    parts, start = [], 0
    for match in re.finditer(r";|,(?=\s)", text):
        parts.append((start, text[start : match.start()]))
        start = match.end()
    return [*parts, (start, text[start:])]


def _placed(text: str, start: int, part: str, read: Callable[[str], _R]) -> _R:
    """Read one part of a longer text, so that an error points into the whole."""
    try:
        return read(part)
    except NotationError as error:
        _refuse_placed(text, start, part, error)


def _refuse_placed(text: str, start: int, part: str, error: NotationError) -> NoReturn:
    head, tail = text[:start], text[start + len(part) :]
    offers = tuple(f"{head}{' ' if start else ''}{offer.strip()}{tail}" for offer in error.offers)
    raise NotationError(text, start + error.at, error.why, error.way_out, offers) from None
