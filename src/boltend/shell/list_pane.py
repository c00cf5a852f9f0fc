"""A list of the whole project at full height: a line that says what is in sight, and the list."""

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Static

from boltend.shell.result_lines import ResultLine
from boltend.shell.results import Results
from boltend.shell.texts import clipped


class ListPane(Vertical):
    """To cut or To buy."""

    DEFAULT_CSS = """
    ListPane { height: 1fr; width: 1fr; display: none; }
    /* A bar that comes and goes would wrap all lines anew. */
    ListPane > #list-lines { scrollbar-gutter: stable; }
    ListPane > #list-says { height: 1; color: $text-primary; text-style: bold; }
    """

    def __init__(self) -> None:
        super().__init__(id="list-pane")
        self.says = Static("", id="list-says", markup=False)
        self.lines = Results("list-lines")

    def compose(self) -> ComposeResult:
        """What is in sight, and the list."""
        yield self.says
        yield self.lines

    @property
    def lines_width(self) -> int:
        """Cells for a line of the list."""
        return self.lines.size.width or 78

    @property
    def lines_in_sight(self) -> int:
        """How many lines there must be so that all in sight are."""
        return self.lines.scroll_offset.y + (self.lines.size.height or self.screen.size.height)

    def say(self, says: str) -> None:
        """Say what is in sight."""
        self.says.update(clipped(says, self.screen.size.width))

    def show(self, lines: tuple[ResultLine, ...], *, from_top: bool, leads: bool = False) -> None:
        """Show these lines; with `leads` one is chosen that leads to a tab."""
        self.lines.show(lines, from_top=from_top, leads=leads)
