"""Tables that a plugin brings: rows of data to choose from, each with its source."""

from collections.abc import Mapping
from dataclasses import dataclass

from boltend.core.values import KINDS, Notation


@dataclass(frozen=True)
class Table:
    """Rows to choose from.

    `columns` maps a column to its kind of value; `rows` maps the name that a person picks to its cells,
    written in the trade's notation. Every row has a cell `source` that says where its figures come from.
    """

    name: str
    columns: Mapping[str, str]
    rows: Mapping[str, Mapping[str, str]]

    def problem(self) -> str | None:
        """What is wrong with the table, or None."""
        for name, cells in self.rows.items():
            if not cells.get("source"):
                return f"table {self.name}, row {name!r}: no source. Give each row a source."
            unknown = set(cells) - set(self.columns) - {"source"}
            if unknown:
                return f"table {self.name}, row {name!r}: unknown column {sorted(unknown)[0]!r}."
        return None

    def row(self, name: str) -> dict[str, object]:
        """One row as values, with its `name` and `source`; a cell that is not given is None."""
        cells = self.rows[name]
        how = Notation()
        values: dict[str, object] = {"name": name, "source": cells["source"]}
        for column, kind in self.columns.items():
            text = cells.get(column)
            values[column] = None if text is None else KINDS[kind].read(text, how)
        return values
