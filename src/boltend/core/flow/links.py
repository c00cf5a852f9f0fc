"""Links: which found may feed which given, and what happens to the value on the way."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from boltend.core.contract import FoundSpec, GivenSpec, Line, Settings, cut, finished, length, line
from boltend.core.values import Rate, convert_length, convert_rate, rate_unit

Convert = Callable[[Any, Settings], Any]


class Link(NamedTuple):
    """A given takes its value from a found of another tab."""

    tab: str
    take: str


def as_link(raw: object) -> Link | None:
    """The link that a raw value says, or None where it is no link."""
    if isinstance(raw, Mapping) and "from" in raw:
        return Link(str(raw["from"]), str(raw.get("take", "")))
    return None


class Fit(NamedTuple):
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
        return _fit_one_measured(found)
    if found.kind == "count" and given.kind == "number":
        return Fit(convert=lambda v, s: Fraction(v))
    if found.kind == given.kind == "rows":
        return _fit_rows(found, given)
    if found.kind == given.kind == "choice":
        other = set(found.options) - set(given.options)
        return Fit(misfit=f"{sorted(other)[0]!r} is no choice here") if other else STRAIGHT
    if found.kind == given.kind == "rate" and given.unit:
        return _fit_rates(found, rate_unit(given.unit))
    if found.kind == given.kind:
        return STRAIGHT
    return Fit(misfit=f"{_article(found.kind)} cannot feed {_article(given.kind)}")


_WORDS = {
    "finished": "a finished size", "cut": "a cut size", "measured": "a list of measurements",
    "area": "an area", "percent": "a percentage", "yes_no": "a yes or no", "text": "text", "rows": "rows",
    "table_row": "a choice from a table",
}  # fmt: skip


def _article(kind: str) -> str:
    return _WORDS.get(kind) or f"a {kind.replace('_', ' ')}"


def _fit_lengths(found: FoundSpec, given: GivenSpec) -> Fit:
    if found.kind == given.kind or given.kind == "length":
        return STRAIGHT
    if found.kind == "length":
        return Fit(
            misfit=f"a length without a kind cannot feed a {given.kind} size: nobody could say which is meant"
        )
    return Fit(
        convert=lambda v, s: convert_length(v, found.kind, given.kind, s.seam),
        note=lambda label, source, v, after: _two_seams(label, source, found.kind, v, given.kind, after),
    )


def _two_seams(label: str, source: str, kind: str, before: Any, wanted: str, after: Any) -> Line:
    """The line of working that tells of a conversion. The label and the source are a person's text."""
    sign = "−" if wanted == "finished" else "+"
    words = f"{{}}: “{{}}” gives {{}} {kind}; {wanted} = {kind} {sign} 2 seams = {{}}"
    return line(words, label, source, _SAY[kind](before), _SAY[wanted](after))


def _fit_one_measured(found: FoundSpec) -> Fit:
    """One size stands for a list of one measurement, which is from raw edge to raw edge: cut."""
    if found.kind == "cut":
        return Fit(convert=lambda v, s: (v,))
    return Fit(
        convert=lambda v, s: (convert_length(v, "finished", "cut", s.seam),),
        note=lambda label, source, v, after: _two_seams(label, source, "finished", v, "cut", after[0]),
    )


def _fit_rates(found: FoundSpec, wanted: str) -> Fit:
    if found.unit:
        try:
            convert_rate(Rate(Fraction(1), rate_unit(found.unit)), wanted)
        except ValueError as error:
            return Fit(misfit=str(error))
    return Fit(convert=lambda v, s: convert_rate(v, wanted))


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
        if source is not None and (inner := fit(source, column)).misfit:
            return Fit(misfit=f"its column {column.name}: {inner.misfit}")
    names = [c.name for c in given.columns if c.name in brought]
    return Fit(convert=lambda rows, s: tuple({n: r[n] for n in names} for r in rows))
