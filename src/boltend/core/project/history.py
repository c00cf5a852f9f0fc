"""Undo and redo: a bounded stack of whole projects (they share all that did not change, so this is cheap)."""

from __future__ import annotations

from typing import NamedTuple

from boltend.core.project.model import Project

LIMIT = 500


class Step(NamedTuple):
    """The project as it stood before an edit, with what the edit was called."""

    project: Project
    label: str
    merge_key: object | None


class History:
    """The person's edits in order. `now` is the project in sight."""

    def __init__(self, project: Project, limit: int = LIMIT) -> None:
        self.now = project
        self._limit = limit
        self._undo: list[Step] = []
        self._redo: list[Step] = []

    def do(self, project: Project, label: str, merge_key: object | None = None) -> bool:
        """Take in the project after an edit; whether it is a step of its own.

        Edits in a row with the same `merge_key` (not None) become one step: a burst of typing in one given.
        An edit that changed nothing (the same object) leaves no step.
        """
        if project is self.now:
            return False
        burst = bool(self._undo) and merge_key is not None and self._undo[-1].merge_key == merge_key
        if not burst:
            self._undo.append(Step(self.now, label, merge_key))
            del self._undo[: -self._limit]
        self._redo.clear()
        self.now = project
        return not burst

    def close_burst(self) -> None:
        """End a burst: the next edit is a step of its own, even of the same given (focus left, a pause)."""
        if self._undo and self._undo[-1].merge_key is not None:
            last = self._undo[-1]
            self._undo[-1] = Step(last.project, last.label, None)

    def undo(self) -> str | None:
        """Go back one step; its label, or None where there is nothing to undo."""
        return self._swap(self._undo, self._redo)

    def redo(self) -> str | None:
        """Go forward one step; its label, or None where there is nothing to redo."""
        return self._swap(self._redo, self._undo)

    def _swap(self, source: list[Step], target: list[Step]) -> str | None:
        if not source:
            return None
        step = source.pop()
        # The merge key goes: what was undone or redone is a step that typing must not grow.
        target.append(Step(self.now, step.label, None))
        self.now = step.project
        self.close_burst()
        return step.label

    @property
    def undo_label(self) -> str | None:
        """What `undo` would take back."""
        return self._undo[-1].label if self._undo else None

    @property
    def redo_label(self) -> str | None:
        """What `redo` would bring back."""
        return self._redo[-1].label if self._redo else None
