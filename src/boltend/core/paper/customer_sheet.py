"""A sheet of one page for the customer: what it is, how large, what it looks like, what to buy."""

from collections.abc import Iterator, Sequence

from boltend.core.flow import Workbook
from boltend.core.paper.model import Block, Heading, Items, Picture, Row, Sheet, Table, Text
from boltend.core.paper.plan_sheet import any_cut, colours_of, title_of
from boltend.core.paper.quilt_picture import Quilt, quilt_of, quilt_shapes
from boltend.core.paper.texts import seen
from boltend.core.pool import Lists
from boltend.core.project.model import Tab
from boltend.core.report.list_words import buy_sheet, list_troubles
from boltend.core.report.near import sizes_as
from boltend.core.report.safety import CUTTING_CAUTION, INFANT_CAUTION

ROOM = (420.0, 330.0)
"""Points that the picture of the quilt may take, where the page has them."""


def customer_sheet(book: Workbook, tabs: Sequence[Tab], lists: Lists, *, pictures: bool = True) -> Sheet:
    """The sheet of these tabs; no working, nothing of the cutting, no notes: those are the maker's own."""
    blocks: list[Block] = [Heading(title_of(book), 1, "top")]
    quilt = quilt_of(book, tabs)
    if quilt is None:
        blocks.append(Text("The finished size is not worked out: no tab of this project finds one.", "faint"))
    else:
        blocks += _quilt(book, quilt, lists, pictures)
    blocks += _to_buy(lists, book)
    cautions = [INFANT_CAUTION, *([CUTTING_CAUTION] if any_cut(book, tabs) else [])]
    blocks.append(Items("Take care", tuple(cautions), caution=True))
    return Sheet(title_of(book), tuple(blocks), one_page=True)


def _quilt(book: Workbook, quilt: Quilt, lists: Lists, pictures: bool) -> Iterator[Block]:
    also = f" ({quilt.also})" if quilt.also else ""
    yield Text(seen(f"Finished size: {quilt.size}{also}"))
    shapes = quilt_shapes(book, quilt.tab)
    if pictures and shapes:
        show = sizes_as(book.results[quilt.tab.key].settings)
        yield Picture("The quilt", shapes, show, colours=colours_of(lists), room=ROOM)


def _to_buy(lists: Lists, book: Workbook) -> Iterator[Block]:
    """What is bought, with the total; what is in hand and how it came about stay with the maker."""
    sheet = buy_sheet(lists, book.basis.settings.notation)
    rows = tuple(
        Row(tuple(map(seen, (row.what, row.amount, row.price, row.cost))))
        for row, bought in zip(sheet.rows, _bought(lists), strict=True)
        if bought
    )
    yield Heading("To buy", 2, "to-buy")
    if rows:
        total = Row(("Total", "", "", seen(sheet.total))) if sheet.total else None
        yield Table("", ("What", "Amount", "Price", "Cost"), rows, frozenset({3}), total)
    else:
        yield Text("Nothing.")
    yield from (Text(seen(said), "faint") for said in list_troubles(lists))


def _bought(lists: Lists) -> Iterator[bool]:
    """Row for row of the list: whether anything is bought, or it cannot be told."""
    for fabric in lists.fabrics:
        yield fabric.plan is None or bool(fabric.buy.length or fabric.buy.packs)
    yield from (True for _ in lists.goods)
