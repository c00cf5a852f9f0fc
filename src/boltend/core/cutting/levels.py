"""Level heuristics: the widest pieces first, each into a strip that is already open, else into a new one.

Counts are kept as multiplicities (so many strips alike), so a million copies cost no more than one.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from boltend.core.cutting.task import Column, Level, Option, score, total

Rule = Callable[[Option, int], tuple[int, ...]]
"""Ranks the ways of one size to lie, given the run; the lowest is taken."""


def lowest(option: Option, _run: int) -> tuple[int, ...]:
    """Prefer the way that needs the narrowest strip."""
    return (option.above, option.beside)


def tallest(option: Option, _run: int) -> tuple[int, ...]:
    """Prefer the way that needs the widest strip, with more pieces side by side."""
    return (-option.above, option.beside)


def least_cloth(option: Option, run: int) -> tuple[int, ...]:
    """Prefer the way that takes the least cloth a piece where the size has strips to itself."""
    fits = run // option.beside
    return (option.above * 1_000_000 // fits, option.above)


RULES: tuple[Rule, ...] = (lowest, tallest, least_cloth)


@dataclass(slots=True)
class _Open:
    """`times` equal strips with `room` left at their ends."""

    width: int
    room: int
    columns: list[Column]
    times: int


def _columns(option: Option, high: int, count: int) -> list[Column]:
    """Stack `count` pieces `high` at a time, the last stack with what is left."""
    kind, turned, beside, above = option
    full, rest = divmod(count, high)
    found = [Column(kind, turned, beside, above, high, full)] if full else []
    return found + ([Column(kind, turned, beside, above, rest, 1)] if rest else [])


def _with(strip: _Open, option: Option, high: int, count: int, times: int) -> _Open:
    columns = _columns(option, high, count)
    room = strip.room - option.beside * sum(column.times for column in columns)
    return _Open(strip.width, room, strip.columns + columns, times)


def _put_in(strip: _Open, option: Option, count: int, stacks: bool) -> tuple[list[_Open], int]:
    """Put as many of `count` pieces as fit into these equal strips; they may become up to three sorts."""
    high = strip.width // option.above if stacks else min(1, strip.width // option.above)
    each = high * (strip.room // option.beside)
    if not each or not count:
        return [strip], count
    full = min(strip.times, count // each)
    found = [_with(strip, option, high, each, full)] if full else []
    count -= full * each
    untouched = strip.times - full
    if count and untouched:
        found.append(_with(strip, option, high, count, 1))
        count, untouched = 0, untouched - 1
    if untouched:
        found.append(_Open(strip.width, strip.room, strip.columns, untouched))
    return found, count


def _levels(chosen: Iterable[tuple[Option, int]], run: int, stacks: bool, best_fit: bool) -> list[_Open]:
    strips: list[_Open] = []
    for option, count in chosen:
        if best_fit:
            strips.sort(key=lambda strip: (strip.room, strip.width))
        kept: list[_Open] = []
        for strip in strips:
            parts, count = _put_in(strip, option, count, stacks)
            kept += parts
        if count:
            fresh = _Open(option.above, run, [], -(-count // (run // option.beside)))
            parts, _ = _put_in(fresh, option, count, stacks)
            kept += parts
        strips = kept
    return strips


def level_plan(
    ways: Sequence[Sequence[Option]], left: Sequence[int], run: int, rule: Rule, stacks: bool, best_fit: bool
) -> list[Level]:
    """Place `left[kind]` pieces of each kind, lying as `rule` says; `ways[kind]` are its options."""
    chosen = [
        (min(ways[kind], key=lambda option: rule(option, run)), count)
        for kind, count in enumerate(left)
        if count and ways[kind]
    ]
    chosen.sort(key=lambda each: (-each[0].above, -each[0].beside, each[0].kind))
    return [
        Level(strip.width, tuple(strip.columns), strip.times)
        for strip in _levels(chosen, run, stacks, best_fit)
    ]


def level_plans(
    ways: Sequence[Sequence[Option]], left: Sequence[int], run: int, stacks: bool
) -> Iterator[list[Level]]:
    """Yield every variant: three ways to lie, first and best fit, without stacks and (if wanted) with."""
    for rule in RULES:
        for best_fit in (False, True):
            for stacked in (False, True) if stacks else (False,):
                yield level_plan(ways, left, run, rule, stacked, best_fit)


def best_levels(ways: Sequence[Sequence[Option]], left: Sequence[int], run: int, stacks: bool) -> list[Level]:
    """Give the shortest of all variants, the first among equals."""
    found = list(level_plans(ways, left, run, stacks))
    least = min(map(total, found))
    # Ranking by strips and cuts is dear, so only among the shortest.
    return min((levels for levels in found if total(levels) == least), key=score)
