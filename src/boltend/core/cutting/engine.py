"""Solve a task in whole numbers: cloth in hand first, in its order, then the endless bolt."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple, TypeVar

from boltend.core.cutting.bound import length_bound, sheets_bound
from boltend.core.cutting.greedy import Greedy
from boltend.core.cutting.shapes import Job
from boltend.core.cutting.sheets import Cloth, Cut, SheetSearch, pieces, sheets
from boltend.core.cutting.task import Budget, Level, Option, Size, merged, options, score, total
from boltend.core.cutting.trim import trim_levels

EFFORT = 250_000
"""Elementary steps a search may take: about 0.05 s for simple strips and as much for stacks."""

T = TypeVar("T")


class Used(NamedTuple):
    """One cut of one stock item (its place in the stock; None is the endless bolt)."""

    place: int | None
    cut: Cut


@dataclass(slots=True)
class Task:
    """Sizes with the cloth in hand and the run of the endless bolt (None: there is none)."""

    sizes: list[Size]
    cloths: list[Cloth]
    run: int | None
    stacks: bool
    effort: int = EFFORT
    job: Job | None = None
    stopped: bool = field(default=False)

    def bolt_ways(self) -> list[list[Option]]:
        """List how each size may lie on the endless bolt."""
        ways: list[list[Option]] = [[] for _ in self.sizes]
        if self.run is not None:
            for option in options(self.sizes, self.run, None, "across"):
                ways[option.kind].append(option)
        return ways

    def searches(self) -> tuple[bool, ...]:
        """List the sorts of strips to search: simple ones always, so that stacks never make a plan longer."""
        return (False, True) if self.stacks else (False,)

    def budget(self, left: Sequence[int]) -> Budget:
        """Start a fresh budget for one search; a demand that is halved v times after it gets 1/(1 + v)."""
        return Budget(0 if self.stopped else self.effort // (1 + _halvings(left)), self.job)


def solve(task: Task, left: Sequence[int]) -> list[Used]:
    """Cut as much of `left[kind]` as the cloth gives."""
    rest = list(left)
    used: list[Used] = []
    for index, cloth in enumerate(task.cloths):
        if not any(rest) or cloth.copies == 0:
            continue
        for cut in _cut_cloth(task, cloth, rest):
            used.append(Used(index, cut))
            for kind, count in pieces(cut).items():
                rest[kind] -= count * cut.copies
    ways = task.bolt_ways()
    levels = _cut_bolt(task, ways, _only(ways, rest))
    if used and task.run is not None:
        # Cloth in hand must never make the bolt longer than the plan without it.
        whole = _cut_bolt(task, ways, _only(ways, left))
        surplus = [count - now for count, now in zip(_only(ways, left), _only(ways, rest), strict=True)]
        levels = min(levels, trim_levels(whole, surplus), key=score)
    if levels:
        used.append(Used(None, Cut("across", tuple(merged(levels)), 1)))
    return used


def _only(ways: Sequence[Sequence[Option]], left: Sequence[int]) -> list[int]:
    return [count if ways[kind] else 0 for kind, count in enumerate(left)]


def _halvings(left: Sequence[int]) -> int:
    """Count how often the whole demand can be halved."""
    counts = [count & -count for count in left if count]
    return min(counts).bit_length() - 1 if counts else 0


def _even(left: Sequence[int]) -> list[int] | None:
    """Halve the demand where every count is even."""
    if not any(left) or any(count % 2 for count in left):
        return None
    return [count // 2 for count in left]


def _cut_bolt(task: Task, ways: Sequence[Sequence[Option]], left: Sequence[int]) -> list[Level]:
    if not any(left) or task.run is None:
        return []
    run, bound = task.run, length_bound(ways, left, task.run)

    def search(stacks: bool) -> list[Level]:
        budget = task.budget(left)
        found = Greedy(task.sizes, ways, run, stacks, budget).search(left, bound)
        task.stopped |= budget.stopped
        return found

    best = _best(task, search, score, lambda levels: total(levels) <= bound)
    half = _even(left)
    if total(best) > bound and half is not None:
        # Twice the pieces never take more than twice the cloth.
        twice = [level._replace(times=2 * level.times) for level in _cut_bolt(task, ways, half)]
        best = min(best, twice, key=score)
    return best


def _best(
    task: Task,
    search: Callable[[bool], T],
    key: Callable[[T], tuple[float, ...]],
    enough: Callable[[T], bool],
) -> T:
    found: list[T] = []
    for stacks in task.searches():
        found.append(search(stacks))
        if enough(found[-1]):
            break
    return min(found, key=key)


def _cut_cloth(task: Task, cloth: Cloth, left: Sequence[int]) -> list[Cut]:
    fits = [bool(options([size], cloth.across, cloth.along, "across")) for size in task.sizes]
    left = [count if fit else 0 for count, fit in zip(left, fits, strict=True)]
    if not any(left):
        return []
    bound = sheets_bound(task.sizes, left, [(cloth.across, cloth.along, None)])

    def key(cuts: list[Cut]) -> tuple[float, ...]:
        lacking = list(left)
        for cut in cuts:
            for kind, count in pieces(cut).items():
                lacking[kind] -= count * cut.copies
        area = sum(size.across * size.along * n for size, n in zip(task.sizes, lacking, strict=True))
        ends = sum(total(cut.levels) * cut.copies for cut in cuts)
        return (area, sheets(cuts), len(cuts), ends)

    def search(stacks: bool) -> list[Cut]:
        budget = task.budget(left)
        found = SheetSearch(task.sizes, cloth, stacks, budget).search(left, bound)
        task.stopped |= budget.stopped
        return _alike(found)

    best = _best(task, search, key, lambda cuts: key(cuts)[:2] <= (0, bound))
    half = _even(left)
    if cloth.copies is None and sheets(best) > bound and half is not None:
        twice = [cut._replace(copies=2 * cut.copies) for cut in _cut_cloth(task, cloth, half)]
        best = min(best, twice, key=key)
    return best


def _alike(cuts: Sequence[Cut]) -> list[Cut]:
    """Put equal sheets together, in the order found."""
    copies: dict[tuple[object, ...], int] = {}
    first: dict[tuple[object, ...], Cut] = {}
    for cut in cuts:
        one = cut._replace(levels=tuple(merged(cut.levels)), copies=1)
        key = (one.direction, one.levels)
        copies[key] = copies.get(key, 0) + cut.copies
        first.setdefault(key, one)
    return [first[key]._replace(copies=count) for key, count in copies.items()]
