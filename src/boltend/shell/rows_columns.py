"""Where the columns of a rows given stand: how wide, on how many lines, and with which heads."""

from collections.abc import Sequence
from dataclasses import dataclass

from boltend.core.contract import GivenSpec
from boltend.shell.texts import wrapped

_WIDTHS = {"count": 6, "text": 14, "fabric": 14, "yes_no": 7, "table_row": 16, "colour": 9}
_USUAL = 11
_WIDEST_CHOICE = 14
_LEFT = 5
"""Cells before the first column: the row's number and a mark."""

_BETWEEN = 2


@dataclass(frozen=True)
class Column:
    """One column: where it begins, its width in cells, and its head as lines of that width."""

    spec: GivenSpec
    x: int
    width: int
    head: tuple[str, ...]


def column_width(spec: GivenSpec) -> int:
    """Cells for a column's field, at least: no word of its head is broken."""
    word = max(map(len, spec.label.split()), default=0)
    usual = _WIDTHS.get(spec.kind, _USUAL)
    if spec.options:
        usual = min(_WIDEST_CHOICE, 2 + max(map(len, spec.options)))
    return max(usual, word)


def columns_in(columns: Sequence[GivenSpec], room: int) -> list[list[Column]]:
    """The columns on as many lines as they need. What a line has left widens those whose heads are long."""
    lines: list[list[tuple[GivenSpec, int]]] = [[]]
    taken = _LEFT
    for spec in columns:
        width = column_width(spec)
        if lines[-1] and taken + width > room:
            lines.append([])
            taken = _LEFT
        lines[-1].append((spec, width))
        taken += width + _BETWEEN
    return [_placed(line, room) for line in lines]


def _placed(line: Sequence[tuple[GivenSpec, int]], room: int) -> list[Column]:
    spare = room - _LEFT - sum(width + _BETWEEN for _, width in line) + _BETWEEN
    placed, x = [], _LEFT
    for spec, least in line:
        more = max(0, min(spare, len(spec.label) - least))
        spare -= more
        width = least + more
        placed.append(Column(spec, x, width, tuple(wrapped(spec.label, width))))
        x += width + _BETWEEN
    return placed


def head_lines(line: Sequence[Column]) -> int:
    """Lines that the heads of these columns take."""
    return max((len(column.head) for column in line), default=1)
