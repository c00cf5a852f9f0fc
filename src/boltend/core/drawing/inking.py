"""A painted canvas as cells: a character, the fill below it and its kind for each."""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TypeAlias

from boltend.core.drawing.canvas import NOBODY, Canvas
from boltend.core.drawing.figure import Area
from boltend.core.drawing.glyphs import DOTS, HIDDEN, box
from boltend.core.drawing.hatches import SPACED
from boltend.core.drawing.picture import NOTHING, Cell

Grid: TypeAlias = list[list[Cell]]


def inked(canvas: Canvas, areas: Sequence[Area], hatches: Mapping[str, str], *, ascii: bool) -> Grid:  # noqa: A002 - as in `draw`
    """Every cell of a canvas, top row first."""
    ink = _Ink(canvas, areas, hatches, ascii)
    return [ink.row(r) for r in range(canvas.at.rows + 1)]


class _Ink:
    def __init__(
        self,
        canvas: Canvas,
        areas: Sequence[Area],
        hatches: Mapping[str, str],
        ascii: bool,  # noqa: A002 - as in `draw`
    ) -> None:
        self.canvas, self.ascii = canvas, ascii
        self.known: dict[tuple[str, str], Cell] = {}
        self.fills = [area.fill for area in areas]
        spaced = _roomy(canvas, areas)
        self.plain = {
            fill: (
                Cell(mark, fill, "fill"),
                Cell(" " if mark in SPACED and fill in spaced else mark, fill, "fill"),
            )
            for fill, mark in hatches.items()
        }
        covered = canvas.covered
        # An edge with nothing on one of its sides is an outer one.
        self.outer_across = [row & ~(covered[r] & covered[r - 1]) for r, row in enumerate(canvas.across)]
        self.outer_down = [row & ~(covered[r] & covered[r] << 1) for r, row in enumerate(canvas.down)]
        fine = canvas.at.fine
        self.across = self.outer_across if fine else canvas.across
        self.down = self.outer_down if fine else canvas.down

    def row(self, r: int) -> list[Cell]:
        canvas, grain = self.canvas, self.canvas.grain
        across, down, up = self.across[r], self.down[r], self.down[r - 1] if r else 0
        lined = across | across << 1 | down | up
        dotted = canvas.dots[r * grain.down : (r + 1) * grain.down]
        some_dots, marks = 0, DOTS[grain]
        for each in dotted:
            some_dots |= each
        hidden = canvas.hidden_across[r] | canvas.hidden_across[r] << 1 | canvas.hidden_down[r]
        hidden |= canvas.hidden_down[r - 1] if r else 0
        cells = []
        step, width = grain.across, (1 << grain.across) - 1
        owners, fills, plain = canvas.owner[r], self.fills, self.plain
        for c in range(canvas.at.columns + 1):
            owner = owners[c]
            if lined >> c & 1:
                if owner == NOBODY:
                    owner = self._beside(r, c)
                cells.append(self._line(r, c, fills[owner] if owner != NOBODY else ""))
            elif some_dots >> c * step & width:
                bits, at = 0, 0
                for each in dotted:
                    bits |= (each >> c * step & width) << at
                    at += step
                cells.append(self._cell(marks[bits], fills[owner] if owner != NOBODY else ""))
            elif hidden >> c & 1:
                cells.append(self._cell(self._hidden(r, c), fills[owner] if owner != NOBODY else ""))
            elif owner == NOBODY:
                cells.append(NOTHING)
            else:
                cells.append(plain[fills[owner]][1 if (c + 2 * r) % 4 else 0])
        return cells

    def _cell(self, text: str, fill: str) -> Cell:
        found = self.known.get((text, fill))
        if found is None:
            found = self.known[text, fill] = Cell(text, fill, "seam")
        return found

    def _beside(self, r: int, c: int) -> int:
        """The area to the left or above: an edge at the right or below belongs to it."""
        owner = self.canvas.owner
        for row, column in ((r, c - 1), (r - 1, c), (r - 1, c - 1)):
            if row >= 0 and column >= 0 and owner[row][column] != NOBODY:
                return owner[row][column]
        return NOBODY

    def _line(self, r: int, c: int, fill: str) -> Cell:
        canvas = self.canvas
        across, thick = self.across, canvas.thick_across
        down, thick_down = self.down, canvas.thick_down
        arms = [
            _weight(down[r - 1] >> c, self.outer_down[r - 1] >> c, thick_down[r - 1] >> c) if r else 0,
            _weight(across[r] >> c, self.outer_across[r] >> c, thick[r] >> c),
            _weight(down[r] >> c, self.outer_down[r] >> c, thick_down[r] >> c),
            _weight(across[r] >> (c - 1), self.outer_across[r] >> (c - 1), thick[r] >> (c - 1)) if c else 0,
        ]
        return Cell(box(*arms, ascii=self.ascii), fill, "line" if max(arms) > 1 else "seam")

    def _hidden(self, r: int, c: int) -> str:
        level = self.canvas.hidden_across
        is_level = level[r] >> c & 1 or (c and level[r] >> (c - 1) & 1)
        if self.ascii and is_level and c % 2:
            return " "
        return HIDDEN[self.ascii][0 if is_level else 1]


def _roomy(canvas: Canvas, areas: Sequence[Area]) -> set[str]:
    """Fills whose areas have room enough for a mark in every fourth cell to be seen."""
    cells: Counter[str] = Counter()
    counts: Counter[str] = Counter()
    for area in areas:
        counts[area.fill] += 1
        wide, high = (area.right - area.left) * canvas.at.sx, (area.bottom - area.top) * canvas.at.sy
        cells[area.fill] += int(wide - 1) * int(high - 1) if wide > 3 and high > 2 else 0
    return {fill for fill in cells if cells[fill] >= 12 * counts[fill]}


def _weight(there: int, outer: int, thick: int) -> int:
    if not there & 1:
        return 0
    return 2 if outer & 1 else 3 if thick & 1 else 1
