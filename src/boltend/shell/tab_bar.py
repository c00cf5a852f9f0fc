"""The bar of tabs: one line under the person's own names."""

from collections.abc import Callable
from dataclasses import dataclass

from rich.cells import cell_len
from rich.segment import Segment
from textual import events
from textual.binding import Binding
from textual.message import Message
from textual.strip import Strip

from boltend.shell.actions import key_of
from boltend.shell.fixed import Fixed
from boltend.shell.texts import clipped

MARKS = {"cannot": "! ", "waiting": "… ", "working": "~ "}
"""A state as a sign before the name: it reads without colour."""

LONGEST_NAME = 24

LISTS = {"map": "Map", "ladders": "Ladders", "to_cut": "To cut", "to_buy": "To buy"}
"""The views of the whole project, which stand behind the tabs: name of the action, words."""

_NARROW = 70
"""Cells below which the bar leaves the keys of the lists out."""

_WIDE = 110
"""Cells from which the key of the map, which is long, stands there too."""


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


class TabBar(Fixed, can_focus=True):
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

    class ListAsked(Message):
        """The person chose a list of the whole project."""

        def __init__(self, name: str) -> None:
            self.name = name
            super().__init__()

    class AddAsked(Message):
        """The person asked for a new tab."""

    def __init__(self) -> None:
        super().__init__(id="tabs")
        self.labels: tuple[TabLabel, ...] = ()
        self.active: int | str | None = None
        self.has_ladders = False
        self._first = 0

    def show(self, labels: tuple[TabLabel, ...], active: int | str | None) -> None:
        """Show these tabs; in sight is a tab, by its key, or a list, by its name."""
        if (labels, active) != (self.labels, self.active):
            self.labels, self.active = labels, active
            self.refresh()

    def _text(self, at: int) -> str:
        """The label at a place, as it stands in the bar; of thousands only those in sight are made."""
        label = self.labels[at]
        ends = "[]" if label.key == self.active else "  "
        return f"{ends[0]}{label.text}{ends[1]}"

    @staticmethod
    def _hidden_trouble(labels: "tuple[TabLabel, ...]") -> str:
        """A sign where a tab out of sight cannot be worked out; beyond the arrow, for it is no name's."""
        return "!" if any(label.state == "cannot" for label in labels) else ""

    def _laid_out(self) -> list[tuple[int, int, int | str, str]]:
        """What is in sight: (from, to, tab key or what it does, text)."""
        count = len(self.labels)
        lists = self._list_cells()
        room = self.size.width - len(self.ADD) - sum(len(text) for _, text in lists)
        # With a list in sight the bar stays where it is.
        at = next((i for i, label in enumerate(self.labels) if label.key == self.active), self._first)
        at = max(0, min(at, count - 1))
        if count:
            self._first = _first_in_sight(self._first, at, count, lambda n: cell_len(self._text(n)), room)
        laid: list[tuple[int, int, int | str, str]] = []
        x = 0
        if self._first > 0:
            sign = self._hidden_trouble(self.labels[: self._first]) + "‹"
            laid.append((0, len(sign), "before", sign))
            x = len(sign)
        for number in range(self._first, count):
            key, text = self.labels[number].key, self._text(number)
            width = cell_len(text)
            if x + width > room - 2 and key != self.active:
                sign = "›" + self._hidden_trouble(self.labels[number:])
                laid.append((x, x + len(sign), "after", sign))
                x += len(sign)
                break
            laid.append((x, x + width, key, text))
            x += width
        laid.append((x, x + len(self.ADD), "add", self.ADD))
        x = max(x + len(self.ADD), self.size.width - sum(len(text) for _, text in lists))
        for name, text in lists:
            laid.append((x, x + len(text), name, text))
            x += len(text)
        return laid

    @property
    def lists(self) -> dict[str, str]:
        """The views that stand in the bar: ladders only where there are any, or while they are in sight."""
        seen = self.active == "ladders" or (self.has_ladders and self.size.width >= _NARROW)
        return {name: words for name, words in LISTS.items() if name != "ladders" or seen}

    def _list_cells(self) -> list[tuple[str, str]]:
        cells = []
        for name, words in self.lists.items():
            narrow = self.size.width < (_WIDE if name in ("map", "ladders") else _NARROW)
            key = "" if narrow else f" {key_of(name)}"
            ends = "[]" if name == self.active else "  "
            cells.append((name, f"{ends[0]}{words}{key}{ends[1]}"))
        return cells

    def render_line(self, y: int) -> Strip:
        """The one line."""
        base = self.rich_style
        laid = self._laid_out()
        states = {label.key: label.state for label in self.labels[self._first : self._first + len(laid)]}
        segments = []
        at = 0
        for start, end, what, text in laid:
            segments.append(Segment(" " * (start - at), base))
            at = end
            style = base
            if what == self.active:
                style = self.get_component_rich_style("bar--active")
            elif what == "add" or what in LISTS:
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
                else:
                    self._choose(what)
                return

    def action_step(self, by: int) -> None:
        """To a neighbour, tab or list."""
        names: list[int | str] = [*(label.key for label in self.labels), *self.lists]
        if self.active in names:
            at = names.index(self.active) + by
            if 0 <= at < len(names):
                self._choose(names[at])

    def _choose(self, what: int | str) -> None:
        self.post_message(self.ListAsked(what) if isinstance(what, str) else self.Chosen(what))

    def action_enter_form(self) -> None:
        """Down into the form."""
        self.screen.focus_next()


def _first_in_sight(first: int, at: int, count: int, width: Callable[[int], int], room: int) -> int:
    """The first tab to show so that the one at `at` is in sight, moving as little as can be.

    `width` is asked only for tabs that may be in sight: there may be thousands.
    """
    first, seen, cells = min(first, at), at, width(at) + 3
    while seen > first and (cells := cells + width(seen - 1)) <= room:
        seen -= 1
    first, last, cells = seen, seen, 1
    while last < count and (cells := cells + width(last)) <= room:
        last += 1
    while last == count and first > 0 and (cells := cells + width(first - 1)) <= room:
        first -= 1
    return first
