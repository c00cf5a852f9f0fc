"""Any who-may-meet-whom: the most blocks, and what programs over combinations need.

Few combinations are all listed, and an integer program over them is exact. Where they are too many, columns
are made as they are needed: the relaxed program's prices say which combination would help, a search for the
heaviest one finds it or shows that there is none, and so the relaxed program bounds every mix.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from boltend_fabric_mix.effort import Effort, Spent, Stopped
from boltend_fabric_mix.filling import Filled, filled
from boltend_fabric_mix.meets import Block, Meets, TooLong, every_block, heaviest, some_block
from boltend_fabric_mix.mix import uses_of
from boltend_fabric_mix.program import HAIR, Program, relaxed, solved

FEW = 2_500
"""Combinations up to which all are listed: an integer program over them takes about a second."""

NEAR = 300
"""Combinations, nearest to the relaxed solution, of which a whole one is sought first."""


@dataclass(frozen=True)
class Stage:
    """One question about the uses: what a block costs, how many blocks there are, and what else holds.

    `more` adds columns and rows to a program whose first columns are the uses, `values` are these columns'
    values for given uses, `cost` is what given uses cost, all told.
    """

    block_cost: float
    low: int
    high: int
    more: Callable[[Program], None]
    values: Callable[[Sequence[int]], list[float]]
    cost: Callable[[Sequence[int], int], int]


@dataclass(frozen=True)
class Reached:
    """A mix, and the proved least cost of any other."""

    blocks: Mapping[Block, int]
    cost: int
    bound: int


class Search:
    """The combinations known so far, and the programs over them."""

    def __init__(self, meets: Meets, cuts: Sequence[int], size: int, wanted: int, effort: Effort) -> None:
        self.meets, self.size, self.wanted, self.effort = meets, size, wanted, effort
        self.caps = [min(each, wanted) for each in cuts]
        every = every_block(meets, size, FEW)
        self.every = every is not None
        self.pool: dict[Block, None] = dict.fromkeys(every or ())
        self.prices: list[float] = []

    def blocks(self, groups: Sequence[Sequence[int]], roof: int) -> Reached:
        """The most blocks, up to a roof that is known: cost is −1 a block."""
        first = self.fill(self.caps, groups, roof)
        if first.whole:
            return Reached(first.blocks, -roof, -roof)
        try:
            return self.reach(self.block_stage(roof), first.blocks)
        except Stopped:
            return Reached(first.blocks, -sum(first.blocks.values()), -roof)

    def block_stage(self, roof: int) -> Stage:
        """The question for the most blocks: cost is −1 a block."""
        return Stage(-1.0, 0, roof, lambda program: None, lambda uses: [], lambda uses, blocks: -blocks)

    def reach(self, stage: Stage, known: Mapping[Block, int]) -> Reached:
        """The least cost, from a mix that is known."""
        cost = stage.cost(uses_of(known, len(self.meets)), sum(known.values()))
        best = Reached(known, cost, -self.wanted)
        try:
            best = replace(best, bound=self._relaxed(stage))
            if best.cost > best.bound:
                best = self._whole(stage, best, self._near(known))
            if best.cost > best.bound and self.every and len(self.pool) > NEAR:
                best = self._whole(stage, best, list(self.pool))
        except Spent:
            pass  # the best so far stands, with what bound there is
        return best

    def spread(self, known: Mapping[Block, int]) -> dict[Block, int]:
        """The same uses, with no combination much more often than others, where that is found soon."""
        uses, blocks = uses_of(known, len(self.meets)), sum(known.values())
        pool = [b for b in self.pool if all(uses[i] for i in b)]
        most = max(known.values(), default=0)
        often = ceil(blocks / max(1, len(pool)))
        while often < most:
            program = Program()
            for _ in pool:
                program.column(0.0, often)
            for i, count in enumerate(uses):
                program.row(count, count, {at: 1.0 for at, b in enumerate(pool) if i in b})
            try:
                found = solved(program, self.effort)
            except (Spent, Stopped):
                break
            if found is not None:
                return {b: n for at, b in enumerate(pool) if (n := found.count(at))}
            often *= 2
        return dict(known)

    def fill(self, cuts: Sequence[int], groups: Sequence[Sequence[int]], blocks: int) -> Filled:
        """A mix of so many blocks by greed and exchanges, if one is found; its blocks are known then."""
        found = filled(self.meets, cuts, groups, self.size, blocks, self.effort)
        self.pool.update(dict.fromkeys(found.blocks))
        return found

    def _program(self, stage: Stage, pool: Sequence[Block]) -> Program:
        """Columns: the uses, the stage's own, the combinations. Rows: what makes the uses, then the total."""
        program = Program()
        for cap in self.caps:
            program.column(0.0, cap, whole=False)
        stage.more(program)
        first = len(program.costs)
        makes: list[dict[int, float]] = [{i: 1.0} for i in range(len(self.caps))]
        for at, block in enumerate(pool, first):
            program.column(stage.block_cost, stage.high)
            for i in block:
                makes[i][at] = -1.0
        own = program.rows
        program.rows = []
        for cells in makes:
            program.row(0.0, 0.0, cells)
        program.row(stage.low, stage.high, dict.fromkeys(range(first, first + len(pool)), 1.0))
        program.rows += own
        return program

    def _relaxed(self, stage: Stage) -> int:
        """The bound that fractions give, up to the next whole cost; the prices of the uses are kept."""
        while True:
            solution = relaxed(self._program(stage, list(self.pool)), self.effort)
            self.prices = solution.duals[: len(self.caps)]
            total = solution.duals[len(self.caps)]
            if self.every or not self._priced(stage.block_cost - total):
                return ceil(solution.cost - HAIR)

    def _priced(self, above: float) -> bool:
        """Add combinations that the prices of the relaxed program ask for; False where there are none."""
        weights = [-each for each in self.prices]
        fresh = []
        for i, near in enumerate(self.meets.near):
            among = [j for j in range(len(self.meets)) if near >> j & 1]
            rest = some_block(self.meets, self.size - 1, weights, among, self.effort)
            if rest is not None:
                block = tuple(sorted((*rest, i)))
                if sum(weights[j] for j in block) > above + HAIR and block not in self.pool:
                    fresh.append(block)
        if not fresh:
            try:
                best = heaviest(self.meets, self.size, weights, above + HAIR, self.effort)
            except TooLong:
                raise Spent from None
            fresh = [best] if best is not None and best not in self.pool else []
        self.pool.update(dict.fromkeys(fresh))
        return bool(fresh)

    def _near(self, known: Mapping[Block, int]) -> list[Block]:
        """The combinations that cost least by the prices of the relaxed program, and those that are known."""
        dear = sorted(self.pool, key=lambda block: (sum(self.prices[i] for i in block), block))
        return list(dict.fromkeys([*known, *dear[:NEAR]]))

    def _whole(self, stage: Stage, best: Reached, pool: Sequence[Block]) -> Reached:
        """A whole solution over some combinations; where these are all, its bound holds."""
        uses = uses_of(best.blocks, len(self.caps))
        start = [*map(float, uses), *stage.values(uses), *(float(best.blocks.get(b, 0)) for b in pool)]
        program = self._program(stage, pool)
        found = solved(program, self.effort, start)
        if found is None:
            return best
        first = len(program.costs) - len(pool)
        blocks = {b: n for at, b in enumerate(pool, first) if (n := found.count(at))}
        cost = stage.cost(uses_of(blocks, len(self.caps)), sum(blocks.values()))
        if cost > best.cost:
            blocks, cost = dict(best.blocks), best.cost
        proved = self.every and len(pool) == len(self.pool) and found.least
        return Reached(blocks, cost, cost if proved else best.bound)
