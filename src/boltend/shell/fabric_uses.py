"""Where the project's fabrics are named: only the flow knows which givens hold a fabric."""

from collections.abc import Iterator

from boltend.core.flow import Workbook
from boltend.core.project.edits_fabrics import FabricUse
from boltend.core.project.model import FabricRow
from boltend.core.project.plain import folded


def fabric_places(book: Workbook) -> tuple[FabricUse, ...]:
    """Every given, and every column of rows, that holds the name of a fabric."""
    return tuple(_places(book))


def _places(book: Workbook) -> Iterator[FabricUse]:
    for tab in book.project.tabs:
        prepared = book.prepared(tab.key)
        for given in prepared.spec.givens if prepared is not None else ():
            # The file may still say a given by a name that it had before.
            name = next((n for n in (given.name, *given.was) if n in tab.given), given.name)
            if given.kind == "fabric":
                yield tab.key, name, None
            for column in given.columns:
                if column.kind == "fabric":
                    yield tab.key, name, column.name


def tabs_that_name(book: Workbook, fabric: FabricRow) -> list[str]:
    """The names of the tabs that name a fabric, each once."""
    found = {}
    for key, given, column in fabric_places(book):
        tab = book.project.tab(key)
        if any(_is(book, fabric, name) for name in _names(tab.given.get(given), column)):
            found[key] = tab.name
    return list(found.values())


def named_fabrics(book: Workbook) -> set[int]:
    """The keys of the fabrics that any tab names."""
    said = {
        name
        for key, given, column in fabric_places(book)
        for name in _names(book.project.tab(key).given.get(given), column)
    }
    rows = map(book.project.find_fabric, said)
    return {row.key for row in rows if row is not None}


def _names(raw: object, column: str | None) -> list[str]:
    cells = [raw] if column is None else [row.get(column) for row in raw if isinstance(row, dict)] if (
        isinstance(raw, list)
    ) else []  # fmt: skip
    return [cell for cell in cells if isinstance(cell, str)]


def _is(book: Workbook, fabric: FabricRow, name: str) -> bool:
    return folded(name) == folded(fabric.name) and book.project.find_fabric(name) is fabric
