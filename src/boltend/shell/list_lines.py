"""To cut and To buy as lines of a given width. The words come from the core's report."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import count

from rich.cells import cell_len

from boltend.core.report.list_words import BuyRow, BuySheet, CutSheet
from boltend.core.report.safety import CUTTING_CAUTION
from boltend.shell.actions import key_of
from boltend.shell.picture_lines import cut_picture_lines
from boltend.shell.result_lines import PRICE_ASKED, ResultLine
from boltend.shell.texts import clipped, padded, shown, wrapped

CUT_ROWS = 18
"""Lines of one picture of how cloth is cut."""

MOST_PICTURES = 6
"""Pictures of one fabric; the steps tell all."""

MOST_DRAWN = 60
"""Fabrics whose pictures are drawn: each takes some milliseconds, and a key waits for all of them."""


@dataclass(frozen=True)
class ListSheets:
    """Both lists in words; `cut_notes` is what To cut rests on and leaves out, `colours` are the fabrics'."""

    cut: tuple[CutSheet, ...]
    cut_notes: tuple[str, ...]
    buy: BuySheet
    colours: Mapping[str, str] = field(default_factory=dict)


def cut_lines(sheets: ListSheets, width: int) -> Iterator[ResultLine]:
    """To cut, fabric by fabric; what is left out stands first, for a cut cannot be undone."""
    width = max(20, width - 1)
    if not sheets.cut:
        yield _line("Nothing to cut as the project stands.")
        yield from _gap(sheets.cut_notes)
    yield from _notes(sheets.cut_notes, width)
    if not sheets.cut:
        return
    first = 0
    fabrics = count()
    for number, sheet in enumerate(sheets.cut):
        yield from _gap(number or sheets.cut_notes)
        most = MOST_PICTURES if number < MOST_DRAWN else 0
        # The fabrics stand in To buy in the same order: there is its why.
        leads_to = next(fabrics) if sheet.of_fabric else None
        yield ResultLine(((f" {clipped(sheet.title, width - 1)}", "title"),), leads_to=leads_to)
        yield from _cut_sheet(sheet, width, sheets.colours, most, first)
        first += len(sheet.pictures)
    yield _line("")
    yield from (_line(text, "caution") for text in wrapped(CUTTING_CAUTION, width))


def _cut_sheet(
    sheet: CutSheet, width: int, colours: Mapping[str, str], most: int, first: int
) -> Iterator[ResultLine]:
    """One fabric; `first` is the number of its first picture among all."""
    for fact in sheet.facts:
        yield from (_line(text, "muted") for text in wrapped(fact, width))
    number_width = len(str(len(sheet.steps))) + 2
    for number, step in enumerate(sheet.steps, 1):
        yield from _hung(f"{number}.".rjust(number_width) + " ", step, width)
    for drawn, picture in enumerate(sheet.pictures[:most], first):
        yield ResultLine(((clipped(picture.title, width), "value"),), drawn=drawn)
        yield from cut_picture_lines(picture, width, CUT_ROWS, colours)
    if len(sheet.pictures) > most:
        more = f"{len(sheet.pictures) - most} more" if most else f"{len(sheet.pictures)}"
        yield from _muted(f"({more} not drawn here: {key_of('picture')} shows all of them large)", width)
    for title, texts in (("Pieces", sheet.pieces), ("Left over", sheet.leftovers)):
        if texts:
            yield _line(title, "value")
        for text in texts:
            yield from _hung("  - ", text, width)
    for note in sheet.notes:
        yield from (_line(text, "muted") for text in wrapped(note, width))


def buy_lines(sheets: ListSheets, width: int, quilt: str = "") -> Iterator[ResultLine]:
    """To buy, with the total; above it the quilt that it is for. A row leads to its why, by its number."""
    width, sheet = max(20, width - 1), sheets.buy
    if quilt:
        yield from _muted(quilt, width)
        yield _line("")
    total = sheet.total_row
    rows = sheet.rows
    widths = _widths((*rows, total), width)
    if sum(widths) + 7 > width:
        # What it costs is what is asked for: the price of a yard goes below.
        rows = tuple(replace(r, price="", notes=(f"at {r.price}", *r.notes)) if r.price else r for r in rows)
        widths = _widths((*rows, total), width)
    for number, row in enumerate(rows):
        yield from _buy_row(row, widths, number)
        for note in row.notes:
            yield from (ResultLine((("    ", ""), *line.parts)) for line in _muted(note, width - 4))
    if sheet.total:
        yield _line("")
        yield from _buy_row(total, widths)
    if not rows:
        yield _line("Nothing to buy as the project stands.")
    yield from _gap(sheet.notes)
    yield from _notes(sheet.notes, width)
    if rows:
        yield _line("")
        said = f"{key_of('fabrics')} has the prices of fabrics, and what is in hand."
        yield from _muted(f"{said} Enter on a line asks for a price that is missing.", width)


def why_lines(row: BuyRow, tabs: Mapping[str, int], width: int) -> Iterator[ResultLine]:
    """The working of one row of To buy; what a tab asks for leads to that tab, by its key."""
    width = max(20, width - 1)
    if row.priced is not None and not row.price and row.amount:
        yield ResultLine(((f" No price yet: Enter asks what it is {row.priced.per}", "link"),), PRICE_ASKED)
        yield _line("")
    heads = {why.tab: why for why in reversed(row.why) if why.tab}
    for why in row.why:
        head = heads.get(why.tab) is why
        indent = "    " if why.tab and not head else " "
        to = tabs.get(why.tab) if head else None
        for n, text in enumerate(wrapped(why.words, width - len(indent))):
            hung = indent if n == 0 else f"{indent}  "
            yield ResultLine(((hung, ""), (text, "link" if to is not None else "")), to if n == 0 else None)
    if row.priced is not None and row.price:
        yield ResultLine(((f" Its price is {shown(row.price)}: Enter changes it", "link"),), PRICE_ASKED)
    for note in () if row.why else row.notes:  # a fabric that cannot be planned: that is the why
        yield from _hung(" ", note, width)


def _widths(rows: tuple[BuyRow, ...], width: int) -> list[int]:
    """Cells of the four columns; a long name gives way, for it can have a line of its own."""
    columns = ([getattr(row, part) for row in rows] for part in ("what", "amount", "price", "cost"))
    what, *others = [max(cell_len(shown(text)) for text in column) for column in columns]
    return [max(8, min(what, width - sum(others) - 7)), *others]


def _buy_row(row: BuyRow, widths: list[int], leads_to: int | None = None) -> Iterator[ResultLine]:
    what, amount, price, cost = widths
    name = shown(row.what)
    if cell_len(name) > what:
        for part in wrapped(name, what + amount + price + cost + 4):
            yield ResultLine(((f" {part}", "title"),), leads_to)
            leads_to = None
        name = ""
    money = shown(row.cost)
    at = [(padded(row.price, price) + "  ", "muted")] if price else []
    yield ResultLine((
        (" " + padded(name, what) + "  ", "title"),
        (padded(row.amount, amount) + "  ", "value"),
        *at,
        (" " * max(0, cost - cell_len(money)) + money, "value"),
    ), leads_to)  # fmt: skip


def _notes(notes: tuple[str, ...], width: int) -> Iterator[ResultLine]:
    for note in notes:
        yield from _hung("! ", note, width, "caution")


def _hung(head: str, text: str, width: int, look: str = "") -> Iterator[ResultLine]:
    """A paragraph that hangs on its sign or number."""
    for n, line in enumerate(wrapped(text, width - len(head))):
        yield ResultLine(((head if n == 0 else " " * len(head), "muted"), (line, look)))


def _muted(text: str, width: int) -> list[ResultLine]:
    return [_line(line, "muted") for line in wrapped(text, width)]


def _gap(before: object) -> tuple[ResultLine, ...]:
    return (_line(""),) if before else ()


def _line(text: str, look: str = "") -> ResultLine:
    return ResultLine(((text, look),))
