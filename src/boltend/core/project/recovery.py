"""Unsaved work survives a crash: every edit goes into a journal in the person's state folder.

A journal begins with the project as saved; each edit appends only the tables that it changed, and one `write`
takes it out of the program, so that even `kill -9` loses at most the edit in flight. There is no fsync for an
edit (it costs milliseconds): a power cut may lose the last seconds, never the project file.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import secrets
import sys
from pathlib import Path
from typing import Any

import platformdirs

from boltend.core.project.journal_text import delta, frame, header
from boltend.core.project.model import Project
from boltend.core.project.saving import ProjectFile
from boltend.core.project.whole_file import real_path, write_all

MOST_JOURNALS = 10_000
"""Of one project: works that were left unsaved, and Boltends that are open on it. Each is looked at only by
its folder's list, so many cost nothing; none is ever removed to make room."""


def state_folder() -> Path:
    """Where recovery files lie: `BOLTEND_STATE`, or the platform's own place for state."""
    told = os.environ.get("BOLTEND_STATE")
    return Path(told) if told else platformdirs.user_state_path("boltend")


def journal_path(project_path: Path) -> Path:
    """The first journal of a project file, by the hash of its real path."""
    real = str(real_path(project_path))
    digest = hashlib.sha256(real.encode("utf-8", "surrogateescape")).hexdigest()[:20]
    return state_folder() / "recovery" / f"{digest}.journal"


def journals_of(project_path: Path) -> dict[Path, os.stat_result]:
    """The journals of a project file that are there; none where their folder cannot be read."""
    first = journal_path(project_path)
    try:
        with os.scandir(first.parent) as entries:
            mine = [e for e in entries if e.name.startswith(first.stem) and e.name.endswith(first.suffix)]
    except OSError:
        return {}
    found: dict[Path, os.stat_result] = {}
    for entry in mine:
        with contextlib.suppress(OSError):  # gone by now
            found[first.with_name(entry.name)] = entry.stat()
    return found


class Journal:
    """The recovery journal of one open project file. It never raises: `trouble` says why it cannot write."""

    def __init__(self, file: ProjectFile) -> None:
        self._file = file
        self._last: Project | None = None
        self._drafts: dict[tuple[int, str], str] = {}
        self._handle: int | None = None
        self._good = 0
        self._about: Path | None = None
        self.path: Path | None = None
        self.trouble = ""

    def begin(self) -> None:
        """See that there is a journal to write to, so that `trouble` is known before anything is typed."""
        if self._handle is None:
            try:
                self._open()
            except OSError as error:
                self._failed(error)

    def holds(self, project: Project) -> bool:
        """Whether the project, as it is now, will be found again. What was missed is written once more."""
        if self._handle is not None and (self.path is None or not _still_there(self.path, self._handle)):
            os.close(self._handle)  # its file was removed from under us: all of it into another
            self._handle, self._last, self._good = None, None, 0
        self.edited(project)
        return project is (self._last or self._file.saved)

    def edited(self, project: Project) -> None:
        """Note the project after an edit."""
        if project is (self._last or self._file.saved):
            return
        if self._append(delta(self._last or self._file.saved, project)):
            self._last = project

    def draft(self, tab_key: int, given: str, text: str | None) -> None:
        """Note what is being typed but not valid yet; None takes it back."""
        if self._drafts.get((tab_key, given)) == text:
            return
        if text is None:
            del self._drafts[tab_key, given]
        else:
            self._drafts[tab_key, given] = text
        self._append({"draft": [tab_key, given, text]})

    def saved(self, project: Project, file: ProjectFile | None = None) -> None:
        """Tell that `project` (as it was handed to `save`) is in the file: the journal is emptied.

        Edits made since it was handed over, and drafts, stay in it, on the file as it is now; that is `file`
        where the journal was made with one set aside.
        """
        self._file = file or self._file
        last, self._last = self._last, None
        ahead = last if last is not project else None
        if self._handle is None:
            return
        if self._about != real_path(self._file.path):
            self._elsewhere(ahead)
            return
        try:
            if ahead is None and not self._drafts:
                os.ftruncate(self._handle, 0)
                self._good = 0
            else:
                self._begin_again(ahead)
        except OSError as error:
            self._last = last  # what it says is as it was
            self._failed(error)

    def close(self, keep: bool = True) -> None:
        """Let go of the journal; without `keep` (all is saved, or given up) its file goes too."""
        if self._handle is None:
            return
        if self.path is not None and (not keep or self._good == 0):
            with contextlib.suppress(OSError):
                os.unlink(self.path)
        os.close(self._handle)
        self._handle = None

    def _elsewhere(self, ahead: Project | None) -> None:
        """The project was saved under another name: its journal goes there too, the old one last."""
        old, handle = self.path, self._handle
        self._handle, self._good, self.trouble = None, 0, ""
        if ahead is not None:
            self.edited(ahead)
        for (key, given), text in self._drafts.items():
            self._append({"draft": [key, given, text]})
        if old is not None and not self.trouble:
            with contextlib.suppress(OSError):
                os.unlink(old)
        if handle is not None:
            os.close(handle)

    def _header(self) -> dict[str, Any]:
        return header(self._file.saved, self._file.data, str(real_path(self._file.path)))

    def _append(self, record: dict[str, Any]) -> bool:
        try:
            if self._handle is None:
                self._open()
            assert self._handle is not None
            text = frame(record) if self._good else frame(self._header()) + frame(record)
            write_all(self._handle, text)
        except (OSError, ValueError, TypeError) as error:
            self._failed(error)
            return False
        self._good += len(text)
        self.trouble = ""
        return True

    def _open(self) -> None:
        first = journal_path(self._file.path)
        first.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        # One that holds unsaved work of an earlier run is left alone until that is taken over.
        taken = {path.name for path, stat in journals_of(self._file.path).items() if stat.st_size > 0}
        for number in range(MOST_JOURNALS):
            name = f"{first.stem}-{number}{first.suffix}" if number else first.name
            handle = _claimed(path := first.with_name(name)) if name not in taken else None
            if handle is not None:
                self._handle, self.path, self._good = handle, path, 0
                self._about = real_path(self._file.path)
                return
        raise OSError(f"{MOST_JOURNALS} unfinished works lie there; go on with some, or throw them away")

    def _begin_again(self, ahead: Project | None) -> None:
        """A new journal in place of the old one, in one step: a kill finds the one or the other."""
        assert self.path is not None
        assert self._handle is not None
        records = [self._header()]
        if ahead is not None:
            records.append(delta(self._file.saved, ahead))
        records += [{"draft": [key, given, text]} for (key, given), text in self._drafts.items()]
        text = b"".join(map(frame, records))
        other = self.path.with_suffix(f".{secrets.token_hex(4)}.tmp")
        handle = os.open(other, os.O_RDWR | os.O_CREAT | os.O_EXCL | os.O_APPEND, 0o600)
        try:
            write_all(handle, text)
            lock(handle)
            os.replace(other, self.path)
        except OSError:
            os.close(handle)
            with contextlib.suppress(OSError):
                os.unlink(other)
            raise
        os.close(self._handle)
        self._handle, self._good, self._last = handle, len(text), ahead

    def _failed(self, error: Exception) -> None:
        """Keep the journal readable: cut off what was half written, so that the next record can follow."""
        reason = getattr(error, "strerror", None) or str(error)
        self.trouble = f"Unsaved work is not kept for a crash just now ({reason}). Save the project."
        if self._handle is not None:
            with contextlib.suppress(OSError):
                os.ftruncate(self._handle, self._good)


def _claimed(path: Path) -> int | None:
    """A journal that is empty and now ours. None where another Boltend has it, or just removed it."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), 0o600)
    try:
        ours = lock(handle) and os.fstat(handle).st_size == 0 and _still_there(path, handle)
    except OSError:
        os.close(handle)
        raise
    if ours:
        return handle
    os.close(handle)
    return None


def _still_there(path: Path, handle: int) -> bool:
    try:
        return os.path.samestat(os.stat(path), os.fstat(handle))
    except OSError:
        return False


def lock(handle: int) -> bool:
    """Lock a journal for this process; False where another holds it. It is freed when a process dies.

    Raises OSError where the disk knows no locks.
    """
    if sys.platform == "win32":
        return True  # there an open file cannot be replaced by another process anyway
    import fcntl  # Unix only, so not at the top

    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True
