"""The bar of tabs: one line under the person's own names."""

from dataclasses import dataclass

from rich.cells import cell_len
from rich.segment import Segment
from textual import events
from textual.binding import Binding
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from boltend.shell.texts import clipped

MARKS = {"cannot": "! ", "waiting": "… ", "working": "~ "}
"""A state as a sign before the name: it reads without colour."""

LONGEST_NAME = 24


@dataclass(frozen=True)
class TabLabel:
    """What the bar shows of one tab."""

    key: int
    name: str
    state: str = ""
    aside: bool = False
    done: bool = False

    @property
    def text(self) -> str:
        """The label: mark, name, and whether the tab is out of the lists."""
        flag = " (aside)" if self.aside else " (done)" if self.done else ""
        return MARKS.get(self.state, "") + clipped(self.name or "(no name)", LONGEST_NAME) + flag


class TabBar(Widget, can_focus=True):
    """All tabs in one line, the one in sight in brackets. One widget: forty tabs cost no more than one."""

    DEFAULT_CSS = """
    TabBar { height: 1; width: 1fr; background: $panel; color: $foreground; }
    TabBar > .bar--active { text-style: bold; background: $primary; color: $text; }
    TabBar > .bar--trouble { color: $text-warning; }
    TabBar > .bar--add { color: $text-accent; }
    TabBar:focus > .bar--active { text-style: bold underline; }
    """
    COMPONENT_CLASSES = {"bar--active", "bar--trouble", "bar--add"}  # noqa: RUF012 - as Textual declares it
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("left", "step(-1)", "Previous tab", show=False),
        Binding("right", "step(1)", "Next tab", show=False),
        Binding("down,enter", "enter_form", "To the givens", show=False),
    ]
    ADD = " + Add "

    class Chosen(Message):
        """The person chose a tab."""

        def __init__(self, key: int) -> None:
            self.key = key
            super().__init__()

    class AddAsked(Message):
        """The person asked for a new tab."""

    def __init__(self) -> None:
        super().__init__(id="tabs")
        self.labels: tuple[TabLabel, ...] = ()
        self.active: int | None = None
        self._first = 0

    def show(self, labels: tuple[TabLabel, ...], active: int | None) -> None:
        """Show these tabs."""
        if (labels, active) != (self.labels, self.active):
            self.labels, self.active = labels, active
            self.refresh()

    def _cells(self) -> list[tuple[int | None, str]]:
        cells: list[tuple[int | None, str]] = []
        for label in self.labels:
            ends = "[]" if label.key == self.active else "  "
            cells.append((label.key, f"{ends[0]}{label.text}{ends[1]}"))
        return cells

    def _laid_out(self) -> list[tuple[int, int, int | str, str]]:
        """What is in sight: (from, to, tab key or what it does, text)."""
        cells = self._cells()
        room = self.size.width - len(self.ADD)
        at = next((i for i, (key, _) in enumerate(cells) if key == self.active), 0)
        self._first = _first_in_sight(self._first, at, [cell_len(text) for _, text in cells], room)
        laid: list[tuple[int, int, int | str, str]] = []
        x = 0
        if self._first > 0:
            laid.append((0, 1, "before", "‹"))
            x = 1
        for key, text in cells[self._first :]:
            width = cell_len(text)
            if x + width > room - 1 and key != self.active:
                laid.append((x, x + 1, "after", "›"))
                x += 1
                break
            laid.append((x, x + width, key if key is not None else "", text))
            x += width
        laid.append((x, x + len(self.ADD), "add", self.ADD))
        return laid

    def render_line(self, y: int) -> Strip:
        """The one line."""
        base = self.rich_style
        states = {label.key: label.state for label in self.labels}
        segments = []
        for _, _, what, text in self._laid_out():
            style = base
            if what == self.active:
                style = self.get_component_rich_style("bar--active")
            elif what == "add":
                style = self.get_component_rich_style("bar--add")
            elif isinstance(what, int) and states.get(what) in MARKS:
                style = self.get_component_rich_style("bar--trouble")
            segments.append(Segment(text, style))
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def on_click(self, event: events.Click) -> None:
        """A tab, an end of the bar, or the new one."""
        for start, end, what, _ in self._laid_out():
            if start <= event.x < end:
                if what == "add":
                    self.post_message(self.AddAsked())
                elif what in ("before", "after"):
                    self.action_step(-1 if what == "before" else 1)
                elif isinstance(what, int):
                    self.post_message(self.Chosen(what))
                return

    def action_step(self, by: int) -> None:
        """To a neighbour."""
        keys = [label.key for label in self.labels]
        if self.active in keys:
            at = keys.index(self.active) + by
            if 0 <= at < len(keys):
                self.post_message(self.Chosen(keys[at]))

    def action_enter_form(self) -> None:
        """Down into the form."""
        self.screen.focus_next()


def _first_in_sight(first: int, at: int, widths: list[int], room: int) -> int:
    """The first tab to show so that the one at `at` is in sight, moving as little as can be."""
    first = min(first, at)
    while first < at and sum(widths[first : at + 1]) + 3 > room:
        first += 1
    while first > 0 and sum(widths[first - 1 :]) + 1 <= room:
        first -= 1
    return first
