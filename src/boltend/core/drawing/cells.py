"""Shapes as a picture in cells: in proportion, as large as fits, with labels, sizes and hatches."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from boltend.core.contract import Shape
from boltend.core.drawing.canvas import Canvas
from boltend.core.drawing.figure import Figure, extent, figure_of
from boltend.core.drawing.fit import Fit, Grain, Pitch, fit, pitch_of
from boltend.core.drawing.framing import Frame, Mark, framed, frames
from boltend.core.drawing.glyphs import ASCII, BRAILLE
from boltend.core.drawing.hatches import hatched
from boltend.core.drawing.inking import inked
from boltend.core.drawing.labels import put_labels, put_words
from boltend.core.drawing.picture import NOTHING, Picture, Run, Show, Sign, runs_of
from boltend.core.drawing.spread import spread
from boltend.core.drawing.widths import cells_of, clean

LEAST_COLUMNS, LEAST_ROWS = 12, 4
"""Cells below which a line of words says more than a picture."""

_WORTH = 1.06  # how much larger a picture must become for a plainer frame


def draw(
    shapes: Sequence[Shape],
    columns: int,
    rows: int,
    *,
    ascii: bool = False,  # noqa: A002 - the word for it
    cell_ratio: float = 2,
    show: Show | None = None,
    shorter: Mapping[str, str] | None = None,
    marks: Sequence[Mark] = (),
    all_told: bool = False,
) -> Picture:
    """Draw shapes in at most `columns` × `rows` cells, each `cell_ratio` times as high as it is wide.

    Outer edges are heavy, seams light; slanting ones, and all where cells are too coarse for lines, are rows
    of dots. With `show` the overall size stands along the edge. `shorter` has a shorter word for a label that
    finds no room; `marks` are words beside the picture, to its left or above; `all_told` has the
    signs tell every label, seen in the picture or not. Where there is no room for a
    picture one line says what there would be. Never raises for odd shapes.
    """
    shapes, grain = tuple(shapes), ASCII if ascii else BRAILLE
    figure = figure_of(shapes)
    best: tuple[Fit, Figure, Frame] | None = None
    if columns >= LEAST_COLUMNS and rows >= LEAST_ROWS:
        figure.words = [each._replace(words=clean(each.words, ascii=ascii)) for each in figure.words]
        pitch = pitch_of(figure)
        for frame in frames(figure, show, marks, ascii=ascii):
            room = columns - frame.left, rows - frame.top
            # Cloth is drawn to one scale, as are the widths of its strips beside it.
            found = None if marks else _spread(figure, pitch, *room, cell_ratio)
            found = found or _fit(figure, pitch, *room, cell_ratio, grain)
            if found is not None and (best is None or found[0].rows > _WORTH * best[0].rows):
                best = (*found, frame)
    if best is None:
        return _described(figure, columns, rows, show, ascii=ascii)
    at, laid, frame = best
    canvas = Canvas(at, grain)
    canvas.paint(laid)
    hatches = hatched([area.fill for area in laid.areas], canvas.owner, ascii=ascii)
    grid = inked(canvas, laid.areas, hatches, ascii=ascii)
    seen = {cell.fill for row in grid for cell in row if cell.kind == "fill"}
    placed = put_labels(grid, canvas, laid, shorter or {}, ascii=ascii)
    signs = signs_of(seen, set() if all_told else placed, canvas, figure, hatches, ascii=ascii)
    put_words(grid, canvas, laid)
    lines = framed(grid, at, frame, columns)
    width = max(map(len, lines))
    return Picture(
        tuple(runs_of([*line, *[NOTHING] * (width - len(line))]) for line in lines),
        width,
        signs,
        left_out=at.dropped is not None,
    )


def _spread(
    figure: Figure, pitch: Pitch | None, columns: int, rows: int, ratio: float
) -> tuple[Fit, Figure] | None:
    return None if pitch is None or figure.words else spread(figure, pitch, columns, rows, ratio)


def _fit(
    figure: Figure, pitch: Pitch | None, columns: int, rows: int, ratio: float, grain: Grain
) -> tuple[Fit, Figure] | None:
    """The fit, and the figure with the words that find room to the right of where they begin."""
    room, at = columns, fit(figure, pitch, columns, rows, ratio, grain)
    while at is not None:
        sx = at.sx
        ends = max((round(w.x * sx) + cells_of(w.words) for w in figure.words), default=0)
        if ends <= columns:
            break
        if room <= columns // 3:
            break
        room -= max(1, min(ends - columns, room // 3))
        at = fit(figure, pitch, room, rows, ratio, grain)
    if at is None:
        return None
    kept = [w for w in figure.words if round(w.x * sx) + cells_of(w.words) <= columns]
    return at, replace(figure, words=kept)


def signs_of(
    seen: set[str],
    placed: set[str],
    canvas: Canvas,
    figure: Figure,
    hatches: Mapping[str, str],
    *,
    ascii: bool,  # noqa: A002 - as in `draw`
) -> tuple[Sign, ...]:
    """What is seen: hatches, and lines that stand for areas too narrow for one; with their labels.

    `seen` are fills whose hatch is in sight, `hatches` all marks by fill. Labels of a fill that are all
    `placed` need no second telling; where one is not, all are told, for they share the fill.
    """
    labels: dict[str, dict[str, None]] = {fill: {} for fill in hatches}
    for area in figure.areas:
        if area.label:
            labels[area.fill][area.label] = None
    labels = {fill: {} if set(names) <= placed else names for fill, names in labels.items()}
    owners = {owner for row in canvas.owner for owner in row}
    shown = {figure.areas[owner].fill for owner in owners if owner >= 0} | canvas.thin
    shown |= {fill for fill in set(hatches) - shown if _peeps_out(figure, fill)}
    narrow = ("'" if canvas.at.fine else "=") if ascii else "⠶" if canvas.at.fine else "═"
    thick = narrow if canvas.at.fine else "=" if ascii else "━"
    unseen = {fill for fill in hatches if fill not in {figure.areas[o].fill for o in owners if o >= 0}}
    lines = dict.fromkeys(hatches, narrow) | dict.fromkeys(canvas.thin | unseen, thick)
    return tuple(
        Sign(mark if fill in seen or mark == " " else lines[fill], fill, tuple(labels[fill]))
        for fill, mark in hatches.items()
        if fill in shown
    )


def _peeps_out(figure: Figure, fill: str) -> bool:
    """Whether some of a fill's rectangles are larger than all that lies on them: a binding's edge."""
    areas = figure.areas
    for n, area in enumerate(areas):
        if area.fill != fill or area.corners:
            continue
        on_it = (
            (min(a.right, area.right) - max(a.left, area.left))
            * (min(a.bottom, area.bottom) - max(a.top, area.top))
            for a in areas[n + 1 :]
            if a.left < area.right and area.left < a.right and a.top < area.bottom and area.top < a.bottom
        )
        if sum(on_it) < (area.right - area.left) * (area.bottom - area.top) * (1 - 1e-9):
            return True
    return False


def patterns(shapes: Sequence[Shape], *, ascii: bool = False) -> dict[str, str]:  # noqa: A002 - as in `draw`
    """The mark of every fill that is seen in a picture of some size."""
    return {sign.fill: sign.mark for sign in draw(shapes, 120, 40, ascii=ascii).signs}


def _described(
    figure: Figure,
    columns: int,
    rows: int,
    show: Show | None,
    *,
    ascii: bool,  # noqa: A002 - as in `draw`
) -> Picture:
    """One line instead of a picture: the size and what there is; less where even that is too long."""
    if columns < 1 or rows < 1:
        return Picture((), 0, drawn=False)
    size = " × ".join(map(show, extent(figure))) if show and figure.areas else ""
    fills = [clean(fill, ascii=ascii) for fill in dict.fromkeys(area.fill for area in figure.areas)]
    named = ", ".join(fill for fill in fills if fill)
    for words in (f"{size}: {named}" if size and named else "", size, named):
        text = clean(words, ascii=ascii)
        if text and cells_of(text) <= columns:
            return Picture(((Run(text, "", "size"),),), cells_of(text), drawn=False)
    return Picture((), 0, drawn=False)
