"""Gathering: the pieces, runs and goods of all tabs that count, by fabric."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import NamedTuple

from boltend.core.contract import Goods, Line, Piece, Run, Settings
from boltend.core.flow import Result
from boltend.core.pool.snapshot import Snapshot
from boltend.core.project.model import Tab
from boltend.core.project.plain import folded
from boltend.core.values import up


@dataclass
class Share:
    """What one tab asks of a heap, and the settings that it reckons with.

    `printed` is the length that a pattern prints for it, `have` the length of its fabric in hand, where the
    tab says one (a given of that name; `have` in a row beside its fabric, too). `at_widths` is what it alone
    would buy at each other usable width that the person asks of it.
    """

    tab: str
    key: int
    settings: Settings = field(default_factory=Settings)
    pieces: list[Piece] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    printed: Fraction | None = None
    have: Fraction | None = None
    at_widths: tuple[tuple[Fraction, Fraction], ...] = ()


@dataclass
class Heap:
    """All that is cut from one fabric; `fabric` is None where a tab's pieces name none."""

    fabric: str | None
    shares: list[Share] = field(default_factory=list)

    @property
    def name(self) -> str:
        """The fabric's name, or the tab's for a heap of its own."""
        return self.fabric if self.fabric is not None else self.shares[0].tab

    @property
    def printed(self) -> Fraction | None:
        """What the patterns of all its tabs print for them together; None where one of them says nothing."""
        said = [share.printed for share in self.shares if share.printed is not None]
        return sum(said, Fraction(0)) if said and len(said) == len(self.shares) else None

    @property
    def have(self) -> Fraction:
        """What its tabs say is in hand: of several that say it, the least, for it is the same cloth."""
        return min((share.have for share in self.shares if share.have is not None), default=Fraction(0))


@dataclass
class Gathered:
    """Heaps in the order in which tabs first name them, goods by tab, and what is not in them.

    `first` is what tabs have done before anything is cut.
    """

    heaps: list[Heap] = field(default_factory=list)
    goods: list[tuple[str, Goods]] = field(default_factory=list)
    left_out: list[tuple[str, str]] = field(default_factory=list)
    missing: list[tuple[str, str]] = field(default_factory=list)
    stopped: list[str] = field(default_factory=list)
    measured: list[str] = field(default_factory=list)
    first: list[tuple[str, Line | str]] = field(default_factory=list)


def gather(snapshot: Snapshot, copies: int) -> Gathered:
    """Gather from every tab that is neither aside nor done, times the number of copies.

    Pieces without a fabric make a heap for each tab: nobody says that they are of one cloth.
    """
    gathered, heaps = Gathered(), _Heaps(snapshot)
    for tab in snapshot.tabs:
        result = snapshot.results[tab.key]
        if tab.aside or tab.done:
            gathered.left_out.append((tab.name, "aside" if tab.aside else "done"))
            continue
        if result.answer is None:
            gathered.missing.append((tab.name, result.why or result.state))
            continue
        if result.stopped:
            gathered.stopped.append(tab.name)
        if not result.answer.goods and _takes_a_price(result):
            gathered.measured.append(tab.name)
        shares: dict[int, Share] = {}
        in_rows = _have_in_rows(result)
        for piece in result.answer.pieces:
            if piece.count:
                share = heaps.share(tab, piece.fabric, result.settings)
                shares[id(share)] = share
                share.have = in_rows.get(piece.fabric or "")
                share.pieces.append(replace(piece, count=piece.count * copies))
        for run in result.answer.runs:
            if run.wants:
                share = heaps.share(tab, run.fabric, result.settings)
                shares[id(share)] = share
                share.have = in_rows.get(run.fabric or "")
                share.runs.append(replace(run, wants=tuple(run.wants) * copies))
        if len(shares) == 1:  # of several fabrics nobody knows for which of them it is said
            (share,) = shares.values()
            printed = _length(result, "printed")
            share.printed = None if printed is None else printed * copies
            share.have = share.have or _length(result, "have")
            share.at_widths = _at_widths(tab, result) if copies == 1 else ()
        gathered.first += ((tab.name, each) for each in result.answer.first)
        for goods in result.answer.goods:
            gathered.goods.append((tab.name, for_copies(goods, copies)))
    gathered.heaps = list(heaps.by_place.values())
    return gathered


def _takes_a_price(result: Result) -> bool:
    """Whether a tab could ask for something with a price: it takes the price of it."""
    return result.spec is not None and any(given.kind == "price" for given in result.spec.givens)


def _length(result: Result, name: str) -> Fraction | None:
    """A length in inches that a tab says of its one fabric, by a given of this name."""
    spec = result.spec.given(name) if result.spec is not None else None
    said = result.args.get(name) if spec is not None and spec.kind == "length" else None
    return said if isinstance(said, Fraction) and said > 0 else None


def _at_widths(tab: Tab, result: Result) -> tuple[tuple[Fraction, Fraction], ...]:
    """Usable widths and what the tab alone would buy at them: rows of `usable_width` and `buy_alone`.

    The first row is the tab's own width. Nobody wants to read of those that the calculator compares by
    itself: the tab must say its `other_widths`.
    """
    founds = result.spec.founds if result.spec is not None and "other_widths" in tab.given else ()
    compared = (
        result.found[found.name]
        for found in founds
        if {"usable_width", "buy_alone"} <= {column.name for column in found.columns}
    )
    return tuple(
        (row["usable_width"], row["buy_alone"])
        for rows in compared
        if isinstance(rows, tuple)
        for row in rows[1:]
    )


class OpenFabric(NamedTuple):
    """A given of a tab that could name a fabric and names none; or one cell of its rows (`row` from 0)."""

    given: str
    label: str
    row: int = -1
    column: str = ""


def open_fabrics(result: Result) -> Iterator[OpenFabric]:
    """The givens of a tab that could name a fabric and name none, the cells of its rows too."""
    for spec in result.spec.givens if result.spec is not None else ():
        value = result.args.get(spec.name)
        if spec.kind == "fabric" and value is None:
            yield OpenFabric(spec.name, spec.label)
        for column in spec.columns:
            rows = value if isinstance(value, tuple) and column.kind == "fabric" else ()
            for at, row in enumerate(rows):
                if row.get(column.name) is None:
                    yield OpenFabric(spec.name, column.label, at, column.name)


def _have_in_rows(result: Result) -> dict[str, Fraction]:
    """By fabric, the lengths that rows say are in hand beside its name (`fabric` and `have`).

    A row that says a `width` of its own is left out: so much of the whole width is not in hand.
    """
    have: dict[str, Fraction] = {}
    for spec in result.spec.givens if result.spec is not None else ():
        kinds = {column.name: column.kind for column in spec.columns}
        value = result.args.get(spec.name)
        if (kinds.get("fabric"), kinds.get("have")) == ("fabric", "length") and isinstance(value, tuple):
            for row in value:
                if row["fabric"] is not None and row.get("width") is None:
                    have[row["fabric"]] = have.get(row["fabric"], Fraction(0)) + row["have"]
    return have


def for_copies(goods: Goods, copies: int) -> Goods:
    """Goods for so many quilts: a part is multiplied before it is rounded up."""
    if goods.part is None:
        return replace(goods, amount=Fraction(goods.amount) * copies)
    part = Fraction(goods.part) * copies
    return replace(goods, amount=up(part, 1), part=part)


class _Heaps:
    """The heaps by the fabric's name as the project writes it, or by the tab's key."""

    def __init__(self, snapshot: Snapshot) -> None:
        self.names = snapshot.basis.fabric_names
        self.by_place: dict[str | int, Heap] = {}

    def share(self, tab: Tab, fabric: str | None, settings: Settings) -> Share:
        """What this tab asks of the fabric's heap, both made where they are new."""
        named = None if fabric is None else self.names.get(folded(fabric), fabric)
        heap = self.by_place.setdefault(tab.key if named is None else named, Heap(named))
        if not heap.shares or heap.shares[-1].key != tab.key:
            heap.shares.append(Share(tab.name, tab.key, settings.on(named)))
        return heap.shares[-1]
