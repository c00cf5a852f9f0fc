"""The task in whole numbers: sizes, the ways they may lie, and strips filled with columns.

Inside, a strip has a *run* (the direction in which it is sub-cut) and a *width*; a piece takes `beside` of
the run and `above` of the width. So one and the same code cuts strips across a bolt and along a sheet.
"""

from collections.abc import Iterable, Sequence
from math import gcd
from typing import NamedTuple

from boltend.core.cutting.shapes import Direction, Job


class Size(NamedTuple):
    """One cut size in units and how many of it are wanted."""

    across: int
    along: int
    may_turn: bool
    wanted: int


class Option(NamedTuple):
    """One way in which a size may lie in a strip."""

    kind: int
    turned: bool
    beside: int
    above: int


class Column(NamedTuple):
    """`times` equal stacks side by side, each of `high` pieces."""

    kind: int
    turned: bool
    beside: int
    above: int
    high: int
    times: int


class Level(NamedTuple):
    """`times` equal strips of one width."""

    width: int
    columns: tuple[Column, ...]
    times: int


class Budget:
    """A count of elementary steps that stands for time, so that the same input gives the same plan."""

    def __init__(self, steps: int, job: Job | None = None) -> None:
        self.left = steps
        self.job = job
        self.stopped = False

    def spend(self, steps: int) -> bool:
        """Take `steps` off; tell whether there is any left and nobody asked to stop."""
        self.left -= steps
        if not self.stopped and self.job is not None and self.job.stopped():
            self.stopped = True
        return self.left > 0 and not self.stopped


def options(sizes: Sequence[Size], run: int, widest: int | None, direction: Direction) -> tuple[Option, ...]:
    """List every way in which a size fits a strip `run` long on cloth that leaves `widest` for its width."""
    found = []
    for kind, size in enumerate(sizes):
        lying = ((size.across, size.along), (size.along, size.across))
        turns = (False, True) if size.may_turn and size.across != size.along else (False,)
        for turned in turns:
            across, along = lying[turned]
            beside, above = (across, along) if direction == "across" else (along, across)
            if beside <= run and (widest is None or above <= widest):
                found.append(Option(kind, turned, beside, above))
    return tuple(found)


def made(columns: Iterable[Column]) -> dict[int, int]:
    """Count the pieces of each kind in one strip."""
    counts: dict[int, int] = {}
    for column in columns:
        counts[column.kind] = counts.get(column.kind, 0) + column.high * column.times
    return counts


def merged(levels: Iterable[Level]) -> list[Level]:
    """Put equal strips together, each with its equal columns together, the widest strip first."""
    times: dict[tuple[int, tuple[Column, ...]], int] = {}
    for level in levels:
        key = (level.width, tidy(level.columns))
        times[key] = times.get(key, 0) + level.times
    found = [Level(width, columns, count) for (width, columns), count in times.items()]
    return sorted(found, key=lambda level: (-level.width, level.columns))


def unstacked(levels: Iterable[Level]) -> list[Level]:
    """The same pieces from narrower strips, where a strip is nothing but equal layers of them; merged.

    A strip filled to its whole width by stacks of 7 is 7 strips of stacks of 1: nobody cuts a wide strip to
    trim it into narrow ones. Where stacks are of 4 and 6, it is 2 strips of stacks of 2 and 3.
    """
    return merged(map(_layers, levels))


def _layers(level: Level) -> Level:
    full = all(column.high * column.above == level.width for column in level.columns)
    layers = gcd(*(column.high for column in level.columns)) if full and level.columns else 1
    if layers == 1:
        return level
    columns = tuple(column._replace(high=column.high // layers) for column in level.columns)
    return Level(level.width // layers, columns, level.times * layers)


def tidy(columns: Iterable[Column]) -> tuple[Column, ...]:
    """Put equal columns side by side, the tallest first, so that what is left above them lies together."""
    times: dict[Column, int] = {}
    for column in columns:
        one = column._replace(times=1)
        times[one] = times.get(one, 0) + column.times
    found = (column._replace(times=count) for column, count in times.items())
    return tuple(sorted(found, key=lambda c: (-c.above * c.high, -c.above, -c.beside, c.kind, c.turned)))


def total(levels: Iterable[Level]) -> int:
    """Add up the widths of all strips."""
    return sum(level.width * level.times for level in levels)


def score(levels: Sequence[Level]) -> tuple[int, int, int]:
    """Rank plans: least length, then fewest different strips, then fewest cuts."""
    together = merged(levels)
    cuts = sum(
        level.times * (1 + sum(column.times * column.high for column in level.columns)) for level in together
    )
    return total(together), len(together), cuts
