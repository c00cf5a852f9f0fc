"""Where in a form a person begins."""

from collections.abc import Container

from boltend.core.flow.givens import Prepared
from boltend.shell.looks import Place


def first_open(prepared: Prepared | None, said: Container[str] = ()) -> Place | None:
    """The first given that no link fills; of rows the first cell that the person must fill.

    `said` are givens that the person has filled already: they are passed over, while another is wanting.
    """
    states = prepared.states if prepared is not None else {}
    if said:
        wanting = (name for name, s in states.items() if name not in said and s.trouble is not None)
        place = next((in_rows(prepared, name) for name in wanting), None)
        if place is not None:
            return place
    return next((in_rows(prepared, name) for name, state in states.items() if state.link is None), None)


def in_rows(prepared: Prepared | None, given: str) -> Place:
    """A given; of rows the first cell that is wrong or wanting."""
    state = prepared.states.get(given) if prepared is not None else None
    for row, cells in enumerate(state.cells if state is not None else ()):
        for column, cell in cells.items():
            if cell.trouble is not None:
                return Place(given, row, column)
    return Place(given)
