"""The picture of the tab in sight, drawn once the figures stand on the screen where it takes its time."""

from collections.abc import Callable
from time import perf_counter
from typing import NamedTuple

from boltend.core.flow import Result
from boltend.shell.result_lines import ResultLine

QUICK = 0.002
"""Seconds: where the last picture took less, the next one is drawn at once, as calculators run at once."""


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


class LatePicture:
    """Asks for `later(draw)` where something is slow to draw, and tells with `ready()` that it is there."""

    def __init__(
        self,
        later: Callable[[Callable[[], None]], object],
        ready: Callable[[], None],
        quick: float = QUICK,
    ) -> None:
        self._later, self._ready, self._quick = later, ready, quick
        self._took: float | None = None
        self._wanted: Wanted | None = None
        self._shown: tuple[Wanted, tuple[ResultLine, ...]] | None = None

    def lines(self, wanted: Wanted) -> tuple[ResultLine, ...]:
        """The picture; until it is drawn the tab's last one, so that nothing moves, or none."""
        if self._shown is not None and self._shown[0].same_as(wanted):
            self._wanted = None
            return self._shown[1]
        if self._took is not None and self._took < self._quick:
            self._wanted = None
            return self._draw(wanted)
        asked, self._wanted = self._wanted is not None, wanted
        if not asked:
            self._later(self._draw_wanted)
        return self._shown[1] if self._shown is not None and self._shown[0].tab == wanted.tab else ()

    def _draw(self, wanted: Wanted) -> tuple[ResultLine, ...]:
        from boltend.shell.picture_lines import picture_lines  # late: drawing is no part of the first paint

        begin = perf_counter()
        lines = picture_lines(wanted.result, wanted.width, wanted.rows)
        self._took = perf_counter() - begin
        self._shown = wanted, lines
        return lines

    def _draw_wanted(self) -> None:
        wanted, self._wanted = self._wanted, None
        if wanted is not None:
            self._draw(wanted)
            self._ready()
