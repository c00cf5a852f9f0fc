"""Reading amounts with a unit: one grammar for lengths, areas and times.

An amount is a number and a unit, or several of them from the larger unit to the smaller: ``1 yd 4 in``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from fractions import Fraction
from typing import NamedTuple, NoReturn

from boltend.core.values.scan import Scanned, Scanner
from boltend.core.values.units import INCHES, METRIC, MINUTES, SQUARE_INCHES

LENGTH_NAMES: Mapping[str, str] = {
    **dict.fromkeys(("in", "ins", "inch", "inches", '"', "″", "”", "''", "′′", "’’"), "in"),
    **dict.fromkeys(("ft", "foot", "feet", "'", "′", "’"), "ft"),
    **dict.fromkeys(("yd", "yds", "yard", "yards"), "yd"),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
}
AREA_NAMES: Mapping[str, str] = {
    f"sq {name}": f"sq {unit}" for name, unit in LENGTH_NAMES.items() if name.isalpha()
}
TIME_NAMES: Mapping[str, str] = {
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), "h"),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), "min"),
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), "s"),
}

TIMES = ("x", "by", "times")
"""Words between two values: a size, or so many of one."""
_MARKS = ("''", "′′", "’’", '"', "″", "”", "'", "′", "’")
_AREA = re.compile(r"(?:(sq|square)\b\.?[ \u00a0]*)?([^\W\d_²³]+)(\.?)(²|\^2)?", re.IGNORECASE)


class Measure(NamedTuple):
    """One thing that units measure.

    Args:
        noun: what it is called in a message.
        names: each accepted spelling of a unit, and the unit.
        sizes: each unit in the base unit (inches, square inches, minutes).
        example: a text that reads, for messages.
        most: the largest amount accepted, in the base unit.
        negative: whether it may be below 0.
    """

    noun: str
    names: Mapping[str, str]
    sizes: Mapping[str, Fraction]
    example: str
    most: int
    negative: bool = False


LENGTH = Measure("a length", LENGTH_NAMES, INCHES, "12 1/2 in", 10**7, negative=True)
AREA = Measure("an area", AREA_NAMES, SQUARE_INCHES, "4 sq yd", 10**12)
TIME = Measure("a time", TIME_NAMES, MINUTES, "2 h 30 min", 10**9)

_NOTHING = Fraction(0)


def read_amount(scan: Scanner, measure: Measure, bare_unit: str, stops: Mapping[str, str]) -> Fraction:
    """Take an amount in the base unit, up to the end or to a word in `stops` (left for the caller)."""
    sign = scan.sign(measure.noun, may_be_negative=measure.negative)
    start = scan.pos
    total = _NOTHING
    last = ""
    while True:
        number = scan.number(measure.example)
        unit = _unit(scan, measure, number, last, bare_unit, stops)
        size = measure.sizes[unit]
        # A sum or a product of fractions takes 2 µs, and this is read on every keystroke: not with 0 or 1.
        amount = number.value if size == 1 else number.value * size
        total = total + amount if last else amount
        last = unit
        scan.spaces()
        if not scan.starts_number():
            break
    if total > measure.most:
        most = f"{measure.most} {next(name for name, size in measure.sizes.items() if size == 1)}"
        scan.fail(start, f"this is larger than {most}", f"write {measure.noun} up to that")
    return -total if sign < 0 else total


def _unit(
    scan: Scanner, measure: Measure, number: Scanned, last: str, bare_unit: str, stops: Mapping[str, str]
) -> str:
    """Take the unit behind `number`; the last one before it was `last` (``""``: none)."""
    scan.spaces()
    at = scan.pos
    name = _name(scan, measure)
    if not name or name in stops:
        scan.pos = at
        if scan.peek() and not name:
            scan.refuse_here()
        if last:
            _refuse_bare(scan, measure, number, last)
        if scan.starts_number():
            scan.refuse_here()
        return bare_unit
    unit = measure.names.get(name)
    if unit is None:
        _refuse_name(scan, measure, at, name)
    if last:
        _check_order(scan, measure, at, unit, last)
    return unit


def _name(scan: Scanner, measure: Measure) -> str:
    """Take the spelling of a unit at hand, in one form: lower case, no dot, ``sq yd`` for ``yd²``."""
    if measure is not AREA:
        word = scan.word()
        if word:
            scan.take(".")
            return word
        return scan.take(*_MARKS)
    match = _AREA.match(scan.text, scan.pos)
    if not match:
        return ""
    scan.pos = match.end()
    square, word, _, power = match.groups()
    return f"sq {word.casefold()}" if square or power else word.casefold()


def _refuse_bare(scan: Scanner, measure: Measure, number: Scanned, last: str) -> None:
    typed = scan.text[number.start : number.end]
    smaller = [u for u in measure.sizes if measure.sizes[u] < measure.sizes[last]]
    head, tail = scan.text[: number.end], scan.text[number.end :]
    offers = [f"{head} {unit}{tail}" for unit in reversed(smaller)]
    scan.fail(number.start, f"{typed} what?", "give it its unit too", *offers)


def _check_order(scan: Scanner, measure: Measure, at: int, unit: str, last: str) -> None:
    if (unit in METRIC) != (last in METRIC):
        scan.fail(at, f"{last} and {unit} in one value", "use inches, feet and yards, or metric, not both")
    if unit == last:
        scan.fail(at, f"{unit} twice in one value", "write one value")
    if measure.sizes[unit] > measure.sizes[last]:
        scan.fail(at, f"{unit} is larger than {last}", "put the larger unit first")


def _refuse_name(scan: Scanner, measure: Measure, at: int, name: str) -> NoReturn:
    known = ", ".join(measure.sizes)
    if name in TIMES:
        scan.refuse_two(at, at + len(name))
    if measure is not AREA and name in ("sq", "square"):
        scan.fail(at, f"this is an area, and {measure.noun} is wanted", f"units here: {known}")
    if measure is AREA and f"sq {name}" in measure.names:
        shown = f"sq {name}"
        scan.fail(
            at, f"{name} measures a length, not an area", "say square",
            scan.text[:at] + shown + scan.text[scan.pos :],
        )  # fmt: skip
    near = get_close_matches(name[:20], measure.names, n=1, cutoff=0.5)
    offers = [scan.text[:at] + " " * (scan.text[at - 1].isalnum()) + n + scan.text[scan.pos :] for n in near]
    scan.fail(at, f"“{name[:20]}” is no unit of {measure.noun}", f"units here: {known}", *offers)
