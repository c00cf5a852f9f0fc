"""Lines to tick in a dialog, in groups under headings; of some groups one line only."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from boltend.shell.texts import clipped


@dataclass
class Group:
    """Things to tick: (value, words). Of `one` exactly one is ticked."""

    title: str
    items: Sequence[tuple[Any, str]]
    ticked: set[int]
    one: bool = False

    @property
    def values(self) -> list[Any]:
        """What is ticked, in its order."""
        return [value for n, (value, _) in enumerate(self.items) if n in self.ticked]


class Checks(ScrollView, can_focus=True):
    """The groups below each other, as lines; one line is chosen. Space or a click ticks it."""

    DEFAULT_CSS = """
    Checks { height: 1fr; min-height: 2; width: 1fr; background: $panel; color: $foreground;
             overflow-x: hidden; scrollbar-size-vertical: 1; }
    Checks > .checks--title { color: $text-primary; text-style: bold; }
    """
    COMPONENT_CLASSES = {"checks--title"}  # noqa: RUF012 - as Textual declares it
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("up", "move(-1)", "Up", show=False),
        Binding("down", "move(1)", "Down", show=False),
        Binding("pageup", "move(-8)", "Page up", show=False),
        Binding("pagedown", "move(8)", "Page down", show=False),
        Binding("home", "move(-9999)", "First", show=False),
        Binding("end", "move(9999)", "Last", show=False),
        Binding("space", "tick", "Tick", show=False),
    ]

    class Ticked(Message):
        """A line was ticked, or its tick taken away."""

        def __init__(self, group: Group) -> None:
            self.group = group
            super().__init__()

    def __init__(self, *groups: Group) -> None:
        super().__init__(id="checks")
        self.groups = [group for group in groups if group.items]
        self.at = 1
        """The chosen line."""

    @property
    def lines(self) -> list[tuple[Group, int]]:
        """Each line as (group, which); a heading is -1."""
        return [(group, n) for group in self.groups for n in range(-1, len(group.items))]

    def on_mount(self) -> None:
        """As high as it is."""
        self.virtual_size = Size(self.size.width, len(self.lines))

    def on_resize(self) -> None:
        """Its lines are as wide as it is."""
        self.virtual_size = Size(self.size.width, len(self.lines))

    def on_focus(self) -> None:
        """The chosen line is seen."""
        self.refresh()

    def on_blur(self) -> None:
        """It is not any more."""
        self.refresh()

    def action_move(self, by: int) -> None:
        """Another line; headings are passed over. Up from the first leads to what stands before."""
        lines, at = self.lines, self.at
        if by == -1 and all(n < 0 for _, n in lines[:at]):
            self.screen.focus_previous()
            return
        at = max(0, min(len(lines) - 1, at + by))
        while 0 < at < len(lines) - 1 and lines[at][1] < 0:
            at += 1 if by > 0 else -1
        if lines[at][1] < 0:
            at += 1
        self.at = at
        top = self.scroll_offset.y
        if at - 1 < top:
            self.scroll_to(y=max(0, at - 1), animate=False)
        elif at >= top + self.size.height:
            self.scroll_to(y=at - self.size.height + 1, animate=False)
        self.refresh()

    def action_tick(self) -> None:
        """Tick the chosen line, or take its tick away."""
        group, n = self.lines[self.at]
        if n < 0:
            return
        if group.one:
            group.ticked = {n}
        else:
            group.ticked ^= {n}
        self.refresh()
        self.post_message(self.Ticked(group))

    def choose_one(self) -> None:
        """Of a group of which one is taken: the chosen line."""
        group, n = self.lines[self.at]
        if group.one and n >= 0 and n not in group.ticked:
            self.action_tick()

    def leave_only(self, group: Group, values: Sequence[Any], title: str) -> None:
        """Take all others out of a group; what is chosen and ticked stays so, or else the first is."""
        lines = self.lines
        of, n = lines[self.at] if self.at < len(lines) else (group, -1)
        chosen, ticked = of.items[n][0] if n >= 0 else None, group.values
        group.title, group.items = title, [item for item in group.items if item[0] in values]
        group.ticked = {at for at, (value, _) in enumerate(group.items) if value in ticked} or {0}
        self.at = next(
            (at for at, (of, n) in enumerate(self.lines) if n >= 0 and of.items[n][0] == chosen), 1
        )
        self.virtual_size = Size(self.size.width, len(self.lines))
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One line in sight."""
        base, at, lines = self.rich_style, y + self.scroll_offset.y, self.lines
        if at >= len(lines):
            return Strip.blank(self.size.width, base)
        group, n = lines[at]
        if n < 0:
            words, style = group.title, self.get_component_rich_style("checks--title")
        else:
            ends = "()" if group.one else "[]"
            tick = ("o" if group.one else "x") if n in group.ticked else " "
            chosen = at == self.at and self.has_focus
            words = f"{'>' if chosen else ' '}{ends[0]}{tick}{ends[1]} {group.items[n][1]}"
            style = base + Style(bold=True, reverse=True) if chosen else base
        text = clipped(words, self.size.width)
        return Strip([Segment(text, style)]).adjust_cell_length(self.size.width, style if n >= 0 else base)

    def on_click(self, event: events.Click) -> None:
        """Tick a line."""
        inside = event.get_content_offset(self)
        at = inside.y + self.scroll_offset.y if inside is not None else -1
        if 0 <= at < len(self.lines) and self.lines[at][1] >= 0:
            event.stop()
            self.at = at
            self.action_tick()
