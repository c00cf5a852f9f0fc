"""The plan to take to the cutting table: To buy, To cut, and every tab as a worked problem."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import count

from boltend.core.drawing import CutPicture
from boltend.core.drawing.cut_pictures import cut_marks
from boltend.core.flow import Workbook
from boltend.core.paper.model import Block, Heading, Items, Picture, Row, Sheet, Table, Text
from boltend.core.paper.texts import seen
from boltend.core.pool import Lists
from boltend.core.project.model import Tab
from boltend.core.report.ladder_forms import Done, ladder_notes, ladder_rows, ladders_not_done
from boltend.core.report.list_words import CutSheet, buy_sheet, cut_sheets
from boltend.core.report.quilt_picture import WholeQuilt, quilt_of_several
from boltend.core.report.quilt_size import finished_size
from boltend.core.report.safety import CUTTING_CAUTION, any_cut
from boltend.core.report.tab_sheet import Entry, Grid, TabSheet, tab_sheet
from boltend.core.report.text import NO_NAME, NO_TABS

CUT_ROOM = (520.0, 230.0)
"""Points that the picture of a cutting plan may take: as wide as the paper, for the sizes in its strips."""

TAB_ROOM = (330.0, 215.0)
TURNED_COLUMNS, TURNED_ROWS = 4, 3
"""A table of more columns than that, and no more rows, lies on its side."""


def plan_sheet(
    book: Workbook,
    tabs: Sequence[Tab],
    lists: Lists,
    *,
    pictures: bool = True,
    working: bool = False,
    called: str = "",
    ladders: Sequence[Done] = (),
) -> Sheet:
    """The whole plan of these tabs; their working only where it is asked for.

    A project without a name is `called` so. `ladders` are those that it keeps, as far as they are worked out.
    """
    maker = _Maker(colours_of(lists), pictures, working)
    how = book.basis.settings.notation
    blocks = [
        *head(book, tabs, called),
        *maker.quilt(quilt_of_several(book, tabs)),
        *buy_blocks(lists, book),
        *maker.cuts(cut_sheets(lists, how), any_cut(book.results[tab.key].answer for tab in tabs)),
    ]
    for tab in tabs:
        blocks += maker.tab(tab_sheet(book, tab))
    blocks += maker.ladders(book, tabs, ladders)
    if not tabs:
        blocks.append(Text(NO_TABS))
    return Sheet(title_of(book, called), tuple(blocks))


def title_of(book: Workbook, called: str = "") -> str:
    """The project's name; where there is none what it is `called`, or what the sheet is."""
    names = (seen(" ".join(name.split())) for name in (book.project.name, called))
    return next(filter(None, names), NO_NAME)


def head(book: Workbook, tabs: Sequence[Tab], called: str = "") -> Iterator[Block]:
    """The sheet's own heading, of all tabs the finished size, and the project's notes."""
    yield Heading(title_of(book, called), 1, "top")
    size = finished_size(book, tabs)
    if size:
        yield Text(seen(size))
    notes = book.project.settings.get("notes")
    for line in notes.splitlines() if isinstance(notes, str) else ():
        if line.strip():
            yield Text(seen(line.strip()), own=True)


def colours_of(lists: Lists) -> dict[str, str]:
    """The colours of the fabrics that have one, as #rrggbb."""
    return {each.cloth.name: each.cloth.colour for each in lists.fabrics if each.cloth.colour}


def buy_blocks(lists: Lists, book: Workbook) -> Iterator[Block]:
    """The shopping list with its notes and the total."""
    sheet = buy_sheet(lists, book.basis.settings.notation)
    if not sheet.rows:
        return
    yield Heading("To buy", 2, "to-buy")
    rows = tuple(
        Row(_seen(row.what, row.amount, row.price, row.cost), _seen(*row.notes)) for row in sheet.rows
    )
    last = sheet.total_row
    total = Row(_seen(last.what, last.amount, last.price, last.cost)) if sheet.total else None
    yield Table("", ("What", "Amount", "Price", "Cost"), rows, frozenset({3}), total)
    yield from (Text(seen(note), "faint") for note in sheet.notes)


def _seen(*texts: str) -> tuple[str, ...]:
    return tuple(map(seen, texts))


class _Maker:
    """Makes blocks; every heading gets a key of its own."""

    def __init__(self, colours: Mapping[str, str], pictures: bool, working: bool) -> None:
        self.colours, self.pictures, self.working = colours, pictures, working
        self.keys = (f"part-{n}" for n in count(1))

    def quilt(self, whole: WholeQuilt | None) -> Iterator[Block]:
        """The whole quilt, above all lists."""
        if whole is not None and self.pictures:
            yield quilt_drawn(whole, self.colours, TAB_ROOM)

    def ladders(self, book: Workbook, tabs: Sequence[Tab], done: Sequence[Done]) -> Iterator[Block]:
        """The ladders that the project keeps, each a table; what is missing or warned of stands below."""
        not_done = ladders_not_done(book, tabs, done)
        if done or not_done:
            yield Heading("Ladders", 2, next(self.keys))
        for each in done:
            columns, *rows = ladder_rows(*each)
            if len(columns) > len(rows) + 1:  # a broad one lies on its side
                columns, *rows = map(list, zip(columns, *rows, strict=True))
            named = tuple(Row(_seen(*row)) for row in rows)
            yield Table(seen(each[0].name), _seen(*columns), named)
            yield from (Text(seen(said), "faint") for said in ladder_notes(*each))
        if not_done:
            yield Text(seen(not_done), "faint")

    def cuts(self, sheets: Sequence[CutSheet], cautioned: bool) -> Iterator[Block]:
        """To cut, fabric by fabric; the caution of blades comes before the first cut."""
        if sheets:
            yield Heading("To cut", 2, "to-cut")
        if cautioned:
            yield Text(CUTTING_CAUTION, "caution")
        for sheet in sheets:
            yield Heading(seen(sheet.title), 3, next(self.keys))
            yield from (Text(seen(fact)) for fact in sheet.facts)
            yield from _items("", sheet.steps, ordered=True)
            for picture in sheet.pictures if self.pictures else ():
                yield cut_picture(picture, self.colours)
            yield from _items("Pieces", sheet.pieces)
            yield from _items("Left over", sheet.leftovers)
            yield from (Text(seen(note), "faint") for note in sheet.notes)

    def tab(self, sheet: TabSheet) -> Iterator[Block]:
        """One tab as a worked problem."""
        flags = f" ({', '.join(sheet.flags)})" if sheet.flags else ""
        yield Heading(seen(f"{sheet.name or '(no name)'}{flags}"), 2, next(self.keys))
        asks = f"{sheet.asks} ({sheet.calculator})" if sheet.asks else sheet.calculator or "(no calculator)"
        yield Text(seen(asks), "faint")
        if sheet.note:
            yield from (Text(seen(line), own=True) for line in sheet.note.splitlines() if line.strip())
        if sheet.state != "worked out":
            yield from _items(sheet.state.capitalize(), sheet.why, caution=True)
        yield from _entries("Given", sheet.given)
        yield from _entries("Found", sheet.found)
        yield from map(_grid, sheet.grids)
        if self.pictures and sheet.shapes:
            yield tab_picture(sheet, self.colours)
        yield from _items("Cautions", sheet.cautions, caution=True)
        if self.working:
            yield from _items("Working", sheet.working)


def quilt_drawn(whole: WholeQuilt, colours: Mapping[str, str], room: tuple[float, float]) -> Picture:
    """The whole quilt, with its size and those of its parts."""
    shapes, show, facts = whole
    return Picture("The quilt", shapes, show, colours=colours, room=room, all_told=True, facts=facts)


def tab_picture(sheet: TabSheet, colours: Mapping[str, str]) -> Picture:
    """A tab's picture with its overall size."""
    return Picture(f"Picture of “{seen(sheet.name)}”", sheet.shapes, sheet.show, colours=colours,
                   room=TAB_ROOM)  # fmt: skip


def cut_picture(picture: CutPicture, colours: Mapping[str, str]) -> Picture:
    """How a piece of cloth is cut, with the widths of its strips."""
    return Picture(
        title=seen(picture.title),
        shapes=tuple(picture.shapes()),
        marks=tuple(cut_marks(picture)),
        shorter={patch.label: patch.short for band in picture.bands for patch in band.patches},
        key=tuple(map(seen, picture.key)),
        colours=colours,
        room=CUT_ROOM,
    )


def _items(
    title: str, lines: Sequence[str], *, ordered: bool = False, caution: bool = False
) -> Iterator[Items]:
    if lines:
        yield Items(title, tuple(map(seen, lines)), ordered, caution)


def _entries(title: str, entries: Sequence[Entry]) -> Iterator[Table]:
    """Givens or founds; columns that say nothing are left out."""
    if not entries:
        return
    rows = [(e.label, e.value, e.also, e.origin) for e in entries]
    kept = [n for n in range(4) if n < 2 or any(row[n] for row in rows)]
    columns = (title, "Value", "In the other system", "From")
    yield Table(
        title,
        tuple(columns[n] for n in kept),
        tuple(Row(_seen(*(row[n] for n in kept))) for row in rows),
    )


def _grid(grid: Grid) -> Table:
    """A table of rows; a broad one of few rows lies on its side, so that it can be read on a narrow page."""
    columns, rows = grid.columns, grid.rows
    if len(columns) > TURNED_COLUMNS and len(rows) <= TURNED_ROWS:
        head, *others = zip(columns, *rows, strict=True)
        return Table(seen(grid.label), _seen(*head), tuple(Row(_seen(*each)) for each in others))
    return Table(seen(grid.label), _seen(*columns), tuple(Row(_seen(*row)) for row in rows))
