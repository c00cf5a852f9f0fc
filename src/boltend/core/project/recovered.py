"""Reading a recovery journal back: the last state that it holds, offered to the person."""

from __future__ import annotations

import contextlib
import os
import sys
import time
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, NamedTuple

from boltend.core.project.journal_text import VERSION, digest_of, rows_of, unframe
from boltend.core.project.merging import rekeyed
from boltend.core.project.model import (
    NO_SETTINGS,
    FabricRow,
    LadderRow,
    Project,
    Tab,
    new_key,
    project_from_plain,
)
from boltend.core.project.plain import same_plain
from boltend.core.project.recovery import journal_path, journals_of, lock
from boltend.core.project.saving import ProjectFile
from boltend.core.project.whole_file import STALE_AFTER


class Draft(NamedTuple):
    """Something typed that no given took yet, in the tab of that name."""

    tab: str
    given: str
    text: str
    tab_key: int


class Recovered(NamedTuple):
    """Unsaved work of an earlier run; its tabs bear the keys of the open file's where they are the same.

    `file_changed`: the file is no longer the one that the work began from. `when` is in UTC.
    """

    project: Project
    drafts: tuple[Draft, ...]
    when: datetime
    file_changed: bool
    journal: Path
    holds: str | None = None

    def discard(self) -> None:
        """Forget it: the person said so, or it was taken over and journalled anew.

        Where another Boltend was quicker, its own journal may lie there by now: that stays.
        """
        remove(self.journal, self.holds)


def recover(file: ProjectFile) -> Recovered | None:
    """The newest unsaved work for a file, or None; as `recoveries` finds it."""
    return next(iter(recoveries(file)), None)


def recoveries(file: ProjectFile) -> list[Recovered]:
    """All unsaved work for a file, the newest first. A journal that holds nothing more than the file goes.

    A journal that another running Boltend holds is left alone. Call it before the first edit is journalled.
    """
    offers: list[Recovered] = []
    first = journal_path(file.path)
    for left_over in first.parent.glob(f"{first.stem}*.tmp"):  # from a crash in the middle of `saved`
        with contextlib.suppress(OSError):
            # A young one may be another Boltend's that has not locked it yet.
            if time.time() - left_over.stat().st_mtime > STALE_AFTER and _unlocked(left_over) is not None:
                left_over.unlink()
    for path in journals_of(file.path):
        data = _unlocked(path)
        if data is None:
            continue
        try:
            offer = replay(data, file, path)
        except ForeignJournal:
            continue  # a later Boltend may know what it says: it is left as it is
        if offer is None:
            remove(path, digest_of(data))
        else:
            offers.append(offer)
    return sorted(offers, key=lambda offer: offer.when, reverse=True)


def is_unsaved(path: Path) -> bool:
    """Whether there is unsaved work beside a file, as far as a look at its folder tells; cheap."""
    return any(stat.st_size > 0 for stat in journals_of(path).values())


def _unlocked(path: Path) -> bytes | None:
    """The bytes of a journal that no running process holds."""
    try:
        handle = os.open(path, os.O_RDWR)
    except OSError:
        return None
    try:
        return path.read_bytes() if lock(handle) else None
    except OSError:
        return None
    finally:
        os.close(handle)


def remove(path: Path, holds: str | None) -> None:
    """Remove a journal that holds just these bytes (by their digest) and that no running process holds.

    It is locked meanwhile: another Boltend that has opened it to begin its own there goes on to the next.
    """
    with contextlib.suppress(OSError):
        handle = os.open(path, os.O_RDWR)
        try:
            the_same = lock(handle) and digest_of(path.read_bytes()) == holds
            if the_same and sys.platform != "win32":  # there an open file cannot be removed
                path.unlink()
        finally:
            os.close(handle)
        if the_same and sys.platform == "win32":
            path.unlink()


class ForeignJournal(ValueError):
    """A journal that is whole, but not of a form that this Boltend writes."""


def replay(data: bytes, file: ProjectFile, path: Path) -> Recovered | None:
    """The last whole state in a journal's bytes; None where it says no more than the file does.

    Raises ForeignJournal where it is of another version, or of no form that we know.
    """
    records = [record for record, _ in unframe(data)]
    if len(records) < 2:
        return None
    try:
        if records[0].get("version") != VERSION:
            raise ForeignJournal(f"{path.name} is of another version of Boltend")
        found = _replayed(records, file, path)
        return found._replace(holds=digest_of(data)) if found is not None else None
    except (ValueError, TypeError, AttributeError, LookupError, ArithmeticError, OSError) as error:
        raise ForeignJournal(f"{path.name} is of no form that is known here: {error!r}") from error


def _replayed(records: list[dict[str, Any]], file: ProjectFile, path: Path) -> Recovered | None:
    state = _State(records[0])
    for record in records[1:]:
        state.take(record)
    same_base = records[0]["base"] == digest_of(file.data)
    project, keys = state.project(file.saved if same_base else None)
    if not same_base:
        project, keys = _fitted(project, keys, file.saved)
    names = {tab.key: tab.name for tab in project.tabs}
    drafts = tuple(
        Draft(names[keys[tab]], given, text, keys[tab])
        for (tab, given), text in state.drafts.items()
        if keys.get(tab) in names
    )
    if not drafts and same_plain(project.to_plain(), file.saved.to_plain()):
        return None
    when = datetime.fromtimestamp(state.when or path.stat().st_mtime, UTC)
    return Recovered(project, drafts, when, not same_base, path)


def _fitted(project: Project, keys: dict[int, int], saved: Project) -> tuple[Project, dict[int, int]]:
    fitted = rekeyed(project, saved)
    moved = {old.key: new.key for old, new in zip(project.tabs, fitted.tabs, strict=True)}
    return fitted, {number: moved.get(key, key) for number, key in keys.items()}


class _State:
    """A project under the numbers that its tables had in the run that wrote the journal."""

    def __init__(self, first: dict[str, Any]) -> None:
        start = project_from_plain(first["plain"])
        self.root, self.settings = start.root, start.settings
        self.first: dict[str, list[int]] = first["ids"]
        self.order = {word: list(ids) for word, ids in self.first.items()}
        self.rows: dict[int, tuple[Any, int | None]] = {}
        for word in ("fabric", "tab", "ladder"):
            tables = zip(self.first[word], rows_of(start, word), strict=True)
            self.rows.update({number: (row.data, None) for number, row in tables})
        self.drafts: dict[tuple[int, str], str] = {}
        self.when = 0.0

    def take(self, record: dict[str, Any]) -> None:
        """Apply one record."""
        if "draft" in record:
            tab, given, text = record["draft"]
            self.drafts.pop((tab, given), None)
            if text is not None:
                self.drafts[tab, given] = text
        self.when = record.get("when", self.when)
        self.root = record.get("root", self.root)
        if "project" in record:
            self.settings = NO_SETTINGS if record["project"] is None else record["project"]
        for word in ("fabric", "tab", "ladder"):
            self.rows.update({int(k): (data, origin) for k, (data, origin) in record.get(word, {}).items()})
            self.order[word] = record.get(f"{word}_order", self.order[word])

    def project(self, saved: Project | None) -> tuple[Project, dict[int, int]]:
        """The project, with the keys of `saved` where the journal began from it; and number to key."""
        keys = {number: new_key() for number in self.rows}
        known: dict[int, Tab | FabricRow | LadderRow] = {}
        if saved is not None:
            known.update(zip(self.first["fabric"], saved.fabrics, strict=False))
            known.update(zip(self.first["tab"], saved.tabs, strict=False))
            known.update(zip(self.first["ladder"], saved.ladders, strict=False))
        keys.update({number: row.key for number, row in known.items()})

        def tab(number: int) -> Tab:
            data, origin = self.rows[number]
            old = known.get(number)
            if isinstance(old, Tab):
                return old if same_plain(old.data, data) else replace(old, data=data)
            return Tab(keys[number], data, keys.get(origin) if origin is not None else None)

        made = Project(
            self.root,
            self.settings,
            tuple(FabricRow(keys[n], self.rows[n][0]) for n in self.order["fabric"]),
            tuple(tab(n) for n in self.order["tab"]),
            tuple(LadderRow(keys[n], self.rows[n][0]) for n in self.order["ladder"]),
        )
        return made, keys
