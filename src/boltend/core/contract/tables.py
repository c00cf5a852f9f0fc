"""Tables that a plugin brings: rows of data to choose from, each with its source."""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from boltend.core.values import KINDS, Notation, NotationError


@dataclass(frozen=True)
class Table:
    """Rows to choose from.

    `columns` maps a column to its kind of value; `rows` maps the name that a person picks to its cells,
    written in the trade's notation. Every row has a cell `source` that says where its figures come from.
    With `adds` the rows go to the table of that name that another plugin brings, and `columns` is empty.
    """

    name: str
    columns: Mapping[str, str]
    rows: Mapping[str, Mapping[str, str]]
    adds: bool = False

    def problem(self) -> str | None:
        """What is wrong with the table, or None."""
        for name, cells in self.rows.items():
            if not cells.get("source"):
                return f"table {self.name}, row {name!r}: no source. Give each row a source."
            unknown = set(cells) - set(self.columns) - {"source"}
            if unknown and not self.adds:
                said = _nearest(sorted(unknown)[0], self.columns)
                return f"table {self.name}, row {name!r}: unknown column {said}"
        return None

    def row(self, name: str, currency: str = "USD") -> dict[str, object]:
        """One row as values, with its `name` and `source`; a cell that is not given is None.

        Prices are written without a currency: they are in the project's.
        """
        cells = self.rows[name]
        how = Notation(currency=currency)
        values: dict[str, object] = {"name": name, "source": cells["source"]}
        for column, kind in self.columns.items():
            text = cells.get(column)
            values[column] = None if text is None else KINDS[kind].read(text, how)
        return values

    def with_rows(self, rows: Mapping[str, Mapping[str, str]]) -> tuple["Table", list[str]]:
        """The table with more rows, and what is wrong with those that were left out.

        A row of a name that stands already takes its place: the nearer source speaks.
        """
        kept, problems = dict(self.rows), list[str]()
        spelled = {name.casefold(): name for name in kept}
        for name, cells in rows.items():
            trial = Table(self.name, self.columns, {name: cells})
            problem = trial.problem() or _unreadable(trial, name)
            if problem:
                problems.append(problem)
            else:
                kept.pop(spelled.get(name.casefold(), name), None)
                kept[name] = cells
                spelled[name.casefold()] = name
        return Table(self.name, self.columns, kept), problems


def _nearest(column: str, known: Mapping[str, str]) -> str:
    near = get_close_matches(column, known, 1)
    return f"{column!r}. " + (f"Did you mean {near[0]!r}?" if near else f"There are {', '.join(known)}.")


def _unreadable(table: Table, name: str) -> str | None:
    try:
        table.row(name)
    except NotationError as error:
        return f"table {table.name}, row {name!r}: {error}"
    return None


OwnRows = dict[str, dict[str, dict[str, str]]]
"""A person's own rows: table, then name, then cells."""


def read_own_rows(raw: object, whose: str) -> tuple[OwnRows, list[str]]:
    """The rows that a person adds as `[[row]]`: `table`, `name`, and the cells.

    Returns what is wrong beside them. A row without a `source` is `whose` ("the project's own").
    """
    rows: OwnRows = {}
    problems: list[str] = []
    if not isinstance(raw, list):
        return {}, [f"rows are {type(raw).__name__}. Write each under [[row]]."]
    for number, cells in enumerate(raw, 1):
        if not isinstance(cells, Mapping):
            problems.append(f"row {number} is no table. Write it under [[row]].")
            continue
        table, name = cells.get("table"), cells.get("name")
        if not (isinstance(table, str) and isinstance(name, str) and table and name.strip()):
            problems.append(f'row {number} needs table = "…" and name = "…".')
            continue
        wrong = [k for k, v in cells.items() if not isinstance(v, str) and type(v) is not int]
        if wrong:
            problems.append(f"row {number} ({name}): write {wrong[0]} in quotes.")
            continue
        texts = {k: str(v) for k, v in cells.items() if k not in ("table", "name")}
        rows.setdefault(table, {})[name.strip()] = {"source": whose, **texts}
    return rows, problems
