"""What links bring to a tab, and which givens only wait for another tab."""

from typing import Any, NamedTuple

from boltend.core.flow import Workbook
from boltend.core.flow.givens import GivenState
from boltend.core.flow.links import fit
from boltend.core.report.tab_sheet import takes_of


class Brought(NamedTuple):
    """What a link brings to a given, and the label of the found that it takes."""

    value: Any | None = None
    takes: str = ""


NOTHING = Brought()


def brought(book: Workbook, key: int, state: GivenState) -> Brought:
    """What a link brings, as this tab gets it, and under which label."""
    return Brought(carried(book, key, state), takes_of(book, state))


def carried(book: Workbook, key: int, state: GivenState) -> Any | None:
    """The value that a link brings, as this tab gets it; also while the tab cannot be worked out."""
    source = book.project.find_tab(state.link.tab) if state.link is not None else None
    result = book.results.get(source.key) if source is not None else None
    if state.link is None or result is None or result.spec is None:
        return None
    found, value = result.spec.found(state.link.take), result.found.get(state.link.take)
    if found is None or value is None:
        return None
    fitting = fit(found, state.spec)
    if fitting.misfit:
        return None
    return fitting.convert(value, book.results[key].settings) if fitting.convert is not None else value


def waiting_givens(book: Workbook, key: int) -> set[str]:
    """The names of the givens whose source is not worked out."""
    if book.results[key].state != "waiting":
        return set()
    prepared = book.prepared(key)
    waits = set()
    for slot in prepared.links if prepared is not None else ():
        source = book.project.find_tab(slot.link.tab)
        if source is not None and (key, slot.given) in book.users(source.key, slot.link.take):
            waits.add(slot.given)
    return waits
