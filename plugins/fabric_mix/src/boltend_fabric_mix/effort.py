"""How much a search may take, counted and not timed, so that an answer is the same everywhere."""

from collections.abc import Callable

MOST = 16_000_000
"""Units that one calculation may take, each about a microsecond on the machine where this was measured."""

LOOK = 25
"""Units of one look in a search for a block."""

CELL = 40
"""Units of one cell of a linear program."""

ASKS = 20
"""Rows × columns of an integer program that are one unit, each time that HiGHS asks whether to go on."""


class Stopped(Exception):
    """The person, or the clock, asked to stop."""


class Spent(Exception):
    """The calculation has taken all that it may."""


class Effort:
    """What is left to spend, and the wish to stop."""

    def __init__(self, stopped: Callable[[], bool], most: int = MOST) -> None:
        self.stopped, self.left = stopped, most

    def spend(self, units: int) -> None:
        """Take so many units. Raises `Stopped` or `Spent`."""
        if self.stopped():
            raise Stopped
        self.left = max(0, self.left - units)
        if not self.left and units:
            raise Spent
