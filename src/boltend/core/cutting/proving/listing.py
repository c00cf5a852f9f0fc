"""List every strip that a better plan could use.

A plan costs the certified bound, plus what each of its strips costs above the worth of its pieces, plus
more that is never negative. So a plan of at most `limit` uses only strips that cost at most `limit` less
the bound above their worth. Of these it is enough to have the full ones, to which no wanted piece could be
added: a plan with more pieces than wanted serves too.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import NamedTuple

import numpy as np

from boltend.core.cutting.proving.prices import Certified, Source
from boltend.core.cutting.proving.strips import Ints, Strips
from boltend.core.cutting.proving.work import NODE, Work
from boltend.core.cutting.task import Column, Level, Option, made

MOST_STACKS = 400
"""Ways to lie in one strip: the walk below goes as deep as there are."""


class TooMany(Exception):
    """More patterns than a program can hold."""


class _Stacks(NamedTuple):
    """What one row offers of one way to lie: up to `most` stacks `high`, worth `each`."""

    option: Option
    cells: int
    high: int
    most: int
    wanted: int
    each: int


def patterns_within(
    source: Source, number: int, proof: Certified, limit: Fraction, work: Work, most: int
) -> list[Level]:
    """List the full patterns of one source that a plan of at most `limit` may use.

    `number` is the source's place among those of `proof`. Raises `TooMany` where there are more than `most`.
    """
    strips, worths = source.pricer.strips, proof.worths[number]
    gap = limit - proof.bound
    found: dict[tuple[int, tuple[Column, ...]], Level] = {}
    for row, width in enumerate(strips.widths):
        least = -((gap - proof.charges[number] * width) * proof.rate // 1)
        if int(worths[row]) < least:
            continue
        for level in _of_width(strips, row, proof.prices, int(least), work, most):
            found.setdefault((level.width, level.columns), level)
            if len(found) > most:
                raise TooMany
    return list(found.values())


def _of_width(strips: Strips, row: int, prices: Ints, least: int, work: Work, most: int) -> list[Level]:
    """List the full patterns exactly as wide as the row, with pieces worth at least `least`."""
    stacks = _offered(strips, row, prices)
    if len(stacks) > MOST_STACKS:
        raise TooMany
    tails = _tails(stacks, strips.positions, work)
    width, found = strips.widths[row], list[Level]()

    def keep(counts: Sequence[int], room: int) -> None:
        if _is_full(stacks, counts, room):
            level = strips.pattern(
                Column(*each.option, each.high, count)
                for each, count in zip(stacks, counts, strict=True)
                if count
            )
            worth = sum(int(prices[kind]) * pieces for kind, pieces in made(level.columns).items())
            if level.width == width and worth >= least:
                found.append(level)
                if len(found) > most:
                    raise TooMany

    _walk(stacks, tails, strips.positions, least, keep, work)
    return found


def _offered(strips: Strips, row: int, prices: Ints) -> list[_Stacks]:
    found = []
    for item in strips.items:
        high = int(item.high[row])
        if high:
            most = int(item.full[row]) + (1 if item.rest[row] else 0)
            each = int(prices[item.option.kind]) * high
            found.append(_Stacks(item.option, item.cells, high, most, strips.wanted[item.option.kind], each))
    # The dearest for its room first: then little is left to choose when the worth runs out.
    return sorted(found, key=lambda each: (-each.each / each.cells, -each.cells, each.option))


def _worth(stacks: _Stacks, count: int) -> int:
    return min(count * stacks.high, stacks.wanted) * (stacks.each // stacks.high)


def _tails(stacks: Sequence[_Stacks], positions: int, work: Work) -> list[list[int]]:
    """For each place in the list and each room, give the most that the stacks from there on are worth."""
    tail = np.zeros(positions + 1, dtype=np.int64)
    tails = [tail.tolist()]
    for each in reversed(stacks):
        best = tail.copy()
        for count in range(1, each.most + 1):
            taken = each.cells * count
            if taken > positions:
                break
            np.maximum(best[taken:], tail[:-taken] + _worth(each, count), out=best[taken:])
        work.spend(positions * (each.most + 4))
        tail = best
        tails.append(tail.tolist())
    tails.reverse()
    return tails


def _walk(
    stacks: Sequence[_Stacks],
    tails: Sequence[Sequence[int]],
    room: int,
    least: int,
    keep: Callable[[Sequence[int], int], None],
    work: Work,
) -> None:
    """Try every count of every stack that can still reach `least`, depth first."""
    narrowest = [0] * (len(stacks) + 1)
    narrowest[-1] = room + 1
    for place in range(len(stacks) - 1, -1, -1):
        narrowest[place] = min(stacks[place].cells, narrowest[place + 1])
    counts = [0] * len(stacks)

    def step(place: int, room: int, worth: int) -> None:
        work.spend(NODE)
        if place == len(stacks) or room < narrowest[place]:
            if worth >= least:
                keep(counts, room)
            return
        each, after = stacks[place], tails[place + 1]
        for count in range(min(each.most, room // each.cells), -1, -1):
            left, now = room - count * each.cells, worth + _worth(each, count)
            if now + after[left] >= least:
                counts[place] = count
                step(place + 1, left, now)
        counts[place] = 0

    step(0, room, 0)


def _is_full(stacks: Sequence[_Stacks], counts: Sequence[int], room: int) -> bool:
    """Tell whether no wanted piece could be added."""
    held: dict[int, int] = {}
    for each, count in zip(stacks, counts, strict=True):
        held[each.option.kind] = held.get(each.option.kind, 0) + count * each.high
    return not any(each.cells <= room and held[each.option.kind] < each.wanted for each in stacks)
