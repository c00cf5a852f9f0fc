"""The strips of one run: which widths are worth cutting, and what a strip of each width may hold.

A *pattern* is one strip: a `Level` with `times` 1. Its columns never hold more pieces of a kind than are
wanted, since more are worth nothing.
"""

from collections.abc import Iterable, Sequence
from math import gcd
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from boltend.core.cutting.task import Column, Level, Option, tidy

MOST_WIDTHS = 400
"""Strip widths in one program; where stacks give more, the widest are left out, and the claim says so."""

MOST_POSITIONS = 6000
"""Places along the run in one table (1/128 in on 42 in); a finer grid is not proved."""

MOST_TABLE = 2_000_000
"""Cells of one table (widths × places): 16 MB, of which two are held at a time."""

Ints = NDArray[np.int64]


class TooFine(Exception):
    """Sizes so fine, or so many, that the tables would not fit."""


class Item(NamedTuple):
    """One way to lie, for every strip width: `high` pieces above each other (0: too wide for it).

    `full` stacks of that height and then one of `rest` pieces use up what is wanted.
    """

    option: Option
    cells: int
    high: Ints
    full: Ints
    rest: Ints


class Strips:
    """All strips of one run, by their width."""

    def __init__(
        self,
        ways: Sequence[Sequence[Option]],
        wanted: Sequence[int],
        run: int,
        stacks: bool,
        deepest: int | None = None,
    ) -> None:
        self.ways = [each if count else () for each, count in zip(ways, wanted, strict=True)]
        self.wanted, self.run, self.stacks = list(wanted), run, stacks
        self.step = gcd(*(option.beside for each in self.ways for option in each)) or 1
        self.positions = run // self.step
        self.widths, self.cap = _widths(self.ways, self.wanted, run, stacks, deepest)
        if self.positions > MOST_POSITIONS or self.positions * len(self.widths) > MOST_TABLE:
            raise TooFine
        self.items = [item for kind in range(len(wanted)) for item in self._items(kind)]

    def _items(self, kind: int) -> list[Item]:
        """List a kind's ways to lie, without those that take more of the run and stack no higher."""
        widths = np.array(self.widths, dtype=np.int64)
        best = np.zeros(len(widths), dtype=np.int64)
        found = []
        for option in sorted(self.ways[kind], key=lambda option: (option.beside, option.above)):
            high = widths // option.above if self.stacks else np.minimum(1, widths // option.above)
            high = np.minimum(high, self.wanted[kind])
            high = np.where(high > best, high, 0)
            best = np.maximum(best, high)
            if not high.any():
                continue
            cells = option.beside // self.step
            fits = self.positions // cells
            some = np.maximum(high, 1)
            full = np.where(high > 0, np.minimum(self.wanted[kind] // some, fits), 0)
            rest = np.where((high > 0) & (full < fits), self.wanted[kind] % some, 0)
            found.append(Item(option, cells, high, full, rest))
        return found

    def pattern(self, columns: Iterable[Column]) -> Level:
        """Make one strip of these columns, without the pieces that are more than wanted."""
        left = list(self.wanted)
        kept: list[Column] = []
        for column in columns:
            count = min(left[column.kind], column.high * column.times)
            left[column.kind] -= count
            full, rest = divmod(count, column.high)
            if full:
                kept.append(column._replace(times=full))
            if rest:
                kept.append(column._replace(high=rest, times=1))
        width = max((column.above * column.high for column in kept), default=0)
        return Level(width, tidy(kept), 1)


def _widths(
    ways: Sequence[Sequence[Option]], wanted: Sequence[int], run: int, stacks: bool, deepest: int | None
) -> tuple[list[int], int | None]:
    """List the strip widths that any plan needs, and the widest where not all are in (None: all are).

    A strip is as wide as its tallest stack, so a multiple of some piece's size. `deepest` is the most that
    is of use: a sheet's depth, or the length of a plan already known.
    """
    all_options = [option for each in ways for option in each]
    single = sorted({option.above for option in all_options if deepest is None or option.above <= deepest})
    if not stacks or not single:
        return single, None
    most = max(single[-1], deepest if deepest is not None else run * 4 // 7)
    multiples: set[int] = set()
    for option in all_options:
        high = min(wanted[option.kind], most // option.above)
        multiples.update(option.above * times for times in range(1, high + 1))
        if len(multiples) > 50 * MOST_WIDTHS:
            break
    if len(multiples) <= MOST_WIDTHS and deepest is not None:
        return sorted(multiples), None
    # As wide as the longest piece, or 4/7 of the run (24 in on 42 in), as measured in `cutting.md`.
    cap = max(single[-1], run * 4 // 7)
    while True:
        kept = {
            option.above * times
            for option in all_options
            for times in range(1, min(wanted[option.kind], cap // option.above) + 1)
        }
        kept.update(single)
        if len(kept) <= MOST_WIDTHS or cap <= single[0]:
            return sorted(kept), cap
        cap = cap * 3 // 4
