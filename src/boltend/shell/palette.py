"""The dialog of the menu and of Find: type to narrow, Enter goes there."""

from collections.abc import Callable, Sequence

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.message import Message
from textual.screen import ModalScreen
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Input, Static

from boltend.shell.dialogs import DIALOG_CSS, is_beside
from boltend.shell.fields import LONGEST_TYPED
from boltend.shell.hits import Hit, matching
from boltend.shell.text_input import TextInput
from boltend.shell.texts import clipped, padded

_MOST_LINES = 15

_PART, _PAUSE = 0.03, 0.005
"""Seconds of reading in one go, and between two."""


class HitList(Widget):
    """Lines of which one is chosen. It paints only those in sight, so that thousands cost nothing."""

    DEFAULT_CSS = """
    HitList { height: auto; width: 1fr; background: $panel; color: $foreground; }
    HitList > .hits--note { color: $text-muted; }
    """
    COMPONENT_CLASSES = {"hits--note"}  # noqa: RUF012 - as Textual declares it

    class Taken(Message):
        """The person clicked on a line."""

    def __init__(self) -> None:
        super().__init__(id="hits")
        self.hits: Sequence[Hit] = ()
        self.at = 0
        self._first = 0

    def show(self, hits: Sequence[Hit], at: int = 0) -> None:
        """Show these, the one at `at` chosen."""
        self.hits = hits
        self._first = 0
        self.styles.height = max(1, min(_MOST_LINES, len(hits)))
        self.move_to(at)

    @property
    def chosen(self) -> Hit | None:
        """The chosen one."""
        return self.hits[self.at] if self.hits else None

    def move_to(self, at: int) -> None:
        """Choose another one, within the ends."""
        self.at = max(0, min(at, len(self.hits) - 1))
        height = min(_MOST_LINES, self.size.height or _MOST_LINES)
        self._first = max(self.at - height + 1, min(self._first, self.at))
        self.refresh()

    def on_resize(self) -> None:
        """The chosen one stays in sight."""
        self.move_to(self.at)

    def render_line(self, y: int) -> Strip:
        """One line."""
        at = self._first + y
        if at >= len(self.hits):
            return Strip.blank(self.size.width, self.rich_style)
        hit, base = self.hits[at], self.rich_style
        note = clipped(hit.note, max(8, self.size.width // 3))
        room = self.size.width - cell_len(note) - 3
        mark, words = "> " if at == self.at else "  ", padded(hit.words, max(0, room))
        if at == self.at:
            chosen = base + Style(bold=True, reverse=True)
            segments = [Segment(f"{mark}{words} {note}", chosen)]
        else:
            segments = [
                Segment(f"{mark}{words} ", base),
                Segment(note, self.get_component_rich_style("hits--note")),
            ]
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def on_click(self, event: events.Click) -> None:
        """Take a line."""
        event.stop()
        if self._first + event.y < len(self.hits):
            self.move_to(self._first + event.y)
            self.post_message(self.Taken())

    def on_mouse_scroll_down(self) -> None:
        """A line on."""
        self.move_to(self.at + 1)

    def on_mouse_scroll_up(self) -> None:
        """A line back."""
        self.move_to(self.at - 1)


class Palette(ModalScreen[Hit | None]):
    """Title, field, list. Gives the hit that was taken, or None; `typed` is what was searched."""

    DEFAULT_CSS = f"Palette {{ {DIALOG_CSS} }}"
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape", "leave", "Leave", show=False),
        Binding("up", "move(-1)", "Up", show=False, priority=True),
        Binding("down", "move(1)", "Down", show=False, priority=True),
        Binding("pageup", "move(-10)", "Page up", show=False, priority=True),
        Binding("pagedown", "move(10)", "Page down", show=False, priority=True),
        # By the keys that the person gave to these, too: the same key again goes on, or away.
        Binding("ctrl+f", "next", "Next", show=False, priority=True, id="find"),
        Binding("f9,ctrl+p", "leave", "Leave", show=False, priority=True, id="menu"),
    ]

    def __init__(
        self,
        title: str,
        hits: Callable[[], Sequence[Hit]],
        read: Callable[[float], bool],
        *,
        typed: str = "",
        after: Hit | None = None,
    ) -> None:
        super().__init__()
        self.title_words, self.make_hits, self.read, self.typed, self.after = title, hits, read, typed, after
        self.hits: Sequence[Hit] = ()
        self.whole = False
        self.list = HitList()

    def compose(self) -> ComposeResult:
        """From top to bottom."""
        with Vertical(id="dialog"):
            yield Static(self.title_words, id="title", markup=False)
            yield TextInput(
                self.typed, placeholder="type to search", compact=True, id="filter", max_length=LONGEST_TYPED
            )
            yield self.list
            yield Static("", id="keys", markup=False)

    def on_mount(self) -> None:
        """Ready to type; where something was searched before, the next place is chosen."""
        self._read_on()
        if self.after is not None and self.after in self.list.hits:
            self.list.move_to((self.list.hits.index(self.after) + 1) % len(self.list.hits))
        self.query_one(Input).focus()

    def _read_on(self) -> None:
        """Read a part of what is not read yet; keys get their turn between two parts."""
        first = not self.hits
        self.whole = self.read(_PART)
        if not self.whole:
            self.set_timer(_PAUSE, self._read_on)
        if first or self.whole:
            chosen = self.list.chosen if not first else None
            self.hits = self.make_hits()
            self._narrow(chosen)

    def _narrow(self, chosen: Hit | None = None) -> None:
        hits = matching(self.hits, self.typed)
        self.list.show(hits, hits.index(chosen) if chosen in hits else 0)
        self.paint_keys()

    def paint_keys(self) -> None:
        """How many there are, and what can be done."""
        count = len(self.list.hits)
        found = f"{count} of {len(self.hits)}{'' if self.whole else ' …'}"
        words = f"{found} · ↑ ↓ and Enter choose, Esc leaves." if count else "Nothing fits. Esc leaves."
        self.query_one("#keys", Static).update(words)

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        if event.value != self.typed:
            self.typed = event.value
            self._narrow()

    @on(Input.Submitted)
    @on(HitList.Taken)
    def _take(self) -> None:
        if self.list.chosen is not None:
            self.dismiss(self.list.chosen)

    def action_move(self, by: int) -> None:
        """Another line."""
        self.list.move_to(self.list.at + by)

    def action_next(self) -> None:
        """The next line, round the end."""
        if self.list.hits:
            self.list.move_to((self.list.at + 1) % len(self.list.hits))

    def action_leave(self) -> None:
        """Without going anywhere."""
        self.dismiss(None)

    def on_click(self, event: events.Click) -> None:
        """Beside the dialog: leave."""
        if is_beside(self, event):
            self.dismiss(None)
