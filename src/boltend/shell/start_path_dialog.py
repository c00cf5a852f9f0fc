"""A dialog that asks for a path: completed by Tab, what is there listed below it."""

import os
from collections.abc import Callable
from pathlib import Path

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from boltend.shell.dialogs import DIALOG_CSS, Lines, is_beside
from boltend.shell.start_paths import Candidate, completed, offered, path_of, whole_of
from boltend.shell.text_input import TextInput
from boltend.shell.texts import clipped, shown

LONGEST_PATH = 4000
_WIDEST = 76
"""Cells of the dialog, with its frame."""


class AskPath(ModalScreen[str | None]):
    """A path; gives its text, or None.

    `take(text)` says what is wrong with it when Enter is pressed, or nothing; `look(text)` what is wrong
    with it while it is typed.
    """

    DEFAULT_CSS = f"""
    AskPath {{ {DIALOG_CSS} }}
    AskPath #where {{ height: 1; color: $text-muted; }}
    AskPath #list {{ max-height: 12; }}
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape", "leave", "Leave", show=False),
        Binding("tab", "complete", "Complete", show=False, priority=True),
        Binding("up", "move(-1)", "Up", show=False, priority=True),
        Binding("down", "move(1)", "Down", show=False, priority=True),
        Binding("pageup", "move(-10)", "Page up", show=False, priority=True),
        Binding("pagedown", "move(10)", "Page down", show=False, priority=True),
    ]
    KEYS = "Tab completes, ↑ ↓ and Enter choose, Esc leaves."

    def __init__(
        self,
        title: str,
        text: str,
        take: Callable[[str], str],
        look: Callable[[str], str] | None = None,
    ) -> None:
        super().__init__()
        self.title_words, self.text, self.take, self.look = title, text, take, look
        self.candidates: tuple[Candidate, ...] = ()

    def compose(self) -> ComposeResult:
        """Title, field, the whole path, what is wrong, what there is."""
        with Vertical(id="dialog"):
            yield Static(shown(self.title_words), id="title", markup=False)
            yield TextInput(self.text, compact=True, id="text", max_length=LONGEST_PATH)
            yield Static("", id="where", markup=False)
            yield Static("", id="wrong", markup=False)
            yield Lines(id="list", compact=True, markup=False)
            yield Static(self.KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """With what there is already."""
        self.field, self.list = self.query_one("#text", Input), self.query_one("#list", OptionList)
        self.list.can_focus = False  # its lines are reached from the field
        self._paint(self.text)
        self.field.focus()

    def on_unmount(self) -> None:
        """Let go: Textual 8.2 keeps every Input that was ever shown otherwise."""
        self.text_selection_started_signal.unsubscribe(self.field)

    # What is in sight -----------------------------------------------------------------------------

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        self._paint(event.value)

    def _paint(self, text: str) -> None:
        there = offered(text)
        self.candidates = there.candidates
        self.list.clear_options()
        self.list.add_options(Option(Content(clipped(c.name, 70))) for c in self.candidates)
        self.list.highlighted = None
        self.list.display = bool(self.candidates)
        said = there.why or (self.look(text) if self.look is not None and text.strip() else "")
        self._say(said)
        where = shown(whole_of(text))
        # The end of a long path tells more than its beginning.
        room = min(self.size.width or 80, _WIDEST) - 4
        self.query_one("#where", Static).update(where if len(where) <= room else f"= …{where[3 - room :]}")

    def _say(self, words: str) -> None:
        self.query_one("#wrong", Static).update(shown(words))

    # Keys -----------------------------------------------------------------------------------------

    def action_complete(self) -> None:
        """As far as all agree; where they agree no further, to the next line of the list."""
        if self.list.highlighted is not None and len(self.candidates) > 1:
            grown = self.candidates[self.list.highlighted].text
        else:
            grown = completed(self.field.value, self.candidates)
        if grown != self.field.value:
            self._put(grown)
        elif self.candidates:
            self.action_move(1)
        elif not self.field.value.strip():
            self._say("Nothing is here yet.")

    def action_move(self, by: int) -> None:
        """Another line of the list."""
        if not self.candidates:
            return
        last, now = len(self.candidates) - 1, self.list.highlighted
        if now is None:
            self.list.highlighted = 0 if by > 0 else last
        elif now + by < 0 and by == -1:
            self.list.highlighted = None  # back to what is typed
        else:
            self.list.highlighted = max(0, min(last, now + by))

    @on(Input.Submitted)
    def _entered(self) -> None:
        if self.list.highlighted is not None:
            self._take(self.candidates[self.list.highlighted].text)
        else:
            self._take(self.field.value)

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        self._take(self.candidates[event.option_index].text)

    def _take(self, text: str) -> None:
        if text != self.field.value:
            with self.prevent(Input.Changed):
                self._put(text)
            self._paint(text)
        path = path_of(text)
        if text.strip() and "\0" not in text and _is_folder(path):
            if not text.endswith(os.sep):
                with self.prevent(Input.Changed):
                    self._put(text.rstrip() + os.sep)
                self._paint(self.field.value)
            self._say("A folder: write or choose a file in it.")
            return
        wrong = self.take(text)
        if wrong:
            self._say(wrong)
        else:
            self.dismiss(text.strip())

    def _put(self, text: str) -> None:
        self.field.value = text
        self.field.cursor_position = len(text)

    def action_leave(self) -> None:
        """Without an answer."""
        self.dismiss(None)

    def on_click(self, event: events.Click) -> None:
        """Beside the dialog: leave."""
        if is_beside(self, event):
            self.dismiss(None)


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False
