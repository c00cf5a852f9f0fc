"""Thread numbers, each with the convention that it is counted by.

The same "40 wt" on a label is 25, 29.5 or 44.3 tex under three makers' conventions, so a bare weight is never
read: the person says which is meant.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple, NoReturn

from boltend.core.values.exact import decimal
from boltend.core.values.kind import Kind, check_number
from boltend.core.values.notation import Notation
from boltend.core.values.numbers import decimal_text
from boltend.core.values.scan import Scanned, Scanner, guarded
from boltend.core.values.surd import Number
from boltend.core.values.types import ThreadNumber
from boltend.core.values.units import factor, tex_times

_MOST = 10**5
_PLACES = 6


class Convention(NamedTuple):
    """How a thread number is counted.

    Args:
        unit: the unit behind it (tex, dtex, den: mass for a length; Ne, Nm: length for a mass).
        plies: strands, where the number is of one strand only.
    """

    unit: str
    plies: int = 1


CONVENTIONS: Mapping[str, Convention] = {
    "tex": Convention("tex"),
    "dtex": Convention("dtex"),
    "den": Convention("den"),
    "Ne": Convention("Ne"),
    "Nm": Convention("Nm"),
    "Ne 2 ply": Convention("Ne", 2),
    "Ne 3 ply": Convention("Ne", 3),
    "Nm 2 ply": Convention("Nm", 2),
    "Nm 3 ply": Convention("Nm", 3),
    "wt Nm": Convention("Nm"),
    "wt Ne 2 ply": Convention("Ne", 2),
    "wt Ne 3 ply": Convention("Ne", 3),
}
"""Numbering by mass or by length: Coats, Bulletin 05: thread numbering (n.d.). "wt": the number on the label.

Plies: resultant Ne = single Ne / plies (the same source). That "wt" follows one of the three is derived from
makers' labels in `shared/references/standards.toml`, wt_ambiguity.
"""
_SPELLINGS = {
    **{name.casefold(): name for name in CONVENTIONS},
    **dict.fromkeys(("denier", "deniers", "d"), "den"),
    "decitex": "dtex",
}
_WEIGHTS = ("wt nm", "wt ne 2 ply", "wt ne 3 ply")


class ThreadNumberKind(Kind):
    """A thread number and its convention: a ThreadNumber, above 0."""

    name = "thread_number"

    def read(self, text: str, how: Notation, unit: str = "") -> ThreadNumber:
        """Return the thread number of a text like ``50 Ne`` or ``25 tex``; `unit` is for a bare number."""
        bare = unit and convention_of(unit)
        return guarded(text, lambda typed: _read(typed, bare))

    def show(self, value: ThreadNumber, how: Notation, unit: str = "", *, say_kind: bool = False) -> str:
        """Return ``50 Ne``."""
        exact = decimal(value.value, _PLACES)
        return (
            f"{exact} {value.convention}" if exact else f"≈ {decimal_text(value.value, 2)} {value.convention}"
        )

    def also(self, value: ThreadNumber, how: Notation, unit: str = "") -> str | None:
        """Return the number in tex, to one decimal; None where it is in tex."""
        return None if value.convention == "tex" else f"≈ {decimal_text(tex(value), 1)} tex"

    def to_json(
        self, value: ThreadNumber, how: Notation, unit: str = "", unrounded: Number | None = None
    ) -> dict[str, str]:
        """Return text, value (an exact fraction) and convention."""
        return {
            "text": self.show(value, how, unit),
            "value": str(value.value),
            "convention": value.convention,
        }

    def check(self, value: object) -> str | None:
        """Accept a ThreadNumber above 0 in a known convention."""
        if not isinstance(value, ThreadNumber):
            return f"{type(value).__name__} where a ThreadNumber is wanted"
        if value.convention not in CONVENTIONS:
            return f"{value.convention!r} is no convention; known: {', '.join(CONVENTIONS)}"
        wrong = check_number(value.value, 0, _MOST, root=False)
        return wrong or (None if value.value else "a thread number of 0")


def tex(thread: ThreadNumber) -> Fraction:
    """Return the mass in grams of 1000 m of a thread, exactly: 50 Ne 2 ply is ``2 · 32399455/54864 / 50``."""
    convention = CONVENTIONS[thread.convention]
    if convention.unit in ("Ne", "Nm"):
        return convention.plies * tex_times(convention.unit) / thread.value
    return convention.plies * thread.value * factor(convention.unit, "tex")


def convention_of(name: str) -> str:
    """Return a convention in its one spelling; ValueError if there is none of that name."""
    known = _SPELLINGS.get(_plain(name))
    if known is None:
        raise ValueError(f"{name!r} is no convention; known: {', '.join(CONVENTIONS)}")
    return known


def _plain(name: str) -> str:
    """Lower case, single spaces, no dots or hyphens, and a space before "ply"."""
    spaced = re.sub(r"[\s.\-]+", " ", name.casefold())
    return re.sub(r"([0-9]) ?ply\b", r"\1 ply", spaced).strip()


def _read(text: str, bare: str) -> ThreadNumber:
    scan = Scanner(text)
    scan.sign("a thread number", may_be_negative=False)
    number = scan.number("50 Ne")
    typed = text[number.start : number.end]
    _check_value(scan, number, typed)
    scan.spaces()
    at = scan.pos
    said = _plain(text[at:])
    if not said:
        if bare:
            return ThreadNumber(number.value, bare)
        scan.fail(
            len(text), "a thread number needs its convention", "say it", *_all(typed, ("Ne", "Nm", "tex"))
        )
    if said not in _SPELLINGS:
        _refuse_convention(scan, at, typed, said)
    return ThreadNumber(number.value, _SPELLINGS[said])


def _refuse_convention(scan: Scanner, at: int, typed: str, said: str) -> NoReturn:
    if re.match(r"(wt|weight)\b", said):
        scan.fail(
            at, "makers count weight in different ways: is it km per kg, or a cotton count in strands?",
            "say which", *_all(typed, _WEIGHTS),
        )  # fmt: skip
    offers = _all(typed, ("Ne", "Nm", "tex", "den", "dtex"))
    scan.fail(at, "this is no convention of numbering", "say one", *offers)


def _all(typed: str, names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(f"{typed} {_SPELLINGS[name.casefold()]}" for name in names)


def _check_value(scan: Scanner, number: Scanned, typed: str) -> None:
    if "/" in typed:
        single, _, plies = typed.partition("/")
        scan.fail(
            number.start, "a yarn number over its strands, or a fraction?", "say the strands",
            f"{single} Ne {plies} ply", f"{single} Nm {plies} ply",
        )  # fmt: skip
    if not 0 < number.value <= _MOST or decimal(number.value, _PLACES) is None:
        scan.fail(
            number.start, f"a thread number is above 0, at most {_MOST}, with {_PLACES} decimals at most",
            "look at the spool again",
        )  # fmt: skip
