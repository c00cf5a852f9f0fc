"""The mix: the most blocks up to those wanted, then the most even of these, then with few blocks alike."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from boltend.plugin import ceil_div
from boltend_fabric_mix.effort import Effort, Stopped
from boltend_fabric_mix.even import evened
from boltend_fabric_mix.families import even_uses, most_blocks
from boltend_fabric_mix.filling import filled
from boltend_fabric_mix.meets import Meets
from boltend_fabric_mix.mix import Mix, by_order, steps, uses_of
from boltend_fabric_mix.search import Search


@dataclass(frozen=True)
class Task:
    """So many blocks of so many different fabrics each, from so many cuts of each fabric."""

    meets: Meets
    cuts: Sequence[int]
    size: int
    wanted: int


@dataclass(frozen=True)
class Solution:
    """A mix, and what one more cut of each fabric would add to the blocks (all 0 where none is short)."""

    mix: Mix
    prices: Sequence[float] = ()


def solve(task: Task, effort: Effort, tell: Callable[[Mix], None]) -> Solution:
    """Solve it: exactly where fabrics fall into families, by integer programs elsewhere.

    `tell` hears of each better mix; once the effort is stopped or spent the best so far is the answer.
    """
    families = task.meets.families()
    if families is not None:
        return Solution(_of_families(task, families, effort))
    search = Search(task.meets, task.cuts, task.size, task.wanted, effort)
    groups = groups_of(task.meets)
    roof = most_blocks(task.cuts, groups, task.size, task.wanted)
    mix, prices = Mix({}, roof, False), [0.0] * len(task.cuts)
    try:
        most = search.blocks(groups, roof)
        prices = search.prices or prices
        mix = Mix(by_order(most.blocks), min(roof, -most.bound), False)
        if mix.made:
            tell(mix)
            for better in _evener(search, task, groups, mix):
                mix = better
                tell(mix)
    except Stopped:
        pass  # the best so far is the answer; the host shows it as stopped
    return Solution(mix, prices)


def _evener(search: Search, task: Task, groups: Sequence[Sequence[int]], mix: Mix) -> Iterator[Mix]:
    """Better and better mixes of as many blocks; the last one is the answer."""
    best = even_uses(task.cuts, groups, task.size, mix.made)  # with all but the groups' rule lifted
    filled = search.fill(best, groups, mix.made)
    if filled.whole:
        yield replace(mix, blocks=by_order(filled.blocks), even=True)
        return
    for parts in (8, 9, 10, 12, 16, 24, 40, 80):  # no fabric more often than so many eighths of the best
        most = ceil_div(max(best) * parts, 8)
        filled = search.fill([min(each, most) for each in task.cuts], groups, mix.made)
        if filled.whole:
            lower = replace(mix, blocks=by_order(filled.blocks))
            mix = min(mix, lower, key=lambda each: steps(uses_of(each.blocks, len(task.cuts))))
            yield mix
            break
    even = evened(search, mix.blocks)
    mix = replace(mix, blocks=by_order(even.blocks), even=even.proved)
    yield mix
    yield replace(mix, blocks=by_order(search.spread(even.blocks)))


def most(task: Task) -> int:
    """How many blocks can be made, up to those wanted; where it is not proved, how many are found."""
    families = task.meets.families()
    if families is not None:
        return most_blocks(task.cuts, families, task.size, task.wanted)
    search = Search(task.meets, task.cuts, task.size, task.wanted, Effort(lambda: False))
    groups = groups_of(task.meets)
    roof = most_blocks(task.cuts, groups, task.size, task.wanted)
    return -search.blocks(groups, roof).cost


def _of_families(task: Task, families: Sequence[Sequence[int]], effort: Effort) -> Mix:
    made = most_blocks(task.cuts, families, task.size, task.wanted)
    uses = even_uses(task.cuts, families, task.size, made)
    blocks = filled(task.meets, uses, families, task.size, made, effort).blocks
    return Mix(by_order(blocks), made, True)


def groups_of(meets: Meets) -> list[list[int]]:
    """The fabrics in groups of which no two members may meet: a rule that every mix keeps, among others."""
    groups: list[list[int]] = []
    for i in range(len(meets)):
        for group in groups:
            if not any(meets.may(i, j) for j in group):
                group.append(i)
                break
        else:
            groups.append([i])
    return groups
