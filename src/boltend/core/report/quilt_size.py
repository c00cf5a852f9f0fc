"""The finished size of the whole quilt: which tab has it, in words."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from boltend.core.flow import Workbook
from boltend.core.project.model import Tab
from boltend.core.report.words import say_value

BOUND = ("bound_width", "bound_height")
_SIZES = (BOUND, ("width", "height"))


class Quilt(NamedTuple):
    """A tab that finds the finished size of a quilt: in words, and in the other system."""

    tab: Tab
    size: str
    also: str


def quilt_of(book: Workbook, tabs: Sequence[Tab]) -> Quilt | None:
    """The quilt as the last tab of the longest chain of such tabs has it; None where none finds a size.

    Tabs aside are what-ifs and never meant.
    """
    sized = {tab.key: names for tab in tabs if not tab.aside and (names := _names(book, tab))}
    if not sized:
        return None
    order = [tab.key for tab in tabs]
    best = max(sized, key=lambda key: (len(sized.keys() & set(upstream(book, key))), order.index(key)))
    result = book.results[best]
    how, texts, others = result.settings.notation, [], []
    for name in sized[best]:
        spec = next(f for f in result.spec.founds if f.name == name) if result.spec else None
        if spec is not None:
            texts.append(say_value(spec, result.found[name], how).removesuffix(" finished"))
            others.append(spec.reader.also(result.found[name], how, spec.unit) or "")
    also = " × ".join(others).replace("× ≈ ", "× ") if all(others) else ""  # one ≈ says it of both
    return Quilt(book.project.tab(best), " × ".join(texts), also)


def _names(book: Workbook, tab: Tab) -> tuple[str, str] | None:
    """The founds that are a tab's finished size."""
    result = book.results[tab.key]
    if result.answer is None or result.spec is None:
        return None
    kinds = {f.name: f.kind for f in result.spec.founds if result.found.get(f.name) is not None}
    return next((pair for pair in _SIZES if all(kinds.get(name) == "finished" for name in pair)), None)


def upstream(book: Workbook, key: int) -> Iterator[int]:
    """The tabs that a tab takes from, the nearest first, each once."""
    seen, turn = {key}, [key]
    while turn:
        found = [source for each in turn for _, source, _ in book.sources(each)]
        turn = [source for source in dict.fromkeys(found) if source not in seen]
        seen.update(turn)
        yield from turn


def size_founds(book: Workbook) -> list[tuple[int, str]]:
    """The founds that are the size of the project's quilt: the key of their tab, and their names."""
    quilt = quilt_of(book, book.project.tabs)
    names = None if quilt is None else _names(book, quilt.tab)
    return [] if quilt is None else [(quilt.tab.key, name) for name in names or ()]


def finished_size(book: Workbook, tabs: Sequence[Tab]) -> str:
    """The finished size of all tabs of a project in a sentence; nothing of some, or where none has it."""
    quilt = quilt_of(book, tabs) if len(tabs) == len(book.project.tabs) else None
    return "" if quilt is None else said_size(book, quilt)


def said_size(book: Workbook, quilt: Quilt) -> str:
    """The size in a sentence; that of a bound quilt says so, for the binding lies round the raw edge."""
    also = f" ({quilt.also})" if quilt.also else ""
    bound = _is_bound(book, quilt)
    what = "Finished size, with its binding on" if bound else "Finished size, without a binding"
    return f"{what}: {quilt.size}{also}"


def size_words(book: Workbook, quilt: Quilt) -> str:
    """The size in few words, for a line that says what it is of."""
    across, _, along = quilt.size.partition(" × ")
    across = across.removesuffix(f" {along.rpartition(' ')[2]}")  # one unit says it of both
    return f"{across} × {along} {'with binding on' if _is_bound(book, quilt) else 'without a binding'}"


def _is_bound(book: Workbook, quilt: Quilt) -> bool:
    return _names(book, quilt.tab) == BOUND
