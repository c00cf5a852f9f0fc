"""How large a figure is drawn: as large as fits, and so that equal blocks take equal cells."""

from collections import Counter
from dataclasses import dataclass
from itertools import pairwise
from math import floor
from typing import NamedTuple

from boltend.core.drawing.figure import Figure, slanting

LEAST_ROWS, LEAST_COLUMNS = 1.95, 2.95
"""Cells from block to block that box lines need, with room left between them."""

LEAST_DOTS, LEAST_DOTS_OF_LINES = 2.9, 1.9
"""Dots from block to block, and from line to line, below which they are no longer told apart."""

EPS = 1e-6
"""Of a cell: what is nearer to half of one is half."""

SMALLEST = 0.65
"""Of the size that fits: what it may cost that equal blocks take equal cells."""

STRETCH = 0.06
"""How far width to height may be from the truth for it, where nothing slants.

It is half a cell in each direction where that is more: no picture is truer than its cells.
"""


class Grain(NamedTuple):
    """Dots in a cell, across and down."""

    across: int
    down: int


@dataclass(frozen=True)
class Fit:
    """`columns` and `rows` of cells from edge to edge, lines of which run through the middle of cells.

    In a `fine` picture seams are rows of dots, for cells are too coarse for them; where those are too coarse
    too, seams of areas up to `dropped` (width, height) are left out.
    """

    columns: int
    rows: int
    sx: float
    sy: float
    fine: bool = False
    dropped: tuple[float, float] | None = None


class Pitch(NamedTuple):
    """From one of what there is most of to the next, 0 where there is but one; and its size, 0 of lines."""

    x: float
    y: float
    width: float = 0.0
    height: float = 0.0


def fit(
    figure: Figure, pitch: Pitch | None, columns: int, rows: int, ratio: float, grain: Grain
) -> Fit | None:
    """Fit a figure of some pitch into so many cells; None where it has no area to draw."""
    width, height = figure.width, figure.height
    if columns < 2 or rows < 2 or width <= 0 or height <= 0:
        return None
    most = columns - 1, rows - 1
    wide, high = size_of(figure, *most, ratio)
    full = wide / width, high / height
    slants = any(area.corners for area in figure.areas) or slanting(figure.strokes)  # then 45° must stay 45°
    if pitch is None:
        return _fit(figure, most, full, exact=(slants, slants))
    stretch, exact = 0.0 if slants else STRETCH, (slants or pitch.x > 0, slants or pitch.y > 0)
    even = _even(pitch, figure, most, full, Grain(1, 1), stretch)
    for found, kept in ((even, exact), (full, (slants, slants))):
        if (not pitch.x or pitch.x * found[0] >= LEAST_COLUMNS) and (
            not pitch.y or pitch.y * found[1] >= LEAST_ROWS
        ):
            return _fit(figure, most, found, exact=kept)
    sx, sy = _even(pitch, figure, most, full, grain, stretch)
    least = LEAST_DOTS if pitch.width else LEAST_DOTS_OF_LINES
    steps = pitch.x * sx * grain.across, pitch.y * sy * grain.down
    if any(0 < step < least for step in steps):
        return _fit(figure, most, full, exact=(slants, slants), fine=True, dropped=pitch[2:])
    return _fit(figure, most, (sx, sy), exact=exact, fine=True)


def _fit(
    figure: Figure,
    most: tuple[int, int],
    scale: tuple[float, float],
    *,
    exact: tuple[bool, bool],
    fine: bool = False,
    dropped: tuple[float, float] | None = None,
) -> Fit:
    """The fit at a scale: where it is not `exact` (across, down), such that the far edge lies on a cell."""
    sx, sy = scale
    # As the canvas snaps: half a cell is a whole one, though it may be a hair less.
    wide = min(most[0], max(1, floor(figure.width * sx + 0.5 + EPS)))
    high = min(most[1], max(1, floor(figure.height * sy + 0.5 + EPS)))
    if not exact[0] or figure.width * sx > most[0]:
        sx = wide / figure.width
    if not exact[1] or figure.height * sy > most[1]:
        sy = high / figure.height
    return Fit(wide, high, sx, sy, fine, dropped)


def size_of(figure: Figure, columns: int, rows: int, ratio: float) -> tuple[float, float]:
    """Cells across and down of a figure that is as large as fits; one of them is all that there is."""
    scale = min(rows / figure.height, columns / (ratio * figure.width))
    return scale * ratio * figure.width, scale * figure.height


def _even(
    pitch: Pitch,
    figure: Figure,
    most: tuple[int, int],
    scale: tuple[float, float],
    grain: Grain,
    stretch: float,
) -> tuple[float, float]:
    """Scales at which a pitch is a whole number of cells (or dots), else those given."""
    sx, sy = scale
    if pitch.y:
        steps = floor(pitch.y * sy * grain.down + EPS)
        lesser = steps / (pitch.y * grain.down) / sy
        if lesser < SMALLEST:
            return scale
        sx, sy = sx * lesser, sy * lesser
    if pitch.x:
        whole = floor(pitch.x * sx * grain.across + (0.5 if pitch.y else EPS))
        factor = whole / (pitch.x * grain.across) / sx
        if not pitch.y and factor >= SMALLEST:
            return sx * factor, sy * factor
        if abs(factor - 1) <= stretch and floor(figure.width * sx * factor + 0.5) <= most[0]:
            sx *= factor
    return sx, sy


def pitch_of(figure: Figure) -> Pitch | None:
    """The pitch of what there is most of: equal areas, or parallel lines."""
    if figure.width <= 0 or figure.height <= 0:
        return None
    # Sizes in millionths of the whole, so that equal ones are equal.
    kx, ky = 1e6 / figure.width, 1e6 / figure.height
    sizes = [
        (int((area.right - area.left) * kx + 0.5), int((area.bottom - area.top) * ky + 0.5))
        for area in figure.areas
    ]
    counts = Counter(sizes)
    often = [size for size, count in counts.items() if count > 3 and size[0] * size[1] * count > 1e12 / 6]
    if often:
        size = max(often, key=lambda each: each[0] * each[1] * counts[each])
        alike = [area for area, each in zip(figure.areas, sizes, strict=True) if each == size]
        steps = _step([a.left for a in alike]), _step([a.top for a in alike])
        return Pitch(*steps, size[0] / kx, size[1] / ky)
    if len(figure.strokes) > 3:
        down = [s.x1 for s in figure.strokes if abs(s.x1 - s.x2) < 1e-9 * figure.width]
        across = [s.y1 for s in figure.strokes if abs(s.y1 - s.y2) < 1e-9 * figure.height]
        if not (down or across):
            down = [s.x1 for s in figure.strokes if s.y1 < 1e-9 * figure.height]
        return Pitch(_step(down), _step(across))
    return None


def _step(places: list[float]) -> float:
    """The most common distance between neighbours."""
    distinct: list[float] = []
    for place in sorted(places):
        if not distinct or place - distinct[-1] > 1e-9 * abs(places[-1] - places[0]) + 1e-12 * abs(place):
            distinct.append(place)
    steps = [far - near for near, far in pairwise(distinct)]
    if not steps:
        return 0.0
    unit = max(steps) / 1e6  # steps are alike where they differ by less
    alike = Counter(round(step / unit) for step in steps)
    most = max(alike, key=lambda each: (alike[each], each))
    return next(step for step in steps if round(step / unit) == most)
