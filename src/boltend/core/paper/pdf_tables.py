"""Tables in a PDF: columns as wide as they need, rows that stay whole, a head on every page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boltend.core.paper.model import Row, Table
from boltend.core.paper.pdf_fonts import BOLD, PLAIN, lines_of, wide
from boltend.core.paper.pdf_pen import Pen
from boltend.core.paper.pdf_slabs import FAINT, INK, Look, Slab
from boltend.core.paper.texts import reads_from_right

_GAP = 10.0  # between columns
_PAD = 0.3  # of the size, above and below a row
_BROAD = 6
"""Columns from which the letters are smaller."""

_MOST_LINES = 20
"""Lines of a row from which a page may part it."""


@dataclass(frozen=True)
class _Cells:
    """The lines of a row's cells, which stand at `lefts`, and the lines of its notes."""

    lines: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]
    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    right: frozenset[int]
    size: float
    high: float
    face: str = PLAIN
    colour: str = INK
    rule: tuple[str, float] = ("#bbbbbb", 0.5)
    above: float = 0.0

    @property
    def height(self) -> float:
        """All of it, with room above and below."""
        return 2 * _PAD * self.size + self.high * (max(map(len, self.lines)) + len(self.notes))

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw it with its top left corner there, a line below it."""
        end = self.lefts[-1] + self.widths[-1]
        if self.above:
            pen.line(x, y, x + end, y, INK, self.above)
        for column, lines in enumerate(self.lines):
            for n, line in enumerate(lines):
                middle = y + _PAD * self.size + self.high * (n + 0.5)
                left = x + self.lefts[column]
                at_right = column in self.right
                pen.text(
                    left + self.widths[column] if at_right else left,
                    middle,
                    line,
                    self.size,
                    face=self.face,
                    anchor="end" if at_right else "start",
                    colour=self.colour,
                    from_right=column == 0 and reads_from_right(line),
                )
        for n, line in enumerate(self.notes):
            middle = y + _PAD * self.size + self.high * (max(map(len, self.lines)) + n + 0.5)
            pen.text(x + 8, middle, line, self.size * 0.9, colour=FAINT)
        pen.line(x, y + self.height, x + end, y + self.height, *self.rule)

    def texts(self) -> tuple[str, ...]:
        """Every cell and note as it is read."""
        return (*(" ".join(lines) for lines in self.lines), *self.notes)


def table_slabs(table: Table, look: Look, width: float) -> Iterator[Slab]:
    """The title, the head, the rows."""
    scale = look.small / 8.5 * (7.0 if len(table.columns) >= _BROAD else 8.5)
    maker = _Maker(table, scale, width)
    titled = bool(table.title) and table.title != table.columns[0]
    if titled:
        for n, line in enumerate(lines_of(table.title, BOLD, look.size, width)):
            title = _title(line, look)
            yield Slab(look.leading, title, "label", 0.0 if n else 10.0 * look.scale, keep=True, says=(line,))
    head = maker.cells(Row(table.columns), face=BOLD, colour=FAINT, rule=(INK, 0.8))
    slab = Slab(
        head.height,
        head.draw,
        "table head",
        (2.0 if titled else 9.0) * look.scale,
        keep=True,
        says=head.texts(),
    )
    yield slab
    rows = [maker.cells(row) for row in table.rows]
    if table.total is not None:
        rows.append(maker.cells(table.total, face=BOLD, above=1.0))
    for n, row in enumerate(rows):
        parts = list(_parts(row))
        stays = (
            n == len(rows) - 2 or n == 0 < len(rows) - 1
        )  # neither the first row nor the last stands alone
        for part in parts:
            yield Slab(part.height, part.draw, "row", keep=stays and part is parts[-1], head=slab,
                       says=part.texts())  # fmt: skip


def _title(words: str, look: Look):  # type: ignore[no-untyped-def]  # a slab's `draw`
    return lambda pen, x, y: pen.text(x, y + look.leading / 2, words, look.size, face=BOLD)


def _parts(row: _Cells) -> Iterator[_Cells]:
    """A row whole, or one that no page may hold in several parts."""
    longest = max(map(len, row.lines))
    if longest <= _MOST_LINES:
        yield row
        return
    for at in range(0, longest, _MOST_LINES):
        lines = tuple(lines[at : at + _MOST_LINES] for lines in row.lines)
        last = at + _MOST_LINES >= longest
        yield _Cells(lines, row.notes if last else (), row.lefts, row.widths, row.right, row.size, row.high,
                     row.face, row.colour, row.rule if last else ("#ffffff", 0.1))  # fmt: skip


class _Maker:
    """Makes rows of one table: all their cells stand below each other."""

    def __init__(self, table: Table, size: float, width: float) -> None:
        self.table, self.size, self.width = table, size, width
        rows = [row.cells for row in table.rows]
        rows += [table.total.cells] if table.total else []
        natural = []
        for n, head in enumerate(table.columns):
            longest = max(
                (wide(cells[n], BOLD if cells is rows[-1] else PLAIN, size) for cells in rows), default=0
            )
            natural.append(max(longest, wide(head, BOLD, size)) + 1)
        room = width - _GAP * (len(natural) - 1)
        widths = list(_shared(natural, room))
        if table.grows is not None:
            widths[table.grows] += max(0.0, room - sum(widths))
        self.widths = tuple(widths)
        lefts = [0.0]
        for each in self.widths[:-1]:
            lefts.append(lefts[-1] + each + _GAP)
        self.lefts = tuple(lefts)

    def cells(
        self,
        row: Row,
        face: str = PLAIN,
        colour: str = INK,
        rule: tuple[str, float] = ("#bbbbbb", 0.5),
        above: float = 0.0,
    ) -> _Cells:
        """A row with its texts parted into lines."""
        lines = tuple(
            tuple(lines_of(cell, face, self.size, room))
            for cell, room in zip(row.cells, self.widths, strict=True)
        )
        notes = tuple(
            ("· " if not n else "  ") + line
            for note in row.notes
            for n, line in enumerate(lines_of(note, PLAIN, self.size * 0.9, self.width - 16))
        )
        return _Cells(lines, notes, self.lefts, self.widths, self.table.right, self.size, self.size * 1.3,
                      face, colour, rule, above)  # fmt: skip


def _shared(natural: Sequence[float], room: float) -> tuple[float, ...]:
    """Widths of columns: what each needs where that fits, else no more than an even share for the widest."""
    if sum(natural) <= room:
        return tuple(natural)
    narrow: dict[int, float] = {}
    while True:
        open_ = [n for n in range(len(natural)) if n not in narrow]
        share = (room - sum(narrow.values())) / max(1, len(open_))
        fits = {n: natural[n] for n in open_ if natural[n] <= share}
        if not fits:
            return tuple(narrow.get(n, share) for n in range(len(natural)))
        narrow |= fits
