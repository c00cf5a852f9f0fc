"""Rows of tables for calls: a call holds the name of a row, a calculator gets its values."""

from collections.abc import Mapping

from boltend.core.contract import CalculatorSpec, Cannot, Table
from boltend.core.values.alike import likeliest


class TableRows:
    """Looks up the rows that calls choose, and keeps them: reading a cell takes longer than most calls."""

    def __init__(self, tables: Mapping[str, Table]) -> None:
        self._tables = tables
        self._rows: dict[tuple[str, str, str], Mapping[str, object]] = {}
        self._needs: dict[str, tuple[_Need, ...]] = {}

    def fill(self, spec: CalculatorSpec, args: Mapping[str, object], currency: str) -> Mapping[str, object]:
        """The args with a row's values in the place of its name. Raises `Cannot` for an unknown row."""
        needs = self._needs.get(spec.name)
        if needs is None:
            needs = self._needs[spec.name] = _needs_of(spec)
        if not needs:
            return args
        filled = dict(args)
        for given, column, table in needs:
            value = filled.get(given)
            if value is None:
                continue
            if column is None:
                filled[given] = self._row(given, table, value, currency)
            elif isinstance(value, tuple):
                filled[given] = tuple(self._filled_row(given, column, table, row, currency) for row in value)
        return filled

    def _filled_row(
        self, given: str, column: str, table: str, row: Mapping[str, object], currency: str
    ) -> Mapping[str, object]:
        picked = row.get(column)
        return (
            row
            if picked is None
            else {**row, column: self._row(f"{given}, {column}", table, picked, currency)}
        )

    def _row(self, given: str, table: str, name: object, currency: str) -> Mapping[str, object]:
        if isinstance(name, Mapping):  # already a row's values, as a test or another calculator may hand it
            return name
        key = (table, str(name), currency)
        if key not in self._rows:
            known = self._tables[table].rows if table in self._tables else {}
            if key[1] not in known:
                raise _no_row(given, table, key[1], list(known))
            self._rows[key] = self._tables[table].row(key[1], currency)
        return self._rows[key]


_Need = tuple[str, str | None, str]
"""A given, the column in it where it is rows, and the table to choose from."""


def _needs_of(spec: CalculatorSpec) -> tuple[_Need, ...]:
    needs: list[_Need] = []
    for given in spec.givens:
        if given.kind == "table_row" and given.table is not None:
            needs.append((given.name, None, given.table))
        columns = [c for c in given.columns if c.kind == "table_row"]
        needs += [(given.name, c.name, c.table) for c in columns if c.table is not None]
    return tuple(needs)


def _no_row(given: str, table: str, name: str, known: list[str]) -> Cannot:
    near = likeliest(name, known)
    way_out = f"Did you mean {near!r}?" if near else f"There are {', '.join(known[:12])}."
    return Cannot(given, f"{name!r:.60} is no row of the table {table}.", way_out)
