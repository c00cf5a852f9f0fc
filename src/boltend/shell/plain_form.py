"""A form of cells that no calculator declares: what a fabric says, what the project says."""

from collections.abc import Callable, Mapping, Sequence

from textual.app import ComposeResult
from textual.containers import VerticalScroll

from boltend.core.contract import GivenSpec
from boltend.core.values import Notation
from boltend.shell.cells import Cell
from boltend.shell.fields import Owner, field_for
from boltend.shell.given_row import GivenRow
from boltend.shell.looks import Look, Place
from boltend.shell.typed import same_text, text_of


class PlainForm(VerticalScroll, can_focus=False):
    """A line for each cell. The cells may change their kind, never their names."""

    DEFAULT_CSS = "PlainForm { height: 1fr; scrollbar-size-vertical: 1; }"
    holds_fields = True

    def __init__(
        self, cells: Sequence[Cell], owner: Owner, options: Callable[[GivenSpec], Sequence[str]]
    ) -> None:
        super().__init__()
        width = max(len(cell.spec.label) for cell in cells)
        self.rows = {cell.spec.name: _row(cell.spec, owner, options, width) for cell in cells}

    def compose(self) -> ComposeResult:
        """The lines."""
        yield from self.rows.values()

    def show(self, cells: Sequence[Cell], data: Mapping[str, object], how: Notation) -> None:
        """Show what is said; a field that says it already is left as it was typed."""
        for cell in cells:
            row, raw = self.rows[cell.spec.name], data.get(cell.spec.name)
            typed = getattr(row.field, "value", "")
            text = typed if typed and same_text(cell.spec, raw, typed, how) else text_of(raw)
            row.show(cell.look(raw, text, how))

    def look(self, place: Place) -> Look:
        """What is shown at a place."""
        return self.rows[place.given].look if place.given in self.rows else Look()


def _row(
    spec: GivenSpec, owner: Owner, options: Callable[[GivenSpec], Sequence[str]], width: int
) -> GivenRow:
    return GivenRow(spec, field_for(spec, Place(spec.name), owner, lambda: options(spec)), width)
