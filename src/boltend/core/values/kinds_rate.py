"""Rates: stitches per inch, stitches per minute, thread per length of seam."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from boltend.core.values.errors import NotationError
from boltend.core.values.exact import plain
from boltend.core.values.kind import Kind, check_number
from boltend.core.values.measures import LENGTH_NAMES, TIME_NAMES
from boltend.core.values.notation import Notation
from boltend.core.values.numbers import decimal_text
from boltend.core.values.scan import Scanner, guarded
from boltend.core.values.surd import Number
from boltend.core.values.types import Rate
from boltend.core.values.units import INCHES, MINUTES

_MOST_RATE = 10**9
_TIMES = {"min": MINUTES["min"], "hour": MINUTES["h"], "s": MINUTES["s"]}
_UNDER: Mapping[str, str] = {
    **LENGTH_NAMES,
    **{name: "hour" if unit == "h" else unit for name, unit in TIME_NAMES.items()},
}
_COUNTED = ("stitch", "stitches")  # what is counted may be said, and changes nothing


class RateKind(Kind):
    """So much for each of a length or a time: a Rate.

    A given declares its `unit`, such as ``per in``, ``per min`` or ``in per in``; every typed rate is turned
    into it, exactly. Without a unit a rate stays as typed.
    """

    name = "rate"
    takes_whole_numbers = True

    def read(self, text: str, how: Notation, unit: str = "") -> Rate:
        """Return the rate of a text like ``10 per in``, ``4 per cm`` or ``2.5 in per in``."""
        wanted = rate_unit(unit) if unit else ""
        return guarded(text, lambda typed: _read(typed, wanted))

    def show(self, value: Rate, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``10 per in``."""
        if unit and rate_unit(unit) != value.unit:
            value = convert_rate(value, rate_unit(unit))
        exact = plain(value.value)
        return f"{exact} {value.unit}" if exact else f"≈ {decimal_text(value.value, 3)} {value.unit}"

    def also(self, value: Rate, how: Notation, unit: str = "") -> str | None:
        """Return a rate per inch as one per centimetre, and back, to two decimals; None for others."""
        other = {"per in": "per cm", "per cm": "per in"}.get(value.unit)
        return f"≈ {decimal_text(convert_rate(value, other).value, 2)} {other}" if other else None

    def to_json(
        self, value: Rate, how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> dict[str, str]:
        """Return text, value (an exact fraction) and unit."""
        return {"text": self.show(value, how, unit), "value": str(value.value), "unit": value.unit}

    def check(self, value: object) -> str | None:
        """Accept a Rate of 0 or more in a known unit."""
        if not isinstance(value, Rate):
            return f"{type(value).__name__} where a Rate is wanted"
        try:
            if not isinstance(value.unit, str) or rate_unit(value.unit) != value.unit:
                return f"a rate's unit is written like “per in”, not {value.unit!r}"
        except ValueError as error:
            return str(error)
        return check_number(value.value, 0, _MOST_RATE, root=False)


def rate_unit(unit: str) -> str:
    """Return a rate's unit in its one form: ``per inch`` is ``per in``.

    Raises:
        ValueError: it is no unit of a rate.
    """
    over, per, under = unit.strip().rpartition("per ")
    top, bottom = over.strip(), _UNDER.get(under.strip())
    if not per or bottom is None or (top and (top not in LENGTH_NAMES or bottom in _TIMES)):
        raise ValueError(
            f"{unit!r} is no unit of a rate: per in, per cm, per min, per hour, in per in are some"
        )
    return f"{LENGTH_NAMES[top]} per {bottom}" if top else f"per {bottom}"


def convert_rate(rate: Rate, unit: str) -> Rate:
    """Return the same rate in another unit, exactly.

    Raises:
        ValueError: the two do not measure the same thing (per length, per time, length per length).
    """
    (top, bottom), (new_top, new_bottom) = _sides(rate.unit), _sides(unit)
    if bool(top) != bool(new_top) or (bottom in _TIMES) != (new_bottom in _TIMES):
        raise ValueError(f"a rate {rate.unit} cannot be one {unit}")
    sizes: Mapping[str, Fraction] = _TIMES if bottom in _TIMES else INCHES
    over = INCHES[top] / INCHES[new_top] if top else Fraction(1)
    return Rate(rate.value * over * sizes[new_bottom] / sizes[bottom], unit)


def _sides(unit: str) -> tuple[str, str]:
    top, _, bottom = unit.rpartition("per ")
    return top.strip(), bottom.strip()


def _read(text: str, wanted: str) -> Rate:
    scan = Scanner(text)
    scan.sign("a rate", may_be_negative=False)
    number = scan.number("10 per in")
    if number.value > _MOST_RATE:
        scan.fail(number.start, f"a rate above {_MOST_RATE}", "write a smaller one")
    said = _said_unit(scan, wanted, number.end)
    scan.end()
    rate = Rate(number.value, said)
    if wanted and said != wanted:
        try:
            rate = convert_rate(rate, wanted)
        except ValueError:
            scan.fail(number.end, f"a rate {said} where one {wanted} is meant", f"write so many {wanted}")
    if plain(rate.value) is None:
        raise NotationError(text, 0, "this is finer than can be kept", "write fewer digits")
    return rate


def _said_unit(scan: Scanner, wanted: str, end: int) -> str:
    scan.spaces()
    if not scan.peek():
        if wanted:
            return wanted
        typed = scan.text[:end]
        scan.fail(
            len(scan.text), "per what?", "say it", f"{typed} per in", f"{typed} per cm", f"{typed} per min"
        )
    at = scan.pos
    top = "" if scan.peek() == "/" else scan.word()
    over = ""
    if top in _COUNTED or top in LENGTH_NAMES:
        over = LENGTH_NAMES.get(top, "")
        scan.take(".")
        scan.spaces()
        top = "" if scan.peek() == "/" else scan.word()
    if top != "per" and not (top == "" and scan.take("/")):
        scan.fail(at, "“per” is missing", "write for example", f"{scan.text[:end]} {wanted or 'per in'}")
    scan.spaces()
    at = scan.pos
    name = scan.word()
    scan.take(".")
    bottom = _UNDER.get(name)
    if bottom is None or (over and bottom in _TIMES):
        head = scan.text[:at].rstrip() + (" " if scan.text[:at].rstrip()[-1:].isalpha() else "")
        scan.fail(at, "per what?", "say a unit", f"{head}in", f"{head}cm", f"{head}min", f"{head}hour")
    return f"{over} per {bottom}" if over else f"per {bottom}"
