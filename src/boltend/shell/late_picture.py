"""The picture of the tab in sight, drawn once the figures stand on the screen: drawing takes its time."""

from collections.abc import Callable
from typing import NamedTuple

from boltend.core.flow import Result
from boltend.shell.result_lines import ResultLine


class Wanted(NamedTuple):
    """A picture by all that it is drawn from: the tab, its result, and the room in cells and lines."""

    tab: int
    result: Result
    width: int
    rows: int

    def same_as(self, other: "Wanted") -> bool:
        """Whether the other would be the same picture."""
        mine, theirs = self.result, other.result
        if (self.tab, self.width, self.rows) != (other.tab, other.width, other.rows):
            return False
        if mine.answer is None or theirs.answer is None:
            return mine.answer is theirs.answer
        return mine.settings == theirs.settings and mine.answer.picture == theirs.answer.picture

    def drawn(self) -> tuple[ResultLine, ...]:
        """Draw it."""
        from boltend.shell.picture_lines import picture_lines  # late: drawing is no part of the first paint

        return picture_lines(self.result, self.width, self.rows)


class LatePicture:
    """Asks for `later(draw)` where something is to be drawn, and tells with `ready()` that it is there."""

    def __init__(self, later: Callable[[Callable[[], None]], object], ready: Callable[[], None]) -> None:
        self._later, self._ready = later, ready
        self._wanted: Wanted | None = None
        self._shown: tuple[Wanted, tuple[ResultLine, ...]] | None = None

    def lines(self, wanted: Wanted) -> tuple[ResultLine, ...]:
        """The picture; until it is drawn the tab's last one, so that nothing moves, or none."""
        if self._shown is not None and self._shown[0].same_as(wanted):
            self._wanted = None
            return self._shown[1]
        asked, self._wanted = self._wanted is not None, wanted
        if not asked:
            self._later(self._draw)
        return self._shown[1] if self._shown is not None and self._shown[0].tab == wanted.tab else ()

    def _draw(self) -> None:
        wanted, self._wanted = self._wanted, None
        if wanted is not None:
            self._shown = wanted, wanted.drawn()
            self._ready()
