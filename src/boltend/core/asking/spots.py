"""Spots: where a value stands that is changed on trial: a given of a tab, or one cell of its rows."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from boltend.core.contract import GivenSpec
from boltend.core.flow import Workbook
from boltend.core.flow.givens import GivenState
from boltend.core.flow.nodes import near
from boltend.core.project.edits import set_cell, set_given
from boltend.core.project.model import Project, Tab

ALL = "all"
"""Stands for the number of a row where all rows are meant."""
_FEW = 3
"""Rows that are named one by one."""


class AskError(Exception):
    """What is asked cannot be read: `why`, and the way out."""

    def __init__(self, why: str, way_out: str = "") -> None:
        super().__init__(f"{why} {way_out}".strip())
        self.why, self.way_out = why, way_out


@dataclass(frozen=True)
class Spot:
    """A given of a tab (by its key), or with `row` (from 0) a cell of the given called `rows`.

    `called` is the name of that row, the person's or the calculator's, where it has one. With `alike` it is
    the same column in all these rows, which get one value together; `row` is then the last of them.
    """

    tab: int
    spec: GivenSpec
    rows: str = ""
    row: int = -1
    called: str = field(default="", compare=False)
    alike: tuple[int, ...] = ()

    @property
    def name(self) -> str:
        """As it is written: `across`, `borders.1.width`, or `borders.all.width`."""
        which = ALL if self.alike else self.row + 1
        return self.spec.name if self.row < 0 else f"{self.rows}.{which}.{self.spec.name}"

    @property
    def label(self) -> str:
        """As it is read: `Across`, `Width of “Inner”` or of row 1, `Width of “Inner” and “Outer” alike`."""
        if self.row < 0:
            return self.spec.label
        if self.alike:
            return f"{self.spec.label} of {self.called} alike"
        return f"{self.spec.label} of {f'“{self.called}”' if self.called else f'row {self.row + 1}'}"

    def put(self, project: Project, raw: Any) -> Project:
        """The project with this value there."""
        if self.row < 0:
            return set_given(project, self.tab, self.spec.name, raw)
        for row in self.alike or (self.row,):
            project = set_cell(project, self.tab, self.rows, row, self.spec.name, raw)
        return project

    def state(self, book: Workbook) -> GivenState | None:
        """What the flow knows of it; None where its row is gone."""
        prepared = book.prepared(self.tab)
        if prepared is None:
            return None
        if self.row < 0:
            return prepared.states.get(self.spec.name)
        state = prepared.states.get(self.rows)
        return state.cells[self.row].get(self.spec.name) if state and self.row < len(state.cells) else None

    def value(self, book: Workbook) -> Any:
        """The value that it has now, typed, linked or by default; None of none, and of rows that differ."""
        values = self._values(book)
        return values[-1] if all(each == values[-1] for each in values) else None

    def number(self, book: Workbook) -> Fraction | None:
        """The same where it is a number; of rows that differ that of the last."""
        value = self._values(book)[-1]
        return Fraction(value) if isinstance(value, int | Fraction) and not isinstance(value, bool) else None

    def _values(self, book: Workbook) -> list[Any]:
        args = book.results[self.tab].args
        if self.row < 0:
            return [args.get(self.spec.name)]
        rows = args.get(self.rows)
        if not isinstance(rows, Sequence) or self.row >= len(rows):
            return [None]
        return [rows[row].get(self.spec.name) for row in self.alike or (self.row,)]


def tab_of(book: Workbook, name: object) -> Tab:
    """Find a tab by name. Raises `AskError`."""
    tab = book.project.find_tab(name) if isinstance(name, str) and name else None
    if tab is None:
        names = [each.name for each in book.project.tabs]
        raise AskError(f"there is no tab “{name or ''}”.", near(str(name or ""), names))
    return tab


def spot_of(book: Workbook, tab: Tab, name: object) -> Spot:
    """Find a given of a tab, or a cell of its rows, as `borders.1.width`. Raises `AskError`."""
    prepared = book.prepared(tab.key)
    if prepared is None:
        raise AskError(f"“{tab.name}” cannot be worked out.", book.results[tab.key].why)
    given, *cell = name.split(".") if isinstance(name, str) else [""]
    spec = prepared.spec.given(given)
    if spec is None:
        names = [each.name for each in prepared.spec.givens]
        raise AskError(f"“{tab.name}” has no given {str(name)!r:.60}.", near(str(name), names))
    if spec.kind != "rows" and not cell:
        return Spot(tab.key, spec)
    if spec.kind != "rows":
        raise AskError(f"“{spec.label}” has no rows.", f"Write {spec.name}.")
    columns = [column.name for column in spec.columns]
    if len(cell) != 2:
        raise AskError(f"“{spec.label}” is a list of rows.", f"Take one cell, as {given}.1.{columns[0]}.")
    count = len(prepared.states[given].cells)
    column = next((each for each in spec.columns if each.name == cell[1]), None)
    if cell[0] == ALL and column is not None:
        together = alike(tab.key, prepared.states[given], column)
        if together is None:
            raise AskError(f"“{spec.label}” has no two rows to change together.", "Name one of its rows.")
        return together
    if not (cell[0].isascii() and cell[0].isdigit() and 1 <= int(cell[0][:6]) <= count):
        way_out = f"Rows count from 1 to {count}." if count else "It has no rows yet, or they are linked."
        raise AskError(f"“{spec.label}” has no row {cell[0]!r:.20}.", way_out)
    if column is None:
        raise AskError(f"“{spec.label}” has no column {cell[1]!r:.60}.", near(cell[1], columns))
    row = int(cell[0]) - 1
    return Spot(tab.key, column, given, row, called(prepared.states[given].cells[row], row))


def alike(tab: int, rows: GivenState, column: GivenSpec) -> Spot | None:
    """One column of all rows in which it is no link, to be changed together; None of fewer than two rows."""
    free = [
        row
        for row, cells in enumerate(rows.cells)
        if (cell := cells.get(column.name)) is not None and cell.link is None
    ]
    if len(free) < 2:
        return None
    named = ((row, called(rows.cells[row], row)) for row in free)
    names = [f"“{name}”" if name else f"row {row + 1}" for row, name in named]
    what = f"{', '.join(names[:-1])} and {names[-1]}" if len(free) <= _FEW else f"all {len(free)} rows"
    return Spot(tab, column, rows.spec.name, free[-1], what, tuple(free))


def called(cells: Mapping[str, GivenState], row: int) -> str:
    """The name that a person gave to a row (from 0), or what its calculator calls it; or nothing."""
    name = cells.get("name")
    if name is None:
        return ""
    return name.value if isinstance(name.value, str) and name.value else name.spec.empty_at(row)
