"""Links: which found may feed which given, and what happens to the value on the way."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from boltend.core.contract import FoundSpec, GivenSpec, Line, Settings, cut, finished, length, line
from boltend.core.values import convert_length

Convert = Callable[[Any, Settings], Any]


@dataclass(frozen=True, slots=True)
class Link:
    """A given takes its value from a found of another tab."""

    tab: str
    take: str


def as_link(raw: object) -> Link | None:
    """The link that a raw value says, or None where it is no link."""
    if isinstance(raw, Mapping) and "from" in raw:
        return Link(str(raw["from"]), str(raw.get("take", "")))
    return None


@dataclass(frozen=True, slots=True)
class Fit:
    """How a found fits a given: `convert` changes the value, `note` tells of it; or `misfit` says why not."""

    convert: Convert | None = None
    note: Callable[[str, str, Any, Any], Line] | None = None
    misfit: str = ""


STRAIGHT = Fit()
_SAY = {"finished": finished, "cut": cut, "length": length}


def fit(found: FoundSpec, given: GivenSpec) -> Fit:
    """Whether and how a found may feed a given.

    Lengths are converted between finished and cut by two seams, and say so; a length without a kind
    never becomes one with a kind, for nobody could say which is meant.
    """
    if found.is_length and given.is_length:
        return _fit_lengths(found, given)
    if given.kind == "measured" and found.kind in ("finished", "cut"):
        return Fit(convert=lambda v, s: (convert_length(v, found.kind, "cut", s.seam),))
    if found.kind == "count" and given.kind == "number":
        return Fit(convert=lambda v, s: Fraction(v))
    if found.kind == given.kind == "rows":
        return _fit_rows(found, given)
    if found.kind == given.kind == "choice":
        other = set(found.options) - set(given.options)
        return Fit(misfit=f"{sorted(other)[0]!r} is no choice here") if other else STRAIGHT
    if found.kind == given.kind:
        return STRAIGHT
    return Fit(misfit=f"{_article(found.kind)} cannot feed {_article(given.kind)}")


def _article(kind: str) -> str:
    words = kind.replace("_", " ")
    return words if kind in ("rows", "text") else f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


def _fit_lengths(found: FoundSpec, given: GivenSpec) -> Fit:
    if found.kind == given.kind or given.kind == "length":
        return STRAIGHT
    if found.kind == "length":
        return Fit(
            misfit=f"a length without a kind cannot feed a {given.kind} size: nobody could say which is meant"
        )
    sign = "−" if given.kind == "finished" else "+"
    here, there = _SAY[found.kind], _SAY[given.kind]

    def note(label: str, source: str, before: Any, after: Any) -> Line:
        words = f"{label}: “{{}}” gives {{}} {found.kind}; {given.kind} = {found.kind} {sign} 2 seams = {{}}"
        return line(words, source, here(before), there(after))

    return Fit(convert=lambda v, s: convert_length(v, found.kind, given.kind, s.seam), note=note)


def _fit_rows(found: FoundSpec, given: GivenSpec) -> Fit:
    brought = {c.name: c for c in found.columns}
    for column in given.columns:
        source = brought.get(column.name)
        if source is None and column.required:
            return Fit(misfit=f"its rows lack the column {column.name}")
        if source is not None and source.kind != column.kind:
            return Fit(
                misfit=f"its column {column.name} is {_article(source.kind)}, not {_article(column.kind)}"
            )
    names = [c.name for c in given.columns if c.name in brought]
    return Fit(convert=lambda rows, s: tuple({n: r[n] for n in names} for r in rows))
