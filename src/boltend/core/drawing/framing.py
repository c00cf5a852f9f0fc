"""What stands beside a picture: its size, the sizes of strips."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor
from typing import Literal, NamedTuple

from boltend.core.drawing.figure import Figure, extent
from boltend.core.drawing.fit import Fit
from boltend.core.drawing.inking import Grid
from boltend.core.drawing.picture import NOTHING, Cell, Show, cells_for
from boltend.core.drawing.widths import cells_of, clean

_GAP = 1e-6
_ARROWS = {False: ("←", "─", "→", "↑", "│", "↓"), True: ("<", "-", ">", "^", "|", "v")}
_MOST_LEVELS = 2


class Mark(NamedTuple):
    """Words beside a picture, at the middle of `start` to `end` (inches from its top left corner).

    With `arrows` they reach from there to there.
    """

    side: Literal["top", "left"]
    start: float
    end: float
    words: str
    arrows: bool = False


@dataclass(frozen=True)
class Frame:
    """Cells that are kept free to the left and above, and the marks that stand there."""

    left: int = 0
    top: int = 0
    marks: tuple[Mark, ...] = ()
    ascii: bool = False


def frames(figure: Figure, show: Show | None, marks: Sequence[Mark], *, ascii: bool) -> Iterator[Frame]:  # noqa: A002 - as in `draw`
    """Ways to frame a figure, the better first where they leave as much room."""
    marks = [mark._replace(words=clean(mark.words, ascii=ascii)) for mark in marks]
    if show is None or not figure.areas or figure.words:
        yield _frame(marks, ascii)
        return
    parts = _apart([(area.left, area.right) for area in figure.areas], figure.width)
    if len(parts) > 1:
        yield _frame([*marks, *_parts(figure, parts, show, ascii)], ascii)
        return
    if len(_apart([(area.top, area.bottom) for area in figure.areas], figure.height)) > 1:
        yield _frame(marks, ascii)  # several things below each other have no common size
        return
    width, height = (clean(show(size), ascii=ascii) for size in extent(figure))
    yield _frame(
        [
            *marks,
            Mark("top", 0, figure.width, width, arrows=True),
            Mark("left", 0, figure.height, height, arrows=True),
        ],
        ascii,
    )
    both = clean(f"{width} × {height}", ascii=ascii)
    yield _frame([*marks, Mark("top", 0, figure.width, both)], ascii)


def _frame(marks: Sequence[Mark], ascii: bool) -> Frame:  # noqa: A002 - as in `draw`
    left = max((cells_of(mark.words) + 1 for mark in marks if mark.side == "left"), default=0)
    arrows = any(mark.arrows for mark in marks if mark.side == "top")
    plain = [mark for mark in marks if mark.side == "top" and not mark.arrows]
    return Frame(left, arrows + min(len(plain), 1), tuple(marks), ascii)


def _apart(spans: Sequence[tuple[float, float]], whole: float) -> list[tuple[float, float]]:
    """Spans joined where they touch."""
    found: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1] + whole * _GAP:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def _parts(
    figure: Figure,
    parts: Sequence[tuple[float, float]],
    show: Show,
    ascii: bool,  # noqa: A002 - as in `draw`
) -> Iterator[Mark]:
    """The size of each of several things side by side, above it; none of what is itself in several pieces."""
    for left, right in parts:
        inside = [n for n, area in enumerate(figure.areas) if left <= area.left and area.right <= right]
        areas = [figure.areas[n] for n in inside]
        if len(_apart([(area.top, area.bottom) for area in areas], figure.height)) > 1:
            continue
        top = min(area.top for area in areas)
        moved = [
            area._replace(
                left=area.left - left, right=area.right - left, top=area.top - top, bottom=area.bottom - top
            )
            for area in areas
        ]
        part = Figure(
            moved,
            width=right - left,
            height=max(area.bottom for area in moved),
            sources=[figure.sources[n] for n in inside],
        )
        width, height = map(show, extent(part))
        yield Mark("top", left, right, clean(f"{width} × {height}", ascii=ascii))


def framed(grid: Grid, at: Fit, frame: Frame, columns: int) -> Grid:
    """The picture with its margins; words that find no room are left out."""
    rows = [[NOTHING] * frame.left + row for row in grid]
    for mark in frame.marks:
        if mark.side == "left":
            _left(rows, at, mark, frame)
    above = [_blank(columns) for _ in range(frame.top)]
    for mark in frame.marks:
        if mark.side == "top":
            _top(above, at, mark, frame, columns)
    above = [row for row in above if any(cell.kind == "size" for cell in row)]
    return [*map(_trimmed, above), *rows]


def _blank(columns: int) -> list[Cell]:
    return [NOTHING] * columns


def _trimmed(row: list[Cell]) -> list[Cell]:
    while row and row[-1] == NOTHING:
        row.pop()
    return row


def _left(rows: Grid, at: Fit, mark: Mark, frame: Frame) -> None:
    first, last = round(mark.start * at.sy), min(len(rows) - 1, round(mark.end * at.sy))
    middle = min(last, floor((mark.start + mark.end) / 2 * at.sy + 0.5 - _GAP))  # as labels are placed
    if any(cell.kind == "size" for cell in rows[middle][: frame.left]):
        return
    if mark.arrows and last - first > 1:
        *_, up, stem, down = _ARROWS[frame.ascii]
        for r in range(first, last + 1):
            arrow = up if r == first else down if r == last else stem
            rows[r][frame.left - 2] = Cell(arrow, "", "size")
    cells = cells_for(mark.words, "", "size")
    rows[middle][frame.left - 1 - len(cells) : frame.left - 1] = cells


def _top(above: Grid, at: Fit, mark: Mark, frame: Frame, columns: int) -> None:
    first, last = frame.left + round(mark.start * at.sx), frame.left + round(mark.end * at.sx)
    row = above[0] if mark.arrows else above[-1]
    if mark.arrows and first < len(row) and row[first] != NOTHING:
        first += 1  # the one before ends where this one begins
    words, room = mark.words, last - first + 1
    if mark.arrows and room >= cells_of(words) + 6:
        begin, stem, end, *_ = _ARROWS[frame.ascii]
        stems = room - cells_of(words) - 4
        words = f"{begin}{stem * (stems // 2)} {words} {stem * (stems - stems // 2)}{end}"
    cells = cells_for(words, "", "size")
    start = max(0, min(first + (room - len(cells)) // 2, columns - len(cells)))
    beside = 0 if len(cells) == room else 2
    taken = row[max(0, start - beside) : start + len(cells) + beside]
    if start + len(cells) <= columns and all(cell == NOTHING for cell in taken):
        row[start : start + len(cells)] = cells
