"""Published instances as the engine takes them; two-stage knapsacks by the engine's pricing program."""

from collections.abc import Sequence
from fractions import Fraction
from math import gcd

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from boltend.core.cutting import Bolt, Part, Sheet, Stock
from boltend.core.cutting.engine import Task, solve
from boltend.core.cutting.proving.listing import _of_width
from boltend.core.cutting.proving.pricing import Pricer
from boltend.core.cutting.proving.sheets import FoundSheets, SheetType, Way, _fill, prove_sheets
from boltend.core.cutting.proving.strips import Ints, Strips
from boltend.core.cutting.proving.work import Work
from boltend.core.cutting.sheets import Cloth, Cut
from boltend.core.cutting.task import Level, Option, Size, made, options
from boltend_shared.cutting import Instance, Item, instances

PLENTY = 10**12
SCALE = 10**4
"""Prices in whole numbers: a piece's profit of 1 is so many."""


def named(file: str, name: str) -> Instance:
    """One instance of a file."""
    return next(each for each in instances(file) if each.name == name)


def parts(found: Instance, may_turn: bool) -> list[Part]:
    """The rectangles, each unit an inch; the width is across the cloth."""
    return [
        Part(f"p{n}", Fraction(item.width), Fraction(item.height), item.copies, may_turn)
        for n, item in enumerate(found.items)
    ]


def stock(found: Instance) -> Stock:
    """The sheets in unlimited supply, or the endless strip."""
    if found.bins[0].height is None:
        return Stock(bolt=Bolt(Fraction(found.bins[0].width)))
    return Stock(
        tuple(Sheet(f"s{n}", Fraction(b.width), Fraction(b.height or 0)) for n, b in enumerate(found.bins))
    )


def least_cost(found: Instance, units: int) -> tuple[FoundSheets, int]:
    """Solve sheets of several sizes, first cuts across only, simple strips; give the unit of cost as well."""
    sizes = [Size(item.width, item.height, False, item.copies) for item in found.items]
    unit = gcd(*(each.cost for each in found.bins))
    types = [
        SheetType(n, b.width, b.height or 0, None, b.cost // unit, ("across",))
        for n, b in enumerate(found.bins)
    ]
    cloths = [Cloth(each.across, each.along, None, each.directions) for each in types]
    start: list[tuple[int, Cut]] = [
        (used.place or 0, used.cut)
        for used in solve(Task(sizes, cloths, None, False, 0), [size.wanted for size in sizes])
    ]
    return prove_sheets(sizes, types, False, start, 0, Work(units)), unit


class Knapsack:
    """One sheet, strips across it (or along it, for a first cut that is vertical), most profit.

    Strips sell at most the n pieces of a kind that there are. Whatever a piece is worth (v, its profit being
    p), what one sheet's strips sell is at most the sum of n × (p - v), where that is more than nothing, and
    the sheet's worth at v: that is the engine's pricing program. Any better plan holds only strips that are
    nearly worth their width: those are listed by the engine too, and `scipy.optimize.milp` chooses.
    """

    def __init__(self, found: Instance) -> None:
        self.upright = found.published["first_cut"] == "vertical"
        self.items: Sequence[Item] = found.items
        across, along = found.bins[0].width, found.bins[0].height or 0
        run, depth = (along, across) if self.upright else (across, along)
        sizes = [Size(*self._sides(item), False, item.copies) for item in self.items]
        ways: list[list[Option]] = [[] for _ in sizes]
        for option in options(sizes, run, depth, "across"):
            ways[option.kind].append(option)
        self.limits = [item.copies for item in self.items]
        self.strips = Strips(ways, self.limits, run, False, depth)
        self.pricer = Pricer(self.strips)
        self.way = Way(0, "across", run, depth, self.pricer, gcd(*self.strips.widths))
        self.work = Work(PLENTY)
        self.profits = [item.profit for item in self.items]

    def _sides(self, item: Item) -> tuple[int, int]:
        return (item.height, item.width) if self.upright else (item.width, item.height)

    def most(self, listed: int = 30_000) -> tuple[int, int]:
        """Give what is found, and what is proved to be the most."""
        patterns = self._generate()
        found = self._choose(patterns)
        prices, depth_price = self.whole, self.depth_price
        bound = self.bound(prices)
        if found == bound:
            return found, bound
        # Strips of a better plan: worth at least their width's price less the gap.
        gap = self.bound_in_full(prices, depth_price) - (found + 1) * SCALE
        near: list[Level] = []
        for row, width in enumerate(self.strips.widths):
            least = depth_price * width - gap
            near += _of_width(self.strips, row, prices, int(max(0, -(-least // 1))), self.work, listed)
        found = max(found, self._choose(near))
        return found, found

    def bound(self, prices: Ints) -> int:
        """Give the bound that these prices prove, by the program that fills a sheet."""
        worth, _ = _fill(self.way, self.pricer.values(prices, self.work), self.work)
        return int(self._rest(prices) + int(worth)) // SCALE

    def bound_in_full(self, prices: Ints, depth_price: Fraction) -> Fraction:
        """Give the (weaker) bound by a price for the depth, in whole prices."""
        return self._rest(prices) + depth_price * self.way.depth

    def _rest(self, prices: Ints) -> Fraction:
        over = (
            max(0, p * SCALE - int(v)) * n
            for p, v, n in zip(self.profits, prices, self.limits, strict=True)
        )  # fmt: skip
        return Fraction(sum(over))

    def _generate(self) -> list[Level]:
        """Generate strips while the prices make any worth more than its width."""
        patterns: dict[Level, None] = {}
        for item in self.strips.items:
            row = int(np.argmax(item.high > 0))
            price = np.zeros(len(self.limits))
            price[item.option.kind] = 1.0
            patterns[self.strips.pattern(self.pricer.columns(row, price, self.work))] = None
        while True:
            values, depth_price = self._prices(list(patterns))
            worths = self.pricer.values(values, self.work)
            before = len(patterns)
            for row, width in enumerate(self.strips.widths):
                if worths[row] > depth_price * width + 1e-6:
                    patterns[self.strips.pattern(self.pricer.columns(row, values, self.work))] = None
            if len(patterns) == before:
                break
        self.whole = np.array([int(v * SCALE) for v in values], dtype=np.int64)
        worth = self.pricer.values(self.whole, self.work)
        self.depth_price = max(
            Fraction(int(w), width) for w, width in zip(worth, self.strips.widths, strict=True)
        )
        return list(patterns)

    def _prices(self, patterns: Sequence[Level]) -> tuple[np.ndarray, float]:
        """Solve the linear program: strips and what they sell; give a piece's worth and the depth's price."""
        kinds, strips = len(self.limits), len(patterns)
        cost = np.concatenate([np.zeros(strips), -np.array(self.profits, dtype=float)])
        sold = np.zeros((kinds + 1, strips + kinds))
        for place, level in enumerate(patterns):
            for kind, count in made(level.columns).items():
                sold[kind, place] = -count
            sold[kinds, place] = level.width
        sold[:kinds, strips:] = np.eye(kinds)
        limits = np.concatenate([np.zeros(kinds), [self.way.depth]])
        bounds = [(0.0, None)] * strips + [(0.0, float(n)) for n in self.limits]
        found = linprog(cost, A_ub=sold, b_ub=limits, bounds=bounds, method="highs")
        duals = np.maximum(0.0, -found.ineqlin.marginals)
        return duals[:kinds], float(duals[kinds])

    def _choose(self, patterns: Sequence[Level]) -> int:
        """Choose strips and what they sell."""
        kinds, strips = len(self.limits), len(patterns)
        matrix = np.zeros((kinds + 1, strips + kinds))
        for place, level in enumerate(patterns):
            for kind, count in made(level.columns).items():
                matrix[kind, place] = -count
            matrix[kinds, place] = level.width
        matrix[:kinds, strips:] = np.eye(kinds)
        top = np.concatenate([np.zeros(kinds), [self.way.depth]])
        upper = np.concatenate([np.full(strips, np.inf), np.array(self.limits, dtype=float)])
        profit = np.concatenate([np.zeros(strips), np.array(self.profits, dtype=float)])
        found = milp(
            -profit,
            constraints=LinearConstraint(matrix, ub=top),
            bounds=Bounds(0, upper),
            integrality=np.ones(strips + kinds),
            options={"mip_rel_gap": 0.0},
        )
        assert found.status == 0, found.message
        counts = [round(each) for each in found.x]
        assert sum(level.width * n for level, n in zip(patterns, counts, strict=False)) <= self.way.depth
        return sum(p * n for p, n in zip(self.profits, counts[strips:], strict=True))
