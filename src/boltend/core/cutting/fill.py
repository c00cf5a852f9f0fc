"""Fill one strip as well as can be: a bounded knapsack over its run."""

from collections.abc import Sequence
from math import gcd
from typing import NamedTuple

from boltend.core.cutting.task import Budget, Column, Option

MOST_POSITIONS = 1400
"""A run is never divided more finely than this in a search (1/32 in on 42 in); finer sizes are rounded up."""


class Filled(NamedTuple):
    """A strip's columns and what they are worth; `columns` never hold more pieces than were left."""

    worth: float
    columns: tuple[Column, ...]


class _Item(NamedTuple):
    option: Option
    high: int
    cells: int
    copies: int
    worth: float


class Filler:
    """Fills strips of one run from one set of options."""

    def __init__(self, ways: Sequence[Sequence[Option]], run: int, stacks: bool) -> None:
        self.ways = ways
        self.run = run
        self.stacks = stacks
        step = gcd(*(option.beside for each in ways for option in each)) or 1
        self.step = max(step, -(-run // MOST_POSITIONS))
        self.positions = run // self.step

    def _items(self, width: int, left: Sequence[int], price: Sequence[float]) -> list[_Item]:
        items: list[_Item] = []
        for kind, each in enumerate(self.ways):
            count = left[kind]
            if not count:
                continue
            best = 0
            for option in sorted(each, key=lambda option: option.beside):
                high = width // option.above if self.stacks else min(1, width // option.above)
                # A way that takes more of the run and stacks no higher is never needed.
                if high <= best:
                    continue
                best = high
                cells = -(-option.beside // self.step)
                full, rest = divmod(count, high)
                full = min(full, self.positions // cells) if cells else full
                if full:
                    items.append(_Item(option, high, cells, full, price[kind] * high))
                if rest and cells <= self.positions:
                    items.append(_Item(option, rest, cells, 1, price[kind] * rest))
        return items

    def cost(self, left: Sequence[int]) -> int:
        """Estimate the steps of one filling."""
        cells = [
            (min(left[kind], self.run // min(option.beside for option in each))).bit_length()
            for kind, each in enumerate(self.ways)
            if each
        ]
        return max(1, sum(cells) * self.positions)

    def fill(self, width: int, left: Sequence[int], price: Sequence[float], budget: Budget) -> Filled:
        """Choose the columns of most worth for a strip `width` wide, a piece being worth `price[kind]`."""
        items = self._items(width, left, price)
        best = [0.0] * (self.positions + 1)
        steps: list[tuple[_Item, int, int, list[float]]] = []
        for item in items:
            copies, chunk = item.copies, 1
            while copies:
                chunk = min(chunk, copies)
                copies -= chunk
                cells, worth = item.cells * chunk, item.worth * chunk
                if cells <= self.positions:
                    steps.append((item, chunk, cells, best))
                    # One comprehension: this line is where the time of every search goes.
                    better = [
                        new if (new := without + worth) > kept else kept
                        for kept, without in zip(best[cells:], best, strict=False)
                    ]
                    best = best[:cells] + better
                chunk *= 2
        budget.spend(len(steps) * self.positions)
        return self._trace(steps, best, left, price)

    def _trace(
        self,
        steps: list[tuple[_Item, int, int, list[float]]],
        best: list[float],
        left: Sequence[int],
        price: Sequence[float],
    ) -> Filled:
        """Walk back through the choices; two ways of one kind share its count, so clip to what is left."""
        at = len(best) - 1
        remaining = dict(enumerate(left))
        columns: list[Column] = []
        worth = 0.0
        for item, chunk, cells, before in reversed(steps):
            if best[at] != before[at]:
                at -= cells
                kind = item.option.kind
                pieces = min(remaining[kind], chunk * item.high)
                remaining[kind] -= pieces
                worth += pieces * price[kind]
                full, rest = divmod(pieces, item.high)
                if full:
                    columns.append(Column(*item.option, item.high, full))
                if rest:
                    columns.append(Column(*item.option, rest, 1))
            best = before
        return Filled(worth, tuple(columns))
