"""The right (or lower) half: state, found, working, cautions, painted as lines by one widget."""

from functools import lru_cache

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding
from textual.color import Color
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import Reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from boltend.shell.result_lines import ResultLine
from boltend.shell.shades import shade

_BOLD, _UNDERLINED = Style(bold=True), Style(underline=True)
_LOOKS = {
    "title": ("text-primary", _BOLD), "value": ("", _BOLD), "muted": ("text-muted", Style()),
    "link": ("text-accent", Style()), "bad": ("text-error", _BOLD), "caution": ("text-warning", Style()),
}  # fmt: skip
"""The looks of parts of a line: a colour of the look in use, and whether it is bold."""


class Results(ScrollView, can_focus=True):
    """Lines of results. Each line is parts of (text, look); a line may lead to a tab."""

    DEFAULT_CSS = """
    Results { width: 1fr; height: 1fr; overflow-x: hidden;
              scrollbar-size-vertical: 1; scrollbar-size-horizontal: 0; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("up", "step(-1)", "Up", show=False),
        Binding("down", "step(1)", "Down", show=False),
        Binding("left", "across(-1)", "To the left", show=False),
        Binding("right", "across(1)", "To the right", show=False),
        Binding("pageup", "page(-1)", "Page up", show=False),
        Binding("pagedown", "page(1)", "Page down", show=False),
        Binding("home", "end(-1)", "First", show=False),
        Binding("end", "end(1)", "Last", show=False),
        Binding("enter", "follow", "Go there", show=False),
    ]

    # Textual lays the whole screen out anew for another number of lines; here only the scroll bar follows it.
    virtual_size = Reactive(Size(0, 0), repaint=False)

    class TabAsked(Message):
        """The person clicked on who uses a found."""

        def __init__(self, key: int) -> None:
            self.key = key
            super().__init__()

    def __init__(self, name: str = "results") -> None:
        super().__init__(id=name)
        self.lines: tuple[ResultLine, ...] = ()
        self.chosen: int | None = None
        self.cell = 0
        """Which cell of the chosen line, where its cells lead elsewhere."""
        self.marked: int | None = None
        """A line that was looked for and found."""
        self._ground = Style()

    def watch_virtual_size(self) -> None:
        """Another number of lines; a bar that comes or goes lays the screen out by itself."""
        self._scroll_update(self.virtual_size)

    def action_step(self, by: int) -> None:
        """Scroll a line, or choose the next line that leads to a tab."""
        if self.chosen is None:
            self.scroll_relative(y=by, animate=False)
            return
        top, high = self.scroll_offset.y, self.size.height
        if not top <= self.chosen < top + high and self._choose_in_sight(by):
            return  # the eye is where it was scrolled to
        at = self.chosen + by
        while 0 <= at < len(self.lines) and not self.lines[at].stops:
            at += by
        if not 0 <= at < len(self.lines) or not top - high // 2 <= at < top + high + high // 2:
            self.scroll_relative(y=by, animate=False)  # through a long text between, or to the end
            return
        self.chosen = at
        self.refresh()
        if not top + 1 <= at < top + high - 1:
            self.scroll_to(y=at - high // 2, animate=False)

    def _choose_in_sight(self, by: int) -> bool:
        """Choose the first line in sight that leads somewhere, going back the last; whether there is one."""
        top = self.scroll_offset.y
        lines = self.lines[top : top + self.size.height]
        seen = [top + n for n, line in enumerate(lines) if line.stops]
        if seen:
            self.chosen = seen[0] if by > 0 else seen[-1]
            self.refresh()
        return bool(seen)

    def action_page(self, by: int) -> None:
        """A page on or back; where lines are chosen, one in sight is."""
        before = self.scroll_offset.y
        self._show_from(before + by * max(1, self.size.height - 1))
        if self.chosen is not None:
            # At an end nothing scrolls: then the first or the last line is meant.
            self._choose_in_sight(-by if self.scroll_offset.y == before else by)

    def action_end(self, by: int) -> None:
        """To the first or the last line."""
        self._show_from(0 if by < 0 else len(self.lines))
        if self.chosen is not None:
            self._choose_in_sight(-by)

    def _show_from(self, top: int) -> None:
        self.scroll_to(y=max(0, top), animate=False, force=True, immediate=True)

    def action_across(self, by: int) -> None:
        """Another cell of the chosen line."""
        line = self._chosen_line()
        if line is not None and line.across:
            self.cell = max(0, min(len(line.across) - 1, min(self.cell, len(line.across) - 1) + by))
            self.refresh()

    def _chosen_line(self) -> ResultLine | None:
        return self.lines[self.chosen] if self.chosen is not None and self.chosen < len(self.lines) else None

    @property
    def leads_to(self) -> int | None:
        """Where the chosen line, or its chosen cell, leads."""
        line = self._chosen_line()
        if line is None:
            return None
        to = [each for _, _, each in line.across]
        return to[min(self.cell, len(to) - 1)] if to else line.leads_to

    @property
    def drawn_in_sight(self) -> int:
        """The number of the picture that stands in the middle or begins last above it; else of the first."""
        middle = self.scroll_offset.y + self.size.height // 2
        above = [line.drawn for line in self.lines[: middle + 1] if line.drawn is not None]
        return above[-1] if above else 0

    def choose(self, wanted: int) -> int | None:
        """Choose the line that leads there, or the cell that does, in the chosen line before any other.

        Gives which line that is.
        """
        order = list(range(len(self.lines)))
        if self.chosen is not None and self.chosen in order:
            order.insert(0, self.chosen)
        for at in order:
            cells = [to for _, _, to in self.lines[at].across]
            if wanted in cells or (not cells and self.lines[at].leads_to == wanted):
                self.chosen = at
                self.cell = cells.index(wanted) if cells else self.cell
                self.refresh()
                return at
        return None

    def choose_line(self, at: int) -> None:
        """Choose this line, which leads somewhere, and bring it into sight."""
        self.chosen = at
        self.scroll_to(y=max(0, at - self.size.height // 3), animate=False, force=True)
        self.refresh()

    def action_follow(self) -> None:
        """Go to the tab that the chosen line leads to."""
        key = self.leads_to
        if key is not None:
            self.post_message(self.TabAsked(key))

    def mark(self, at: int) -> None:
        """Show where a line is that was looked for, until the focus goes elsewhere."""
        self.marked = at
        self.scroll_to(y=max(0, at - self.size.height // 3), animate=False, force=True)
        self.refresh()

    def on_blur(self) -> None:
        """What was found has been seen."""
        if self.marked is not None:
            self.marked = None
            self.refresh()

    def show(self, lines: tuple[ResultLine, ...], *, from_top: bool, leads: bool = False) -> None:
        """Show these lines; only those that changed are painted anew.

        With `leads` one of the lines that lead to a tab is chosen, Up and Down choose another.
        """
        before, self.lines = self.lines, lines
        marked, chosen = self.marked, self.chosen
        if before != lines:
            self.marked = None
        if not leads:
            self.chosen = None
        elif from_top or self.chosen is None or self.chosen >= len(lines):
            self.chosen = next((at for at, line in enumerate(lines) if line.stops), None)
        if from_top:
            self.scroll_to(0, 0, animate=False, force=True, immediate=True)
        if len(before) != len(lines) or self.virtual_size.width != self.size.width:
            self.virtual_size = Size(self.size.width, len(lines))
        if (marked, chosen) != (self.marked, self.chosen):
            self.refresh()
            return
        top = self.scroll_offset.y
        for at in range(top, top + self.size.height):
            if before[at : at + 1] != lines[at : at + 1]:
                self.refresh_line(at)

    def render_lines(self, crop: Region) -> list[Strip]:
        """The lines in sight; what they stand on is asked for once, as it follows from all that is around."""
        self._ground = self.rich_style
        return super().render_lines(crop)

    def render_line(self, y: int) -> Strip:
        """One line in sight."""
        base = self._ground
        at = y + self.scroll_offset.y
        if at >= len(self.lines):
            return Strip.blank(self.size.width, base)
        segments = []
        if at == self.chosen and self.lines[at].across:
            return self._with_cell(at, base)
        if at in (self.chosen, self.marked):
            base = base + Style(reverse=True)
            text = "".join(text for text, _ in self.lines[at].parts)
            # A sign too, where there is room for one: it reads without any style.
            text = f">{text[1:]}" if text[:1] == " " else text
            return Strip([Segment(text, base)]).adjust_cell_length(self.size.width, base)
        for text, look in self.lines[at].parts:
            if look == "title" and at == self._marked_title():
                text = f"> {text}"  # the focus shows without colour, too
            segments.append(Segment(text, self._style(look, base)))
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def _with_cell(self, at: int, base: Style) -> Strip:
        """A line of which one cell is chosen: also by a sign before it, to be read without any style."""
        line = self.lines[at]
        start, end, _ = line.across[min(self.cell, len(line.across) - 1)]
        whole = Strip([Segment(text, self._style(look, base)) for text, look in line.parts])
        whole = whole.adjust_cell_length(self.size.width, base)
        chosen = base + Style(reverse=True)
        text = ">" + whole.crop(start + 1, end).text
        return Strip.join([whole.crop(0, start), Strip([Segment(text, chosen)]), whole.crop(end)])

    def _marked_title(self) -> int:
        """The first title in sight, where this pane of several has the focus; -1 for none."""
        if self.id != "results" or not self.has_focus:
            return -1
        titles = (n for n, line in enumerate(self.lines) if line.parts and line.parts[0][1] == "title")
        return next((n for n in titles if n >= self.scroll_offset.y), -1)

    def _style(self, look: str, base: Style) -> Style:
        """The style of a look; `on #rrggbb` is a ground with writing that can be read on it."""
        if look.startswith("on "):
            return base + _coloured(look[3:])
        if not look:
            return base
        colour, how = _LOOKS[look]
        if look == "title" and self.has_focus:
            how += _UNDERLINED
        return base + (shade(self, colour) + how if colour else how)

    def on_click(self, event: events.Click) -> None:
        """A line that leads to a tab."""
        inside = event.get_content_offset(self)
        if inside is None:
            return
        at = inside.y + self.scroll_offset.y
        line = self.lines[at] if at < len(self.lines) else None
        if line is None:
            return
        to = line.leads_to
        if line.across:
            to = next((to for start, end, to in line.across if start <= inside.x < end), None)
        if to is not None:
            self.post_message(self.TabAsked(to))


@lru_cache(maxsize=256)
def _coloured(colour: str) -> Style:
    """A ground of this colour, written on in black or white, whichever stands out more."""
    ground = Color.parse(colour)
    return Style(bgcolor=ground.rich_color, color=ground.get_contrast_text(1.0).rich_color)
