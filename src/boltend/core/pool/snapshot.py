"""What the lists are made from, held still: taken in an instant, planned from wherever there is time."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from boltend.core.contract import Table
from boltend.core.flow import Result, Workbook
from boltend.core.flow.basis import Basis
from boltend.core.project.model import Project, Tab

PRECUTS = "precuts"
"""The table that a precut's name is looked up in; its rows have `width`, `length` and `pieces` a pack."""


@dataclass(frozen=True)
class Snapshot:
    """A project as it stood at one moment: `tabs` are those that the lists are for.

    `sources` says of each what its links bring: from which tab, and what kind of found.

    Nothing in it is ever changed, so that another thread may plan from it while the person types on.
    """

    project: Project
    tabs: tuple[Tab, ...]
    results: Mapping[int, Result]
    basis: Basis
    precuts: Table | None = None
    sources: Mapping[int, tuple[tuple[int, str], ...]] = field(default_factory=dict)


def snapshot_of(book: Workbook, tabs: Iterable[Tab] | None = None) -> Snapshot:
    """Take a snapshot, of these tabs or of all. It is quick; take it where the workbook is edited."""
    chosen = book.project.tabs if tabs is None else tuple(tabs)
    results = {tab.key: book.results[tab.key] for tab in chosen}
    sources = {
        tab.key: tuple((source, found.kind) for _, source, found in book.sources(tab.key)) for tab in chosen
    }
    return Snapshot(book.project, chosen, results, book.basis, book.table(PRECUTS), sources)
