"""Why there are no more blocks, as a person can check it: what every block takes, and what there is of it.

It is the dual of the linear program (what one more cut of each fabric would be worth), made whole numbers,
held against every block by a search of its own, and cut down to the fabrics and the pairs that matter.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import floor_div
from boltend_fabric_mix.effort import Effort, Spent
from boltend_fabric_mix.meets import Meets, TooLong, heaviest
from boltend_fabric_mix.mix import Mix
from boltend_fabric_mix.program import HAIR
from boltend_fabric_mix.solve import Solution, Task, groups_of

MOST_PAIRS = 120
"""Pairs that may not meet, up to which it is looked which of them matter."""

MOST_POINTS = 12
"""The greatest weight of one cut that a person is asked to reckon with."""


@dataclass(frozen=True)
class Short:
    """Every block takes at least `need` points; the fabrics have `held`, at so many points a cut.

    `blocks` is what that allows. `pairs` may not meet, and that is why; None where they are too many to tell.
    """

    points: dict[int, int]
    need: int
    held: int
    blocks: int
    pairs: tuple[tuple[int, int], ...] | None = None

    @property
    def plain(self) -> bool:
        """Whether a cut is a point, whatever the fabric."""
        return set(self.points.values()) == {1}


def shortage(task: Task, solution: Solution, apart: Sequence[Sequence[Fraction]] | None) -> Short | None:
    """The simplest reason known for the least number of blocks; None where no reason was found.

    `apart` tells how far the colours are apart; None where they do not count.
    """
    effort = Effort(lambda: False)
    reasons = [r for points in _guesses(task, solution) if (r := _reason(task, points, effort)) is not None]
    if not reasons:
        return None
    best = min(reasons, key=lambda r: (r.blocks, not r.plain, len(r.points)))
    best = _fewer(task, best, effort)
    return Short(
        dict(sorted(best.points.items())),
        best.need,
        best.held,
        best.blocks,
        _pairs(task, best, apart, effort),
    )


def _guesses(task: Task, solution: Solution) -> Iterator[dict[int, int]]:
    """What may be short: groups that are used up, then what the prices of the linear program say."""
    made = solution.mix.made
    groups = groups_of(task.meets)
    yield {i: 1 for group in groups if sum(task.cuts[i] for i in group) <= made for i in group}
    dear = {i: price for i, price in enumerate(solution.prices) if price > HAIR}
    yield dict.fromkeys(dear, 1)
    for under in range(1, MOST_POINTS + 1):
        points = {i: round(price * under) for i, price in dear.items()}
        if all(abs(price * under - points[i]) < HAIR * under for i, price in dear.items()):
            yield {i: n for i, n in points.items() if n}
            return


def _reason(task: Task, points: dict[int, int], effort: Effort) -> Short | None:
    """How many blocks so many points a cut allow, or None where they say nothing."""
    if not points:
        return None
    weights = [-points.get(i, 0) for i in range(len(task.cuts))]
    try:
        lightest = heaviest(task.meets, task.size, weights, -float("inf"), effort)
    except (TooLong, Spent):
        return None
    need = -sum(weights[i] for i in lightest) if lightest is not None else 0
    if not need:
        return None
    held = sum(task.cuts[i] * n for i, n in points.items())
    return Short(points, need, held, floor_div(held, need))


def _fewer(task: Task, short: Short, effort: Effort) -> Short:
    """The same without the fabrics that it does not take."""
    for i in sorted(short.points, reverse=True):
        rest = {j: n for j, n in short.points.items() if j != i}
        less = _reason(task, rest, effort)
        if less is not None and less.blocks <= short.blocks:
            short = less
    return short


def _pairs(
    task: Task, short: Short, apart: Sequence[Sequence[Fraction]] | None, effort: Effort
) -> tuple[tuple[int, int], ...] | None:
    """Pairs without which a block could take less: all others may be let meet, and it stays as it is."""
    pairs = task.meets.apart()
    if apart is None or not pairs:
        return ()
    if len(pairs) > MOST_PAIRS:
        return None
    meets, matter = task.meets, []
    try:
        for i, j in sorted(pairs, key=lambda pair: (-apart[pair[0]][pair[1]], pair)):
            if _lighter(meets, task.size, short, (i, j), effort):
                matter.append((i, j))
            else:
                meets = meets.letting(i, j)
    except (TooLong, Spent):
        return None
    return tuple(sorted(matter, key=lambda pair: (apart[pair[0]][pair[1]], pair)))


def _lighter(meets: Meets, size: int, short: Short, pair: tuple[int, int], effort: Effort) -> bool:
    """Whether a block with these two, were they let meet, would take less than every block takes."""
    i, j = pair
    weights = [-short.points.get(each, 0) for each in range(len(meets))]
    so_far = weights[i] + weights[j]
    if size == 2:
        return so_far > -short.need
    both = meets.near[i] & meets.near[j]
    among = [each for each in range(len(meets)) if both >> each & 1]
    return heaviest(meets, size - 2, weights, -short.need - so_far, effort, among) is not None


def proved_by(short: Short | None, mix: Mix) -> bool:
    """Whether a reason alone proves that there are no more blocks."""
    return short is not None and short.blocks == mix.made
