"""Shapes as floats from a corner at 0: near enough for cells, and quick for thousands of them.

What a person reads (sizes, labels) never comes from here.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import floor
from typing import NamedTuple, TypeAlias

from boltend.core.contract import Note, Polygon, Rect, Rule, Shape
from boltend.core.contract.shapes import Inches
from boltend.core.values import Surd

Point: TypeAlias = tuple[float, float]

_LEAST, _MOST, _FINE, _ROOT2 = 1e-100, 1e100, 1e-9, 2**0.5


class Area(NamedTuple):
    """A rectangle (without `corners`) or a polygon, with its bounding box."""

    left: float
    top: float
    right: float
    bottom: float
    fill: str
    label: str
    corners: tuple[Point, ...] = ()


class Stroke(NamedTuple):
    """A line from one point to another."""

    x1: float
    y1: float
    x2: float
    y2: float


class Words(NamedTuple):
    """Words that begin at a place."""

    x: float
    y: float
    words: str


@dataclass
class Figure:
    """All that is drawn, in the order of drawing; it reaches from 0, 0 to `width`, `height`.

    `origin` is where that corner lies in the shapes' own inches; None where they had to be scaled.
    """

    areas: list[Area] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    width: float = 0.0
    height: float = 0.0
    sources: list[Shape] = field(default_factory=list)
    rules: list[Rule] = field(default_factory=list)
    origin: Point | None = None


def figure_of(shapes: Sequence[Shape]) -> Figure:
    """The shapes as floats. Rectangles and polygons without an area are left out: they show nothing."""
    found = _figure(shapes, _plain, _plain)
    if found is not None:
        return found
    # Too large, too small or too far from 0 for floats: move and scale exactly first.
    xs, ys = zip(*(point for shape in shapes for point in _points(shape)), strict=True)
    left, top = min(xs), min(ys)
    reach = max(max(xs) - left, max(ys) - top)
    if not reach:
        return Figure()
    scale = Fraction(1, 1 << floor(reach).bit_length()) * (1 << floor(1 / reach).bit_length())
    found = _figure(
        shapes, lambda x: float((x - left) * scale), lambda y: float((y - top) * scale), exact=True
    )
    return found or Figure()


def _plain(value: Inches) -> float:
    if type(value) is Fraction:
        return value.numerator / value.denominator
    if isinstance(value, Surd):  # not to the last bit, which takes long
        a, b = value.a, value.b
        return a.numerator / a.denominator + b.numerator / b.denominator * _ROOT2
    return float(value)


def _figure(
    shapes: Iterable[Shape],
    x_of: Callable[[Inches], float],
    y_of: Callable[[Inches], float],
    exact: bool = False,
) -> Figure | None:
    try:
        areas, strokes, words, sources = _read(shapes, x_of, y_of, exact)
    except OverflowError:
        return None
    xs = [a.left for a in areas] + [s.x1 for s in strokes] + [s.x2 for s in strokes] + [w.x for w in words]
    ys = [a.top for a in areas] + [s.y1 for s in strokes] + [s.y2 for s in strokes] + [w.y for w in words]
    if not xs:
        return Figure()
    left, top = min(xs), min(ys)
    right = max(max(xs), max((a.right for a in areas), default=left))
    bottom = max(max(ys), max((a.bottom for a in areas), default=top))
    far, reach = max(-left, -top, right, bottom), max(right - left, bottom - top)
    if not exact and (far > _MOST or reach < max(_LEAST, far * _FINE)):
        return None
    if left or top:
        areas = [_moved(area, left, top) for area in areas]
        strokes = [Stroke(s.x1 - left, s.y1 - top, s.x2 - left, s.y2 - top) for s in strokes]
        words = [Words(w.x - left, w.y - top, w.words) for w in words]
    rules = [shape for shape in shapes if isinstance(shape, Rule)]
    origin = None if exact else (left, top)
    return Figure(areas, strokes, words, right - left, bottom - top, sources, rules, origin)


def _read(
    shapes: Iterable[Shape],
    x_of: Callable[[Inches], float],
    y_of: Callable[[Inches], float],
    exact: bool,
) -> tuple[list[Area], list[Stroke], list[Words], list[Shape]]:
    areas: list[Area] = []
    sources: list[Shape] = []
    strokes: list[Stroke] = []
    words: list[Words] = []
    for shape in shapes:
        if isinstance(shape, Rect):
            x, y, wide, high, fill, label = shape
            if wide and high:
                x1, y1 = x_of(x), y_of(y)
                x2, y2 = (x_of(x + wide), y_of(y + high)) if exact else (x1 + _plain(wide), y1 + _plain(high))
                if x2 < x1 or y2 < y1:
                    x1, x2, y1, y2 = min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
                areas.append(Area(x1, y1, x2, y2, fill, label))
                sources.append(shape)
        elif isinstance(shape, Polygon):
            corners = tuple((x_of(x), y_of(y)) for x, y in shape.corners)
            xs, ys = [x for x, _ in corners], [y for _, y in corners]
            if len(corners) > 2 and min(xs) < max(xs) and min(ys) < max(ys):
                areas.append(Area(min(xs), min(ys), max(xs), max(ys), shape.fill, shape.label, corners))
                sources.append(shape)
        elif isinstance(shape, Rule):
            strokes.append(Stroke(x_of(shape.x1), y_of(shape.y1), x_of(shape.x2), y_of(shape.y2)))
        elif isinstance(shape, Note):
            words.append(Words(x_of(shape.x), y_of(shape.y), shape.words))
    return areas, strokes, words, sources


def _moved(area: Area, left: float, top: float) -> Area:
    corners = tuple((x - left, y - top) for x, y in area.corners)
    return Area(
        area.left - left,
        area.top - top,
        area.right - left,
        area.bottom - top,
        area.fill,
        area.label,
        corners,
    )


def _points(shape: Shape) -> Sequence[tuple[Inches, Inches]]:
    if isinstance(shape, Rect):
        return ((shape.x, shape.y), (shape.x + shape.width, shape.y + shape.height))
    if isinstance(shape, Polygon):
        return shape.corners
    if isinstance(shape, Rule):
        return ((shape.x1, shape.y1), (shape.x2, shape.y2))
    return ((shape.x, shape.y),)


def slanting(strokes: Sequence[Stroke]) -> bool:
    """Whether any line is neither level nor upright."""
    return any(stroke.x1 != stroke.x2 and stroke.y1 != stroke.y2 for stroke in strokes)


def extent(figure: Figure) -> tuple[Inches, Inches]:
    """The exact width and height over all areas and lines: only what reaches the edges is looked at."""
    xs: set[Inches] = set()
    ys: set[Inches] = set()
    wide, high = figure.width * (1 - _FINE), figure.height * (1 - _FINE)
    low_x, low_y = figure.width * _FINE, figure.height * _FINE
    for area, shape in zip(figure.areas, figure.sources, strict=True):
        across, down = area.left <= low_x or area.right >= wide, area.top <= low_y or area.bottom >= high
        if not (across or down):
            continue
        near = area.corners or ((area.left, area.top), (area.right, area.bottom))
        for (x, y), (near_x, near_y) in zip(_points(shape), near, strict=True):
            if across and not (area.corners and low_x < near_x < wide):
                xs.add(x)
            if down and not (area.corners and low_y < near_y < high):
                ys.add(y)
    for rule in figure.rules:
        xs.update((rule.x1, rule.x2))
        ys.update((rule.y1, rule.y2))
    return (max(xs) - min(xs), max(ys) - min(ys)) if xs and ys else (0, 0)
