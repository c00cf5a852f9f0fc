"""The picture of the tab in sight, drawn once the figures stand on the screen where it takes its time.

One of very many shapes is drawn beside the screen, in a lane of its own.
"""

from collections.abc import Callable
from time import perf_counter
from typing import NamedTuple

from boltend.core.flow import Result
from boltend.shell.lanes import Lane
from boltend.shell.result_lines import ResultLine

QUICK = 0.0005
"""Seconds: where the last picture took less, the next one is drawn at once. Figures wait for no
picture: one of 1.5 ms, often out of sight below them, was a third of all that a key cost."""

MANY_SHAPES = 1_000
"""Shapes from which a picture is drawn beside the screen: ten thousand take a tenth of a second."""


class Wanted(NamedTuple):
    """A picture by all that it is drawn from: the tab, its result, and the room in cells and lines."""

    tab: int
    result: Result
    width: int
    rows: int

    @property
    def is_large(self) -> bool:
        """Whether it has very many shapes."""
        return self.result.answer is not None and len(self.result.answer.picture) > MANY_SHAPES

    def same_as(self, other: "Wanted") -> bool:
        """Whether the other would be the same picture."""
        mine, theirs = self.result, other.result
        if (self.tab, self.width, self.rows) != (other.tab, other.width, other.rows):
            return False
        if mine.answer is None or theirs.answer is None:
            return mine.answer is theirs.answer
        return mine.settings == theirs.settings and mine.answer.picture == theirs.answer.picture


class LatePicture:
    """Asks for `later(draw)` where something is slow to draw, and tells with `ready()` that it is there.

    `back` calls from the lane back to the screen's own thread.
    """

    def __init__(
        self,
        later: Callable[[Callable[[], None]], object],
        ready: Callable[[], None],
        back: Callable[[Callable[[], None]], object],
        quick: float = QUICK,
    ) -> None:
        self._later, self._ready, self._back, self._quick = later, ready, back, quick
        self._lane = Lane("picture")
        self._beside: Wanted | None = None
        self._took: float | None = None
        self._wanted: Wanted | None = None
        self._shown: tuple[Wanted, tuple[ResultLine, ...]] | None = None

    def lines(self, wanted: Wanted) -> tuple[ResultLine, ...]:
        """The picture; until it is drawn the tab's last one, so that nothing moves, or none."""
        if self._shown is not None and self._shown[0].same_as(wanted):
            self._wanted = None
            return self._shown[1]
        if self._beside is not None and self._beside.same_as(wanted):
            return self._last(wanted)  # on its way
        if self._took is not None and self._took < self._quick and not wanted.is_large:
            self._wanted = None
            return self._draw(wanted)
        asked, self._wanted = self._wanted is not None, wanted
        if not asked:
            self._later(self._draw_wanted)
        return self._last(wanted)

    def _last(self, wanted: Wanted) -> tuple[ResultLine, ...]:
        return self._shown[1] if self._shown is not None and self._shown[0].tab == wanted.tab else ()

    def _draw(self, wanted: Wanted) -> tuple[ResultLine, ...]:
        from boltend.shell.picture_lines import picture_lines  # late: drawing is no part of the first paint

        self._beside = None
        begin = perf_counter()
        lines = picture_lines(wanted.result, wanted.width, wanted.rows)
        self._took = perf_counter() - begin
        self._shown = wanted, lines
        return lines

    def _draw_wanted(self) -> None:
        wanted, self._wanted = self._wanted, None
        if wanted is None:
            return
        if wanted.is_large:
            self._draw_beside(wanted)
        else:
            self._draw(wanted)
            self._ready()

    def _draw_beside(self, wanted: Wanted) -> None:
        from boltend.shell.picture_lines import picture_lines  # late, as above

        self._beside = wanted

        def draw() -> tuple[ResultLine, ...]:
            # Else something else was asked for since: nobody waits for this one any more.
            still = self._beside is wanted
            return picture_lines(wanted.result, wanted.width, wanted.rows) if still else ()

        drawing = self._lane.do(draw)

        def drawn() -> None:
            if self._beside is wanted:
                self._beside, self._took = None, float("inf")
                self._shown = wanted, drawing.result()
                self._ready()

        drawing.add_done_callback(lambda _: self._back(drawn))
