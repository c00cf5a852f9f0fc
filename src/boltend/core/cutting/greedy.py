"""The best-filled strip first, as often as it can be cut; prices learn from run to run.

A run takes, again and again, the strip that is worth most for its width (worth: the price of its pieces) and
cuts it as often as the demand allows. After each strip the rest is also finished with the level heuristics,
and the best of all such ends is kept. Between runs the price of a size rises where its strips wasted cloth
(sequential value correction, a well-known idea for cutting problems), so hard sizes are served first.
"""

from collections.abc import Sequence
from heapq import heapify, heappop, heappush
from random import Random

from boltend.core.cutting.fill import Filled, Filler
from boltend.core.cutting.levels import best_levels
from boltend.core.cutting.task import Budget, Level, Option, Size, made, total

MOST_RUNS = 40
RUNS_WANTED = 6  # so many runs should fit into the budget: prices need a few to settle
RUN_COST = 1000
SETTLED = 4  # runs after which prices are disturbed (always in the same way)
MOST_HIGH = 64
TAIL_COST = 240  # steps that finishing with the level heuristics stands for, a kind


def shaken(price: Sequence[float], chance: Random) -> list[float]:
    """Disturb prices by up to a fifth, so that settled ones do not give the same plan again."""
    return [each * (0.8 + 0.4 * chance.random()) for each in price]


def heights(
    ways: Sequence[Sequence[Option]], left: Sequence[int], run: int, stacks: bool, most: int
) -> list[int]:
    """List the strip widths worth trying: every piece's own, then multiples of them, `most` in all.

    Multiples go up to the longest piece or 4/7 of the run (24 in on 42 in, as measured in `cutting.md`);
    those that the demand's stacks fill best are taken first.
    """
    wanted = [option for each in ways for option in each if left[option.kind]]
    single = sorted({option.above for option in wanted})
    if not stacks or len(single) >= most:
        return single
    cap = max(single[-1], run * 4 // 7)
    multiples = {
        high * option.above
        for option in wanted
        for high in range(2, min(left[option.kind], cap // option.above, MOST_HIGH) + 1)
    }
    ranked = sorted(multiples.difference(single), key=lambda width: (-_filled(ways, left, width), width))
    return single + ranked[: max(0, most - len(single))]


def _filled(ways: Sequence[Sequence[Option]], left: Sequence[int], width: int) -> float:
    """Tell how well stacks fill a strip's width, on the average over the cloth that each size takes."""
    worth = 0.0
    for each in ways:
        if each and left[each[0].kind]:
            size = each[0]
            fill = max(width // option.above * option.above for option in each)
            worth += size.beside * size.above * left[size.kind] * fill / width
    return worth


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
        most = self.budget.left // (RUNS_WANTED * self.filler.cost(left))
        widths = heights(self.ways, left, self.run, self.stacks, most)
        chance = Random(1)
        for run in range(MOST_RUNS):
            if total(best) <= enough or not self.budget.spend(RUN_COST):
                break
            tried = price if run < SETTLED else shaken(price, chance)
            found, chosen = self._one_run(list(left), tried, widths, total(best))
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
            self.budget.spend(TAIL_COST * sum(map(bool, left)))
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
