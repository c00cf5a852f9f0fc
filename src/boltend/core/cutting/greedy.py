"""The best-filled strip first, as often as it can be cut; prices learn from run to run.

A run takes, again and again, the strip that is worth most for its width (worth: the price of its pieces) and
cuts it as often as the demand allows. After each strip the rest is also finished with the level heuristics,
and the best of all such ends is kept. Between runs the price of a size rises where its strips wasted cloth
(sequential value correction, a well-known idea for cutting problems), so hard sizes are served first.
"""

from collections.abc import Sequence
from heapq import heapify, heappop, heappush

from boltend.core.cutting.fill import Filled, Filler
from boltend.core.cutting.levels import best_levels
from boltend.core.cutting.task import Budget, Level, Option, Size, made, total


def heights(ways: Sequence[Sequence[Option]], left: Sequence[int], run: int, stacks: bool) -> list[int]:
    """List the strip widths worth trying: every piece's own, then twice, three times it, up to a cap.

    The cap is the longest piece or 4/7 of the run (24 in on 42 in), as measured in `cutting.md`.
    """
    single = sorted({option.above for each in ways for option in each if left[option.kind]})
    if not stacks or not single:
        return single
    cap = max(single[-1], run * 4 // 7)
    found = dict.fromkeys(single)
    most = max(left)
    for high in range(2, min(most, cap // single[0]) + 1):
        for each in ways:
            for option in each:
                if high <= left[option.kind] and high * option.above <= cap:
                    found.setdefault(high * option.above)
    return list(found)


class Greedy:
    """One demand on one run: holds what the runs share."""

    def __init__(
        self, sizes: Sequence[Size], ways: Sequence[Sequence[Option]], run: int, stacks: bool, budget: Budget
    ) -> None:
        self.ways, self.run, self.stacks, self.budget = ways, run, stacks, budget
        self.area = [float(size.across * size.along) for size in sizes]
        self.filler = Filler(ways, run, stacks)

    def search(self, left: Sequence[int], enough: int) -> list[Level]:
        """Give the shortest set of strips found for `left[kind]` pieces; stop where it is `enough`."""
        best = best_levels(self.ways, left, self.run, self.stacks)
        price = list(self.area)
        widths = heights(self.ways, left, self.run, self.stacks)
        while total(best) > enough and self.budget.spend(1):
            found, chosen = self._one_run(list(left), price, widths, total(best))
            if found is not None:
                best = found
            price = self._corrected(price, chosen)
        return best

    def _one_run(
        self, left: list[int], price: list[float], widths: list[int], limit: int
    ) -> tuple[list[Level] | None, list[Level]]:
        """Go once through the demand; give a set shorter than `limit` (or None) and the strips chosen."""
        best: list[Level] | None = None
        chosen: list[Level] = []
        used = 0
        queue: list[tuple[float, int, Filled]] = []
        for width in widths:
            if not self.budget.spend(0):
                break
            filled = self.filler.fill(width, left, price, self.budget)
            queue.append((-filled.worth / width, -width, filled))
        heapify(queue)
        while any(left) and queue:
            level = self._next(queue, left, price)
            if level is None:
                break
            chosen.append(level)
            used += level.width * level.times
            tail = best_levels(self.ways, left, self.run, self.stacks)
            self.budget.spend(12 * 20 * sum(map(bool, left)))
            length = used + total(tail)
            if length < limit:
                best, limit = chosen + tail, length
            if used >= limit or not self.budget.spend(0):
                break
        return best, chosen

    def _next(
        self, queue: list[tuple[float, int, Filled]], left: list[int], price: list[float]
    ) -> Level | None:
        """Take the best-filled strip that the demand still holds, and take it off the demand.

        A strip worked out for an earlier, larger demand is worth at least what it would be now, so only the
        head of the queue is ever worked out anew.
        """
        while queue:
            _, minus, filled = heappop(queue)
            counts = made(filled.columns)
            if counts and all(left[kind] >= count for kind, count in counts.items()):
                times = min(left[kind] // count for kind, count in counts.items())
                for kind, count in counts.items():
                    left[kind] -= times * count
                heappush(queue, (-filled.worth / -minus, minus, filled))
                # The strip is only as wide as its tallest stack.
                width = max(column.above * column.high for column in filled.columns)
                return Level(width, filled.columns, times)
            again = self.filler.fill(-minus, left, price, self.budget)
            if again.columns:
                heappush(queue, (-again.worth / -minus, minus, again))
        return None

    def _corrected(self, price: list[float], chosen: list[Level]) -> list[float]:
        """Raise the price of sizes whose strips wasted cloth, half of the way."""
        cost = [0.0] * len(price)
        count = [0] * len(price)
        for level in chosen:
            counts = made(level.columns)
            held = sum(self.area[kind] * pieces for kind, pieces in counts.items())
            waste = level.width * self.run / held
            for kind, pieces in counts.items():
                cost[kind] += self.area[kind] * waste * pieces * level.times
                count[kind] += pieces * level.times
        return [
            (old + cost[kind] / count[kind]) / 2 if count[kind] else old * 1.05
            for kind, old in enumerate(price)
        ]
