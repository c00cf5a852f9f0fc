"""To cut and To buy as plain text."""

from collections.abc import Iterator

from boltend.core.pool import Lists
from boltend.core.report.list_words import BuyRow, CutSheet, buy_sheet, cut_sheets
from boltend.core.report.pictures import Look, cut_lines
from boltend.core.report.text import WIDTH, wrapped
from boltend.core.values import Notation, visible


def lists_text(lists: Lists, how: Notation, look: Look | None = None) -> str:
    """Both lists, one below the other; empty where nothing is cut or bought. Pictures as `look` says."""
    lines = [*to_cut_lines(lists, how, look), *to_buy_lines(lists, how)]
    return "".join(visible(line).rstrip() + "\n" for line in lines)


def to_cut_lines(lists: Lists, how: Notation, look: Look | None = None) -> Iterator[str]:
    """To cut, fabric by fabric."""
    sheets = cut_sheets(lists, how)
    yield from ("To cut", "======", "") if sheets else ()
    for sheet in sheets:
        yield from _cut_sheet(sheet, look)
        yield ""


def _cut_sheet(sheet: CutSheet, look: Look | None) -> Iterator[str]:
    yield sheet.title
    yield "-" * len(visible(sheet.title))
    for fact in sheet.facts:
        yield from wrapped(fact, "")
    for number, step in enumerate(sheet.steps, 1):
        yield from wrapped(f"{number}. {step}", "  ", "     ")
    for line in cut_lines(sheet.pictures, look) if look is not None else ():
        yield f"  {line}".rstrip()
    for title, lines in (("Pieces", sheet.pieces), ("Left over", sheet.leftovers)):
        if lines:
            yield title
        for line in lines:
            yield from wrapped(line, "  ", "    ")
    for note in sheet.notes:
        yield from wrapped(note, "")


def to_buy_lines(lists: Lists, how: Notation) -> Iterator[str]:
    """To buy, with the total."""
    sheet = buy_sheet(lists, how)
    if not sheet.rows:
        return
    yield from ("To buy", "======", "")
    total = sheet.total_row
    columns = [
        [visible(getattr(row, part)) for row in (*sheet.rows, total)]
        for part in ("what", "amount", "price", "cost")
    ]
    widths = [max(map(len, column)) for column in columns]
    widths[0] = min(widths[0], WIDTH - sum(widths[1:]) - 6)
    for row in sheet.rows:
        yield from _buy_row(row, widths)
        for note in row.notes:
            yield from wrapped(note, "    ", "      ")
    if sheet.total:
        yield from _buy_row(total, widths)
    for note in sheet.notes:
        yield from ("", *wrapped(note, ""))


def _buy_row(row: BuyRow, widths: list[int]) -> Iterator[str]:
    what, amount, price, cost = widths
    name = visible(row.what)
    if len(name) > what:  # a long name has a line of its own
        yield name
        name = ""
    yield f"{name:<{what}}  {row.amount:<{amount}}  {row.price:<{price}}  {row.cost:>{cost}}"
