"""What was found, with a line chosen among the founds while it has the focus."""

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.strip import Strip

from boltend.shell.result_lines import ResultLine
from boltend.shell.results import Results


class FoundLines(Results):
    """Up and Down go from found to found, and scroll where there is none; a click chooses one, too."""

    DEFAULT_CSS = ""
    _picked = ""

    @property
    def picked_found(self) -> str:
        """The name of the chosen found; empty where there is none."""
        return self._picked if self._line_of(self._picked) is not None else ""

    @property
    def leads_to(self) -> int | None:
        """The first tab that uses the chosen found."""
        at = self._line_of(self._picked)
        return self.lines[at].leads_to if at is not None else super().leads_to

    def _line_of(self, name: str) -> int | None:
        return next((n for n, line in enumerate(self.lines) if name and line.found == name), None)

    def _pick(self, at: int) -> None:
        self._picked = self.lines[at].found
        self.refresh()

    def _in_sight(self, at: int) -> bool:
        return self.scroll_offset.y <= at < self.scroll_offset.y + self.size.height

    def mark(self, at: int) -> None:
        """Show where a line is that was looked for; a found is chosen by it."""
        self._picked = self.lines[at].found
        super().mark(at)

    def on_focus(self) -> None:
        """The first found in sight, unless another one is chosen or a line was looked for."""
        at = self._line_of(self._picked)
        if self.marked is None and (at is None or not self._in_sight(at)):
            founds = (n for n, line in enumerate(self.lines) if line.found and self._in_sight(n))
            self._picked = next((self.lines[n].found for n in founds), "")
        self.refresh()

    def on_blur(self) -> None:
        """Nothing is chosen any more for who looks on."""
        self.refresh()

    def action_step(self, by: int) -> None:
        """The next found, while the chosen one is in sight; else scroll."""
        at = self._line_of(self._picked)
        if at is None or not self._in_sight(at):
            super().action_step(by)
            return
        other = at + by
        while 0 <= other < len(self.lines) and self.lines[other].found in ("", self._picked):
            other += by
        if not 0 <= other < len(self.lines):
            super().action_step(by)
            return
        self._pick(other)
        if not self._in_sight(other):
            self.scroll_to(y=max(0, other - self.size.height // 2), animate=False)

    def show(self, lines: tuple[ResultLine, ...], *, from_top: bool, leads: bool = False) -> None:
        """Show these lines; of another tab the first found is chosen."""
        super().show(lines, from_top=from_top, leads=leads)
        if from_top:
            self._picked = next((line.found for line in lines if line.found), "")

    def render_line(self, y: int) -> Strip:
        """One line in sight."""
        at = y + self.scroll_offset.y
        if self.has_focus and self._picked and at == self._line_of(self._picked):
            base = self._ground + Style(reverse=True)
            (label, _), *behind = self.lines[at].parts
            # A sign before the value, as before a given that has the focus: it reads without any style.
            text = f"{label[:-1]}>" + "".join(text for text, _ in behind)
            return Strip([Segment(text, base)]).adjust_cell_length(self.size.width, base)
        return super().render_line(y)

    def _marked_title(self) -> int:
        """None while the chosen found shows where the focus is."""
        at = self._line_of(self._picked)
        return super()._marked_title() if at is None or not self._in_sight(at) else -1

    def on_click(self, event: events.Click) -> None:
        """Choose a found; a line that leads to a tab leads there."""
        inside = event.get_content_offset(self)
        at = inside.y + self.scroll_offset.y if inside is not None else -1
        if 0 <= at < len(self.lines) and self.lines[at].found:
            self._pick(at)
