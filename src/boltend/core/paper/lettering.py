"""Labels in the areas of a picture on paper: whole where they find room, else a shorter word, else none."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from boltend.core.drawing.canvas import sides_of, within
from boltend.core.drawing.figure import Area, Figure
from boltend.core.drawing.labels import broken
from boltend.core.drawing.widths import cells_of, clean

SIZES = (8.0, 7.0, 6.0)
"""Points in which a label is tried, the largest first."""

_LEADING = 1.2
_CELL = 0.62  # of the size: what a character takes at most on the average, in any plain type face


class Letters(NamedTuple):
    """A line of a label by its middle, in points from the picture's corner; `fill` is what it stands on."""

    x: float
    y: float
    words: str
    size: float
    upright: bool
    fill: str


class Lettered(NamedTuple):
    """The lines that found room, and the labels that they are of."""

    letters: list[Letters]
    placed: set[str]


class _Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    @property
    def area(self) -> float:
        return max(0.0, self.right - self.left) * max(0.0, self.bottom - self.top)


def wide_of(words: str, size: float) -> float:
    """The points that words take at most; an estimate, for the type face is the reader's own."""
    return cells_of(words) * _CELL * size


class Covers:
    """Which later areas lie over an area: looked up by the part of the figure that they reach into."""

    _PARTS = 24  # across and down

    def __init__(self, figure: Figure) -> None:
        self.figure = figure
        self._in: dict[tuple[int, int], list[int]] = {}
        for n, area in enumerate(figure.areas):
            for part in self._parts(area):
                self._in.setdefault(part, []).append(n)

    def _parts(self, area: Area) -> Iterator[tuple[int, int]]:
        across, down = self._PARTS / self.figure.width, self._PARTS / self.figure.height
        for i in range(int(area.left * across), min(self._PARTS - 1, int(area.right * across)) + 1):
            for j in range(int(area.top * down), min(self._PARTS - 1, int(area.bottom * down)) + 1):
                yield i, j

    def over(self, n: int) -> list[Area]:
        """The later areas that may touch one, in their order."""
        numbers = {
            other for part in self._parts(self.figure.areas[n]) for other in self._in[part] if other > n
        }
        return [self.figure.areas[other] for other in sorted(numbers)]


def lettered(alike: Sequence[int], covers: Covers, scale: float, shorter: Mapping[str, str]) -> Lettered:
    """The label of areas that bear the same one, `scale` points an inch; equal pieces bear equal words."""
    figure = covers.figure
    label = figure.areas[alike[0]].label
    full, short = clean(label, ascii=False), clean(shorter.get(label, ""), ascii=False)
    boxes = [_room(covers, n, scale) for n in alike]
    found = [_place(box, full, figure.areas[n].fill) for box, n in zip(boxes, alike, strict=True)]
    if short and not all(found):
        found = [_place(box, short, figure.areas[n].fill) for box, n in zip(boxes, alike, strict=True)]
    return Lettered([each for lines in found for each in lines], {label} if all(found) else set())


def _place(box: _Box, label: str, fill: str) -> list[Letters]:
    """The lines of a label in a box, level if they can be; none where it finds no room."""
    wide, high = box.right - box.left - 3, box.bottom - box.top - 1
    for upright in (False, True):
        room = (high, wide) if upright else (wide, high)
        for size in SIZES:
            for lines in broken(label) if label else ():
                if len(lines) * size * (_LEADING if len(lines) > 1 else 1) > room[1]:
                    continue
                if max(wide_of(line, size) for line in lines) <= room[0]:
                    return list(_lines(box, lines, size, upright, fill))
        if wide >= high or box.area <= 0:
            break  # words stand upright only in what is itself upright
    return []


def _lines(box: _Box, lines: Sequence[str], size: float, upright: bool, fill: str) -> Iterator[Letters]:
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    for n, line in enumerate(lines):
        off = (n - (len(lines) - 1) / 2) * size * _LEADING
        yield (
            Letters(x + off, y, line, size, True, fill)
            if upright
            else Letters(x, y + off, line, size, False, fill)
        )


def _room(covers: Covers, n: int, scale: float) -> _Box:
    """Where the words of an area have room: in what no later area covers."""
    area = covers.figure.areas[n]
    if area.corners:
        return _in_polygon(area, scale)
    box = _Box(area.left, area.top, area.right, area.bottom)
    for other in covers.over(n):
        beside = other.right <= box.left or box.right <= other.left
        if not (beside or other.bottom <= box.top or box.bottom <= other.top):
            box = _beside(box, other)
    return _Box(box.left * scale, box.top * scale, box.right * scale, box.bottom * scale)


def _beside(box: _Box, other: Area) -> _Box:
    """The largest of the four bands that another area leaves of a box."""
    bands = (
        box._replace(bottom=other.top),
        box._replace(top=other.bottom),
        box._replace(right=other.left),
        box._replace(left=other.right),
    )
    return max(bands, key=lambda band: band.area)


def _in_polygon(area: Area, scale: float) -> _Box:
    """A box round the middle of the widest level line: half as high as the polygon at most."""
    sides = sides_of(area.corners)
    high = area.bottom - area.top
    best = _Box(0, 0, 0, 0)
    for part in range(1, 12):
        middle = area.top + high * part / 12
        for half in (high / 4, high / 8):
            chords = [list(within(sides, y)) for y in (middle - half, middle, middle + half)]
            if all(len(chord) == 1 for chord in chords):
                left = max(chord[0][0] for chord in chords)
                right = min(chord[0][1] for chord in chords)
                box = _Box(left * scale, (middle - half) * scale, right * scale, (middle + half) * scale)
                best = max(best, box, key=lambda each: each.area)
    return best
