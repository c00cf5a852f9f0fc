"""Prices: flat, or for a yard or a metre of cloth."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from boltend.core.values.exact import decimal
from boltend.core.values.kind import Kind, check_number
from boltend.core.values.measures import LENGTH_NAMES
from boltend.core.values.notation import Notation
from boltend.core.values.numbers import decimal_text
from boltend.core.values.scan import Scanned, Scanner, guarded
from boltend.core.values.surd import Number
from boltend.core.values.types import Per, Price
from boltend.core.values.units import INCHES, shown_unit

_MOST_PRICE = 10**9
_PLACES = 6
"""Decimals of a price: more than any currency or trade price has."""
_DOLLARS = frozenset({"USD", "CAD", "AUD", "NZD", "SGD", "HKD", "TWD", "MXN"})
_SIGNS = {"$": _DOLLARS, "€": frozenset({"EUR"}), "£": frozenset({"GBP"}), "¥": frozenset({"JPY", "CNY"})}
_PER_OF: dict[str, Per] = {"yd": "yard", "m": "metre"}
_INCHES_PER: dict[Per, Fraction] = {"yard": INCHES["yd"], "metre": INCHES["m"]}


class PriceKind(Kind):
    """Money: a Price.

    The given's `unit` may be ``yd`` or ``m``: then a bare number is for that length, and a flat price says
    "each".
    """

    name = "price"
    takes_whole_numbers = True

    def read(self, text: str, how: Notation, unit: str = "") -> Price:
        """Return the price of a text like ``12.50``, ``$11.99 per yard`` (or ``a yard``) or ``14 EUR/m``."""
        bare = _bare_per(unit, how)
        return guarded(text, lambda typed: _read(typed, how, bare))

    def show(self, value: Price, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``$12.50 per yard``: the sign where it can only mean this currency, else the code."""
        places = decimal(value.amount, _PLACES)
        exact = places is not None and value.amount >= 0
        number = _two_places(places) if exact and places else f"{decimal_text(value.amount, 2)}"
        sign = next((s for s, codes in _SIGNS.items() if value.currency in codes), "")
        ours = sign and value.currency == how.currency
        money = f"{sign}{number}" if ours else f"{number} {value.currency}"
        per = f" per {value.per}" if value.per else " each" if _bare_per(unit, how) else ""
        return f"{'' if exact else '≈ '}{money}{per}"

    def also(self, value: Price, how: Notation, unit: str = "") -> str | None:
        """Return a price for the other system's length, to the hundredth; None for a flat price."""
        if value.per is None:
            return None
        other = per_length(value, "metre" if value.per == "yard" else "yard")
        rounded = Price(Fraction(decimal_text(other.amount, 2)), other.currency, other.per)
        return f"≈ {self.show(rounded, how)}"

    def to_json(
        self, value: Price, how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> dict[str, Any]:
        """Return text, amount and currency, and per where it is for a length."""
        exact = decimal(value.amount, _PLACES)
        form = {
            "text": self.show(value, how, unit),
            "amount": _two_places(exact) if exact else str(value.amount),
            "currency": value.currency,
        }
        return form if value.per is None else {**form, "per": value.per}

    def check(self, value: object) -> str | None:
        """Accept a Price of 0 or more in a currency of three letters."""
        if not isinstance(value, Price):
            return f"{type(value).__name__} where a Price is wanted"
        if value.per not in (None, "yard", "metre"):
            return f"a price per {value.per!r}: None, 'yard' or 'metre' is meant"
        if not (isinstance(value.currency, str) and _is_code(value.currency)):
            return "a currency is three capital letters"
        return check_number(value.amount, 0, _MOST_PRICE, root=False)


def per_length(price: Price, per: Per) -> Price:
    """Return a price for a length as the exact price for the other length.

    Raises:
        ValueError: the price is a flat one.
    """
    if price.per is None:
        raise ValueError("a flat price has no length to be turned into another")
    return Price(price.amount * _INCHES_PER[per] / _INCHES_PER[price.per], price.currency, per)


def _read(text: str, how: Notation, bare: Per | None) -> Price:
    scan = Scanner(text)
    scan.spaces()
    named = _currency(scan, how)
    scan.sign("a price", may_be_negative=False)
    named = _currency(scan, how) or named
    scan.spaces()
    number = scan.number("12.50")
    _check_amount(scan, number)
    scan.spaces()
    at = scan.pos
    behind = _currency(scan, how)
    if behind and named:
        scan.fail(at, "the currency is said twice", "say it once")
    per = _per(scan, bare)
    scan.end()
    return Price(number.value, how.currency, per)


def _check_amount(scan: Scanner, number: Scanned) -> None:
    exact = decimal(number.value, _PLACES)
    head, tail = scan.text[: number.start], scan.text[number.end :]
    if exact is None:
        scan.fail(number.start, f"a price has {_PLACES} decimals at most", "write fewer")
    if not number.decimal and number.value.denominator != 1:
        scan.fail(
            number.start, "a price is written with decimals", "write", f"{head}{_two_places(exact)}{tail}"
        )
    if number.value > _MOST_PRICE:
        scan.fail(number.start, f"a price above {_MOST_PRICE}", "write a smaller one")


def _currency(scan: Scanner, how: Notation) -> str:
    """Take a currency sign or code; one that is not the project's is refused."""
    at = scan.pos
    sign = scan.take(*_SIGNS)
    if sign:
        if how.currency not in _SIGNS[sign]:
            _refuse_currency(scan, at, sign, how)
        return how.currency
    code = scan.word().upper()
    if not _is_code(code) or code in ("PER",):
        scan.pos = at
        return ""
    if code != how.currency:
        _refuse_currency(scan, at, code, how)
    scan.spaces()
    return code


def _refuse_currency(scan: Scanner, at: int, said: str, how: Notation) -> None:
    rest = " ".join((scan.text[:at] + scan.text[scan.pos :]).split())
    scan.fail(
        at, f"{said} in a project that reckons in {how.currency}; no rate of exchange is known here",
        f"write the price in {how.currency}", rest,
    )  # fmt: skip


def _per(scan: Scanner, bare: Per | None) -> Per | None:
    scan.spaces()
    at = scan.pos
    if not scan.take("/"):
        word = scan.word()
        if word == "each":
            return None
        if word and word not in ("per", "a"):
            scan.fail(at, f"“{word[:20]}” has no meaning here", "say for example “per yard” or “per metre”")
        if not word:
            return bare
    scan.spaces()
    at = scan.pos
    unit = LENGTH_NAMES.get(scan.word(), "")
    scan.take(".")
    if unit not in _PER_OF:
        head = scan.text[:at].rstrip() + (" " if scan.text[:at].rstrip()[-1:].isalpha() else "")
        scan.fail(at, "cloth is priced by the yard or the metre", "write", f"{head}yard", f"{head}metre")
    return _PER_OF[unit]


def _bare_per(unit: str, how: Notation) -> Per | None:
    """The length that a bare price is for, where the given has a unit."""
    if not unit:
        return None
    shown = shown_unit(LENGTH_NAMES.get(unit.removeprefix("per ").strip(), unit), how)
    if shown not in _PER_OF:
        raise ValueError(f"a price is per yd or m, not per {unit!r}")
    return _PER_OF[shown]


def _two_places(exact: str) -> str:
    whole, _, decimals = exact.partition(".")
    return f"{whole}.{decimals.ljust(2, '0')}"


def _is_code(code: str) -> bool:
    return len(code) == 3 and code.isascii() and code.isalpha() and code.isupper()
