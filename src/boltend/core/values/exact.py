"""Showing exact numbers: decimals, mixed numbers, and the unit in which a value has a short form.

What is shown here can be typed back and means the same. A number that has no such text (one with a root, or
with more digits than reading accepts) has no exact form: the answer is None.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import gcd
from typing import NamedTuple

from boltend.core.values.scan import DECIMALS, FRACTION_DIGITS, WHOLE_DIGITS

_MOST_WHOLE = 10**WHOLE_DIGITS
_MOST_UNDER = 10**FRACTION_DIGITS
SHOP_PARTS = frozenset({1, 2, 3, 4, 8, 16})
"""Denominators that a cutting table knows: 5/8 yd, 1/3 yd."""


class Form(NamedTuple):
    """One way to write a value: in `unit`, as a decimal of at most `places`, or as a mixed number.

    A mixed number's denominator is at most `under`, or one of `parts` where those are given.
    """

    unit: str
    places: int = -1
    under: int = 0
    parts: frozenset[int] = frozenset()


def decimal(value: Fraction, places: int = DECIMALS) -> str | None:
    """Return exact decimal text of at most `places` decimals, no zeros trailing; None if there is none."""
    top, under = abs(value.numerator), value.denominator
    if under == 1:
        return str(value.numerator) if top < _MOST_WHOLE else None
    used = 0
    while under != 1:
        if used == places:
            return None
        top *= 10
        used += 1
        common = gcd(top, under)
        top, under = top // common, under // common
    digits = str(top).rjust(used + 1, "0")
    if len(digits) - used > WHOLE_DIGITS:
        return None
    return f"{'-' if value < 0 else ''}{digits[:-used]}.{digits[-used:]}"


def mixed(value: Fraction, under: int = _MOST_UNDER, parts: frozenset[int] = frozenset()) -> str | None:
    """Return ``12 1/2``, ``-3/4`` or ``7``; None if the denominator is above `under` or not among `parts`."""
    d = value.denominator
    if d not in parts if parts else d > under:
        return None
    whole, rest = divmod(abs(value.numerator), d)
    if whole >= _MOST_WHOLE or d >= _MOST_UNDER:
        return None
    sign = "-" if value < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}/{d}" if whole else f"{sign}{rest}/{d}"


def plain(value: Fraction) -> str | None:
    """Return a number as people write it: ``2.5``, ``1/3``, ``16``."""
    return decimal(value, 6) or mixed(value) or decimal(value)


def in_best_form(value: Fraction, forms: tuple[Form, ...], sizes: Mapping[str, Fraction]) -> str | None:
    """Return the first of `forms` in which `value` (in the base unit) is exact, with its unit."""
    for form in forms:
        size = sizes[form.unit]
        there = value if size == 1 else value / size  # nearly always, and a quotient takes 2 µs
        text = decimal(there, form.places) if form.places >= 0 else mixed(there, form.under, form.parts)
        if text is not None:
            return f"{text} {form.unit}"
    return None


def last_resorts(units: tuple[str, ...]) -> tuple[Form, ...]:
    """Every exact form that reading accepts, in each of `units`: whatever was typed finds its way back."""
    return tuple(
        form for unit in units for form in (Form(unit, places=DECIMALS), Form(unit, under=_MOST_UNDER))
    )
