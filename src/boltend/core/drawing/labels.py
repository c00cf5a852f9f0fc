"""Words in a picture: whole where they find room, else none."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from boltend.core.drawing.canvas import Canvas
from boltend.core.drawing.figure import Figure
from boltend.core.drawing.inking import Grid
from boltend.core.drawing.picture import Cell, cells_for
from boltend.core.drawing.widths import cells_of, clean

_MOST_LINES = 3


def put_labels(
    grid: Grid,
    canvas: Canvas,
    figure: Figure,
    shorter: Mapping[str, str],
    *,
    ascii: bool,  # noqa: A002 - as in `draw`
) -> set[str]:
    """Write each area's label into the free cells of it, in one line or broken at blanks; tell which."""
    named: dict[str, list[int]] = {}
    for n, area in enumerate(figure.areas):
        if area.label:
            named.setdefault(area.label, []).append(n)
    rooms = _rooms(grid, canvas, {n for alike in named.values() for n in alike}) if named else {}
    placed: set[str] = set()
    for label, alike in named.items():
        full, short = clean(label, ascii=ascii), clean(shorter.get(label, ""), ascii=ascii)
        places = [_place(rooms.get(n, {}), full, _middle(canvas, figure, n)) for n in alike]
        if short and None in places:  # equal pieces bear equal words
            places = [_place(rooms.get(n, {}), short, _middle(canvas, figure, n)) for n in alike]
        for n, place in zip(alike, places, strict=True):
            if place is not None:
                placed.add(label)
                _write(grid, place, figure.areas[n].fill)
    return placed


class _Place(NamedTuple):
    """Lines of words, the row of the first, and the columns that are free for them."""

    lines: list[str]
    top: int
    room: tuple[int, int]


def _middle(canvas: Canvas, figure: Figure, n: int) -> float:
    return (figure.areas[n].top + figure.areas[n].bottom) / 2 * canvas.at.sy


def _rooms(grid: Grid, canvas: Canvas, wanted: set[int]) -> dict[int, dict[int, list[tuple[int, int]]]]:
    """By area and row the runs of free cells: first column and the one after the last."""
    found: dict[int, dict[int, list[tuple[int, int]]]] = {}
    for r, row in enumerate(grid):
        owners = canvas.owner[r]
        start, whose = 0, -1
        for c in range(len(row) + 1):
            here = owners[c] if c < len(row) and row[c].kind == "fill" else -1
            if here != whose:
                if whose in wanted:
                    found.setdefault(whose, {}).setdefault(r, []).append((start, c))
                start, whose = c, here
    return found


def _place(rows: dict[int, list[tuple[int, int]]], label: str, middle: float) -> _Place | None:
    """Where a label finds room, as near to the middle of its area as can be; None where it finds none."""
    for lines in broken(label) if label else ():
        wide, high = max(map(cells_of, lines)), len(lines)
        places = [
            (round(abs(top + (high - 1) / 2 - middle), 6), left - right, top, left, right)
            for top in rows
            for left, right in _common(rows, top, high)
            if right - left >= wide
        ]
        if places:
            _, _, top, left, right = min(places)
            return _Place(lines, top, (left, right))
    return None


def _common(rows: dict[int, list[tuple[int, int]]], top: int, high: int) -> Iterator[tuple[int, int]]:
    """The columns that are free in `high` rows from `top` on."""
    common = rows[top]
    for r in range(top + 1, top + high):
        common = [
            (max(a, c), min(b, d)) for a, b in common for c, d in rows.get(r, ()) if max(a, c) < min(b, d)
        ]
    yield from common


def broken(label: str) -> Iterator[list[str]]:
    """The label in one line, then as evenly as its blanks allow in two and three."""
    yield [label]
    words = label.split(" ")
    for count in range(2, min(_MOST_LINES, len(words)) + 1):
        wide = max(max(map(cells_of, words)), -(-cells_of(label) // count))
        while True:
            lines = [words[0]]
            for word in words[1:]:
                if cells_of(lines[-1]) + 1 + cells_of(word) <= wide:
                    lines[-1] += f" {word}"
                else:
                    lines.append(word)
            if len(lines) <= count:
                break
            wide += 1
        yield lines


def _write(grid: Grid, place: _Place, fill: str) -> None:
    left, right = place.room
    for row, words in zip(grid[place.top :], place.lines, strict=False):
        cells = cells_for(words, fill, "label")
        at = left + (right - left - len(cells)) // 2
        # A blank on each side, so that the hatch does not run into the words.
        if at > left:
            row[at - 1] = Cell(" ", fill, "label")
        if at + len(cells) < right:
            row[at + len(cells)] = Cell(" ", fill, "label")
        row[at : at + len(cells)] = cells


def put_words(grid: Grid, canvas: Canvas, figure: Figure) -> None:
    """Write notes where they stand, over what is there or beside it."""
    for words in figure.words:
        row = grid[min(len(grid) - 1, max(0, round(words.y * canvas.at.sy)))]
        at = max(0, round(words.x * canvas.at.sx))
        cells = cells_for(words.words, "", "label")
        if at + len(cells) > len(row):
            row += [Cell(" ", "", "fill")] * (at + len(cells) - len(row))
        fills = [cell.fill for cell in row[at : at + len(cells)]]
        row[at : at + len(cells)] = [c._replace(fill=f) for c, f in zip(cells, fills, strict=True)]
        # Half of a wide character that stood there is none.
        if cells and at and cells_of(row[at - 1].text) > 1:
            row[at - 1] = row[at - 1]._replace(text=" ")
        if cells and at + len(cells) < len(row) and not row[at + len(cells)].text:
            row[at + len(cells)] = row[at + len(cells)]._replace(text=" ")
