"""Where in a form a person begins, and where an edit was that was taken back."""

from collections.abc import Container, Mapping

from boltend.core.flow.givens import Prepared
from boltend.core.project.model import Tab
from boltend.shell.looks import Place


def first_open(prepared: Prepared | None, said: Container[str] = ()) -> Place | None:
    """The first given that no link fills; of rows the first cell that the person must fill.

    `said` are givens that the person has filled already. Where something is filled, by a link too, the first
    that is wanting comes before those that may stay as they are.
    """
    states = prepared.states if prepared is not None else {}
    filled = {name for name, s in states.items() if name in said or s.link is not None}
    if filled:
        wanting = (name for name, s in states.items() if name not in filled and s.trouble is not None)
        place = next((in_rows(prepared, name) for name in wanting), None)
        if place is not None:
            return place
    return next((in_rows(prepared, name) for name, state in states.items() if state.link is None), None)


def is_wanting(prepared: Prepared) -> bool:
    """Whether a given, or a cell of its rows, is empty that the person must fill."""
    cells = (cell for state in prepared.states.values() for row in state.cells for cell in row.values())
    return any(s.speaks == "empty" and s.trouble is not None for s in (*prepared.states.values(), *cells))


def changed_place(before: Tab, after: Tab) -> Place | None:
    """The one given, or the one cell of its rows, in which a tab differs; None where it is more, or none."""
    names = [*dict.fromkeys((*before.given, *after.given))]
    changed = [name for name in names if before.given.get(name) != after.given.get(name)]
    if len(changed) != 1:
        return None
    was, now = before.given.get(changed[0]), after.given.get(changed[0])
    if not (isinstance(was, list) and isinstance(now, list) and len(was) == len(now)):
        return Place(changed[0])
    cells = [
        Place(changed[0], row, column)
        for row, (old, new) in enumerate(zip(was, now, strict=True))
        if isinstance(old, Mapping) and isinstance(new, Mapping)
        for column in dict.fromkeys((*old, *new))
        if old.get(column) != new.get(column)
    ]
    return cells[0] if len(cells) == 1 else Place(changed[0])


def in_rows(prepared: Prepared | None, given: str) -> Place:
    """A given; of rows the first cell that is wrong or wanting."""
    state = prepared.states.get(given) if prepared is not None else None
    for row in range(len(state.cells) if state is not None else 0):
        column = wanting_in(prepared, given, row)
        if column:
            return Place(given, row, column)
    return Place(given)


def wanting_in(prepared: Prepared | None, given: str, row: int) -> str:
    """The column of the first cell of a row that is wrong or wanting, or nothing."""
    state = prepared.states.get(given) if prepared is not None else None
    cells = state.cells[row] if state is not None else {}
    return next((column for column, cell in cells.items() if cell.trouble is not None), "")
