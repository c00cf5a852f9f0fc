"""A dialog that asks the project something: lines of text, what is wrong with them, things to tick."""

from collections.abc import Sequence
from typing import Generic, NamedTuple, TypeVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from boltend.core.asking import AskError
from boltend.core.values import visible
from boltend.shell.checks import Checks, Group
from boltend.shell.dialogs import is_beside
from boltend.shell.fields import LONGEST_TYPED
from boltend.shell.help import HelpScreen, dialog_help
from boltend.shell.signs import Signs
from boltend.shell.text_input import TextInput
from boltend.shell.texts import padded, shown, wrapped

T = TypeVar("T")

_HIGHEST = 24
"""Lines of a dialog; what is more is scrolled."""

_WIDE, _MOST_SAID = 76, 4
"""Cells of a dialog, and lines of what it says: as in the style sheet."""


class Line(NamedTuple):
    """A line of text to be typed: its name, its label, what stands in it, what holds where it is empty."""

    name: str
    label: str
    text: str = ""
    faint: str = ""


class AskDialog(ModalScreen[T | None], Generic[T]):
    """Title, lines, what they say, groups to tick. A subclass says what they mean in `read`.

    Enter takes it from wherever the focus is; ↑ ↓ and Tab go from line to line and into the groups.
    """

    DEFAULT_CSS = """
    AskDialog { align: center middle; }
    AskDialog > #dialog { width: 76; max-width: 100%; height: 100%; background: $panel;
                          border: solid $primary; padding: 0 1; }
    AskDialog #title { text-style: bold; height: 1; }
    AskDialog Horizontal { height: 1; }
    AskDialog Horizontal > Static { width: auto; }
    AskDialog Input { height: 1; width: 1fr; }
    AskDialog #says { height: auto; max-height: 4; color: $text-muted; }
    AskDialog #says.-bad { color: $text-error; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("f1", "help", "Help", show=False, id="help"),
        Binding("escape", "leave", "Leave", show=False),
        Binding("enter", "take", "Take it", show=False),
        Binding("down", "app.focus_next", "On", show=False),
        Binding("up", "app.focus_previous", "Back", show=False),
    ]

    def __init__(self, title: str, lines: Sequence[Line], groups: Sequence[Group], take: str) -> None:
        super().__init__()
        self.title_words, self.lines, self.checks = title, lines, Checks(*groups)
        self.signs = Signs((f"{take}: Enter", "take"), ("Tick: Space", "tick"), ("Leave: Esc", "leave"))

    def compose(self) -> ComposeResult:
        """From top to bottom."""
        width = max(len(line.label) for line in self.lines) + 1
        with Vertical(id="dialog"):
            yield Static(shown(self.title_words), id="title", markup=False)
            for line in self.lines:
                with Horizontal():
                    yield Static(padded(line.label, width), markup=False)
                    yield TextInput(
                        visible(line.text),
                        visible(line.faint),
                        compact=True,
                        id=line.name,
                        max_length=LONGEST_TYPED,
                    )
            yield Static("", id="says", markup=False)
            yield self.checks
            yield self.signs

    def on_mount(self) -> None:
        """Ready to type; as high as it needs."""
        self.query(Input).first().focus()
        self.look()

    def fit(self, said: str = "") -> None:
        """As high as it needs, with what it says in as many lines as that takes."""
        room = min(_WIDE, self.app.size.width) - 4
        more = max(0, min(_MOST_SAID, len(wrapped(said, room))) - 1)
        needed = len(self.lines) + len(self.checks.lines) + 5
        self.query_one("#dialog").styles.max_height = max(10, min(_HIGHEST, needed)) + more

    # What a subclass says -------------------------------------------------------------------------

    def read(self) -> tuple[T, str]:
        """What is asked, and how it is understood. Raises `AskError`."""
        raise NotImplementedError

    def missing(self) -> str:
        """What is still to be typed; nothing is wrong as long as the person has not come to it."""
        return ""

    about = ""
    """What F1 says of the dialog."""

    def about_now(self) -> str:
        """What F1 says beside it of what is chosen at the moment."""
        return ""

    # What they share ------------------------------------------------------------------------------

    def text(self, name: str) -> str:
        """What stands in a line."""
        return self.query_one(f"#{name}", Input).value.strip()

    def look(self, *, taken: bool = False) -> T | None:
        """Say how it is understood, or what is wrong; what is asked, where it can be.

        What is only missing yet is wrong once it is `taken`.
        """
        missing = "" if taken else self.missing()
        if missing:
            self._say(missing)
            return None
        try:
            asked, words = self.read()
        except AskError as error:
            self._say(f"! {error}", bad=True)
            return None
        self._say(words)
        return asked

    def _say(self, words: str, *, bad: bool = False) -> None:
        says = self.query_one("#says", Static)
        says.update(shown(words))
        says.set_class(bad, "-bad")
        self.fit(words)

    @on(Input.Changed)
    @on(Checks.Ticked)
    def _changed(self) -> None:
        self.look()

    @on(Input.Submitted)
    def action_take(self) -> None:
        """Take it, unless something is wrong with it."""
        if self.focused is self.checks:
            self.checks.choose_one()
        asked = self.look(taken=True)
        if asked is not None:
            self.dismiss(asked)

    def action_help(self) -> None:
        """What is meant here, and how lengths are written."""
        self.app.push_screen(HelpScreen(dialog_help(f"{self.about}{self.about_now()}")))

    def action_leave(self) -> None:
        """Without asking."""
        self.dismiss(None)

    @on(Signs.Asked)
    def _sign(self, event: Signs.Asked) -> None:
        if event.what == "tick":
            self.checks.action_tick()
        elif event.what == "take":
            self.action_take()
        else:
            self.action_leave()

    def on_click(self, event: events.Click) -> None:
        """Beside the dialog: leave."""
        if is_beside(self, event):
            self.dismiss(None)
