"""All that the menu and Find offer, as lines, and which of them a search finds. Knows no screen.

Menu and Find are one dialog over two lists. The menu holds what can be done and where one can go; Find holds
what is written in the project, the working and notes too. In one list a word of the working would bury the
action that bears it, and an action would stand in the way of a name.
"""

import math
import time
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from boltend.core.asking.spots import called
from boltend.core.flow import Result, Workbook
from boltend.core.flow.givens import GivenState
from boltend.core.project.model import Tab
from boltend.core.report.tab_sheet import Entry, TabSheet, given_entry, tab_sheet, takes_of
from boltend.core.report.words import say_value
from boltend.shell.looks import Place
from boltend.shell.other_words import asked_as
from boltend.shell.texts import shown
from boltend.shell.waits import carried

_SPACES = str.maketrans(dict.fromkeys("“”‘’\"':;,()[]·=→?!", " "))
"""Marks that stand between words; none of those that a length is written with."""


@dataclass(frozen=True)
class Spot:
    """A place in the project: a tab, in it a field, or a line of what was found that begins with `line`."""

    tab: int
    place: Place | None = None
    line: str = ""


@dataclass(frozen=True)
class ListSpot:
    """A line of the list in sight."""

    at: int


@dataclass(frozen=True)
class Hit:
    """One line: its words, behind them what it is (or its key), and where it leads.

    `title` is what it is searched by first, `called` what a person also calls it, `rest` what else finds it;
    all folded, a blank before each word.
    """

    words: str
    note: str
    to: Any
    find: str = field(default="", compare=False)
    other: tuple[str, ...] = field(default=(), compare=False)
    called: tuple[str, ...] = field(init=False, compare=False)
    title: str = field(init=False, compare=False)
    rest: str = field(init=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "title", folded(self.words))
        called = tuple(map(folded, self.other))
        object.__setattr__(self, "called", called)
        beside = folded(f"{self.note} {self.find}")
        object.__setattr__(self, "rest", f"{self.title}{''.join(called)}{beside}")


def folded(text: str) -> str:
    """A text for searching: small letters, one blank before each word, no marks."""
    return "".join(f" {word}" for word in text.casefold().translate(_SPACES).split())


def matching(hits: Sequence[Hit], wanted: str) -> list[Hit]:
    """The hits that have every word of `wanted`, best first; of equally good ones in their own order.

    First what is called just so, then what begins so or is called so otherwise, then what has whole words,
    words that begin so, and the words anywhere; last what has them only beside its words, explaining it.
    """
    said = folded(wanted)
    if not said:
        return list(hits)
    words = said.split()
    starts = [f" {word}" for word in words]
    whole = [f" {word} " for word in words]
    tiers: list[list[Hit]] = [[] for _ in range(7)]
    for hit in hits:
        rest = hit.rest
        for word in words:
            if word not in rest:
                break
        else:
            tiers[_tier(hit, said, words, starts, whole)].append(hit)
    return [hit for tier in tiers for hit in tier]


def _tier(hit: Hit, said: str, words: list[str], starts: list[str], whole: list[str]) -> int:
    title = hit.title
    if title == said:
        return 0
    if title.startswith(f"{said} ") or said in hit.called:
        return 1
    if title.startswith(said):
        return 2
    if hit.called:
        title += "".join(hit.called)
    ended = f"{title} "
    if all(word in ended for word in whole):
        return 3
    if all(word in title for word in starts):
        return 4
    return 5 if all(word in title for word in words) else 6


# What is written in the project ---------------------------------------------------------------------


@dataclass(frozen=True)
class _Kept:
    tab: Tab
    result: Result
    places: tuple[Hit, ...]
    texts: tuple[Hit, ...]


class Written:
    """The hits of all tabs, each kept as long as its tab says and finds the same.

    To put 200 tabs into words takes a third of a second: `read` does as much as there is time for.
    """

    def __init__(self) -> None:
        self._kept: dict[int, _Kept] = {}

    def read(self, book: Workbook, seconds: float = math.inf) -> bool:
        """Read what has changed, for so long; whether all is read."""
        until = time.monotonic() + seconds
        keys = {tab.key for tab in book.project.tabs}
        self._kept = {key: kept for key, kept in self._kept.items() if key in keys}
        for tab in book.project.tabs:
            result, kept = book.results[tab.key], self._kept.get(tab.key)
            if kept is not None and kept.tab is tab and kept.result is result:
                continue
            if time.monotonic() > until:
                return False
            sheet = tab_sheet(book, tab)
            places = (*_givens(book, tab, result), *_founds(tab, sheet))
            self._kept[tab.key] = _Kept(tab, result, places, tuple(_texts(tab, sheet)))
        return True

    def places(self, book: Workbook) -> list[Hit]:
        """Tabs, then every given and found that is read."""
        kept = [self._kept[tab.key] for tab in book.project.tabs if tab.key in self._kept]
        return [*map(_tab_hit, book.project.tabs), *(hit for one in kept for hit in one.places)]

    def all(self, book: Workbook) -> list[Hit]:
        """Tab by tab its name, and what is read: givens, founds, and then note, working and cautions."""
        hits: list[Hit] = []
        for tab in book.project.tabs:
            hits.append(_tab_hit(tab))
            kept = self._kept.get(tab.key)
            if kept is not None:
                hits += (*kept.places, *kept.texts)
        return hits


def _tab_hit(tab: Tab) -> Hit:
    return Hit(shown(tab.name) or "(no name)", "tab", Spot(tab.key), tab.calculator.replace("_", " "))


def _givens(book: Workbook, tab: Tab, result: Result) -> Iterator[Hit]:
    prepared = book.prepared(tab.key)
    for state in prepared.states.values() if prepared is not None else ():
        if state.spec.kind != "rows" or state.link is not None:
            yield _given(book, tab, result, state, state.spec.label, Place(state.spec.name))
            continue
        names = [next(iter(_row_names(cells, n)), "") for n, cells in enumerate(state.cells)]
        for n, (cells, name) in enumerate(zip(state.cells, names, strict=True)):
            number = f"{state.spec.label} {n + 1}"
            row = number if not name else name if names.count(name) == 1 else f"{name} ({n + 1})"
            also = " ".join([number, *dict.fromkeys(_row_names(cells, n))])
            for column, cell in cells.items():
                place = Place(state.spec.name, n, column)
                yield _given(book, tab, result, cell, f"{row} · {cell.spec.label}", place, also)


def _row_names(cells: Mapping[str, GivenState], row: int) -> list[str]:
    """By what a person knows a row (from 0): its name, its fabrics."""
    fabrics = (cell.value for cell in cells.values() if cell.spec.kind == "fabric")
    return [name for name in (called(cells, row), *fabrics) if isinstance(name, str) and name]


def _given(
    book: Workbook, tab: Tab, result: Result, state: GivenState, label: str, place: Place, also: str = ""
) -> Hit:
    entry = given_entry(state, result, takes=takes_of(book, state))
    value = entry.value
    if state.link is not None:
        brought = carried(book, tab.key, state)
        value = (
            say_value(state.spec, brought, result.settings.notation)
            if brought is not None
            else "no value yet"
        )
        if state.spec.kind == "rows":
            value = "linked"
    return _valued(
        tab, label, value, "given", Spot(tab.key, place), entry.origin, also and f"{also} {state.spec.label}"
    )


def _founds(tab: Tab, sheet: TabSheet) -> Iterator[Hit]:
    for entry in sheet.found:
        yield _found(tab, entry)


def _found(tab: Tab, entry: Entry) -> Hit:
    return _valued(tab, entry.label, entry.value, "found", Spot(tab.key, None, entry.label), "")


def _valued(tab: Tab, label: str, value: str, note: str, spot: Spot, find: str, also: str = "") -> Hit:
    is_said = "" if value in ("", "–") else f" = {value}"
    words, find = shown(f"{tab.name}: {label}{is_said}"), f"{find} {asked_as(label)}"
    return Hit(words, note, spot, find, (shown(also),) if also else ())


def _texts(tab: Tab, sheet: TabSheet) -> Iterator[Hit]:
    parts: tuple[tuple[str, Iterable[str]], ...] = (
        ("note", sheet.note.split("\n") if sheet.note else ()),
        ("why not", sheet.why),
        ("rows", (row for grid in sheet.grids for row in ("  ".join(cells) for cells in grid.rows))),
        ("working", sheet.working),
        ("caution", sheet.cautions),
    )
    for note, texts in parts:
        for text in texts:
            if text.strip():
                yield Hit(shown(f"{tab.name}: {text}"), note, Spot(tab.key, None, shown(text).strip()))


def line_at(lines: Sequence[str], wanted: str) -> int | None:
    """Which line begins with a text; long texts stand on several lines, labels may be clipped."""
    wanted = " ".join(wanted.split())
    best, length = None, 0
    for at, line in enumerate(lines):
        said = " ".join(line.removeprefix("- ").removeprefix("Note: ").split())
        start = _alike(said.rstrip("…"), wanted)
        if start > length:
            best, length = at, start
    return best if length >= min(len(wanted), 6) else None


def _alike(one: str, other: str) -> int:
    least = min(len(one), len(other))
    return next((n for n in range(least) if one[n] != other[n]), least)
