"""A ladder: one given of any tab through several values, founds and purchases side by side.

Every rung is the whole project with that one given changed, worked out through all links. The person's own
workbook is not touched.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from boltend.core.asking.spots import AskError, Spot, spot_of, tab_of
from boltend.core.contract import FoundSpec, GivenSpec, Line
from boltend.core.flow import Workbook
from boltend.core.flow.links import as_link
from boltend.core.flow.nodes import near
from boltend.core.host.calls import Runner
from boltend.core.pool import Lists, Pool, Snapshot, snapshot_of
from boltend.core.pool.buying import amount_words
from boltend.core.pool.cutter import Stopping
from boltend.core.project.model import LadderRow, Project, Tab
from boltend.core.values import KINDS, Notation, NotationError, show_length

BUY = "to buy"
"""What a ladder takes to set the purchases side by side: each fabric, and the total."""

MOST_RUNGS = 200


@dataclass(frozen=True)
class Take:
    """One column: a found of a tab, or (`found` None) what is to buy."""

    label: str
    tab: int = 0
    found: FoundSpec | None = None


@dataclass(frozen=True)
class Ladder:
    """A given of a tab, the raw values that it takes one after the other, and the columns."""

    spot: Spot
    values: tuple[Any, ...]
    takes: tuple[Take, ...]
    name: str = ""
    how: Notation = field(default_factory=Notation)

    @property
    def tab(self) -> int:
        """The key of the tab."""
        return self.spot.tab

    @property
    def given(self) -> GivenSpec:
        """What the given takes."""
        return self.spot.spec

    @property
    def buys(self) -> bool:
        """Whether purchases are among the columns."""
        return any(take.found is None for take in self.takes)


@dataclass(frozen=True)
class Cell:
    """A value as it is shown; `amount` is the same as a number, where it is one. Empty: `why` it is."""

    text: str
    amount: Fraction | None = None
    why: str = ""


@dataclass(frozen=True)
class Rung:
    """One value of the given, as it was typed, and a cell for each column, by the column's label.

    `open` tells that a longer search may find less to buy; `cautions` are those of the given's own tab;
    `left_out` names what the total does not count, each with the reason.
    """

    value: str
    cells: Mapping[str, Cell]
    open: bool = False
    cautions: tuple[Line | str, ...] = ()
    left_out: tuple[str, ...] = ()


def read_ladder(book: Workbook, row: LadderRow | Mapping[str, Any]) -> Ladder:
    """Read a `[[ladder]]` of the project, or the same keys from elsewhere. Raises `AskError`."""
    data = row.data if isinstance(row, LadderRow) else row
    tab = tab_of(book, data.get("tab"))
    spot = spot_of(book, tab, data.get("given"))
    values = data.get("values")
    if not isinstance(values, list) or not values:
        raise AskError("a ladder needs values.", 'Write them as a list, as values = ["60 in", "72 in"].')
    if len(values) > MOST_RUNGS:
        raise AskError(f"a ladder of {len(values)} values is too long.", f"Take at most {MOST_RUNGS}.")
    name = data.get("name")
    takes = tuple(takes_of(book, tab, data.get("take")))
    how = book.results[tab.key].settings.notation
    return Ladder(spot, tuple(values), takes, name if isinstance(name, str) else "", how)


def climb(book: Workbook, ladder: Ladder, pool: Pool | None = None) -> Iterator[Rung]:
    """Work every rung out, one after the other.

    The runner of `book` must answer at once or wait for its answers (as on the command line).
    """
    pool = pool or Pool()
    for at, own in _books(book.runner, book.project, ladder):
        lists = pool.lists(own) if ladder.buys else None
        yield _rung(ladder, at, _founds(own, ladder), own, lists)


def climb_in_turns(
    runner: Runner, project: Project, ladder: Ladder, pool: Pool, job: Stopping
) -> Iterator[tuple[int, Rung]]:
    """Work the rungs out as (which, rung): all of them quickly, then those once more that may buy less.

    For a thread of its own: `runner` must wait for its answers (`Apart`), and nothing is read that changes.
    Stopped, it ends, and no rung that was half done is told.
    """
    again: list[tuple[int, Rung, Snapshot]] = []
    for at, own in _books(runner, project, ladder):
        if job.stopped():
            return
        snapshot, lists = snapshot_of(own), None
        if ladder.buys:
            lists = pool.lists_of(snapshot, job, first=True)
        rung = _rung(ladder, at, _founds(own, ladder), own, lists)
        if job.stopped():
            return
        if rung.open:
            again.append((at, rung, snapshot))
        yield at, rung
    for at, rung, snapshot in again:
        lists = pool.lists_of(snapshot, job)
        if job.stopped():
            return
        bought_now = dict(bought(snapshot.basis.how, lists))
        yield at, replace(rung, cells={**rung.cells, **bought_now}, open=False)


def _books(runner: Runner, project: Project, ladder: Ladder) -> Iterator[tuple[int, Workbook]]:
    """The project worked out with each value; one workbook, in which only what a value reaches is run."""
    own: Workbook | None = None
    for at, raw in enumerate(ladder.values):
        changed = ladder.spot.put(project, raw)
        if own is None:
            own = Workbook(runner, changed)
        else:
            own.update(changed)
        yield at, own


def _founds(own: Workbook, ladder: Ladder) -> dict[str, Cell]:
    return {
        take.label: found_cell(own, take.tab, take.found) for take in ladder.takes if take.found is not None
    }


def _rung(ladder: Ladder, at: int, cells: dict[str, Cell], own: Workbook, lists: Lists | None) -> Rung:
    if lists is not None:
        cells.update(bought(own.basis.how, lists))
    answer = own.results[ladder.tab].answer
    cautions = tuple(answer.cautions) if answer is not None else ()
    left_out = tuple(_left_out(lists)) if lists is not None else ()
    return Rung(said_value(ladder, at), cells, lists is not None and lists.open, cautions, left_out)


def said_value(ladder: Ladder, at: int) -> str:
    """A value of a ladder as it is written."""
    raw = ladder.values[at]
    return ("yes" if raw else "no") if isinstance(raw, bool) else str(raw)


def present_rung(book: Workbook, ladder: Ladder) -> int | None:
    """Which of its values the given has now; None where none of them, or where it has none."""
    now, spec, how = ladder.spot.value(book), ladder.given, ladder.how
    if now is None:
        return None
    for at, raw in enumerate(ladder.values):
        try:
            value = spec.reader.from_toml(raw, how, spec.unit)
        except (NotationError, ValueError):
            continue
        if value == now or (isinstance(value, str) and str(now).casefold() == value.casefold()):
            return at
    return None


def columns(rungs: Iterable[Rung]) -> list[str]:
    """List the columns of all rungs in the order in which they first come; the total is the last.

    Behind it stands what it leaves out.
    """
    names = dict.fromkeys(name for rung in rungs for name in rung.cells)
    last = [name for name in (TOTAL, LEFT_OUT) if name in names]
    return [name for name in names if name not in last] + last


TOTAL = "Total"

LEFT_OUT = "Not in the total"
"""The column of what a total leaves out, counted by its reason; only where there is any."""


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


def bought(how: Notation, lists: Lists) -> Iterator[tuple[str, Cell]]:
    """Show what is to buy: each fabric and good by its name, and the total."""
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
            yield fabric.cloth.name, Cell(show_length(buy.length, how, "yd"), buy.length)
    for line in lists.goods:
        amount = Fraction(line.goods.amount)
        yield line.goods.name, Cell(amount_words(line.goods, amount, how), amount)
    if lists.total is not None:
        whole = not (lists.missing or lists.unpriced) and all(fabric.whole for fabric in lists.fabrics)
        text = str(KINDS["price"].show(lists.total, how))
        yield TOTAL, Cell(text if whole else f"{text} and more", lists.total.amount)
    left_out = ", ".join(_counted(lists))
    if left_out:
        yield LEFT_OUT, Cell(left_out)


_MOST_TAKERS = 2
"""Tabs that are named as taking a price."""


def _left_out(lists: Lists) -> Iterator[str]:
    takers = {line.goods.name: line.tabs for line in lists.goods if line.goods.price_given}
    for name in lists.unpriced:
        tabs = " or ".join(f"“{tab}”" for tab in takers.get(name, ())[:_MOST_TAKERS])
        yield f"{name} (no price yet: the tab {tabs} takes it)" if tabs else f"{name} (no price)"
    yield from (f"“{name}” (not worked out: {why.rstrip('.')})" for name, why in lists.missing)
    yield from (f"{fabric.cloth.name} (not all planned)" for fabric in lists.fabrics if not fabric.whole)


def _counted(lists: Lists) -> Iterator[str]:
    """How much a total leaves out, in few words."""
    counts = (
        ("price", len(lists.unpriced)),
        ("tab", len(lists.missing)),
        ("fabric", sum(not fabric.whole for fabric in lists.fabrics)),
    )
    yield from (f"{count} {what}{'s' * (count > 1)}" for what, count in counts if count)
