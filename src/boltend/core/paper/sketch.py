"""A picture laid out for paper, in points: areas in true proportion, with sizes, labels and hatches.

The areas keep the shapes of the contract in exact inches; all that is measured here (margins, labels) is in
points of the picture's own paper, y downwards. Both back ends draw the very same.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from boltend.core.contract import Polygon, Rect
from boltend.core.drawing import Mark
from boltend.core.drawing.canvas import Canvas
from boltend.core.drawing.cells import signs_of
from boltend.core.drawing.figure import Area, Figure, Stroke, figure_of
from boltend.core.drawing.fit import Fit
from boltend.core.drawing.framing import frames
from boltend.core.drawing.glyphs import BRAILLE
from boltend.core.drawing.hatches import hatched, sign_words
from boltend.core.drawing.widths import clean
from boltend.core.paper.lettering import Covers, Letters, lettered, wide_of
from boltend.core.paper.model import Picture

SIZE = 8.0
"""Points of the sizes beside a picture."""

RISE = 0.35
"""Of the size of letters: from the middle of a line to what they stand on."""

BAR = 3.0
"""Points to either side of the bar at the end of an arrow."""

_LEVEL, _GAP = 11.0, 3.0
_RASTER = 96  # cells across in which it is looked which fills touch
_LEAST = 24.0  # points that a picture is never smaller than, whatever stands beside it


class Face(NamedTuple):
    """An area: the contract's own shape, and the same from the picture's corner as floats."""

    shape: Rect | Polygon
    area: Area


class Words(NamedTuple):
    """Words by the middle of their line; `upright` they read from below to above.

    `fill` is what they stand on, "" for the paper.
    """

    x: float
    y: float
    words: str
    size: float = SIZE
    anchor: Literal["start", "middle", "end"] = "middle"
    upright: bool = False
    fill: str = ""


class Arrow(NamedTuple):
    """A line from where a size ends, with a bar there, to its words."""

    x1: float
    y1: float
    x2: float
    y2: float


class Ink(NamedTuple):
    """How a fill looks: the mark of its hatch, its colour (or ""), and what it is in words (or "")."""

    mark: str
    colour: str
    words: str


@dataclass(frozen=True)
class Sketch:
    """A picture of `width` × `height` points; its shapes begin at `left`, `top`, `scale` points an inch.

    `origin` is where they begin in their own inches; None where they are beyond what floats can tell.
    """

    width: float
    height: float
    left: float
    top: float
    scale: float
    origin: tuple[float, float] | None
    faces: tuple[Face, ...]
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]
    arrows: tuple[Arrow, ...]
    inks: Mapping[str, Ink]

    @property
    def legend(self) -> tuple[tuple[str, str], ...]:
        """The fills that need words, each with them."""
        return tuple((fill, ink.words) for fill, ink in self.inks.items() if ink.words)


def sketch(picture: Picture, width: float, height: float) -> Sketch | None:
    """Lay a picture out in at most `width` × `height` points; None where there is nothing to see."""
    figure = figure_of(picture.shapes)
    if figure.width <= 0 or figure.height <= 0:
        return None
    figure.words = [each._replace(words=clean(each.words, ascii=False)) for each in figure.words]
    marks = next(iter(frames(figure, picture.show, picture.marks, ascii=False))).marks
    beside = _Beside(figure, marks)
    scale = beside.scale(width, height)
    covers = Covers(figure)
    letters = [lettered(n, covers, scale, picture.shorter) for n in _by_label(figure)]
    placed = {label for each in letters for label in each.placed}
    at_left, at_top = beside.left, beside.top
    words = [*beside.words, *(_moved(each, at_left, at_top) for some in letters for each in some.letters)]
    return Sketch(
        width=at_left + max(figure.width * scale + 1, beside.right),
        height=at_top + figure.height * scale + 1,
        left=at_left,
        top=at_top,
        scale=scale,
        origin=figure.origin,
        faces=tuple(map(Face, figure.sources, figure.areas)),  # type: ignore[arg-type]  # areas have no rules
        strokes=tuple(figure.strokes),
        words=tuple(words),
        arrows=tuple(beside.arrows),
        inks=_inks(figure, set() if picture.all_told else placed, picture),
    )


def _by_label(figure: Figure) -> list[list[int]]:
    """The areas of each label, by their numbers."""
    named: dict[str, list[int]] = {}
    for n, area in enumerate(figure.areas):
        if area.label:
            named.setdefault(area.label, []).append(n)
    return list(named.values())


def _moved(letters: Letters, left: float, top: float) -> Words:
    return Words(left + letters.x, top + letters.y, letters.words, letters.size, "middle", letters.upright,
                 letters.fill)  # fmt: skip


def _inks(figure: Figure, placed: set[str], picture: Picture) -> dict[str, Ink]:
    columns = max(2, min(_RASTER, round(_RASTER * figure.width / figure.height)))
    rows = max(2, min(_RASTER, round(_RASTER * figure.height / figure.width)))
    canvas = Canvas(Fit(columns, rows, columns / figure.width, rows / figure.height), BRAILLE)
    canvas.paint(figure)
    hatches = hatched([area.fill for area in figure.areas], canvas.owner, ascii=False)
    signs = signs_of(set(hatches), placed, canvas, figure, hatches, ascii=False)
    inks = {fill: Ink(mark, picture.colours.get(fill, ""), "") for fill, mark in hatches.items()}
    for sign in signs:
        inks[sign.fill] = inks[sign.fill]._replace(words=sign_words(sign, picture.facts))
    return inks


class _Beside:
    """What stands beside a figure: margins, the sizes in them, and notes."""

    def __init__(self, figure: Figure, marks: tuple[Mark, ...]) -> None:
        self.figure, self.marks = figure, marks
        self.plain = [mark for mark in marks if mark.side == "left" and not mark.arrows]
        self.across = [mark for mark in marks if mark.side == "top"]
        self.down = [mark for mark in marks if mark.side == "left" and mark.arrows]
        self.left = max((wide_of(mark.words, SIZE) + _GAP for mark in self.plain), default=1.0)
        self.levels: list[int] = [0] * len(self.across)
        self.top, self.right = 1.0, 0.0
        self.words: list[Words] = []
        self.arrows: list[Arrow] = []

    def scale(self, width: float, height: float) -> float:
        """Points an inch, such that figure and margins fit; then all words and arrows have their places."""
        figure, narrow, scale = self.figure, 0.0, 1.0
        for _ in range(3):  # margins hang on the scale, and the scale on the margins
            self.top = self._level(scale) if self.across else 1.0
            flat = max((self._flat(mark, scale) for mark in self.down), default=0.0)
            self.left = max((wide_of(m.words, SIZE) + _GAP for m in self.plain), default=1.0) + flat
            self.right = max((self._end(w.x, w.words, scale) for w in figure.words), default=0.0)
            narrow = max(0.0, self.right - figure.width * scale)
            room = max(_LEAST, width - self.left - narrow - 2), max(_LEAST, height - self.top - 1)
            scale = min(room[0] / figure.width, room[1] / figure.height)
        self.right = max((self._end(w.x, w.words, scale) for w in figure.words), default=0.0) + 1
        self._put(scale)
        return scale

    def _end(self, x: float, words: str, scale: float) -> float:
        return x * scale + wide_of(words, SIZE)

    def _flat(self, mark: Mark, scale: float) -> float:
        """The margin of a size along the left edge: level where the edge is shorter than its words."""
        long = wide_of(mark.words, SIZE)
        return _LEVEL + _GAP if (mark.end - mark.start) * scale >= long + 12 else long + _LEVEL

    def _level(self, scale: float) -> float:
        """Give each mark above a level on which it finds room; the height of all levels."""
        ends: list[float] = []
        for n, mark in enumerate(self.across):
            half = max(wide_of(mark.words, SIZE) + 4, (mark.end - mark.start) * scale * mark.arrows - 1) / 2
            middle = (mark.start + mark.end) / 2 * scale
            level = next((k for k, end in enumerate(ends) if end <= middle - half), len(ends))
            ends[level : level + 1] = [middle + half]
            self.levels[n] = level
        return max(1, len(ends)) * _LEVEL + _GAP

    def _put(self, scale: float) -> None:
        for mark, level in zip(self.across, self.levels, strict=True):
            self._above(mark, level, scale)
        for mark in self.down:
            self._aside(mark, scale)
        middles = [(mark.start + mark.end) / 2 * scale for mark in self.plain]
        for mark, y in zip(self.plain, _spread(middles, self.figure.height * scale), strict=True):
            self.words.append(Words(self.left - _GAP, self.top + y, mark.words, anchor="end"))
        for each in self.figure.words:
            x, y = self.left + each.x * scale, self.top + each.y * scale
            self.words.append(Words(x, y, each.words, anchor="start"))

    def _above(self, mark: Mark, level: int, scale: float) -> None:
        y = self.top - _GAP - _LEVEL * (level + 0.5)
        start, end = (self.left + at * scale for at in (mark.start, mark.end))
        middle, half = (start + end) / 2, wide_of(mark.words, SIZE) / 2
        middle = max(middle, half)  # words never begin before the paper
        self.words.append(Words(middle, y, mark.words))
        self.right = max(self.right, middle + half - self.left)
        if mark.arrows and end - start > 2 * half + 16:
            self.arrows += [Arrow(start, y, middle - half - 3, y), Arrow(end, y, middle + half + 3, y)]

    def _aside(self, mark: Mark, scale: float) -> None:
        start, end = (self.top + at * scale for at in (mark.start, mark.end))
        middle, long = (start + end) / 2, wide_of(mark.words, SIZE)
        x = self.left - _GAP - _LEVEL / 2
        if end - start < long + 12:
            self.words.append(Words(self.left - _GAP, middle, mark.words, anchor="end"))
            return
        self.words.append(Words(x, middle, mark.words, upright=True))
        if end - start > long + 16:
            self.arrows += [
                Arrow(x, start, x, middle - long / 2 - 3),
                Arrow(x, middle + long / 2 + 3, x, end),
            ]


def _spread(middles: list[float], height: float) -> list[float]:
    """Lines of words as near to their middles as can be without lying on each other; from above to below."""
    least = SIZE * 1.05
    found: list[float] = []
    for middle in middles:
        found.append(max(middle, found[-1] + least) if found else middle)
    at = height
    for n in range(len(found) - 1, -1, -1):
        found[n] = min(found[n], max(at, middles[n]))
        at = found[n] - least
    return found


def smaller(picture: Picture, factor: float) -> Picture:
    """The same picture with less room."""
    return replace(picture, room=(picture.room[0] * factor, picture.room[1] * factor))
