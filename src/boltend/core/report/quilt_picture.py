"""The whole quilt: its picture from the pictures of several tabs.

A tab that adds a border or a binding draws what is within as one rectangle of the role `top`. The picture of
the tab that its sizes come from is set in there, and so on inwards: each shape stays exactly as it was.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from boltend.core.contract import Note, Polygon, Rect, Rule, Shape
from boltend.core.contract.shapes import Inches
from boltend.core.drawing.figure import extent, figure_of
from boltend.core.drawing.picture import Show
from boltend.core.flow import Workbook
from boltend.core.pool import snapshot_of
from boltend.core.pool.uncut import blocks_uncut, is_block
from boltend.core.project.model import Tab
from boltend.core.report.near import sizes_as
from boltend.core.report.part_sizes import part_facts
from boltend.core.report.quilt_size import Quilt, quilt_of, upstream

TOP = "top"
"""The role of what lies within a border or a binding."""

_NEAR = Fraction(1, 20)
"""How far a picture may be from the rectangle that it is set in: a top is measured, a binding folds."""


class WholeQuilt(NamedTuple):
    """Its shapes, how their sizes are said, and what the legend says more of the parts."""

    shapes: tuple[Shape, ...]
    show: Show
    facts: dict[str, str]


def whole_quilt(book: Workbook, quilt: Quilt) -> WholeQuilt | None:
    """The whole quilt from the pictures of its tabs; None where none of them draws anything."""
    shapes, show = quilt_shapes(book, quilt.tab), sizes_as(book.results[quilt.tab.key].settings)
    return WholeQuilt(shapes, show, part_facts(shapes, show, _no_fabric(book, shapes))) if shapes else None


def quilt_of_several(book: Workbook, tabs: Sequence[Tab]) -> WholeQuilt | None:
    """The whole quilt of all tabs of a project; None of some of them, or where one tab's picture shows it."""
    quilt = quilt_of(book, tabs) if len(tabs) == len(book.project.tabs) else None
    whole = whole_quilt(book, quilt) if quilt is not None else None
    if whole is None or any(_draws(book, tab, whole.shapes) for tab in tabs):
        return None
    return whole


def _draws(book: Workbook, tab: Tab, shapes: tuple[Shape, ...]) -> bool:
    answer = book.results[tab.key].answer
    return answer is not None and tuple(answer.picture) == shapes


def _no_fabric(book: Workbook, shapes: Sequence[Shape]) -> set[str]:
    """The fills for which a fabric could be chosen, and none is; of blocks only where no tab cuts them."""
    fills = {shape.fill for shape in shapes if isinstance(shape, Rect | Polygon)} - {"", TOP}
    uncut = blocks_uncut(snapshot_of(book))
    return {
        fill for fill in fills if book.project.find_fabric(fill) is None and (uncut or not is_block(fill))
    }


def quilt_shapes(book: Workbook, tab: Tab) -> tuple[Shape, ...]:
    """A tab's picture with those of the tabs before it set in; its own where it draws nothing."""
    answer = book.results[tab.key].answer
    shapes = tuple(answer.picture) if answer is not None else ()
    if not shapes:
        inner = (quilt_shapes(book, book.project.tab(key)) for key in upstream(book, tab.key))
        return next((each for each in inner if each), ())
    tops = [shape for shape in shapes if isinstance(shape, Rect) and shape.fill == TOP]
    if len(tops) != 1:
        return shapes
    for key in upstream(book, tab.key):
        inner_answer = book.results[key].answer
        if inner_answer is not None and _fits(inner_answer.picture, tops[0]):
            return _set_in(shapes, tops[0], quilt_shapes(book, book.project.tab(key)))
    return shapes


def _fits(shapes: Sequence[Shape], top: Rect) -> bool:
    size = extent(figure_of(shapes)) if shapes else (0, 0)
    return all(
        abs(float(one) - float(other)) <= _NEAR * float(other)
        for one, other in zip(size, (top.width, top.height), strict=True)
    )


def _set_in(shapes: Sequence[Shape], top: Rect, inner: Sequence[Shape]) -> tuple[Shape, ...]:
    """The outer shapes with the inner ones in the middle of `top`, below all that goes round it."""
    figure = figure_of(inner)
    wide, high = extent(figure)
    left, top_edge = _corner(inner)
    half = Fraction(1, 2)
    x, y = top.x + (top.width - wide) * half - left, top.y + (top.height - high) * half - top_edge
    found: list[Shape] = [_moved(shape, x, y) for shape in inner]
    at = list(shapes).index(top)
    for n, shape in enumerate(shapes):
        if n < at and isinstance(shape, Rect) and _holds(shape, top):
            found += _round(shape, top)
        elif n != at:
            found.append(shape)
    return tuple(found)


def _corner(shapes: Sequence[Shape]) -> tuple[Inches, Inches]:
    """The exact left and top of all areas."""
    xs: list[Inches] = []
    ys: list[Inches] = []
    for shape in shapes:
        if isinstance(shape, Rect):
            xs.append(shape.x)
            ys.append(shape.y)
        elif isinstance(shape, Polygon):
            xs += [x for x, _ in shape.corners]
            ys += [y for _, y in shape.corners]
    return min(xs, default=0), min(ys, default=0)


def _moved(shape: Shape, x: Inches, y: Inches) -> Shape:
    if isinstance(shape, Polygon):
        return shape._replace(corners=tuple((a + x, b + y) for a, b in shape.corners))
    if isinstance(shape, Rule):
        return Rule(shape.x1 + x, shape.y1 + y, shape.x2 + x, shape.y2 + y)
    if isinstance(shape, Note):
        return shape._replace(x=shape.x + x, y=shape.y + y)
    return shape._replace(x=shape.x + x, y=shape.y + y)


def _holds(outer: Rect, inner: Rect) -> bool:
    return (
        outer.x <= inner.x
        and outer.y <= inner.y
        and outer.x + outer.width >= inner.x + inner.width
        and outer.y + outer.height >= inner.y + inner.height
    )


def _round(outer: Rect, inner: Rect) -> Iterator[Rect]:
    """What an outer rectangle shows round an inner one: above and below whole, the sides between them."""
    right, bottom = inner.x + inner.width, inner.y + inner.height
    over, under = inner.y - outer.y, outer.y + outer.height - bottom
    before, behind = inner.x - outer.x, outer.x + outer.width - right
    if over > 0:
        yield outer._replace(height=over)
    if under > 0:
        yield outer._replace(y=bottom, height=under)
    if before > 0:
        yield Rect(outer.x, inner.y, before, inner.height, outer.fill, outer.label)
    if behind > 0:
        yield Rect(right, inner.y, behind, inner.height, outer.fill, outer.label)
