"""Answers that come from the worker, painted together where painting is slow."""

from collections.abc import Callable, Set
from time import perf_counter

from textual.message import Message

from boltend.core.host.calls import Outcome

SLOW = 0.02
"""Seconds: where the last painting took longer, as with thousands of tabs, more answers are waited for."""

SPELL = 0.05
"""Seconds that are waited then: keys have their turn, and a thousand answers are not painted one by one."""


class Whole(Message):
    """Calculators that took long to come are there. Posted from the thread that waited for them."""


class Arrived(Message):
    """An outcome came from the worker. Posted from its thread: posting is safe there, painting is not."""

    def __init__(self, ticket: object, outcome: Outcome) -> None:
        self.ticket, self.outcome = ticket, outcome
        super().__init__()


class Arrivals:
    """Tabs whose answers came and are not painted yet. `soon` and `later` call back, `paint` paints them."""

    def __init__(
        self,
        soon: Callable[[Callable[[], None]], object],
        later: Callable[[float, Callable[[], None]], object],
        paint: Callable[[Set[int]], None],
    ) -> None:
        self._soon, self._later, self._paint = soon, later, paint
        self._came: set[int] = set()
        self._waits = False
        self._took = 0.0

    def take(self, keys: Set[int]) -> None:
        """Answers came: they are painted after those that have come already."""
        self._came |= keys
        if self._waits:
            return
        self._waits = True
        if self._took < SLOW:
            self._soon(self._paint_all)
        else:
            self._later(SPELL, self._paint_all)

    def _paint_all(self) -> None:
        came, self._came, self._waits = self._came, set(), False
        begun = perf_counter()
        self._paint(came)
        self._took = perf_counter() - begun
