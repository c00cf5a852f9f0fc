"""The start screen: recent projects, questions, examples and single tabs in one list, searched by typing."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from boltend.core.contract import CalculatorSpec, Start
from boltend.core.project.recovered import Recovered
from boltend.shell.dialogs import Lines
from boltend.shell.fields import LONGEST_TYPED
from boltend.shell.start_offers import Line, Pick, ShowAll, ThrowAway, found_lines, in_short
from boltend.shell.text_input import TextInput
from boltend.shell.texts import clipped, padded, shown, wrapped

_WIDEST_NAME = 30
"""Cells of what stands in front of a path or a description, at most."""


HELP = """\
Type what you want to know, as “how much backing”, “bed”, “is it enough”, “price”: what fits stands
first. Numbers that you type along, as “30 blocks of 9 in”, are put where they belong. What you asked last
stands there again: mend it, or type over it.

Unsaved     work that has no file yet; Enter goes on with it, Del throws it away
Projects    what you had open last, the newest first; any other file; an empty project
Questions   Enter makes the tabs that answer it, linked, and waits in the first given; you type what it
            needs, F6 goes to the next tab. Some questions are answered by To cut, To buy or Fabrics.
Examples    whole quilts of our invention; a copy opens, which you may change and keep
One tab     a single calculator

Nothing is lost by leaving: Esc goes to the project, and this list is in the menu."""

NOTHING_FITS = "Nothing fits these words. One word is often enough: block, bed, border, backing, price."


class StartScreen(ModalScreen[Pick | None]):
    """Gives what was chosen, or None.

    `adds`: there is a project in sight that a question adds its tabs to. `asked`: what was typed for the last
    question; it stands there selected, to be mended or typed over.
    """

    DEFAULT_CSS = """
    StartScreen { align: center middle; }
    StartScreen > #start { width: 100%; height: 100%; max-width: 120; max-height: 40; background: $panel;
                           border: solid $primary; padding: 0 1; }
    StartScreen #title { height: 1; text-style: bold; }
    StartScreen Input { height: 1; }
    StartScreen OptionList { height: 1fr; border: none; padding: 0; background: $panel; }
    StartScreen OptionList > .option-list--option-disabled { color: $text-primary; text-style: bold; }
    StartScreen OptionList > .option-list--option-highlighted { color: $foreground; background: $panel;
                                                               text-style: bold reverse; }
    StartScreen #about { height: 2; }
    StartScreen #keys { height: 1; color: $text-muted; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape", "leave", "Leave", show=False),
        Binding("f1", "help", "Help", show=False, priority=True),
        Binding("delete", "throw_away", "Throw away", show=False, priority=True),
        Binding("up", "move(-1)", "Up", show=False, priority=True),
        Binding("down", "move(1)", "Down", show=False, priority=True),
        Binding("pageup", "move(-10)", "Page up", show=False, priority=True),
        Binding("pagedown", "move(10)", "Page down", show=False, priority=True),
    ]

    def __init__(self, lines: Sequence[Line], *, adds: bool, asked: str = "") -> None:
        super().__init__()
        self.lines, self.adds, self.asked = list(lines), adds, asked
        self.all_unsaved = False
        self.in_sight: list[Line | str] = []
        """What stands in the list: lines, and the heads of groups."""

    def compose(self) -> ComposeResult:
        """Title, search, list, what the chosen line does, keys."""
        with Vertical(id="start"):
            yield Static("What do you want to know, or go on with?", id="title", markup=False)
            yield TextInput(
                self.asked, placeholder="type to search", compact=True, id="filter", max_length=LONGEST_TYPED
            )
            yield Lines(id="list", compact=True, markup=False)
            yield Static("", id="about", markup=False)
            yield Static("", id="keys", markup=False)

    def on_mount(self) -> None:
        """All of it, the first line ready to be taken."""
        self.list, self.filter = self.query_one("#list", OptionList), self.query_one("#filter", Input)
        self.list.can_focus = False  # its lines are reached from the search
        self.filter.focus()

    def on_unmount(self) -> None:
        """Let go: Textual 8.2 keeps every Input that was ever shown otherwise."""
        self.text_selection_started_signal.unsubscribe(self.filter)

    def on_resize(self) -> None:
        """For another width."""
        self.call_after_refresh(self._paint)

    # What is in sight -----------------------------------------------------------------------------

    @on(Input.Changed)
    def _narrow(self) -> None:
        self._paint(from_top=True)

    def _paint(self, *, from_top: bool = False) -> None:
        wanted = self.filter.value.strip()
        chosen = None if from_top else self.chosen
        found = found_lines(self.lines, wanted)
        if not wanted and not self.all_unsaved:
            found = in_short(found)
        self.in_sight = list(found) if wanted else _grouped(found)
        width = max(20, (self.list.size.width or 76) - 2)
        self.list.clear_options()
        self.list.add_options(
            Option(self._content(line, width, searched=bool(wanted)), disabled=isinstance(line, str))
            for line in self.in_sight
        )
        first = next((n for n, line in enumerate(self.in_sight) if isinstance(line, Line)), None)
        at = next((n for n, line in enumerate(self.in_sight) if line is chosen), first)
        self.list.highlighted = at
        if at == first:
            self.list.scroll_to(y=0, animate=False)  # the head of the group, too
        self._tell()

    def _content(self, line: Line | str, width: int, *, searched: bool) -> Content:
        if isinstance(line, str):
            more = " · in this project, or a new one" if self.adds and line == "Questions" else ""
            return Content(clipped(f"{line}{more}", width))
        behind = line.kind if searched else line.more
        if not behind:
            return Content(f"  {clipped(line.words, width - 2)}")
        if searched:
            return Content(f"  {padded(line.words, width - 4 - cell_len(behind))}").append(
                Content.styled(f"  {behind}", "dim")
            )
        names = [cell_len(shown(x.words)) for x in self.lines if x.group == line.group and x.more]
        name = min(_WIDEST_NAME, width // 2, max(names))
        return Content(f"  {padded(line.words, name)}").append(
            Content.styled(f"  {clipped(behind, width - name - 4)}", "dim")
        )

    @property
    def typed(self) -> str:
        """What was typed to search: a whole question, perhaps, with numbers in it."""
        return self.filter.value

    @property
    def chosen(self) -> Line | None:
        """The line that Enter takes."""
        at = self.list.highlighted
        line = self.in_sight[at] if at is not None and at < len(self.in_sight) else None
        return line if isinstance(line, Line) else None

    def _tell(self) -> None:
        line = self.chosen
        about = self.query_one("#about", Static)
        room = (about.size.width or 76) - 1
        said = line.about if line is not None else NOTHING_FITS
        if line is not None and self._clipped(line):
            said = f"{line.words} {said}"
        if line is not None and self.adds and isinstance(line.pick, (Start, CalculatorSpec)):
            said = f"Asks whether in this project or a new one. {said}"
        about.update("\n".join(_two_lines(said, room)))
        keys = "↑ ↓ and Enter choose, F1 helps, Esc leaves." if line else "^u clears, F1 helps, Esc leaves."
        self.query_one("#keys", Static).update(keys)

    def _clipped(self, line: Line) -> bool:
        """Whether not all of its words are in sight."""
        behind = cell_len(line.kind) + 2 if self.filter.value.strip() else 0
        return not line.more and cell_len(shown(line.words)) > self.list.size.width - 4 - behind

    @on(OptionList.OptionHighlighted)
    def _highlighted(self) -> None:
        self._tell()

    # Keys -----------------------------------------------------------------------------------------

    def action_move(self, by: int) -> None:
        """Another line, past the heads of groups."""
        places = [n for n, line in enumerate(self.in_sight) if isinstance(line, Line)]
        if not places:
            return
        now = self.list.highlighted
        at = places.index(now) if now in places else 0
        to = places[max(0, min(len(places) - 1, at + by))]
        self.list.highlighted = to
        if to == places[0]:
            self.list.scroll_to(y=0, animate=False)

    @on(Input.Submitted)
    def _take_chosen(self) -> None:
        if self.chosen is not None:
            self._take(self.chosen)

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        line = self.in_sight[event.option_index]
        if isinstance(line, Line):
            self._take(line)

    def _take(self, line: Line) -> None:
        if not isinstance(line.pick, ShowAll):
            self.dismiss(line.pick)
            return
        at, self.all_unsaved = self.in_sight.index(line), True
        self._paint()
        self.list.highlighted = at  # the first that was not in sight

    def action_throw_away(self) -> None:
        """Unsaved work that is wanted no more; elsewhere the key does what it does in a field."""
        line = self.chosen
        if line is not None and isinstance(line.pick, Recovered):
            self.dismiss(ThrowAway(line.pick))
        else:
            self.filter.action_delete_right()

    def action_help(self) -> None:
        """What this list is."""
        from boltend.shell.help import HelpScreen

        self.app.push_screen(HelpScreen(HELP))

    def action_leave(self) -> None:
        """Without choosing."""
        self.dismiss(None)


def _two_lines(words: str, room: int) -> list[str]:
    """As much as two lines hold, and at their end whether there was more."""
    first, *others = wrapped(words, room)
    if len(others) > 1:
        kept = wrapped(others[0], room - 2)[0]
        others = [f"{kept.rstrip(',')} …"]
    return [first, *others]


def _grouped(lines: Sequence[Line]) -> list[Line | str]:
    groups: dict[str, list[Line | str]] = {}
    for line in lines:
        groups.setdefault(line.group, [line.group]).append(line)
    return [entry for group in groups.values() for entry in group]
