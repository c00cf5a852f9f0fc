"""Long lists made between keys: what is in sight first, and the rest a slice at a time.

Where all of a list is made within its first slice, nobody can tell the difference.
"""

from collections.abc import Callable, Iterable, Iterator
from time import perf_counter
from typing import NamedTuple

from boltend.shell.result_lines import ResultLine

SLICE = 0.008
"""Seconds for lines out of sight, before keys and the screen have their turn."""

IN_SIGHT = 0.05
"""Seconds at most for the lines in sight: a picture takes some milliseconds."""

PAUSE = 0.004
"""Seconds between two slices: the screen paints only when it has nothing else to do."""

Lines = tuple[ResultLine, ...]


class Made(NamedTuple):
    """A list by all that it is made from, and how its lines are made, one by one.

    The parts of `of` are compared by `is`, and plain texts and numbers by their value. `still` tells whether
    it can be made further: nothing in it has changed meanwhile.
    """

    of: tuple[object, ...]
    lines: Callable[[], Iterable[ResultLine]]
    still: Callable[[], bool] = lambda: True


class Growing:
    """The lines of one list at a time. `later` calls back after a while; `show` gets lines, and `from_top`.

    `sight` tells how many lines there must be so that all in sight are.
    """

    def __init__(
        self,
        later: Callable[[Callable[[], None]], object],
        show: Callable[[Lines, bool], None],
        sight: Callable[[], int],
    ) -> None:
        self._later, self._show, self._sight = later, show, sight
        self._made: Made | None = None
        self._rest: Iterator[ResultLine] | None = None
        self._lines: list[ResultLine] = []
        self._whole: Lines = ()
        self._from_top = False
        self._shown = 0
        self._asked = False

    def want(self, made: Made, *, from_top: bool) -> None:
        """Show this list, or go on with it where it is the one that is shown."""
        if self._made is not None and _same(self._made.of, made.of):
            if self._rest is None:
                self._show(self._whole, from_top)
            self._from_top = self._from_top or from_top
            return
        self._made, self._rest, self._lines = made, iter(made.lines()), []
        self._from_top, self._shown = from_top, 0
        self._slice(IN_SIGHT, self._needed())

    def finish(self) -> None:
        """Make all that is left, at once: somebody looks for something in it, or takes all of it along."""
        if self._rest is not None and self._goes_on():
            self._slice(float("inf"), 0)

    def _needed(self) -> int:
        return self._sight() if not self._from_top else min(self._sight(), 200)

    def _goes_on(self) -> bool:
        if self._made is not None and self._made.still():
            return True
        self._made = self._rest = None
        return False

    def _slice(self, seconds: float, needed: int) -> None:
        assert self._rest is not None  # asked before
        begun = perf_counter()
        for line in self._rest:
            self._lines.append(line)
            took = perf_counter() - begun
            if took > seconds or (took > SLICE and seconds <= IN_SIGHT and len(self._lines) >= needed):
                break
        else:
            self._rest, self._whole = None, tuple(self._lines)
            self._show(self._whole, self._from_top)
            return
        # Not with every slice, for showing takes its time, too; and never less than was in sight before.
        if len(self._lines) >= max(2 * self._shown, needed) or (self._from_top and not self._shown):
            self._shown = len(self._lines)
            self._show(tuple(self._lines), self._from_top)
            self._from_top = False
        if not self._asked:
            self._asked = True
            self._later(self._go_on)

    def _go_on(self) -> None:
        self._asked = False
        if self._rest is not None and self._goes_on():
            self._slice(SLICE, self._needed())


def _same(one: tuple[object, ...], other: tuple[object, ...]) -> bool:
    return len(one) == len(other) and all(
        a is b or (isinstance(a, int | str) and a == b) for a, b in zip(one, other, strict=True)
    )
