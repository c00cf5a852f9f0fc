"""What the best strip of each width is worth, a piece being worth its price: one table for all widths.

A bounded knapsack over the run. The table is exact in whole numbers (for certificates) and quick in floats
(for the search); both are the same code. Two ways to lie of one kind share what is wanted of it only in
`Strips.pattern`; so a table's worth may be more than a pattern's, never less, which keeps a bound a bound.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from boltend.core.cutting.proving.strips import Item, Strips
from boltend.core.cutting.proving.work import Work
from boltend.core.cutting.task import Column


class _Chunk(NamedTuple):
    """Put `times` stacks into every strip from row `low` to below row `high`; `pieces` per row."""

    kind: int
    item: int
    times: int
    rest: bool
    cells: int
    low: int
    high: int
    pieces: NDArray[np.int64]


class Pricer:
    """Values all widths of `strips` at once."""

    def __init__(self, strips: Strips) -> None:
        self.strips = strips
        self.chunks = [chunk for n, item in enumerate(strips.items) for chunk in _chunks(n, item)]
        self.cost = sum((chunk.high - chunk.low) * strips.positions for chunk in self.chunks)

    def values(self, price: NDArray[np.generic], work: Work) -> NDArray[np.generic]:
        """Give the worth of the best strip of each width; whole prices give whole worths."""
        work.spend(self.cost)
        table = np.zeros((len(self.strips.widths), self.strips.positions + 1), dtype=price.dtype)
        for chunk in self.chunks:
            worth = price[chunk.kind]
            if not worth > 0:
                continue
            rows = table[chunk.low : chunk.high]
            better = rows[:, : -chunk.cells] + (chunk.pieces * worth)[:, None]
            np.maximum(rows[:, chunk.cells :], better, out=rows[:, chunk.cells :])
        best: NDArray[np.generic] = table[:, -1].copy()
        return best

    def columns(self, row: int, price: NDArray[np.generic], work: Work) -> list[Column]:
        """Give the best strip of one width; two ways to lie may hold more of a kind than is wanted."""
        steps: list[tuple[_Chunk, NDArray[np.generic]]] = []
        best = np.zeros(self.strips.positions + 1, dtype=price.dtype)
        for chunk in self.chunks:
            if not chunk.low <= row < chunk.high or not price[chunk.kind] > 0:
                continue
            steps.append((chunk, best))
            worth = chunk.pieces[row - chunk.low] * price[chunk.kind]
            best = best.copy()
            np.maximum(best[chunk.cells :], steps[-1][1][: -chunk.cells] + worth, out=best[chunk.cells :])
        work.spend(len(steps) * self.strips.positions)
        return self._trace(row, steps, best)

    def _trace(
        self, row: int, steps: Sequence[tuple[_Chunk, NDArray[np.generic]]], best: NDArray[np.generic]
    ) -> list[Column]:
        at, columns = self.strips.positions, list[Column]()
        for chunk, before in reversed(steps):
            if best[at] != before[at]:
                at -= chunk.cells
                item = self.strips.items[chunk.item]
                high = int((item.rest if chunk.rest else item.high)[row])
                one = item.option
                columns.append(Column(one.kind, one.turned, one.beside, one.above, high, chunk.times))
            best = before
        return columns


def _chunks(number: int, item: Item) -> list[_Chunk]:
    """Split an item's stacks in powers of two, the widths with equally many stacks together."""
    found = []
    for low, high, full in _runs(item.full):
        times, left = 1, full
        while left:
            times = min(times, left)
            left -= times
            pieces = item.high[low:high] * times
            found.append(
                _Chunk(item.option.kind, number, times, False, item.cells * times, low, high, pieces)
            )
            times *= 2
    for low, high, some in _runs((item.rest > 0).astype(np.int64)):
        if some:
            pieces = item.rest[low:high]
            found.append(_Chunk(item.option.kind, number, 1, True, item.cells, low, high, pieces))
    return found


def _runs(values: NDArray[np.int64]) -> list[tuple[int, int, int]]:
    """List the runs of equal values: from, to before, value."""
    cuts = [0, *(int(at) + 1 for at in np.flatnonzero(np.diff(values))), len(values)]
    return [(low, high, int(values[low])) for low, high in pairwise(cuts) if low < high]
