"""Pictures on the whole screen, one at a time: in cells, or sharp where the terminal draws itself."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from rich.cells import cell_len
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


class Large(NamedTuple):
    """One picture: its title, how it is drawn in cells, and how sharp; a title for where the first is cut."""

    title: str
    lines: Lines
    sharp: Sharp | None = None
    short: str = ""


class PictureScreen(ModalScreen[None]):
    """Shows pictures until it is left, first the one at `at`."""

    DEFAULT_CSS = """
    PictureScreen > #frame { width: 100%; height: 100%; background: $surface; padding: 0 1; }
    PictureScreen #title { height: 1; text-style: bold; }
    PictureScreen #large { height: 1fr; }
    PictureScreen #keys { height: 1; color: $text-muted; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape,q,enter", "leave", "Leave", show=False),
        Binding("alt+v", "leave", "Leave", show=False, id="picture"),
        Binding("alt+q", "leave", "Leave", show=False, id="whole_quilt"),
        Binding("left", "other(-1)", "Picture before", show=False, priority=True),
        Binding("right,space", "other(1)", "Next picture", show=False, priority=True),
    ]

    def __init__(self, pictures: Sequence[Large], at: int = 0) -> None:
        super().__init__()
        self.pictures, self.at = pictures, at
        self.drawn: Widget | None = None

    def compose(self) -> ComposeResult:
        """Title, picture, keys."""
        with Vertical(id="frame"):
            yield Static("", id="title", markup=False)
            yield Results("large")
            others = "← → other pictures, " if len(self.pictures) > 1 else ""
            yield Static(f"{others}↑ ↓ scroll, Esc leaves.", id="keys", markup=False)

    def on_mount(self) -> None:
        """The keys go to the picture."""
        self.query_one(Results).focus()

    def on_resize(self) -> None:
        """For another size."""
        self.call_after_refresh(self._paint)

    def _paint(self) -> None:
        large, picture = self.query_one(Results), self.pictures[self.at]
        count = f"{self.at + 1} of {len(self.pictures)} · " if len(self.pictures) > 1 else ""
        room = max(8, self.size.width - 2)
        title = picture.title if cell_len(count + picture.title) <= room else picture.short or picture.title
        words = clipped(f"{count}{title}", room)
        self.query_one("#title", Static).update(words)
        if self.drawn is not None:
            self.drawn.remove()
            self.drawn = None
        width, rows = self.size.width - 2, self.size.height - 2
        self.drawn = picture.sharp(width, rows) if picture.sharp is not None else None
        large.display = self.drawn is None
        if self.drawn is not None:
            self.query_one("#frame").mount(self.drawn, after=large)
        else:
            large.show(picture.lines(width - 1, rows), from_top=True)

    def action_other(self, by: int) -> None:
        """Another picture, round the end."""
        if len(self.pictures) > 1:
            self.at = (self.at + by) % len(self.pictures)
            self._paint()

    def action_leave(self) -> None:
        """Back."""
        self.dismiss(None)

    def on_click(self) -> None:
        """Back."""
        self.dismiss(None)
