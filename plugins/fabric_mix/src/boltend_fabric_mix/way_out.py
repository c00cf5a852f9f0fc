"""What would do instead: the greatest least contrast at which it can be done."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from math import comb

from boltend_fabric_mix.effort import Effort, Spent
from boltend_fabric_mix.meets import Block, Meets, TooLong, heaviest
from boltend_fabric_mix.solve import Task, most

MOST_COMBINATIONS = 3_000
"""Combinations of any fabrics up to which it is tried at other contrasts: some ten mixes, a second in all."""

Apart = Sequence[Sequence[Fraction]]


def contrast_for_one(apart: Apart, size: int) -> Fraction | None:
    """The greatest contrast at which so many fabrics go together; None where that is not found."""
    effort = Effort(lambda: False)

    def can(contrast: Fraction) -> bool:
        meets = Meets.by_contrast(apart, contrast)
        return heaviest(meets, size, [0.0] * len(apart), -1.0, effort) is not None

    try:
        return _greatest(_steps(apart, None), can)
    except (TooLong, Spent):
        return None


def contrast_for_all(task: Task, apart: Apart, below: Fraction) -> Fraction | None:
    """The greatest contrast below this one at which all blocks can be made; None where none is found."""
    if comb(len(apart), task.size) > MOST_COMBINATIONS:
        return None

    def can(contrast: Fraction) -> bool:
        return most(replace(task, meets=Meets.by_contrast(apart, contrast))) == task.wanted

    return _greatest(_steps(apart, below), can)


def most_together(meets: Meets, below: int) -> Block | None:
    """The most fabrics, fewer than so many, that go together; None where that is not found."""
    effort = Effort(lambda: False)
    try:
        for size in range(below - 1, 0, -1):
            block = heaviest(meets, size, [0.0] * len(meets), -1.0, effort)
            if block is not None:
                return block
    except (TooLong, Spent):
        pass
    return None


def _steps(apart: Apart, below: Fraction | None) -> list[Fraction]:
    """Every difference between two fabrics, ascending: only at these does it change who may meet whom."""
    every = {each for i, row in enumerate(apart) for each in row[:i] if below is None or each < below}
    return sorted(every | {Fraction(0)})


def _greatest(steps: Sequence[Fraction], can: Callable[[Fraction], bool]) -> Fraction | None:
    """The last step at which it can be done, where it can be done at all steps before."""
    low, high = -1, len(steps) - 1
    while low < high:
        middle = (low + high + 1) // 2
        if can(steps[middle]):
            low = middle
        else:
            high = middle - 1
    return steps[low] if low >= 0 else None
