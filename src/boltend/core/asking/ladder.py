"""A ladder: one given of any tab through several values, founds and purchases side by side.

Every rung is the whole project with that one given changed, worked out through all links. The person's own
workbook is not touched.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from boltend.core.contract import FoundSpec, GivenSpec
from boltend.core.flow import Workbook
from boltend.core.flow.links import as_link
from boltend.core.flow.nodes import near
from boltend.core.pool import Lists, Pool
from boltend.core.project.edits import set_given
from boltend.core.project.model import LadderRow, Tab
from boltend.core.values import KINDS

BUY = "to buy"
"""What a ladder takes to set the purchases side by side: each fabric, and the total."""

MOST_RUNGS = 200


class AskError(Exception):
    """A ladder that cannot be read: `why`, and the way out."""

    def __init__(self, why: str, way_out: str = "") -> None:
        super().__init__(f"{why} {way_out}".strip())
        self.why, self.way_out = why, way_out


@dataclass(frozen=True)
class Take:
    """One column: a found of a tab, or (`found` None) what is to buy."""

    label: str
    tab: int = 0
    found: FoundSpec | None = None


@dataclass(frozen=True)
class Ladder:
    """A given of a tab, the raw values that it takes one after the other, and the columns."""

    tab: int
    given: GivenSpec
    values: tuple[Any, ...]
    takes: tuple[Take, ...]
    name: str = ""


@dataclass(frozen=True)
class Cell:
    """A value as it is shown; `amount` is the same as a number, where it is one. Empty: `why` it is."""

    text: str
    amount: Fraction | None = None
    why: str = ""


@dataclass(frozen=True)
class Rung:
    """One value of the given, as it was typed, and a cell for each column, by the column's label."""

    value: str
    cells: Mapping[str, Cell]


def read_ladder(book: Workbook, row: LadderRow | Mapping[str, Any]) -> Ladder:
    """Read a `[[ladder]]` of the project, or the same keys from elsewhere. Raises `AskError`."""
    data = row.data if isinstance(row, LadderRow) else row
    tab = tab_of(book, data.get("tab"))
    given = given_of(book, tab, data.get("given"))
    values = data.get("values")
    if not isinstance(values, list) or not values:
        raise AskError("a ladder needs values.", 'Write them as a list, as values = ["60 in", "72 in"].')
    if len(values) > MOST_RUNGS:
        raise AskError(f"a ladder of {len(values)} values is too long.", f"Take at most {MOST_RUNGS}.")
    name = data.get("name")
    takes = tuple(takes_of(book, tab, data.get("take")))
    return Ladder(tab.key, given, tuple(values), takes, name if isinstance(name, str) else "")


def climb(book: Workbook, ladder: Ladder, pool: Pool | None = None) -> Iterator[Rung]:
    """Work every rung out, one after the other.

    The runner of `book` must answer at once or wait for its answers (as on the command line).
    """
    own = Workbook(book.runner, book.project)
    pool = pool or Pool()
    for raw in ladder.values:
        own.update(set_given(book.project, ladder.tab, ladder.given.name, raw))
        cells: dict[str, Cell] = {}
        for take in ladder.takes:
            if take.found is not None:
                cells[take.label] = found_cell(own, take.tab, take.found)
        if any(take.found is None for take in ladder.takes):
            cells.update(bought(own, pool.lists(own)))
        yield Rung(raw if isinstance(raw, str) else str(raw), cells)


def columns(rungs: Iterable[Rung]) -> list[str]:
    """List the columns of all rungs in the order in which they first come; the total is the last."""
    names = dict.fromkeys(name for rung in rungs for name in rung.cells)
    return [name for name in names if name != TOTAL] + ([TOTAL] if TOTAL in names else [])


TOTAL = "Total"


def tab_of(book: Workbook, name: object) -> Tab:
    """Find a tab by name. Raises `AskError`."""
    tab = book.project.find_tab(name) if isinstance(name, str) and name else None
    if tab is None:
        names = [each.name for each in book.project.tabs]
        raise AskError(f"there is no tab “{name or ''}”.", near(str(name or ""), names))
    return tab


def given_of(book: Workbook, tab: Tab, name: object) -> GivenSpec:
    """Find a single given of a tab. Raises `AskError`."""
    prepared = book.prepared(tab.key)
    if prepared is None:
        raise AskError(f"“{tab.name}” cannot be worked out.", book.results[tab.key].why)
    spec = prepared.spec.given(name) if isinstance(name, str) else None
    if spec is None:
        names = [each.name for each in prepared.spec.givens]
        raise AskError(f"“{tab.name}” has no given {str(name)!r:.60}.", near(str(name), names))
    if spec.kind == "rows":
        raise AskError(f"“{spec.label}” is a list of rows.", "A ladder runs through a single given.")
    return spec


def takes_of(book: Workbook, tab: Tab, raw: object) -> Iterator[Take]:
    """Read what is taken: a found's name, a link, `to buy`, or a list of them. Raises `AskError`."""
    for one in raw if isinstance(raw, list) else [BUY if raw is None else raw]:
        link = as_link(one)
        if link is not None:
            yield take_of(book, tab_of(book, link.tab), link.take, own=False)
        elif isinstance(one, str) and one.strip().casefold() == BUY:
            yield Take("To buy")
        else:
            yield take_of(book, tab, one, own=True)


def take_of(book: Workbook, tab: Tab, name: object, *, own: bool = True) -> Take:
    """Find a found of a tab. Raises `AskError`."""
    spec = book.results[tab.key].spec
    found = next((each for each in spec.founds if each.name == name), None) if spec else None
    if found is None:
        names = [each.name for each in spec.founds] if spec else []
        hint = near(str(name), [*names, BUY])
        raise AskError(f"“{tab.name}” finds no {str(name)!r:.60}.", hint)
    return Take(found.label if own else f"{tab.name}: {found.label}", tab.key, found)


def found_cell(book: Workbook, key: int, spec: FoundSpec) -> Cell:
    """Show a found of a tab, or say why there is none."""
    result = book.results[key]
    if result.answer is None:
        return Cell("", None, result.why or result.state)
    value = result.found.get(spec.name)
    if value is None:
        return Cell("–")
    if spec.kind == "rows":
        rows = len(value) if isinstance(value, Sequence) else 0
        return Cell(f"{rows} {'row' if rows == 1 else 'rows'}", Fraction(rows))
    text = str(KINDS[spec.kind].show(value, result.settings.notation, spec.unit))
    return Cell(
        text, Fraction(value) if isinstance(value, int | Fraction) and not isinstance(value, bool) else None
    )


def bought(book: Workbook, lists: Lists) -> Iterator[tuple[str, Cell]]:
    """Show what is to buy: each fabric and good by its name, and the total."""
    how = book.basis.settings.notation
    for fabric in lists.fabrics:
        buy = fabric.buy
        if not fabric.whole:
            yield fabric.cloth.name, Cell("", None, "not all of it is planned")
        elif fabric.cloth.precut is not None:
            yield (
                fabric.cloth.name,
                Cell(f"{buy.packs} {'pack' if buy.packs == 1 else 'packs'}", Fraction(buy.packs)),
            )
        else:
            yield fabric.cloth.name, Cell(str(KINDS["length"].show(buy.length, how, "yd")), buy.length)
    for line in lists.goods:
        amount = Fraction(line.goods.amount)
        yield line.goods.name, Cell(f"{KINDS['number'].show(amount, how)} {line.goods.unit}".strip(), amount)
    if lists.total is not None:
        whole = not lists.missing and all(fabric.whole for fabric in lists.fabrics)
        text = str(KINDS["price"].show(lists.total, how))
        yield TOTAL, Cell(text if whole else f"{text} and more", lists.total.amount)
