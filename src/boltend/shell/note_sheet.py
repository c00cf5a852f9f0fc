"""A note of several lines, in a dialog."""

from collections.abc import Callable

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static, TextArea
from textual.widgets.text_area import Edit, EditResult

from boltend.core.values import visible
from boltend.shell.actions import key_of
from boltend.shell.dialogs import is_beside
from boltend.shell.texts import shown


class NoteArea(TextArea):
    """Lines of text into which nothing unseen gets, typed or pasted."""

    def edit(self, edit: Edit) -> EditResult:
        """As TextArea's, of a text in which all can be seen."""
        edit.text = seen(edit.text)
        return super().edit(edit)


def seen(text: str) -> str:
    """Text of several lines with nothing unseen in it but line ends; tabs become blanks."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", "    ").split("\n")
    return "\n".join(map(visible, lines))


class NoteSheet(ModalScreen[None]):
    """The note; `keep` hears of every change."""

    DEFAULT_CSS = """
    NoteSheet { align: center middle; }
    NoteSheet > #sheet { width: 76; max-width: 100%; height: 16; max-height: 100%; background: $panel;
                         border: solid $primary; padding: 0 1; }
    NoteSheet #title { height: 1; text-style: bold; }
    NoteSheet TextArea { height: 1fr; }
    NoteSheet #keys { height: 1; color: $text-muted; }
    """
    BINDINGS = [Binding("escape", "leave", "Leave", show=False, priority=True)]  # noqa: RUF012 - as Textual declares it

    def __init__(self, title: str, text: str, keep: Callable[[str], None]) -> None:
        super().__init__()
        self.title_words, self.keep = title, keep
        self.text = seen(text)

    def compose(self) -> ComposeResult:
        """Title, note, keys."""
        with Vertical(id="sheet"):
            yield Static(shown(self.title_words), id="title", markup=False)
            yield NoteArea(self.text, compact=True, highlight_cursor_line=False)
            yield Static(f"Kept as you type; {key_of('undo')} undoes. Esc leaves.", id="keys", markup=False)

    def on_mount(self) -> None:
        """Ready to type, at the end."""
        area = self.query_one(TextArea)
        area.move_cursor(area.document.end)
        area.focus()

    @on(TextArea.Changed)
    def _changed(self, event: TextArea.Changed) -> None:
        # The first one comes from filling the area: that is no edit.
        if event.text_area.text != self.text:
            self.text = event.text_area.text
            self.keep(self.text)

    def action_leave(self) -> None:
        """Leave; all is kept already."""
        self.dismiss(None)

    def on_click(self, event: events.Click) -> None:
        """Beside the dialog: leave."""
        if is_beside(self, event):
            self.dismiss(None)
