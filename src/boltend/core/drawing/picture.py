"""A picture as rows of runs: what a screen paints and a print writes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal, NamedTuple, TypeAlias

from boltend.core.drawing.widths import clusters
from boltend.core.values import Number

Kind = Literal["line", "seam", "fill", "label", "size"]
"""What a run is: an outer edge, a seam within, the hatch of a fill, words in a shape, a measure."""

Show: TypeAlias = Callable[[Number], str]
"""Says a length (in inches) in the project's notation."""


class Run(NamedTuple):
    """Neighbouring cells alike: their text, the fill whose ground they stand on ("" is none), their kind."""

    text: str
    fill: str
    kind: Kind


class Cell(NamedTuple):
    """One cell; the second of a wide character has no text."""

    text: str
    fill: str
    kind: Kind


NOTHING = Cell(" ", "", "fill")


class Sign(NamedTuple):
    """A line of the legend: the mark, the fill that it stands for, and what its shapes are called."""

    mark: str
    fill: str
    labels: tuple[str, ...] = ()


@dataclass(frozen=True)
class Picture:
    """Rows of equal width in cells, top first.

    `signs` explain the hatches, largest fill first. `drawn` is no where a line of words stands instead of a
    picture; `left_out` tells that seams were too close together to be drawn.
    """

    rows: tuple[tuple[Run, ...], ...]
    width: int
    signs: tuple[Sign, ...] = ()
    drawn: bool = True
    left_out: bool = False

    def lines(self) -> list[str]:
        """The rows as text, each `width` cells wide."""
        return ["".join(run.text for run in row) for row in self.rows]


def runs_of(cells: Sequence[Cell]) -> tuple[Run, ...]:
    """A row of cells with those alike in one run."""
    return tuple(
        Run("".join(cell.text for cell in group), fill, kind)
        for (fill, kind), group in groupby(cells, key=lambda cell: (cell.fill, cell.kind))
    )


def cells_for(words: str, fill: str, kind: Kind) -> list[Cell]:
    """Words as cells."""
    cells = []
    for text, wide in clusters(words):
        cells += [Cell(text, fill, kind), *[Cell("", fill, kind)] * (wide - 1)]
    return cells
