"""The lists made off the screen's own thread: from a snapshot, and only while somebody wants them."""

from collections.abc import Callable
from dataclasses import replace

from textual.message import Message

from boltend.core.pool import Lists, Pool, Snapshot
from boltend.core.pool.elsewhere import Elsewhere
from boltend.core.report.list_words import buy_sheet, cut_sheets, list_notes
from boltend.shell.lanes import give_way
from boltend.shell.list_lines import ListSheets


class Wanted:
    """Whether a plan is still wanted, and whether what there is will do: the engine asks now and then."""

    def __init__(self) -> None:
        self._dropped = self._enough = False

    def stop(self) -> None:
        """Nobody wants it any more."""
        self._dropped = True

    def enough(self) -> None:
        """The best so far will do."""
        self._enough = True

    @property
    def dropped(self) -> bool:
        """Whether nobody wants it any more."""
        return self._dropped

    def stopped(self) -> bool:
        """Tell the engine whether to stop."""
        return self._dropped or self._enough


class Planned(Message):
    """Lists that are ready, or why there are none. Posted from the thread, where posting is safe.

    `more` tells that shorter plans are looked for; of these another message comes.
    """

    def __init__(
        self, snapshot: Snapshot, sheets: ListSheets | None, fault: str = "", more: bool = False
    ) -> None:
        self.snapshot, self.sheets, self.fault, self.more = snapshot, sheets, fault, more
        super().__init__()


class Proving(Message):
    """A word on a long search: the fabric that it is at."""

    def __init__(self, snapshot: Snapshot, fabric: str) -> None:
        self.snapshot, self.fabric = snapshot, fabric
        super().__init__()


def new_pool() -> Pool:
    """A pool whose long searches run in a process of their own."""
    return Pool(cutter=Elsewhere())


def plan_lists(
    pool: Pool,
    snapshot: Snapshot,
    wanted: Wanted,
    tell: Callable[[ListSheets], object],
    hear: Callable[[str], None],
) -> ListSheets:
    """Plan and say it: first what is found at once, told to `tell` where there may be better; then the best.

    `pool` remembers what it planned; takes what time it takes. `hear` gets the name of each fabric when a
    long search turns to it.
    """
    lists = pool.lists_of(snapshot, wanted, first=True)
    if not lists.open:
        return _said(lists, snapshot)
    if not wanted.stopped():
        tell(_said(lists, snapshot))
    return _said(pool.lists_of(snapshot, wanted, hear=hear), snapshot)


def _said(lists: Lists, snapshot: Snapshot) -> ListSheets:
    how = snapshot.basis.how
    # What has no price does not matter at the cutting table.
    cut_notes = tuple(list_notes(replace(lists, unpriced=(), total=None)))
    colours = {each.cloth.name: each.cloth.colour for each in lists.fabrics if each.cloth.colour}
    return ListSheets(cut_sheets(lists, how), cut_notes, buy_sheet(lists, how), colours)


def same_lists(one: Snapshot | None, other: Snapshot) -> bool:
    """Whether two snapshots must give the same lists."""
    if one is None or one.basis is not other.basis or one.precuts is not other.precuts:
        return False
    if one.project.fabrics is not other.project.fabrics or one.project.settings is not other.project.settings:
        return False
    same_tabs = len(one.tabs) == len(other.tabs) and all(
        a is b for a, b in zip(one.tabs, other.tabs, strict=True)
    )
    return same_tabs and all(one.results[tab.key] is other.results[tab.key] for tab in other.tabs)


def in_thread(pool: Pool, snapshot: Snapshot, wanted: Wanted, tell: Callable[[Message], object]) -> None:
    """The whole of a thread's work. A fault of ours is told, not raised: it must not take the form along."""
    give_way()

    def first(sheets: ListSheets) -> None:
        tell(Planned(snapshot, sheets, more=True))

    def hear(fabric: str) -> None:
        tell(Proving(snapshot, fabric))

    try:
        sheets = plan_lists(pool, snapshot, wanted, first, hear)
    except Exception as error:
        tell(Planned(snapshot, None, f"{type(error).__name__}: {error}"))
        return
    if not wanted.dropped:
        tell(Planned(snapshot, sheets))
