"""Help for where you are: the keys that work, and the notation in five lines."""

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from boltend.shell.actions import ACTIONS, Group
from boltend.shell.texts import padded

NOTATION = (
    "Lengths: 12, 12 1/2, 12-1/2, 12½, 12.5 in; 5/8 yd, 1 yd 4 in; 32 cm.",
    "A bare number is in the unit that stands there; write 1.5, never 1,5.",
    "A given says finished or cut: “60 1/4 in cut” in a finished one is converted.",
    "Measured: several cut sizes with ; between, as 60 1/4; 60 3/8; 60 1/4.",
    "Behind ≈ stands the other system, rounded: only to read, never passed on.",
)

MARKS = (
    "!  is wrong, or cannot be worked out      …  waits for another tab",
    "~  is being worked out                    ←  is linked",
)

FIELD_KEYS = (
    ("↑ ↓ Enter Tab", "to another field"),
    ("← → Space Backspace", "in a choice: step, list, the default again"),
    ("Esc", "leaves a dialog; stops what is worked out"),
    ("^p", "every action, by its name"),
)


def help_text(groups: tuple[Group, ...], about: str) -> str:
    """The help as plain lines."""
    lines = [about, ""] if about else []
    lines += [*NOTATION, "", *MARKS, ""]
    lines += [f"  {padded(keys, 22)} {words}" for keys, words in FIELD_KEYS]
    for group in groups:
        lines += ["", group]
        lines += [f"  {padded(a.key_words or 'menu', 22)} {a.words}" for a in ACTIONS if a.group == group]
    return "\n".join(lines)


class HelpScreen(ModalScreen[None]):
    """The help, to be read and left."""

    DEFAULT_CSS = """
    HelpScreen { align: center middle; }
    HelpScreen > VerticalScroll { width: 80; max-width: 100%; height: auto; max-height: 100%;
                                  background: $panel; border: solid $primary; padding: 0 1; }
    HelpScreen Static { height: auto; }
    """
    BINDINGS = [Binding("escape,f1,q,enter", "leave", "Leave", show=False)]  # noqa: RUF012 - as Textual declares it

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text

    def compose(self) -> ComposeResult:
        """The lines."""
        with VerticalScroll(can_focus=True):
            yield Static(self.text + "\n\nEsc leaves.", markup=False)

    def action_leave(self) -> None:
        """Back."""
        self.dismiss(None)

    def on_click(self) -> None:
        """Back."""
        self.dismiss(None)
