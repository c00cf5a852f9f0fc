"""Which fabrics may meet in a block, and the blocks that this allows.

A block is a set of so many fabrics of which every two may meet; it is held as an ascending tuple of places.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import TypeAlias

from boltend_fabric_mix.effort import LOOK, Effort

Block: TypeAlias = tuple[int, ...]
Weights: TypeAlias = Sequence[float]

MOST_LOOKS = 20_000
"""Looks (10 to 50 µs each) that one search for the heaviest block may take: about half a second."""

SOME_LOOKS = 200
"""Looks that a search for just some block may take."""


class TooLong(Exception):
    """A search had more to look at than it may: what it found is no proof."""


@dataclass(frozen=True)
class Meets:
    """For each fabric, as bits, the other ones that it may meet in a block."""

    near: tuple[int, ...]

    @classmethod
    def by_contrast(cls, apart: Sequence[Sequence[Fraction]], least: Fraction) -> "Meets":
        """Two fabrics may meet where their colours differ by the least contrast, or by more."""
        return cls(
            tuple(
                sum(1 << j for j, each in enumerate(row) if j != i and each >= least)
                for i, row in enumerate(apart)
            )
        )

    @classmethod
    def all_of(cls, count: int) -> "Meets":
        """Any two fabrics may meet."""
        whole = (1 << count) - 1
        return cls(tuple(whole & ~(1 << i) for i in range(count)))

    def __len__(self) -> int:
        return len(self.near)

    def may(self, one: int, other: int) -> bool:
        """Whether two fabrics may meet."""
        return bool(self.near[one] >> other & 1)

    def apart(self) -> list[tuple[int, int]]:
        """Every two fabrics that may not meet."""
        return [pair for pair in combinations(range(len(self)), 2) if not self.may(*pair)]

    def letting(self, one: int, other: int) -> "Meets":
        """The same, with these two allowed to meet."""
        near = list(self.near)
        near[one] |= 1 << other
        near[other] |= 1 << one
        return Meets(tuple(near))

    def families(self) -> list[list[int]] | None:
        """The fabrics in families: a block takes at most one member of each, and any members go together.

        None where who may not meet whom is not of that kind: where A may meet neither B nor C, but B meets C.
        """
        whole = (1 << len(self)) - 1
        families: dict[int, list[int]] = {}
        for i, near in enumerate(self.near):
            families.setdefault(whole & ~near, []).append(i)
        good = all(sum(1 << i for i in members) == kin for kin, members in families.items())
        return list(families.values()) if good else None


def every_block(meets: Meets, size: int, most: int) -> list[Block] | None:
    """Every block, in order; None where there are more than `most`, or they are too long to look for."""
    found: list[Block] = []
    looks = 0

    def grow(taken: Block, left: int) -> bool:
        nonlocal looks
        looks += 1
        if len(taken) == size:
            found.append(taken)
            return len(found) <= most
        while left.bit_count() >= size - len(taken):
            i = (left & -left).bit_length() - 1
            left &= left - 1
            if looks > 10 * most or not grow((*taken, i), left & meets.near[i]):
                return False
        return True

    return found if grow((), (1 << len(meets)) - 1) else None


def heaviest(
    meets: Meets,
    size: int,
    weights: Weights,
    above: float,
    effort: Effort,
    among: Sequence[int] | None = None,
) -> Block | None:
    """The block of the greatest weight among those of more than `above`, or None where there is none.

    Branch and bound: fabrics are tried from the heaviest; of those that may all not meet each other a block
    takes at most one, so the heads of so many such groups bound what can still be added.

    Raises:
        TooLong: the search was not finished. `Stopped` and `Spent` as effort does.
    """
    search = _Heaviest(meets.near, weights, above)
    try:
        start = range(len(meets)) if among is None else among
        search.grow((), 0.0, sorted(start, key=lambda i: (-weights[i], i)), size)
    finally:
        effort.spend(LOOK * search.looks)
    return search.best


def some_block(
    meets: Meets, size: int, weights: Weights, among: Sequence[int], effort: Effort
) -> Block | None:
    """A block of great weight, not always the greatest; None where there is none, or it was not found."""
    search = _Heaviest(meets.near, weights, -float("inf"), first=True)
    try:
        search.grow((), 0.0, sorted(among, key=lambda i: (-weights[i], i)), size)
    except TooLong:
        return None
    finally:
        effort.spend(LOOK * search.looks)
    return search.best


class _Heaviest:
    """One search; `first` ends it at the first block, which is the one that greed finds."""

    def __init__(self, near: Sequence[int], weights: Weights, above: float, *, first: bool = False) -> None:
        self.near, self.weights, self.above, self.first = near, weights, above, first
        self.most = SOME_LOOKS if first else MOST_LOOKS
        self.best: Block | None = None
        self.looks = 0

    def grow(self, taken: Block, weight: float, left: Sequence[int], need: int) -> bool:
        """Look at every block of `taken` and `need` of `left` (heaviest first); True ends the search."""
        if need == 0:
            if weight > self.above:
                self.best, self.above = tuple(sorted(taken)), weight
            return self.first
        for at, i in enumerate(left):
            if not self._worth(weight, left[at:], need):
                return False
            near = self.near[i]
            rest = [j for j in left[at + 1 :] if near >> j & 1]
            if self.grow((*taken, i), weight + self.weights[i], rest, need - 1):
                return True
        return False

    def _worth(self, weight: float, left: Sequence[int], need: int) -> bool:
        """Whether `need` of `left` could be a block, and a heavier one than is known."""
        self.looks += 1
        if self.looks > self.most:
            raise TooLong
        groups: list[int] = []
        for i in left:
            bit = 1 << i
            for number, group in enumerate(groups):
                if not group & self.near[i]:
                    groups[number] = group | bit
                    break
            else:
                groups.append(bit)
                weight += self.weights[i]
                if len(groups) == need:
                    return weight > self.above
        return False
