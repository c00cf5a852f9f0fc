"""What keeps a project: its journal and its file, each written in a lane of its own. Knows no screen.

What is to be written is taken when it is asked for, and nothing of it changes any more. The journal has its
own lane, so that what is typed while the file is saved does not wait for that.
"""

from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple, TypeVar

from boltend.core.project.journal_text import digest_of
from boltend.core.project.model import Project
from boltend.core.project.recovered import Recovered, remove
from boltend.core.project.recovery import Journal
from boltend.core.project.saving import ProjectFile, Saved, Side
from boltend.shell.lanes import Lane, done_within

T = TypeVar("T")

AT_ONCE = 0.02
"""Seconds that a key waits for its own line in the journal; a disk at work takes a thousandth of that."""


@dataclass(frozen=True)
class Save:
    """A save on its way: what was handed over, the file set aside that it is written by, and its end."""

    handed: Project
    file: ProjectFile
    done: Future[Saved]


class Aside(NamedTuple):
    """A journal that was put aside, and the digest of what it holds."""

    journal: Path
    holds: str | None

    def discard(self) -> None:
        """It is not needed any more."""
        remove(self.journal, self.holds)


class Keeper:
    """The journal and the file of one project. `late` is called, in a lane, when a late line is written."""

    def __init__(self, file: ProjectFile) -> None:
        self._file = file
        self._newest: Project | None = None
        self._noting: Future[None] | None = None
        self._lines, self._files = Lane("journal"), Lane("file")
        self.journal = Journal(file.aside())
        self.late: Callable[[], None] | None = None

    # The journal ----------------------------------------------------------------------------------

    def begin(self) -> None:
        """See that there is a journal, before anything is typed."""
        self._wait_for(self._lines.do(self.journal.begin), behind=False)

    def note(self, project: Project) -> None:
        """Put an edited project into the journal: at once, or where the disk is slow, the newest next."""
        behind = self._noting is not None and not self._noting.done()
        self._newest = project
        self._wait_for(self._lines.do(lambda: self._note(project)), behind=behind)

    def _wait_for(self, noting: Future[None], *, behind: bool) -> None:
        self._noting = noting
        if behind or not done_within(AT_ONCE, noting):
            noting.add_done_callback(lambda _: self._tell_late())

    def holds(self, project: Project) -> Future[bool]:
        """Whether the journal has all of a project, once it has written what it can."""
        return self._lines.do(lambda: self.journal.holds(project))

    def _note(self, project: Project) -> None:
        if project is self._newest:  # else a newer one comes right behind
            self.journal.edited(project)

    def _tell_late(self) -> None:
        if self.late is not None:
            self.late()

    def note_aside(self, project: Project) -> Aside | None:
        """Put a project into a journal of its own, beside; None where it is not there, or not yet."""
        base = self._file.aside()

        def put() -> Aside | None:
            journal = Journal(base)
            journal.edited(project)
            journal.close()
            if journal.trouble or journal.path is None:
                return None
            return Aside(journal.path, digest_of(journal.path.read_bytes()))

        put_aside = self._lines.do(put)
        return put_aside.result() if done_within(AT_ONCE, put_aside) else None

    def forget(self, work: Recovered | Aside) -> None:
        """Remove a journal once what it holds stands in the one of this run; where that has trouble, not."""
        self._noting = self._lines.do(lambda: work.discard() if not self.journal.trouble else None)
        done_within(AT_ONCE, self._noting)

    # The file -------------------------------------------------------------------------------------

    def save(self, project: Project, on_conflict: Side) -> Save:
        """Begin to write the project into its file."""
        file = self._file.aside()
        return Save(project, file, self._files.do(lambda: file.save(project, on_conflict)))

    def save_as(self, path: Path, project: Project) -> Save:
        """Begin to write the project under another name."""
        file = self._file.aside()
        return Save(project, file, self._files.do(lambda: file.save_as(path, project)))

    def saved(self, save: Save) -> Saved:
        """A save is done: be on the file as it is now. Raises what the save raised."""
        done = save.done.result()
        self._file.take(save.file)
        now = save.file.aside()
        self._noting = self._lines.do(lambda: self.journal.saved(save.handed, now))
        done_within(AT_ONCE, self._noting)
        return done

    def after(self, job: Callable[[], T]) -> Future[T]:
        """Something else that a disk may keep waiting, behind the saves."""
        return self._files.do(job)

    def close(self, *, keep: bool) -> Future[None]:
        """Let go of the journal once all is written; without `keep` it goes."""
        closed = self._lines.do(lambda: self.journal.close(keep=keep))
        return self._files.do(closed.result)
