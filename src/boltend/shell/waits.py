"""Which givens of a tab only wait: their link leads somewhere, but nothing is there yet."""

from boltend.core.flow import Workbook


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
