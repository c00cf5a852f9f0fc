"""Help for where you are: the keys that work, and the notation in five lines."""

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from boltend.core.host.config import config_file
from boltend.shell.actions import ACTIONS, Group
from boltend.shell.texts import padded, wrapped

_WIDTH = 76

NOTATION = (
    "Lengths: 12, 12 1/2, 12-1/2, 12½, 12.5 in; 5/8 yd, 1 yd 4 in; 32 cm.",
    "A bare number is in the unit that stands there; write 1.5, never 1,5.",
    "A given says finished or cut: “60 1/4 in cut” in a finished one is converted.",
    "Measured: cut sizes with ; between, as 60 1/4; 60 3/8; or 6 of 12 1/2.",
    "Behind ≈ the other system, if asked for: only to read, never passed on.",
)

MARKS = (
    "!  is wrong, or cannot be worked out      …  waits for another tab",
    "~  is being worked out                    ←  is linked",
    ">  has the focus",
)

FIELD_KEYS = (
    ("Enter", "to the next field; the last one stays"),
    ("↑ ↓", "to the field above or below"),
    ("Tab, Shift+Tab", "on and back, out of the fields, too"),
    ("← → Space Backspace", "in a choice: step, list, the default again"),
    ("letters", "in a choice: to what begins with all of them"),
    ("Esc", "leaves a dialog; stops what is worked out"),
)


def help_text(groups: tuple[Group, ...], about: str) -> str:
    """The help as plain lines; the groups of actions in this order."""
    lines = [about, ""] if about else []
    lines += [f"  {padded(keys, 22)} {words}" for keys, words in FIELD_KEYS]
    lines += ["", *NOTATION, "", *MARKS]
    for group in groups:
        lines += ["", group]
        lines += [f"  {padded(a.key_words or 'menu', 22)} {a.words}" for a in ACTIONS if a.group == group]
    lines += ["", *_own_keys()]
    return "\n".join(lines)


def dialog_help(about: str) -> str:
    """The help within a dialog: what is meant there, and the notation."""
    return "\n".join([about, "", *NOTATION] if about else NOTATION)


def _own_keys() -> list[str]:
    """How to bind an action to another key; the names of all."""
    names = ", ".join(action.name for action in ACTIONS)
    return [
        "Keys of your own",
        f"  In {config_file().name} of your config folder (boltend where names it), below [keys]:",
        '  rename_tab = "f2", or several keys: link = ["f4", "ctrl+l"]. The names:',
        *(f"  {line}" for line in wrapped(names, _WIDTH - 2)),
    ]


class HelpScreen(ModalScreen[None]):
    """The help, to be read and left."""

    DEFAULT_CSS = """
    HelpScreen { align: center middle; }
    HelpScreen > VerticalScroll { width: 80; max-width: 100%; height: auto; max-height: 100%;
                                  background: $panel; border: solid $primary; padding: 0 1; }
    HelpScreen Static { height: auto; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape,q,enter", "leave", "Leave", show=False),
        Binding("f1", "leave", "Leave", show=False, id="help"),
    ]

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
