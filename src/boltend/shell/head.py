"""The lines on top: which project this is and whether it is saved; and what must not be overlooked."""

from rich.cells import cell_len
from rich.segment import Segment
from textual import events
from textual.message import Message
from textual.strip import Strip
from textual.widgets import Static

from boltend.shell.actions import key_of
from boltend.shell.fixed import Fixed
from boltend.shell.texts import clipped, padded, shown

NAMELESS = "A project without a name"
"""Stands for a name that is not there."""


def menu_words() -> str:
    """The menu's own sign, at the right."""
    return f" Menu {key_of('menu')} "


class Head(Fixed):
    """Project, file, saved or changed; at its right end the menu."""

    DEFAULT_CSS = """
    Head { height: 1; width: 1fr; background: $primary-background; color: $foreground; }
    Head > .head--name { text-style: bold; }
    Head > .head--told { text-style: italic; }
    Head > .head--menu { background: $accent; color: $text; }
    """
    COMPONENT_CLASSES = {"head--name", "head--menu", "head--told"}  # noqa: RUF012 - as Textual declares it

    class MenuAsked(Message):
        """The person clicked on the menu."""

    class ProjectAsked(Message):
        """The person clicked on the project."""

    def __init__(self) -> None:
        super().__init__(id="head")
        self._says = ("", "")
        self.passing = ""

    def show(self, name: str, rest: str) -> None:
        """Show the project's name, and behind it file and state."""
        if (name, rest) != self._says:
            self._says = (name, rest)
            self.refresh()

    def tell(self, words: str) -> bool:
        """Say something in passing, at the right; False where there is no room, and nothing is said."""
        name, rest = self._says
        room = self.size.width - len(menu_words()) - cell_len(name or NAMELESS) - cell_len(rest) - 8
        fits = cell_len(shown(words)) <= room
        words = shown(words) if fits else ""
        if words != self.passing:
            self.passing = words
            self.refresh()
        return fits

    def render_line(self, y: int) -> Strip:
        """The one line."""
        base, part = self.rich_style, self.get_component_rich_style
        name, rest = self._says
        room = self.size.width - len(menu_words())
        name = clipped(" " + (name or NAMELESS), max(10, room - cell_len(rest) - 3))
        told = f" {self.passing} " if self.passing else ""
        segments = [
            Segment(name, part("head--name")),
            Segment(padded(f" · {rest}", max(0, room - cell_len(name) - cell_len(told))), base),
            Segment(told, part("head--told")),
            Segment(menu_words(), part("head--menu")),
        ]
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def on_click(self, event: events.Click) -> None:
        """The menu, or the project's settings."""
        on_menu = event.x >= self.size.width - len(menu_words())
        self.post_message(self.MenuAsked() if on_menu else self.ProjectAsked())


class Notice(Static):
    """What must stay in sight until it is settled, as a save that failed. A click or Esc puts it away.

    A notice in passing is one for which the head had no room: the next edit puts it away. Its lines
    stay lines.
    """

    DEFAULT_CSS = """
    Notice { height: auto; max-height: 4; display: none; padding: 0 1;
             background: $error-muted; color: $text; text-style: bold; }
    Notice.-shown { display: block; }
    Notice.-passing { background: $panel; text-style: none; max-height: 5; }
    """

    def __init__(self) -> None:
        super().__init__("", id="notice", markup=False)
        self.words = ""
        self.passing = False

    def show(self, words: str, *, passing: bool = False) -> None:
        """Show these words; empty puts the notice away."""
        if (words, passing) != (self.words, self.passing):
            self.words, self.passing = words, passing
            self.update("\n".join(map(shown, words.split("\n"))) if passing else shown(words))
            self.set_class(bool(words), "-shown")
            self.set_class(passing, "-passing")

    def pass_by(self) -> None:
        """Put a notice in passing away; one that must stay, stays."""
        if self.passing:
            self.show("")

    def on_click(self) -> None:
        """Put it away."""
        self.show("")
