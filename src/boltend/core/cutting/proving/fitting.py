"""Strips in sheets: which sets of widths fill a sheet's depth, and which strip lies in which sheet."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from boltend.core.cutting.shapes import Direction
from boltend.core.cutting.sheets import Cut
from boltend.core.cutting.task import Level, merged

MOST_SETS = 1500


class Slots(NamedTuple):
    """A sheet cut one way, with room for strips of these widths, the widest first."""

    way: int
    widths: tuple[int, ...]


def sets_of(widths: Sequence[int], depth: int, met: Sequence[tuple[int, ...]]) -> list[tuple[int, ...]]:
    """List the full sets of `widths` (the widest first) within `depth`; where too many, those `met`."""
    found: list[tuple[int, ...]] = []
    for each in _full(widths, 0, depth):
        found.append(each)
        if len(found) > MOST_SETS:
            return list(dict.fromkeys(tuple(sorted(one, reverse=True)) for one in met))
    return found


def _full(widths: Sequence[int], place: int, room: int) -> Iterator[tuple[int, ...]]:
    if place == len(widths):
        yield ()
        return
    width = widths[place]
    last = place == len(widths) - 1
    for count in range(room // width, (room // width if last else 0) - 1, -1):
        for rest in _full(widths, place + 1, room - count * width):
            yield (width,) * count + rest


def placed(
    levels: Sequence[Level], used: Sequence[tuple[tuple[int, ...], int]], direction: Direction
) -> list[Cut]:
    """Lay strips into sheets, each with slots of these widths: the widest strip into the widest slot.

    There must be at least as many slots of any width or more as there are strips so wide.
    """
    queue = sorted(levels, key=lambda level: -level.width)
    slots = sorted(
        (
            (width, number, place)
            for number, (widths, _) in enumerate(used)
            for place, width in enumerate(widths)
        ),
        key=lambda each: (-each[0], each[1], each[2]),
    )
    laid: dict[int, list[list[tuple[Level, int]]]] = {number: [] for number in range(len(used))}
    at, left = 0, queue[0].times if queue else 0
    for width, number, _ in slots:
        room, line = used[number][1], list[tuple[Level, int]]()
        while room and at < len(queue) and queue[at].width <= width:
            taken = min(room, left)
            line.append((queue[at]._replace(times=1), taken))
            room, left = room - taken, left - taken
            if not left:
                at += 1
                left = queue[at].times if at < len(queue) else 0
        laid[number].append(line)
    if at < len(queue):
        raise ValueError("more strips than there are slots for them")
    return [cut for number, lines in laid.items() for cut in _sheets(lines, used[number][1], direction)]


def _sheets(lines: Sequence[list[tuple[Level, int]]], copies: int, direction: Direction) -> Iterator[Cut]:
    """Read the slots' lines of strips side by side: one cut for every stretch in which none changes."""
    ends: set[int] = {copies}
    for line in lines:
        at = 0
        for _, times in line:
            at += times
            ends.add(at)
    begin = 0
    for end in sorted(ends):
        strips = [level for line in lines for level in _at(line, begin)]
        if strips:
            yield Cut(direction, tuple(merged(strips)), end - begin)
        begin = end


def _at(line: Sequence[tuple[Level, int]], place: int) -> Iterator[Level]:
    for level, times in line:
        if place < times:
            yield level
            return
        place -= times
