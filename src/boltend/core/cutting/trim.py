"""Leave pieces out of a plan: a plan for more pieces serves fewer."""

from collections.abc import Sequence

from boltend.core.cutting.task import Column, Level, made


def trim_levels(levels: Sequence[Level], surplus: Sequence[int]) -> list[Level]:
    """Leave `surplus[kind]` pieces out, whole strips first; a strip may go or become narrower."""
    spare = list(surplus)
    kept = [level for each in sorted(levels, key=lambda level: -level.width) for level in _whole(each, spare)]
    for kind in range(len(spare)):
        kept = [level for each in kept for level in _without(each, kind, spare)]
    return kept


def _whole(level: Level, spare: list[int]) -> list[Level]:
    """Leave out as many whole strips of this sort as hold nothing but spare pieces."""
    counts = made(level.columns)
    gone = min(level.times, *(spare[kind] // count for kind, count in counts.items()))
    for kind, count in counts.items():
        spare[kind] -= gone * count
    return [level._replace(times=level.times - gone)] if level.times > gone else []


def _without(level: Level, kind: int, spare: list[int]) -> list[Level]:
    """Leave one kind's spare pieces out: of all equal strips that can lose all of it, then of one more."""
    each = made(level.columns).get(kind, 0)
    if not each or not spare[kind]:
        return [level]
    gone = min(level.times, spare[kind] // each)
    rest = spare[kind] - gone * each if gone < level.times else 0
    spare[kind] -= gone * each + rest
    parts = [(gone, each), (1 if rest else 0, rest)]
    found = [_thin(level, kind, out)._replace(times=times) for times, out in parts if times]
    untouched = level.times - gone - (1 if rest else 0)
    found += [level._replace(times=untouched)] if untouched else []
    return [one for one in found if one.columns]


def _thin(level: Level, kind: int, out: int) -> Level:
    """Leave `out` pieces of one kind out, from its tallest columns first."""
    columns: list[Column] = []
    for column in sorted(level.columns, key=lambda c: -c.above * c.high):
        pieces = column.high * column.times
        gone = min(out, pieces) if column.kind == kind else 0
        out -= gone
        full, rest = divmod(pieces - gone, column.high)
        if full:
            columns.append(column._replace(times=full))
        if rest:
            columns.append(column._replace(high=rest, times=1))
    width = max((column.above * column.high for column in columns), default=0)
    return Level(width, tuple(columns), 1)
