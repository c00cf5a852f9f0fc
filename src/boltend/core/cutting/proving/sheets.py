"""Sheets of given sizes, as many as wanted or so many in hand: the least cost, and a proven bound of it.

The linear program is over whole sheets (its bound is strong), the integer program over strips and over
*sets* of strip widths that fill a sheet: so a strip may lie in any sheet that has room for its width.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, gcd
from random import Random

import numpy as np
from numpy.typing import NDArray

from boltend.core.cutting.proving.fitting import Slots, placed, sets_of
from boltend.core.cutting.proving.generate import settled
from boltend.core.cutting.proving.prices import SCALE
from boltend.core.cutting.proving.pricing import Pricer
from boltend.core.cutting.proving.program import Program, Relaxation
from boltend.core.cutting.proving.strips import Strips, TooFine
from boltend.core.cutting.proving.work import Spent, Stopped, Work
from boltend.core.cutting.shapes import Direction
from boltend.core.cutting.sheets import Cut, pieces
from boltend.core.cutting.task import Column, Level, Option, Size, made, options, tidy
from boltend.core.cutting.trim import trim_levels

SHAKES = 12
"""Times that prices are disturbed for more strips to choose from (always in the same way)."""


@dataclass(frozen=True)
class SheetType:
    """Sheets of one size: place in the stock, size in units, how many (None: any number), cost of one."""

    place: int
    across: int
    along: int
    copies: int | None
    cost: int
    directions: tuple[Direction, ...]


@dataclass
class FoundSheets:
    """The best cuts as (place in the stock, cut), their cost, and the least that any such plan costs."""

    cuts: list[tuple[int, Cut]]
    cost: int
    bound: int
    stopped: bool = False


@dataclass(frozen=True)
class Way:
    """One direction of cutting one type of sheet."""

    kind: int
    direction: Direction
    run: int
    depth: int
    pricer: Pricer
    step: int


Sheet = tuple[int, tuple[Level, ...]]
"""A way and the strips of one sheet cut so."""


def prove_sheets(
    sizes: Sequence[Size],
    types: Sequence[SheetType],
    stacks: bool,
    start: Sequence[tuple[int, Cut]],
    bound: int,
    work: Work,
) -> FoundSheets:
    """Improve `start` until it costs no more than is proved to be needed.

    A piece that `start` does not cut counts more than the dearest sheet, and by its area: so pieces are left
    out only where there is no way found to cut them, and small ones rather than large ones.
    """
    cost_of = {each.place: each.cost for each in types}
    missing = _missing(sizes, start)
    costs = _short_costs(sizes, types) if any(missing) else []
    found = FoundSheets(list(start), sum(cost_of[place] * cut.copies for place, cut in start), bound)
    found.cost += sum(cost * count for cost, count in zip(costs, missing, strict=False))
    if found.cost <= bound:
        return found
    try:
        _Search(sizes, types, stacks, found, work, costs).run()
    except (Spent, TooFine):
        pass  # what was found stands, and its bound
    except Stopped:
        found.stopped = True
    return found


def _missing(sizes: Sequence[Size], cuts: Sequence[tuple[int, Cut]]) -> list[int]:
    left = [size.wanted for size in sizes]
    for _, cut in cuts:
        for kind, count in pieces(cut).items():
            left[kind] -= count * cut.copies
    return [max(0, count) for count in left]


def _short_costs(sizes: Sequence[Size], types: Sequence[SheetType]) -> list[int]:
    areas = [size.across * size.along for size in sizes]
    least, dearest = min(areas), max(each.cost for each in types) + 1
    # In eighths of the smallest piece: by whole ones, two large pieces could weigh less than three smaller.
    return [dearest * -(-8 * area // least) for area in areas]


class _Search:
    def __init__(
        self,
        sizes: Sequence[Size],
        types: Sequence[SheetType],
        stacks: bool,
        found: FoundSheets,
        work: Work,
        short_costs: Sequence[int],
    ) -> None:
        self.types, self.found, self.work, self.short_costs = types, found, work, short_costs
        self.wanted = [size.wanted for size in sizes]
        self.kinds = [kind for kind, count in enumerate(self.wanted) if count]
        self.row = {kind: row for row, kind in enumerate(self.kinds)}
        self.limited = [n for n, each in enumerate(types) if each.copies is not None]
        self.ways = [
            way
            for number, each in enumerate(types)
            for direction in each.directions
            for way in self._way(sizes, number, each, direction, stacks)
        ]
        self.met: dict[Sheet, None] = {}
        self.strips: dict[tuple[int, Level], None] = {}
        infinite = float("inf")
        rows = [(float(self.wanted[kind]), infinite) for kind in self.kinds]
        rows += [(-infinite, float(types[n].copies or 0)) for n in self.limited]
        self.relaxation = Relaxation(rows)

    def _way(
        self, sizes: Sequence[Size], number: int, each: SheetType, direction: Direction, stacks: bool
    ) -> list[Way]:
        run, depth = (each.across, each.along) if direction == "across" else (each.along, each.across)
        ways: list[list[Option]] = [[] for _ in sizes]
        for option in options(sizes, run, depth, direction):
            ways[option.kind].append(option)
        if not any(each for each, count in zip(ways, self.wanted, strict=True) if count):
            return []
        strips = Strips(ways, self.wanted, run, stacks, depth)
        return [Way(number, direction, run, depth, Pricer(strips), gcd(*strips.widths))]

    def run(self) -> None:
        places = {each.place: number for number, each in enumerate(self.types)}
        numbers = {(way.kind, way.direction): number for number, way in enumerate(self.ways)}
        for place, cut in self.found.cuts:
            self._add(numbers[places[place], cut.direction], _flat(cut.levels))
        self._alone()
        for kind, cost in enumerate(self.short_costs):
            if kind in self.row:
                self.relaxation.add(float(cost), {self.row[kind]: 1.0})
        prices = self._settle()
        step = gcd(*(each.cost for each in self.types)) or 1
        least = ceil(self._certified(prices))
        self.found.bound = max(self.found.bound, min(self.found.cost, -(-least // step) * step))
        self._choose(self.work.left // 3)
        chance = Random(1)
        for _ in range(2):
            if self.found.cost <= self.found.bound:
                return
            for _ in range(SHAKES):
                shaken = np.array([price * (0.8 + 0.4 * chance.random()) for price in prices])
                for number in range(len(self.ways)):
                    _, levels = self._best(number, shaken, self.work)
                    self._note(number, levels)
            self._choose(self.work.left // 2)

    def _alone(self) -> None:
        """Give every kind a sheet of its own, so that there is a solution."""
        for number, way in enumerate(self.ways):
            for item in way.pricer.strips.items:
                row = int(np.argmax(item.high > 0))
                column = Column(*item.option, int(item.high[row]), way.run // item.option.beside)
                level = way.pricer.strips.pattern([column])
                self._add(number, [level] * (way.depth // level.width))

    def _add(self, way: int, levels: Sequence[Level]) -> bool:
        """Add a sheet as a column; tell whether it is new."""
        sheet = (way, tuple(sorted(levels, key=lambda level: (-level.width, level.columns))))
        if not levels or sheet in self.met:
            return False
        self.met[sheet] = None
        self._note(way, levels)
        cells: dict[int, float] = {}
        for level in levels:
            for kind, count in made(level.columns).items():
                cells[self.row[kind]] = cells.get(self.row[kind], 0.0) + count
        kind = self.ways[way].kind
        if kind in self.limited:
            cells[len(self.kinds) + self.limited.index(kind)] = 1.0
        self.relaxation.add(float(self.types[kind].cost), cells)
        return True

    def _note(self, way: int, levels: Sequence[Level]) -> None:
        strips = self.ways[way].pricer.strips
        for level in levels:
            kept = strips.pattern(level.columns)
            self.strips.setdefault((way, kept))

    def _settle(self) -> list[float]:
        """Go on until no sheet is worth more than it costs, or the work is spent; give the prices."""
        keep = 4 * sum(way.pricer.cost for way in self.ways)
        part = self.work.part(max(0, self.work.left - keep))
        prices = settled(self.relaxation, len(self.wanted), self.kinds, self.limited, self._more, part)
        self.work.take_back(part)
        return prices

    def _more(self, prices: NDArray[np.float64], charges: dict[int, float], work: Work) -> bool:
        added = False
        for number, way in enumerate(self.ways):
            cost = self.types[way.kind].cost + charges.get(way.kind, 0.0)
            worth, levels = self._best(number, prices, work)
            if worth <= cost * (1 + 1e-9) + 1e-9:
                continue
            clipped = self._clipped(levels)
            worth = sum(prices[k] * n for level in clipped for k, n in made(level.columns).items())
            # Only with more of a kind than is wanted is it worth its cost: see `Generation`.
            added |= (worth > cost + 1e-9 and self._add(number, clipped)) or self._add(number, levels)
        return added

    def _best(self, number: int, prices: NDArray[np.generic], work: Work) -> tuple[float, list[Level]]:
        """Give the worth of the best sheet of one way, and its strips."""
        way = self.ways[number]
        values = way.pricer.values(prices, work)
        worth, rows = _fill(way, values, work)
        levels = {row: way.pricer.columns(row, prices, work) for row in sorted(set(rows))}
        widths = way.pricer.strips.widths
        return worth, [Level(widths[row], tidy(levels[row]), 1) for row in rows if levels[row]]

    def _clipped(self, levels: Sequence[Level]) -> list[Level]:
        surplus = [-count for count in self.wanted]
        for level in levels:
            for kind, count in made(level.columns).items():
                surplus[kind] += count
        kept = trim_levels(levels, [max(0, each) for each in surplus])
        return [level._replace(times=1) for level in kept for _ in range(level.times)]

    def _certified(self, prices: Sequence[float]) -> Fraction:
        """Give the bound that these prices prove, exactly: see `prices`."""
        whole = np.array([max(0, int(price * SCALE)) for price in prices], dtype=np.int64)
        if self.short_costs:  # no piece is worth more than to go without it
            whole = np.minimum(whole, np.array([cost * SCALE for cost in self.short_costs], dtype=np.int64))
        worths: dict[int, int] = {}
        for way in self.ways:
            worth, _ = _fill(way, way.pricer.values(whole, self.work), self.work)
            worths[way.kind] = max(worths.get(way.kind, 0), int(worth))
        rate = Fraction(SCALE)
        for number, worth in worths.items():
            if number not in self.limited:
                rate = max(rate, Fraction(worth, self.types[number].cost))
        total = sum(int(whole[kind]) * self.wanted[kind] for kind in self.kinds) / rate
        for number in self.limited:
            charge = max(Fraction(0), worths.get(number, 0) / rate - self.types[number].cost)
            total -= charge * (self.types[number].copies or 0)
        return total

    def _choose(self, units: int) -> None:
        """Choose strips and sheets by an integer program; keep what is cheaper."""
        part = self.work.part(units)
        strips = list(self.strips)
        slots = self._slots(strips)
        program = Program()
        for _ in strips:
            program.column(0)
        for each in slots:
            program.column(self.types[self.ways[each.way].kind].cost)
        for kind, cost in enumerate(self.short_costs):
            program.column(cost, float(self.wanted[kind]))
        self._rows(program, strips, slots)
        solved = program.solve(part, None, self.found.bound)
        self.work.take_back(part)
        if solved is None or solved.cost >= self.found.cost:
            return
        self._keep(strips, slots, solved.counts)

    def _slots(self, strips: Sequence[tuple[int, Level]]) -> list[Slots]:
        found: list[Slots] = []
        for number, way in enumerate(self.ways):
            widths = sorted({level.width for at, level in strips if at == number}, reverse=True)
            met = [tuple(level.width for level in levels) for at, levels in self.met if at == number]
            found += [Slots(number, each) for each in sets_of(widths, way.depth, met)]
        return found

    def _rows(self, program: Program, strips: Sequence[tuple[int, Level]], slots: Sequence[Slots]) -> None:
        holds: dict[int, dict[int, float]] = {kind: {} for kind in self.kinds}
        for place, (_, level) in enumerate(strips):
            for kind, count in made(level.columns).items():
                holds[kind][place] = float(count)
        for kind, cells in holds.items():
            if self.short_costs:
                cells[len(strips) + len(slots) + kind] = 1.0
            program.row(float(self.wanted[kind]), float("inf"), cells)
        for number in range(len(self.ways)):
            widths = sorted({level.width for at, level in strips if at == number}, reverse=True)
            for width in widths:  # strips at least so wide lie in slots at least so wide
                cells = {
                    n: 1.0 for n, (at, level) in enumerate(strips) if at == number and level.width >= width
                }
                for n, each in enumerate(slots):
                    if each.way == number and (room := sum(1 for w in each.widths if w >= width)):
                        cells[len(strips) + n] = -float(room)
                program.row(-float("inf"), 0.0, cells)
        for number in self.limited:
            cells = {
                len(strips) + n: 1.0 for n, each in enumerate(slots) if self.ways[each.way].kind == number
            }
            program.row(0.0, float(self.types[number].copies or 0), cells)

    def _keep(
        self, strips: Sequence[tuple[int, Level]], slots: Sequence[Slots], counts: Sequence[int]
    ) -> None:
        surplus = [-count for count in self.wanted]
        for (_, level), times in zip(strips, counts, strict=False):
            for kind, count in made(level.columns).items():
                surplus[kind] += count * times
        surplus = [max(0, each) for each in surplus]
        cuts: list[tuple[int, Cut]] = []
        for number, way in enumerate(self.ways):
            levels = [
                level._replace(times=times)
                for (at, level), times in zip(strips, counts, strict=False)
                if at == number and times
            ]
            before = _made(levels)
            levels = trim_levels(levels, surplus)
            after = _made(levels)
            surplus = [each - before.get(k, 0) + after.get(k, 0) for k, each in enumerate(surplus)]
            used = [
                (each.widths, times)
                for each, times in zip(slots, counts[len(strips) :], strict=False)
                if each.way == number and times
            ]
            place = self.types[way.kind].place
            cuts += [(place, cut) for cut in placed(levels, used, way.direction)]
        costs = {each.place: each.cost for each in self.types}
        self.found.cuts = sorted(cuts, key=lambda each: each[0])
        self.found.cost = sum(costs[place] * cut.copies for place, cut in cuts)
        short = zip(self.short_costs, counts[len(strips) + len(slots) :], strict=True)
        self.found.cost += sum(cost * count for cost, count in short)
        self.work.tell(self.found)


def _flat(levels: Sequence[Level]) -> list[Level]:
    return [level._replace(times=1) for level in levels for _ in range(level.times)]


def _made(levels: Sequence[Level]) -> dict[int, int]:
    return pieces(Cut("across", tuple(levels), 1))


def _fill(way: Way, values: NDArray[np.generic], work: Work) -> tuple[float, list[int]]:
    """Fill a sheet's depth with strips of most worth (any number of each); give worth and rows."""
    step, places = way.step, way.depth // way.step
    cells = np.array([width // step for width in way.pricer.strips.widths], dtype=np.int64)
    work.spend(places * (len(cells) + 200))
    best = np.zeros(places + 1, dtype=values.dtype)
    chosen = np.full(places + 1, -1, dtype=np.int64)
    for at in range(1, places + 1):
        best[at] = best[at - 1]
        fits = int(np.searchsorted(cells, at, side="right"))
        if not fits:
            continue
        reached = best[at - cells[:fits]] + values[:fits]
        row = int(np.argmax(reached))
        if reached[row] > best[at]:
            best[at], chosen[at] = reached[row], row
    rows, at = list[int](), places
    while at > 0:
        row = int(chosen[at])
        if row < 0:
            at -= 1
        else:
            rows.append(row)
            at -= int(cells[row])
    return best[places].item(), rows
