"""What can be asked: what a given reaches through the links, and the givens that a found hangs on."""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from boltend.core.asking.ladder import BUY, Take
from boltend.core.asking.spots import Spot, alike, called
from boltend.core.asking.wish import RANGED
from boltend.core.contract import GivenSpec
from boltend.core.flow import Workbook
from boltend.core.flow.givens import GivenState
from boltend.core.project.model import Tab

_USUAL = 2
"""Founds of its own tab that a ladder takes where it does not reach the size of a quilt."""


class TakeOffer(NamedTuple):
    """What a ladder could take: raw, as in the file; words; whether it is taken where nothing is said."""

    raw: Any
    words: str
    usual: bool


def take_offers(book: Workbook, spot: Spot, quilt: Sequence[tuple[int, str]] = ()) -> list[TakeOffer]:
    """What is to buy, the founds of the given's tab, and those of every tab that it feeds.

    `quilt`: keys of tabs and names of founds that are the size of the whole quilt. Where the given reaches
    them they stand before the others, and are taken with the total.
    """
    total = TakeOffer(BUY, "To buy: the total, and each fabric", True)
    size: list[TakeOffer] = []
    offers: list[TakeOffer] = []
    reached = book.graph.reached([spot.tab])
    others = (tab for tab in book.project.tabs if tab.key in reached and tab.key != spot.tab)
    for tab in (book.project.tab(spot.tab), *others):
        spec, own = book.results[tab.key].spec, tab.key == spot.tab
        # Of two tabs with one name a link means the first.
        if spec is None or (not own and book.project.find_tab(tab.name) is not tab):
            continue
        for n, found in enumerate(each for each in spec.founds if each.kind != "rows"):
            raw = found.name if own else {"from": tab.name, "take": found.name}
            words = found.label if own else f"{tab.name}: {found.label}"
            if (tab.key, found.name) in quilt:
                size.append(TakeOffer(raw, words, True))
            else:
                offers.append(TakeOffer(raw, words, own and n < _USUAL))
    if size:
        offers = [offer._replace(usual=False) for offer in offers]
    return [total, *size, *offers]


def feeders(book: Workbook, take: Take) -> list[Spot]:
    """The givens that a found hangs on, nearest first: those of its tab, of the tabs that feed it, and so on.

    Only what has steps and is no link: what a link brings is asked for where it comes from. For what is to
    buy they are those of all tabs, in their order.
    """
    keys = [tab.key for tab in book.project.tabs] if take.found is None else _upwards(book, take.tab)
    spots = [spot for key in keys for spot in _spots(book, book.project.tab(key))]
    return [spot for spot in spots if not spot.spec.setting] + [spot for spot in spots if spot.spec.setting]


def _upwards(book: Workbook, key: int) -> list[int]:
    keys = [key]
    for each in keys:  # grows while it is walked
        keys += dict.fromkeys(source for _, source, _ in book.sources(each) if source not in keys)
    return keys


def _spots(book: Workbook, tab: Tab) -> Iterator[Spot]:
    prepared = book.prepared(tab.key)
    # What is asked names a tab: of two with one name the first is meant.
    if prepared is None or book.project.find_tab(tab.name) is not tab:
        return
    for state in prepared.states.values():
        if _has_steps(state.spec, state):
            yield Spot(tab.key, state.spec)
        # The last row first: it is the outermost border, and what was written last.
        for row, cells in reversed([*enumerate(state.cells)]):
            for cell in cells.values():
                if _has_steps(cell.spec, cell):
                    yield Spot(tab.key, cell.spec, state.spec.name, row, called(cells, row))
        for column in state.spec.columns:
            together = alike(tab.key, state, column) if column.required and column.kind in RANGED else None
            if together is not None:
                yield together


def _has_steps(spec: GivenSpec, state: GivenState) -> bool:
    return spec.kind in RANGED and state.link is None and (state.value is not None or spec.required)
