"""Gathering: the pieces, runs and goods of all tabs that count, by fabric."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from boltend.core.contract import Goods, Piece, Run
from boltend.core.flow import Workbook
from boltend.core.project.model import Tab


@dataclass
class Share:
    """What one tab asks of a heap."""

    tab: str
    key: int
    pieces: list[Piece] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)


@dataclass
class Heap:
    """All that is cut from one fabric; `fabric` is None where a tab's pieces name none."""

    fabric: str | None
    shares: list[Share] = field(default_factory=list)

    @property
    def name(self) -> str:
        """The fabric's name, or the tab's for a heap of its own."""
        return self.fabric if self.fabric is not None else self.shares[0].tab


@dataclass
class Gathered:
    """Heaps in the order in which tabs first name them, goods by tab, and what is not in them."""

    heaps: list[Heap] = field(default_factory=list)
    goods: list[tuple[str, Goods]] = field(default_factory=list)
    left_out: list[tuple[str, str]] = field(default_factory=list)
    missing: list[tuple[str, str]] = field(default_factory=list)


def gather(book: Workbook, copies: int, tabs: Iterable[Tab] | None = None) -> Gathered:
    """Gather from every tab that is neither aside nor done, times the number of copies.

    Pieces without a fabric make a heap for each tab: nobody says that they are of one cloth.
    """
    gathered = Gathered()
    heaps: dict[str | tuple[int], Heap] = {}
    for tab in book.project.tabs if tabs is None else tabs:
        result = book.results[tab.key]
        if tab.aside or tab.done:
            gathered.left_out.append((tab.name, "aside" if tab.aside else "done"))
            continue
        if result.answer is None:
            gathered.missing.append((tab.name, result.why or result.state))
            continue
        for piece in result.answer.pieces:
            if piece.count:
                _share(heaps, gathered, tab, piece.fabric).pieces.append(piece)
        for run in result.answer.runs:
            _share(heaps, gathered, tab, run.fabric).runs.append(run)
        gathered.goods += [(tab.name, _times(goods, copies)) for goods in result.answer.goods]
    for heap in gathered.heaps:
        for share in heap.shares:
            share.pieces = [_piece_times(piece, copies) for piece in share.pieces]
            share.runs = [run for run in share.runs for _ in range(copies)]
    return gathered


def _share(heaps: dict[str | tuple[int], Heap], gathered: Gathered, tab: Tab, fabric: str | None) -> Share:
    place: str | tuple[int] = (tab.key,) if fabric is None else fabric
    heap = heaps.get(place)
    if heap is None:
        heap = heaps[place] = Heap(fabric)
        gathered.heaps.append(heap)
    if not heap.shares or heap.shares[-1].key != tab.key:
        heap.shares.append(Share(tab.name, tab.key))
    return heap.shares[-1]


def _piece_times(piece: Piece, copies: int) -> Piece:
    if copies == 1:
        return piece
    return Piece(
        piece.name, piece.across, piece.along, piece.count * copies, piece.fabric, piece.grain,
        piece.made_from, piece.may_turn,
    )  # fmt: skip


def _times(goods: Goods, copies: int) -> Goods:
    return Goods(goods.name, Fraction(goods.amount) * copies, goods.unit, goods.price_each)
