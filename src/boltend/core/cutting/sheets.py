"""Cut sheets of one size: which strips, in which direction, and how many sheets alike."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd
from typing import NamedTuple

from boltend.core.cutting.fill import MOST_POSITIONS, Filled, Filler
from boltend.core.cutting.greedy import MOST_RUNS, RUN_COST, TAIL_COST, heights
from boltend.core.cutting.levels import level_plans
from boltend.core.cutting.shapes import Direction
from boltend.core.cutting.task import Budget, Level, Option, Size, made, options


class Cloth(NamedTuple):
    """Sheets of one size in units, how many (None: as many as wanted), and the ways to run the strips."""

    across: int
    along: int
    copies: int | None
    directions: tuple[Direction, ...]


class Cut(NamedTuple):
    """`copies` sheets cut alike."""

    direction: Direction
    levels: tuple[Level, ...]
    copies: int


def pieces(cut: Cut) -> dict[int, int]:
    """Count the pieces of each kind in one sheet."""
    counts: dict[int, int] = {}
    for level in cut.levels:
        for kind, count in made(level.columns).items():
            counts[kind] = counts.get(kind, 0) + count * level.times
    return counts


def sheets(cuts: Sequence[Cut]) -> int:
    """Count the sheets."""
    return sum(cut.copies for cut in cuts)


@dataclass(slots=True)
class _Bin:
    room: int
    levels: list[Level]
    times: int


def first_fit(levels: Sequence[Level], depth: int, direction: Direction) -> list[Cut]:
    """Put strips into sheets `depth` deep, the widest first, each into the first sheet with room."""
    bins: list[_Bin] = []
    for level in sorted(levels, key=lambda level: -level.width):
        count = level.times
        kept: list[_Bin] = []
        for each in [*bins, _Bin(depth, [], -(-count // (depth // level.width)))]:
            fits = each.room // level.width if each.times else 0
            full = min(each.times, count // fits) if fits else 0
            count -= full * fits
            untouched = each.times - full
            if full:
                kept.append(_with(each, level, fits, full))
            if fits and count and untouched:
                kept.append(_with(each, level, count, 1))
                count, untouched = 0, untouched - 1
            if untouched and each.levels:
                kept.append(_Bin(each.room, each.levels, untouched))
        bins = kept
    return [Cut(direction, tuple(each.levels), each.times) for each in bins]


def _with(each: _Bin, level: Level, count: int, times: int) -> _Bin:
    return _Bin(each.room - count * level.width, [*each.levels, level._replace(times=count)], times)


class Way:
    """One direction of cutting a sheet."""

    def __init__(self, sizes: Sequence[Size], cloth: Cloth, direction: Direction, stacks: bool) -> None:
        across = direction == "across"
        self.run, self.depth = (cloth.across, cloth.along) if across else (cloth.along, cloth.across)
        self.direction, self.stacks = direction, stacks
        self.ways: list[list[Option]] = [[] for _ in sizes]
        for option in options(sizes, self.run, self.depth, direction):
            self.ways[option.kind].append(option)
        self.filler = Filler(self.ways, self.run, stacks)

    def best_levels(self, left: Sequence[int]) -> list[Cut]:
        """Give the fewest sheets that the level heuristics find, all pieces placed that fit this way."""
        found = (
            first_fit(levels, self.depth, self.direction)
            for levels in level_plans(self.ways, left, self.run, self.stacks)
        )
        return min(found, key=sheets)

    def fill(self, left: Sequence[int], price: Sequence[float], budget: Budget) -> Cut:
        """Fill one sheet with strips of most worth."""
        rest, room = list(left), self.depth
        most = budget.left // (4 * self.filler.cost(rest))
        widths = [width for width in heights(self.ways, rest, self.run, self.stacks, most) if width <= room]
        filled: dict[int, Filled] = {}
        levels: list[Level] = []
        while widths:
            for width in widths:
                if width not in filled or not _holds(rest, filled[width]):
                    if not budget.spend(0):
                        break
                    filled[width] = self.filler.fill(width, rest, price, budget)
            # Out of time, some widths are not filled, or with pieces that are gone by now.
            usable = [width for width in widths if width in filled and _holds(rest, filled[width])]
            worth = {width: filled[width].worth for width in usable}
            width, times = _best_width(worth, room, budget)
            if not width:
                break
            counts = made(filled[width].columns)
            times = min(times, *(rest[kind] // count for kind, count in counts.items()))
            for kind, count in counts.items():
                rest[kind] -= count * times
            own = max(column.above * column.high for column in filled[width].columns)
            levels.append(Level(own, filled[width].columns, times))
            room -= own * times
            widths = [width for width in widths if width <= room]
        return Cut(self.direction, tuple(levels), 1)


def _holds(left: Sequence[int], filled: Filled) -> bool:
    return all(left[kind] >= count for kind, count in made(filled.columns).items())


def _best_width(worth: dict[int, float], room: int, budget: Budget) -> tuple[int, int]:
    """Choose strips for `room` by an unbounded knapsack; give the best-filled one of them and how many."""
    widths = [width for width in sorted(worth) if worth[width] > 0]
    if not widths:
        return 0, 0
    step = max(gcd(*widths), -(-room // MOST_POSITIONS))
    cells = [(-(-width // step), worth[width], width) for width in widths]
    places = room // step
    best, choice = [0.0] * (places + 1), [0] * (places + 1)
    budget.spend(len(cells) * places * 2)
    for at in range(1, places + 1):
        best[at], choice[at] = best[at - 1], 0
        for number, (need, value, _) in enumerate(cells):
            if need <= at and best[at - need] + value > best[at]:
                best[at], choice[at] = best[at - need] + value, number + 1
    taken: dict[int, int] = {}
    at = places
    while at > 0:
        if not choice[at]:
            at -= 1
            continue
        need, _, width = cells[choice[at] - 1]
        taken[width] = taken.get(width, 0) + 1
        at -= need
    if not taken:
        # Rounding to the search's grid can hide the one strip that just fits.
        fits = [width for width in widths if width <= room]
        return (fits[-1], 1) if fits else (0, 0)
    first = max(taken, key=lambda width: (worth[width] / width, width))
    return first, taken[first]


class SheetSearch:
    """Cuts as few sheets of one size as it can, or as much as it can out of those in hand."""

    def __init__(self, sizes: Sequence[Size], cloth: Cloth, stacks: bool, budget: Budget) -> None:
        self.cloth, self.budget = cloth, budget
        self.area = [float(size.across * size.along) for size in sizes]
        self.ways = [Way(sizes, cloth, direction, stacks) for direction in cloth.directions]

    def search(self, left: Sequence[int], enough: int) -> list[Cut]:
        """Give the best cuts found for `left[kind]` pieces; stop at `enough` sheets with all placed."""
        left = [count if self._fits(kind) else 0 for kind, count in enumerate(left)]
        best = self._levels(left)
        price = list(self.area)
        for _ in range(MOST_RUNS):
            if self._key(best, left) <= (0.0, enough) or not self.budget.spend(RUN_COST):
                break
            found, chosen = self._one_run(list(left), price)
            best = min(best, found, key=lambda cuts: self._key(cuts, left))
            price = self._corrected(price, chosen)
        return best

    def _fits(self, kind: int) -> bool:
        return any(way.ways[kind] for way in self.ways)

    def _key(self, cuts: Sequence[Cut], left: Sequence[int]) -> tuple[float, int]:
        """Rank: least area missing, then fewest sheets."""
        missing = list(left)
        for cut in cuts:
            for kind, count in pieces(cut).items():
                missing[kind] -= count * cut.copies
        return sum(area * max(0, count) for area, count in zip(self.area, missing, strict=True)), sheets(cuts)

    def _worth(self, cut: Cut) -> float:
        return sum(self.area[kind] * count for kind, count in pieces(cut).items())

    def _levels(self, left: Sequence[int]) -> list[Cut]:
        found = [self._in_hand(way.best_levels(left)) for way in self.ways]
        return min(found, key=lambda cuts: self._key(cuts, left))

    def _in_hand(self, cuts: list[Cut]) -> list[Cut]:
        """Keep the fullest sheets where only so many are in hand."""
        if self.cloth.copies is None or sheets(cuts) <= self.cloth.copies:
            return cuts
        kept: list[Cut] = []
        room = self.cloth.copies
        for cut in sorted(cuts, key=self._worth, reverse=True):
            copies = min(cut.copies, room)
            room -= copies
            if copies:
                kept.append(cut._replace(copies=copies))
        return kept

    def _one_run(self, left: list[int], price: list[float]) -> tuple[list[Cut], list[Cut]]:
        """Fill sheet after sheet, each as often as the demand allows; keep the best prefix with its tail."""
        start = list(left)
        chosen: list[Cut] = []
        best: list[Cut] | None = None
        room = self.cloth.copies
        while any(left) and (room is None or room) and self.budget.spend(0):
            fills = [way.fill(left, price, self.budget) for way in self.ways]
            cut = max(fills, key=lambda cut: sum(price[k] * n for k, n in pieces(cut).items()))
            counts = pieces(cut)
            if not counts:
                break
            times = min(left[kind] // count for kind, count in counts.items())
            times = times if room is None else min(times, room)
            room = None if room is None else room - times
            for kind, count in counts.items():
                left[kind] -= count * times
            chosen.append(cut._replace(copies=times))
            whole = self._in_hand([*chosen, *self._levels(left)]) if any(left) else list(chosen)
            self.budget.spend(3 * TAIL_COST * sum(map(bool, left)))
            if best is None or self._key(whole, start) < self._key(best, start):
                best = whole
        return best if best is not None else self._levels(start), chosen

    def _corrected(self, price: list[float], chosen: list[Cut]) -> list[float]:
        """Raise the price of sizes whose sheets wasted cloth, half of the way."""
        whole = self.cloth.across * self.cloth.along
        cost, count = [0.0] * len(price), [0] * len(price)
        for cut in chosen:
            counts = pieces(cut)
            held = sum(self.area[kind] * number for kind, number in counts.items())
            for kind, number in counts.items():
                cost[kind] += self.area[kind] * whole / held * number * cut.copies
                count[kind] += number * cut.copies
        return [
            (old + cost[kind] / count[kind]) / 2 if count[kind] else old * 1.05
            for kind, old in enumerate(price)
        ]
