"""A figure of rectangles on whole cells: what is of one size takes as many cells everywhere.

Drawn at one scale, equal blocks take equal cells only where a block is a whole number of them, which may cost
a third of the room. Here every stretch between two edges gets a whole number of cells of its own instead.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise
from math import ceil, floor
from typing import NamedTuple

from boltend.core.drawing.figure import Area, Figure, Stroke, slanting
from boltend.core.drawing.fit import LEAST_COLUMNS, LEAST_ROWS, SMALLEST, STRETCH, Fit, Pitch, size_of

FURTHEST = 1.0
"""Cells that an edge may lie from its true place, for equal things to be drawn equal."""

_THIN = 0.25  # of a cell: what is narrower takes none, and is a line
_MOST_MITRED = 16  # sides: those of four borders
_MOST_STRETCHES = 80  # between edges: so many have no cells to be given
_SAME = 1e-6  # of the whole: edges nearer to each other are one
_ALIKE = 1e-4  # of the whole: stretches that differ by less are of one size


class Laid(NamedTuple):
    """Edges in cells; `off` is how many of all cells stand where the truth has another stretch."""

    cells: list[int]
    off: float


def spread(figure: Figure, pitch: Pitch, columns: int, rows: int, ratio: float) -> tuple[Fit, Figure] | None:
    """The largest true fit into so many cells, and the figure moved onto it; None where there is none.

    Only of what has no slanting lines but the mitres of its borders: 45° must stay 45°.
    """
    if min(columns, rows) < 2 or sum(bool(area.corners) for area in figure.areas) > _MOST_MITRED:
        return None
    if slanting(figure.strokes):
        return None
    full = size_of(figure, columns - 1, rows - 1, ratio)
    if pitch.y and pitch.y * full[1] / figure.height < LEAST_ROWS:
        return None
    across, down = _edges(figure, upright=True), _edges(figure, upright=False)
    if max(len(across), len(down)) > _MOST_STRETCHES:
        return None
    true = figure.width * ratio / figure.height
    found: tuple[float, Laid, Laid] | None = None
    for high in range(floor(full[1] + 1e-6), 0, -1):
        lost = 1 - high / full[1]
        if lost > 1 - SMALLEST or (found is not None and lost >= found[0]):
            break
        if pitch.y and pitch.y * high / figure.height < LEAST_ROWS:
            break
        rows_laid = _laid(down, high)
        for wide in _widths(high * true, high, columns - 1) if rows_laid is not None else ():
            if pitch.x and pitch.x * wide / figure.width < LEAST_COLUMNS:
                continue
            columns_laid = _laid(across, wide)
            if rows_laid is None or columns_laid is None:
                continue
            cost = lost + 2 * abs(wide / high / true - 1) + (columns_laid.off + rows_laid.off) / 2
            if found is None or cost < found[0]:
                found = cost, columns_laid, rows_laid
    if found is None:
        return None
    x_cells, y_cells = found[1].cells, found[2].cells
    fit = Fit(x_cells[-1], y_cells[-1], x_cells[-1] / figure.width, y_cells[-1] / figure.height)
    return fit, _moved(figure, _onto(across, x_cells, fit.sx), _onto(down, y_cells, fit.sy))


def _widths(true: float, high: int, most: int) -> Iterable[int]:
    """Columns that keep the proportion near enough, the truest first."""
    near = max(STRETCH * true, 0.5 + 0.5 * true / high)
    fitting = range(max(1, ceil(true - near)), min(most, floor(true + near)) + 1)
    return sorted(fitting, key=lambda wide: abs(wide - true))


def _edges(figure: Figure, *, upright: bool) -> list[float]:
    """Where something begins or ends, in inches: the distinct places, in order."""
    if upright:
        whole, places = figure.width, [x for a in figure.areas for x in (a.left, a.right)]
        places += [x for a in figure.areas for x, _ in a.corners]
        places += [x for s in figure.strokes for x in (s.x1, s.x2)]
    else:
        whole, places = figure.height, [y for a in figure.areas for y in (a.top, a.bottom)]
        places += [y for a in figure.areas for _, y in a.corners]
        places += [y for s in figure.strokes for y in (s.y1, s.y2)]
    distinct = [0.0]
    for place in sorted(places):
        if place > distinct[-1] + _SAME * whole:
            distinct.append(place)
    return distinct


def _laid(edges: Sequence[float], cells: int) -> Laid | None:
    """The edges in cells, of which there are so many in all: equal stretches equal, and as true as can be.

    None where that would move one further than `FURTHEST`.
    """
    whole = edges[-1]
    sizes = [round((far - near) / whole / _ALIKE) for near, far in pairwise(edges)]
    true = {size: size * _ALIKE * cells for size in sizes}
    # The truest choice for every number of cells that the sizes so far can take together.
    best: dict[int, tuple[float, dict[int, int]]] = {0: (0.0, {})}
    for size in sorted(true, reverse=True):
        count, wants = sizes.count(size), true[size]
        further: dict[int, tuple[float, dict[int, int]]] = {}
        for taken, (cost, chosen) in best.items():
            for each in {floor(wants + 1e-6), ceil(wants - 1e-6)}:
                if (wants >= 0.5 and not each) or (wants < _THIN and each):
                    continue
                total = taken + count * each
                now = cost + count * abs(each - wants)
                if total <= cells and (total not in further or now < further[total][0]):
                    further[total] = now, {**chosen, size: each}
        best = further
    if cells not in best:
        return None
    cost, chosen = best[cells]
    found = list(accumulate((chosen[size] for size in sizes), initial=0))
    furthest = max(abs(at - edge / whole * cells) for at, edge in zip(found, edges, strict=True))
    return Laid(found, cost / cells) if furthest <= FURTHEST else None


def _onto(edges: Sequence[float], cells: Sequence[int], scale: float) -> Callable[[float], float]:
    """Moves a place in inches: an edge onto its cell, what is between two with them."""

    def moved(place: float) -> float:
        n = min(max(1, bisect_right(edges, place)), len(edges) - 1)
        (low, high), (first, last) = (edges[n - 1], edges[n]), (cells[n - 1], cells[n])
        part = min(1.0, max(0.0, (place - low) / (high - low)))
        part = round(part) if min(part, 1 - part) < 1e-3 else part  # all that is one edge stays one
        return (first + (last - first) * part) / scale

    return moved


def _moved(figure: Figure, x: Callable[[float], float], y: Callable[[float], float]) -> Figure:
    areas = [
        Area(x(a.left), y(a.top), x(a.right), y(a.bottom), a.fill, a.label,
             tuple((x(across), y(down)) for across, down in a.corners))
        for a in figure.areas
    ]  # fmt: skip
    strokes = [Stroke(x(s.x1), y(s.y1), x(s.x2), y(s.y2)) for s in figure.strokes]
    return replace(figure, areas=areas, strokes=strokes)
