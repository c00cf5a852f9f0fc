"""Which tabs were in sight, so that one that is gone leads back to where the person was."""

from boltend.core.project.model import Project


class Trail:
    """The keys of the tabs that were in sight, each once, the last one last."""

    def __init__(self) -> None:
        self._keys: list[int] = []

    def to(self, project: Project, key: int | None) -> int | None:
        """The tab to show: this one, where it is gone the one that was in sight last, else the first."""
        there = {tab.key for tab in project.tabs}
        if key not in there:
            first = [tab.key for tab in project.tabs[:1]]
            key = next((seen for seen in (*reversed(self._keys), *first) if seen in there), None)
        if key is not None:
            self._keys = [*(seen for seen in self._keys if seen != key), key]
        return key
