"""The most even mix of so many blocks, whoever may meet whom.

From the top: how few fabrics must be used so often or more. Only numbers of uses at which more fabrics join
need an integer program; between them the answer stays what it was, for it can only grow downwards.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from boltend_fabric_mix.meets import Block
from boltend_fabric_mix.mix import steps, uses_of
from boltend_fabric_mix.program import Program
from boltend_fabric_mix.search import Reached, Search, Stage


@dataclass(frozen=True)
class Level:
    """At most `fabrics` are used `uses` times or more."""

    uses: int
    fabrics: int


@dataclass(frozen=True)
class Evened:
    """A mix, and whether none of as many blocks is more even."""

    blocks: Mapping[Block, int]
    proved: bool = True


def evened(search: Search, known: Mapping[Block, int]) -> Evened:
    """The most even mix of as many blocks as a known one, by the order of `mix.steps`.

    Raises `Stopped`.
    """
    mix = Evened(known)
    levels: list[Level] = []
    while True:
        mix = replace(mix, blocks=_lowered(search, mix.blocks, levels).blocks)
        levels, most = _reached(levels, _steps(search, mix))
        if not most:
            return mix
        reached = search.reach(_fewest(search, mix.blocks, levels, most.uses), mix.blocks)
        mix = Evened(reached.blocks, mix.proved and reached.cost == reached.bound)
        levels, following = _reached(levels, _steps(search, mix))
        if following is not None and following.uses == most.uses:
            levels.append(following)


def _steps(search: Search, mix: Evened) -> list[Level]:
    """The numbers of uses that occur in a mix, from the most down to 1."""
    return [Level(*step) for step in steps(uses_of(mix.blocks, len(search.caps))) if step[0]]


def _reached(levels: Sequence[Level], there: Sequence[Level]) -> tuple[list[Level], Level | None]:
    """The levels as a mix has them, and its next one: where one is not proved, a mix may be better."""
    kept = []
    for level, own in zip(levels, there, strict=False):
        if own.uses != level.uses:
            break
        kept.append(own)
    return kept, there[len(kept)] if len(kept) < len(there) else None


def _lowered(search: Search, known: Mapping[Block, int], levels: Sequence[Level]) -> Reached:
    """The least that the others need be used, with the same fabrics at each level as in a known mix."""
    uses = uses_of(known, len(search.caps))
    tops = [_top(each, levels) for each in uses]

    def more(program: Program) -> None:
        most = program.column(1.0, max(search.caps))
        for i, top in enumerate(tops):
            if top is None:
                program.row(-float("inf"), 0.0, {i: 1.0, most: -1.0})
            else:
                program.row(-float("inf"), top, {i: 1.0})

    def cost(uses: Sequence[int], blocks: int) -> int:
        return max((each for each, top in zip(uses, tops, strict=True) if top is None), default=0)

    blocks = sum(known.values())
    return search.reach(Stage(0.0, blocks, blocks, more, lambda u: [float(cost(u, 0))], cost), known)


def _top(uses: int, levels: Sequence[Level]) -> int | None:
    """The most that a fabric used so often may be used; None below all levels."""
    return next((level.uses for level in levels if uses >= level.uses), None)


def _fewest(search: Search, known: Mapping[Block, int], levels: Sequence[Level], most: int) -> Stage:
    """How few fabrics must be used `most` times or more, beside what the levels above allow."""
    bounds = [level.uses for level in levels] + [most]

    def more(program: Program) -> None:
        flags = [[program.column(float(uses == most), 1.0) for uses in bounds] for _ in search.caps]
        for i, row in enumerate(flags):
            # uses <= most − 1, and with each level that it belongs to as much more as brings it up to that
            rises = [*(float(a - b) for a, b in pairwise(bounds)), 1.0]
            program.row(
                -float("inf"), most - 1.0, {i: 1.0, **{c: -r for c, r in zip(row, rises, strict=True)}}
            )
            for upper, lower in pairwise(row):
                program.row(-float("inf"), 0.0, {upper: 1.0, lower: -1.0})
        for number, level in enumerate(levels):
            program.row(0.0, level.fabrics, {row[number]: 1.0 for row in flags})

    def values(uses: Sequence[int]) -> list[float]:
        return [float(each >= bound) for each in uses for bound in bounds]

    def cost(uses: Sequence[int], blocks: int) -> int:
        return sum(each >= most for each in uses)

    blocks = sum(known.values())
    return Stage(0.0, blocks, blocks, more, values, cost)
