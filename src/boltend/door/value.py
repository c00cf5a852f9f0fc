"""A given or a found as a typed value."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from boltend.core.contract import FoundSpec, GivenSpec
from boltend.core.flow import Result
from boltend.core.report.words import say_value
from boltend.core.values.units import INCHES


@dataclass(frozen=True)
class Value:
    """One given or found, as it is shown and passed on.

    `value` is exact: inches as a Fraction for every length, square inches for an area, an int for a count, a
    str, a bool, a `Price` …; for a list of measurements a tuple of inches; for rows a tuple of mappings from
    the column's name to another `Value`; None where nothing is given or found. `kind` says whether a length
    is `finished` or `cut`; `text` is what the shell shows.
    """

    name: str
    label: str
    kind: str
    value: Any
    text: str

    def to(self, unit: str) -> Fraction:
        """A length in `in`, `ft`, `yd`, `mm`, `cm` or `m`, exactly.

        Raises TypeError where it is no single length, ValueError where there is no such unit.
        """
        if self.kind not in LENGTHS or self.value is None:
            raise TypeError(f"{self.name} is no length but {self.kind}: {self.text or 'nothing'}.")
        if unit not in INCHES:
            raise ValueError(f"{unit!r} is no unit of a length. Say one of: {', '.join(INCHES)}.")
        return Fraction(self.value) / INCHES[unit]

    def __str__(self) -> str:
        return self.text


LENGTHS = ("finished", "cut", "length")


def value_of(spec: GivenSpec | FoundSpec, value: Any, result: Result) -> Value:
    """A given or found of a tab; rows with each of their cells."""
    how = result.settings.notation
    if spec.kind == "rows":
        rows = tuple(_row(spec, row, result) for row in value or ())
        return Value(spec.name, spec.label, spec.kind, rows, f"{len(rows)} rows")
    return Value(
        spec.name, spec.label, spec.kind, value, "" if value is None else say_value(spec, value, how)
    )


def _row(spec: GivenSpec | FoundSpec, row: Mapping[str, Any], result: Result) -> Mapping[str, Value]:
    cells = {column.name: value_of(column, row.get(column.name), result) for column in spec.columns}
    return MappingProxyType(cells)
