"""The map of a project in words: what feeds what, what the lists take, what cannot be worked out and why."""

from dataclasses import dataclass

from boltend.core.flow import Workbook
from boltend.core.project.model import Tab
from boltend.core.report.words import say_value


@dataclass(frozen=True)
class Feed:
    """What comes from one tab or goes to one: its key, its name, and the things in words."""

    key: int
    name: str
    things: tuple[str, ...]


@dataclass(frozen=True)
class MapTab:
    """One tab on the map; `lists` are those of the whole project that it is in."""

    key: int
    name: str
    asks: str
    state: str
    why: tuple[str, ...]
    flags: tuple[str, ...]
    takes: tuple[Feed, ...]
    gives: tuple[Feed, ...]
    lists: tuple[str, ...]


def project_map(book: Workbook) -> tuple[MapTab, ...]:
    """The tabs in the project's order."""
    return tuple(map_tab(book, tab) for tab in book.project.tabs)


def map_summary(book: Workbook) -> str:
    """How many tabs there are and how they stand."""
    tabs = book.project.tabs
    if not tabs:
        return "There is no tab yet."
    states = [book.results[tab.key].state for tab in tabs]
    words = {
        "worked out": "worked out",
        "working": "being worked out",
        "waiting": "waiting",
        "cannot": "not possible",
    }
    said = [f"{states.count(state)} {word}" for state, word in words.items() if state in states]
    return f"{len(tabs)} {'tab' if len(tabs) == 1 else 'tabs'}: {', '.join(said)}."


def map_tab(book: Workbook, tab: Tab) -> MapTab:
    """One tab on the map."""
    result = book.results[tab.key]
    flags = tuple(word for word, said in (("aside", tab.aside), ("done", tab.done)) if said)
    lists = []
    if result.answer is not None and not flags:
        if result.answer.pieces or result.answer.runs:
            lists.append("To cut")
        if result.answer.pieces or result.answer.runs or result.answer.goods:
            lists.append("To buy")
    return MapTab(
        key=tab.key,
        name=tab.name,
        asks=result.spec.asks if result.spec else "",
        state=result.state,
        why=result.reasons,
        flags=flags,
        takes=_takes(book, tab),
        gives=_gives(book, tab),
        lists=tuple(lists),
    )


def _takes(book: Workbook, tab: Tab) -> tuple[Feed, ...]:
    found: dict[int, list[str]] = {}
    for slot, source, spec in book.sources(tab.key):
        result = book.results[source]
        value = result.found.get(spec.name) if result.answer is not None else None
        text = (
            "" if value is None or spec.kind == "rows" else say_value(spec, value, result.settings.notation)
        )
        found.setdefault(source, []).append(f"{slot.place} = {text}" if text else slot.place)
    return tuple(Feed(key, book.project.tab(key).name, tuple(things)) for key, things in found.items())


def _gives(book: Workbook, tab: Tab) -> tuple[Feed, ...]:
    spec = book.results[tab.key].spec
    found: dict[int, list[str]] = {}
    for each in spec.founds if spec else ():
        for key, _ in book.users(tab.key, each.name):
            things = found.setdefault(key, [])
            if each.label not in things:
                things.append(each.label)
    return tuple(Feed(key, book.project.tab(key).name, tuple(things)) for key, things in found.items())
