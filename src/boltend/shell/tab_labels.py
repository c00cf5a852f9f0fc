"""The labels of the bar of tabs, kept from painting to painting: of thousands few change with a key."""

from boltend.core.flow import Result, Workbook
from boltend.core.project.model import Project, Tab
from boltend.shell.tab_bar import TabLabel


class Labels:
    """A label for each tab, the same object as before where nothing in it changed."""

    def __init__(self) -> None:
        self._kept: dict[int, tuple[Tab, Result | None, TabLabel]] = {}
        self._all: tuple[TabLabel, ...] = ()

    def of(self, project: Project, book: Workbook | None) -> tuple[TabLabel, ...]:
        """The labels in the project's order; the same tuple where all are as they were."""
        results = book.results if book is not None else {}
        kept, now = self._kept, []
        for tab in project.tabs:
            result, before = results.get(tab.key), kept.get(tab.key)
            if before is None or before[0] is not tab or before[1] is not result:
                state = result.state if result is not None else ""
                label = TabLabel(tab.key, tab.name, state, tab.aside, tab.done)
                if before is not None and before[2] == label:
                    label = before[2]
                before = kept[tab.key] = (tab, result, label)
            now.append(before[2])
        if len(kept) > 2 * len(now):  # many tabs were removed
            self._kept = {label.key: kept[label.key] for label in now}
        if len(now) != len(self._all) or any(a is not b for a, b in zip(now, self._all, strict=True)):
            self._all = tuple(now)
        return self._all
