"""Which patterns, and how many of each: an integer program over those that are listed."""

from collections.abc import Sequence
from dataclasses import dataclass

from boltend.core.cutting.proving.prices import Source
from boltend.core.cutting.proving.program import Program
from boltend.core.cutting.proving.work import Work
from boltend.core.cutting.task import Level, made, merged
from boltend.core.cutting.trim import trim_levels

Strip = tuple[int, Level]
"""A strip and the place of its source; as a pattern `times` is 1."""


@dataclass(frozen=True)
class Choice:
    """What is the same for every program of one task; `step` divides every strip's width off the bolt."""

    sources: Sequence[Source]
    wanted: Sequence[int]
    step: int


@dataclass(frozen=True)
class Chosen:
    """Strips by source, pieces exactly as wanted; `least` where no choice of these patterns is shorter."""

    strips: dict[int, list[Level]]
    least: bool


def choose(
    choice: Choice, patterns: Sequence[Strip], start: Sequence[Strip], work: Work, bound: int
) -> Chosen | None:
    """Cut every piece from the least length of the bolt, beginning with `start`; None where nothing is found.

    A length of `bound` ends the search, since nothing is shorter.
    """
    columns = _columns(patterns, start)
    program = Program()
    for number, level in columns:
        program.column(0 if choice.sources[number].depth is not None else level.width // choice.step)
    _rows(program, choice, columns)
    solved = program.solve(work, _counts(columns, start), -(-bound // choice.step))
    if solved is None:
        return None
    return Chosen(_strips(choice, columns, solved.counts), solved.least)


def fewest_strips(
    choice: Choice, patterns: Sequence[Strip], start: Sequence[Strip], work: Work
) -> Chosen | None:
    """Of the plans as long as `start`, give one with fewer different strips, then with fewer cuts."""
    columns = _columns(patterns, start)
    length = sum(level.width * level.times for n, level in start if choice.sources[n].depth is None)
    cuts = [1 + sum(column.high * column.times for column in level.columns) for _, level in columns]
    counts = _counts(columns, start)
    most = sum(each * count for each, count in zip(cuts, counts, strict=True)) + 1
    program = Program()
    for each in cuts:
        program.column(each)
    used = [program.column(most, 1.0) for _ in columns]
    _rows(program, choice, columns)
    bolt = {n: float(level.width) for n, (source, level) in enumerate(columns)
            if choice.sources[source].depth is None}  # fmt: skip
    program.row(0.0, float(length), bolt)
    for place, (_, level) in enumerate(columns):
        needed = max(-(-choice.wanted[kind] // count) for kind, count in made(level.columns).items())
        program.row(-float("inf"), 0.0, {place: 1.0, used[place]: -float(needed)})
    begin = counts + [1 if count else 0 for count in counts]
    solved = program.solve(work, begin)
    if solved is None:
        return None
    return Chosen(_strips(choice, columns, solved.counts[: len(columns)]), solved.least)


def _columns(patterns: Sequence[Strip], start: Sequence[Strip]) -> list[Strip]:
    both = [*((number, level._replace(times=1)) for number, level in start), *patterns]
    return list(dict.fromkeys(both))


def _counts(columns: Sequence[Strip], start: Sequence[Strip]) -> list[int]:
    counts = dict.fromkeys(columns, 0)
    for number, level in start:
        counts[number, level._replace(times=1)] += level.times
    return list(counts.values())


def _rows(program: Program, choice: Choice, columns: Sequence[Strip]) -> None:
    holds: dict[int, dict[int, float]] = {kind: {} for kind, count in enumerate(choice.wanted) if count}
    for place, (_, level) in enumerate(columns):
        for kind, count in made(level.columns).items():
            holds[kind][place] = float(count)
    for kind, cells in holds.items():
        program.row(float(choice.wanted[kind]), float("inf"), cells)
    for number, source in enumerate(choice.sources):
        if source.depth is not None:
            cells = {n: float(level.width) for n, (at, level) in enumerate(columns) if at == number}
            program.row(0.0, float(source.depth), cells)


def _strips(choice: Choice, columns: Sequence[Strip], counts: Sequence[int]) -> dict[int, list[Level]]:
    """Give the strips chosen, without the pieces that are more than wanted: off the bolt first."""
    found: dict[int, list[Level]] = {}
    held: dict[int, int] = {}
    for (number, level), times in zip(columns, counts, strict=True):
        if times:
            found.setdefault(number, []).append(level._replace(times=times))
            for kind, count in made(level.columns).items():
                held[kind] = held.get(kind, 0) + times * count
    surplus = [held.get(kind, 0) - count for kind, count in enumerate(choice.wanted)]
    for number in sorted(found):
        before = _made(found[number])
        found[number] = merged(trim_levels(found[number], surplus))
        after = _made(found[number])
        surplus = [each - before.get(k, 0) + after.get(k, 0) for k, each in enumerate(surplus)]
    return {number: levels for number, levels in found.items() if levels}


def _made(levels: Sequence[Level]) -> dict[int, int]:
    counts: dict[int, int] = {}
    for level in levels:
        for kind, count in made(level.columns).items():
            counts[kind] = counts.get(kind, 0) + count * level.times
    return counts
