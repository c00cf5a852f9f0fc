"""A sheet of one page for the customer: what it is, how large, what it looks like, what to buy."""

from collections.abc import Iterator, Sequence

from boltend.core.flow import Workbook
from boltend.core.paper.model import Block, Heading, Items, Row, Sheet, Table, Text
from boltend.core.paper.plan_sheet import colours_of, quilt_drawn, title_of
from boltend.core.paper.texts import seen
from boltend.core.pool import FabricPlan, Lists
from boltend.core.project.model import Tab
from boltend.core.project.plain import folded
from boltend.core.report.list_words import buy_sheet, list_troubles
from boltend.core.report.quilt_picture import whole_quilt
from boltend.core.report.quilt_size import Quilt, quilt_of, said_size
from boltend.core.report.safety import CUTTING_CAUTION, INFANT_CAUTION, any_cut

ROOM = (420.0, 330.0)
"""Points that the picture of the quilt may take, where the page has them."""

MOST_TABS, MOST_NAMES = 4, 3
"""Uses of a cloth that are told by name, and pieces of each."""


def customer_sheet(
    book: Workbook, tabs: Sequence[Tab], lists: Lists, *, pictures: bool = True, called: str = ""
) -> Sheet:
    """The sheet of these tabs; no working, nothing of the cutting, no notes: those are the maker's own."""
    blocks: list[Block] = [Heading(title_of(book, called), 1, "top")]
    quilt = quilt_of(book, tabs)
    if quilt is None:
        blocks.append(Text("The finished size is not worked out: no tab of this project finds one.", "faint"))
    else:
        blocks += _quilt(book, quilt, lists, pictures)
    blocks += _to_buy(lists, book)
    cautions = [
        INFANT_CAUTION,
        *([CUTTING_CAUTION] if any_cut(book.results[tab.key].answer for tab in tabs) else []),
    ]
    blocks.append(Items("Take care", tuple(cautions), caution=True))
    return Sheet(title_of(book, called), tuple(blocks), one_page=True)


def _quilt(book: Workbook, quilt: Quilt, lists: Lists, pictures: bool) -> Iterator[Block]:
    yield Text(seen(said_size(book, quilt)))
    whole = whole_quilt(book, quilt) if pictures else None
    if whole is not None:
        yield quilt_drawn(whole, colours_of(lists), ROOM)


def _to_buy(lists: Lists, book: Workbook) -> Iterator[Block]:
    """What is bought, with the total; what is in hand and how it came about stay with the maker."""
    sheet = buy_sheet(lists, book.basis.settings.notation)
    rows = tuple(
        Row(tuple(map(seen, (row.what, use, row.amount, row.price, row.cost))))
        for row, use, bought in zip(sheet.rows, _uses(lists), _bought(lists), strict=True)
        if bought
    )
    yield Heading("To buy", 2, "to-buy")
    if rows:
        last = sheet.total_row
        total = Row((last.what, "", seen(last.amount), "", seen(last.cost))) if sheet.total else None
        columns = ("What", "For", "Amount", "Price", "Cost")
        yield Table("", columns, rows, frozenset({4}), total, grows=1)
    else:
        yield Text("Nothing.")
    yield from (Text(seen(said), "faint") for said in list_troubles(lists))


def _uses(lists: Lists) -> Iterator[str]:
    """Row for row of the list: what it is for, so that nobody takes the one cloth for the other."""
    for fabric in lists.fabrics:
        yield uses_of(fabric)
    yield from (_some([seen(tab) for tab in line.tabs], MOST_TABS) for line in lists.goods)


def uses_of(fabric: FabricPlan) -> str:
    """`Borders (Sky); Binding`: the tabs that take of a fabric, with what is cut where that says more."""
    names: dict[str, dict[str, None]] = {}
    for use in fabric.demand.uses.values():
        said = names.setdefault(use.tab, {})
        # “backing panel” says no more than “Backing” does.
        if not _words(use.tab) & _words(use.name):
            said[use.name] = None
    parts = [f"{tab} ({_some(list(said), MOST_NAMES)})" if said else tab for tab, said in names.items()]
    return _some(parts, MOST_TABS, "; ")


def _words(name: str) -> set[str]:
    return {word for word in folded(name).split() if not word.isdigit()}


def _some(names: Sequence[str], most: int, between: str = ", ") -> str:
    kept = names[:most]
    more = f"{between}and {len(names) - most} more" if len(names) > most else ""
    return between.join(kept) + more


def _bought(lists: Lists) -> Iterator[bool]:
    """Row for row of the list: whether anything is bought, or it cannot be told."""
    for fabric in lists.fabrics:
        yield fabric.plan is None or bool(fabric.buy.length or fabric.buy.packs)
    yield from (True for _ in lists.goods)
