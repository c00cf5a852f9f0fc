"""Lengths: read, shown, and turned from finished into cut."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction
from functools import lru_cache

from boltend.core.values.errors import NotationError
from boltend.core.values.exact import SHOP_PARTS, Form, in_best_form, last_resorts
from boltend.core.values.measures import LENGTH, TIMES, read_amount
from boltend.core.values.notation import Notation
from boltend.core.values.numbers import decimal_text, nearest
from boltend.core.values.scan import Scanner, guarded
from boltend.core.values.surd import Number
from boltend.core.values.units import INCHES, METRIC, shown_unit

FINISHED, CUT, LENGTH_KIND = "finished", "cut", "length"
KIND_WORDS = {"finished": FINISHED, "fin": FINISHED, "cut": CUT, "raw": CUT, "unfinished": CUT}
"""Words that may follow a length, and the kind that they say."""

_INCHES_FIRST = (
    Form("in", under=64), Form("in", places=4), Form("cm", places=3), Form("m", places=3),
    Form("mm", places=3), Form("yd", parts=SHOP_PARTS), Form("cm", under=64), Form("yd", under=64),
    Form("ft", under=64), Form("in", under=1024), Form("cm", places=6),
    *last_resorts(("in", "cm", "yd", "m", "mm", "ft")),
)  # fmt: skip
_METRIC_FIRST = (
    Form("cm", places=3), Form("in", under=64), Form("yd", parts=SHOP_PARTS), Form("cm", under=64),
    Form("cm", places=6), *_INCHES_FIRST,
)  # fmt: skip
_FORMS = {
    "in": _INCHES_FIRST,
    "yd": (Form("yd", parts=SHOP_PARTS), *_INCHES_FIRST),
    "ft": (Form("ft", under=4), *_INCHES_FIRST),
    "cm": _METRIC_FIRST,
    "m": (Form("m", places=3), *_METRIC_FIRST),
    "mm": (Form("mm", places=2), *_METRIC_FIRST),
}
_THIN = (Form("in", under=64), Form("in", places=4), Form("mm", places=2))
"""Forms of what is below a centimetre where inches are shown: 1.5 mm, never 0.15 cm."""
_OTHER = {"in": "cm", "ft": "cm", "yd": "m", "cm": "in", "mm": "in", "m": "in"}
_LONG, _TEN_YARDS = ("yd", "m"), 10 * INCHES["yd"]
_MILLIMETRE = INCHES["mm"]
_SIXTEENTH = Fraction(1, 16)


def read_length(text: str, how: Notation, unit: str = "") -> tuple[Fraction, str | None]:
    """Read a length: exact inches, and the kind that the text says (``finished``, ``cut``) or None.

    A number without a unit takes the given's shown unit.

    Raises:
        NotationError: pointing at the character, with what would do.
    """
    return guarded(text, lambda typed: scan_length(typed, how, unit))


def inches_of(text: str, how: Notation) -> Fraction:
    """Return the inches of a text, 0 of one that is no length: for who only looks whether it might be one."""
    try:
        return read_length(text, how)[0]
    except (NotationError, ValueError):
        return Fraction(0)


def nearly_alike(inches: Collection[Fraction]) -> bool:
    """Whether these may be one side measured in several places: the most is no quarter above the least."""
    return bool(inches) and 4 * max(inches) <= 5 * min(inches)


def scan_length(text: str, how: Notation, unit: str) -> tuple[Fraction, str | None]:
    """Do what `read_length` does, but leave the offers of an error untried."""
    scan = Scanner(text)
    value = read_amount(scan, LENGTH, length_unit(unit, how), KIND_WORDS)
    at = scan.pos
    word = scan.word()
    kind = KIND_WORDS.get(word)
    if word in TIMES:
        scan.refuse_two(at, at + len(word))
    if word and kind is None:
        scan.fail(at, f"“{word[:20]}” has no meaning here", "a length may end in “finished” or “cut”")
    scan.end()
    refuse_too_fine(text, value)
    return value, kind


def refuse_too_fine(text: str, value: Fraction) -> None:
    """Raise NotationError if no exact text can give `value` back."""
    if exact_length(value, "in") is None:
        raise NotationError(text, 0, "this is finer than can be kept", "write fewer digits")


def length_unit(unit: str, how: Notation) -> str:
    """Return the shown unit of a length given, checked."""
    shown = shown_unit(unit, how)
    if shown not in INCHES:
        raise ValueError(f"{unit!r} is no unit of length; units: {', '.join(INCHES)}")
    return shown


@lru_cache(maxsize=1024)  # from key to key most of what a tab says stays as it was
def exact_length(value: Fraction, unit: str) -> str | None:
    """Return exact text for `value` inches, in `unit` where it is short there; None if there is none."""
    thin = unit not in METRIC and abs(value) < INCHES["cm"]
    return in_best_form(value, (*_THIN, *_FORMS[unit]) if thin and value else _FORMS[unit], INCHES)


def show_length(value: Number, how: Notation, unit: str = "", kind: str = "") -> str:
    """Return the text of `value` inches: exact, and readable back.

    A value that has no exact text (a root, digits beyond reading) is shown rounded behind ``≈``. With `kind`
    the text says finished or cut.
    """
    shown = length_unit(unit, how)
    exact = exact_length(Fraction(value), shown) if isinstance(value, int | Fraction) else None
    text = exact or about_length(value, how, unit)
    return f"{text} {kind}" if kind in (FINISHED, CUT) else text


def about_length(value: Number, how: Notation, unit: str = "") -> str:
    """Return `value` inches as a rounded decimal behind ``≈``, for the working: ``≈ 65.207 in``."""
    shown = length_unit(unit, how)
    return f"≈ {decimal_text(value / INCHES[shown], 3)} {shown}"


def also_length(value: Number, how: Notation, unit: str = "") -> str:
    """Return the same in the other system, to 1/16 in or 1 mm, behind ``≈``: it is never readable back.

    What has a text only in millimetres is told in inches. What is shown in yards or metres (cloth to buy,
    thread) bears three figures: ``2 1/8 yd`` is ≈ 1.94 m, ``167 yd`` ≈ 153 m; below 10 yd metres are inches
    to 1/4 in.
    """
    shown = length_unit(unit, how)
    if shown in _LONG:
        return f"≈ {in_best_form(*_also_long(value, shown), INCHES)}"
    thin = shown not in METRIC and show_length(value, how, unit).endswith(" mm")
    other = "in" if thin else _OTHER[shown]
    rounded = nearest(value, _MILLIMETRE if other in METRIC else _SIXTEENTH)
    return (
        f"≈ {in_best_form(rounded, (Form(other, places=3), Form(other, under=16))[other == 'in' :], INCHES)}"
    )


def _also_long(value: Number, shown: str) -> tuple[Fraction, tuple[Form, ...]]:
    """Inches as they are told in the other system, and the form for them."""
    if shown == "m" and -_TEN_YARDS < value < _TEN_YARDS:
        return nearest(value, Fraction(1, 4)), (Form("in", under=8),)
    other = "m" if shown == "yd" else "yd"
    step = INCHES[other] / 1000
    while not -1000 * step < value < 1000 * step:
        step *= 10
    return nearest(value, step), (Form(other, places=3),)


def convert_length(value: Fraction, from_kind: str, to_kind: str, seam: Fraction) -> Fraction:
    """Turn a finished length into a cut one or back: two seams of `seam` inches.

    The same kind stays as it is, and any kind may become a plain length.

    Raises:
        ValueError: a plain length is wanted as finished or cut, and nobody said which it is.
    """
    if from_kind == to_kind or to_kind == LENGTH_KIND:
        return value
    if from_kind not in (FINISHED, CUT) or to_kind not in (FINISHED, CUT):
        raise ValueError(f"a {from_kind} cannot be used as {to_kind}: say whether it is finished or cut")
    return value + 2 * seam if to_kind == CUT else value - 2 * seam
