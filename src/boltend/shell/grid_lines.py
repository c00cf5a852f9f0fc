"""Rows that were found, side by side: a table where it fits, else each row as a column of its own."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from rich.cells import cell_len

from boltend.core.report.tab_sheet import Grid
from boltend.shell.texts import clipped, padded, shown, wrapped

Part = tuple[str, str]
Line = tuple[Part, ...]
"""Parts of a line, each with its look."""

_KINDS = ("finished", "cut")
_BETWEEN = 2
_MOST_HEAD_LINES = 3


def grid_lines(grid: Grid, width: int) -> Iterator[Line]:
    """The rows of a grid in lines of `width` cells, numbered, for a person picks one by its number."""
    grid = _kinds_in_heads(grid)
    number = len(str(len(grid.rows))) + 2
    widths = [_column_width(head, cells) for head, cells in zip(grid.columns, _columns(grid), strict=True)]
    if number + sum(widths) + _BETWEEN * (len(widths) - 1) <= width:
        yield from _table(grid, widths, number)
    else:
        yield from _turned(grid, width)


def _kinds_in_heads(grid: Grid) -> Grid:
    """A kind that a whole column has is said once, in its head: `Width, finished`."""
    heads, columns = [], []
    for head, cells in zip(grid.columns, _columns(grid), strict=True):
        kind = next((kind for kind in _KINDS if all(cell.endswith(f" {kind}") for cell in cells)), "")
        heads.append(f"{head}, {kind}" if kind else head)
        columns.append([cell.removesuffix(f" {kind}") for cell in cells] if kind else cells)
    return Grid(grid.label, tuple(heads), tuple(zip(*columns, strict=True)))


def _columns(grid: Grid) -> list[tuple[str, ...]]:
    return list(zip(*grid.rows, strict=True))


def _column_width(head: str, cells: Sequence[str]) -> int:
    """As wide as its widest cell; its head may take several lines, but no word of it is broken."""
    widest = max([*map(cell_len, map(shown, cells)), *(cell_len(word) for word in head.split())])
    while len(wrapped(head, widest)) > _MOST_HEAD_LINES:
        widest += 1
    return widest


def _table(grid: Grid, widths: Sequence[int], number: int) -> Iterator[Line]:
    heads = [wrapped(head, max(4, width)) for head, width in zip(grid.columns, widths, strict=True)]
    tallest = max(map(len, heads))
    heads = [("",) * (tallest - len(head)) + head for head in heads]
    between = " " * _BETWEEN
    for line in zip(*heads, strict=True):
        text = between.join(padded(part, w) for part, w in zip(line, widths, strict=True))
        yield ((" " * number + text.rstrip(), "muted"),)
    for n, row in enumerate(grid.rows, 1):
        text = between.join(padded(cell, w) for cell, w in zip(row, widths, strict=True))
        yield ((f"{n:>{number - 2}}. ", "muted"), (text.rstrip(), ""))


def _turned(grid: Grid, width: int) -> Iterator[Line]:
    """As many rows beside each other as fit, each in a column; then the next ones below."""
    label = min(max(cell_len(head) for head in grid.columns), max(8, width // 2))
    room = width - label - _BETWEEN
    at = 0
    while at < len(grid.rows):
        widths = list(_that_fit([max(map(cell_len, map(shown, row))) for row in grid.rows[at:]], room))
        if at:
            yield (("", ""),)
        numbers = [padded(f"{at + n + 1}.", w) for n, w in enumerate(widths)]
        between = " " * _BETWEEN
        yield ((" " * (label + _BETWEEN) + between.join(numbers).rstrip(), "muted"),)
        for head, cells in zip(grid.columns, _columns(grid), strict=True):
            beside = between.join(
                padded(cell, w) for cell, w in zip(cells[at : at + len(widths)], widths, strict=True)
            )
            for first, more in zip_longest(wrapped(head, label), [beside.rstrip()], fillvalue=""):
                yield ((padded(first, label) + between, "muted"), (clipped(more, room), ""))
        at += len(widths)


def _that_fit(wanted: Sequence[int], room: int) -> Iterator[int]:
    """Widths of the first rows that fit beside each other: one at least, clipped where it must be."""
    taken = 0
    for n, width in enumerate(wanted):
        width = max(4, width)
        if n and taken + width > room:
            return
        yield min(width, room)
        taken += width + _BETWEEN
