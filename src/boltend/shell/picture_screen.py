"""The picture of a tab on the whole screen: in cells, or sharp where the terminal draws pictures itself."""

from collections.abc import Callable

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from boltend.shell.result_lines import ResultLine
from boltend.shell.results import Results
from boltend.shell.texts import clipped

Lines = Callable[[int, int], tuple[ResultLine, ...]]
"""The picture in at most so many cells and lines."""

Sharp = Callable[[int, int], Widget | None]
"""A widget with the sharp picture for so many cells and lines; None where it cannot be drawn."""


class PictureScreen(ModalScreen[None]):
    """Shows a picture until it is left."""

    DEFAULT_CSS = """
    PictureScreen > #frame { width: 100%; height: 100%; background: $surface; padding: 0 1; }
    PictureScreen #title { height: 1; text-style: bold; }
    PictureScreen #large { height: 1fr; }
    PictureScreen #keys { height: 1; color: $text-muted; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape,q,enter", "leave", "Leave", show=False),
        Binding("alt+v", "leave", "Leave", show=False, id="picture"),
    ]

    def __init__(self, title: str, lines: Lines, sharp: Sharp | None = None) -> None:
        super().__init__()
        self.words, self.lines, self.sharp = title, lines, sharp
        self.drawn: Widget | None = None

    def compose(self) -> ComposeResult:
        """Title, picture, keys."""
        with Vertical(id="frame"):
            yield Static(self.words, id="title", markup=False)
            yield Results("large")
            yield Static("↑ ↓ scroll, Esc leaves.", id="keys", markup=False)

    def on_mount(self) -> None:
        """The keys go to the picture."""
        self.query_one(Results).focus()

    def on_resize(self) -> None:
        """For another size."""
        self.call_after_refresh(self._paint)

    def _paint(self) -> None:
        large = self.query_one(Results)
        self.query_one("#title", Static).update(clipped(self.words, max(8, self.size.width - 2)))
        if self.drawn is not None:
            self.drawn.remove()
            self.drawn = None
        width, rows = self.size.width - 2, self.size.height - 2
        self.drawn = self.sharp(width, rows) if self.sharp is not None else None
        large.display = self.drawn is None
        if self.drawn is not None:
            self.query_one("#frame").mount(self.drawn, after=large)
        else:
            large.show(self.lines(width - 1, rows), from_top=True)

    def action_leave(self) -> None:
        """Back."""
        self.dismiss(None)

    def on_click(self) -> None:
        """Back."""
        self.dismiss(None)
