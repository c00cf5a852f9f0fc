"""An open project file: its path, its text, the project that the text says, and how to save another one."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Literal, NamedTuple

from boltend.core.project.document import CannotWrite, Document
from boltend.core.project.file_bytes import LIMIT, bytes_of
from boltend.core.project.merging import Conflict, merge, rekeyed
from boltend.core.project.model import Project
from boltend.core.project.plain import same_plain
from boltend.core.project.problems import Problem, ProjectUnreadable
from boltend.core.project.reading import locate, read_bytes
from boltend.core.project.whole_file import SaveFailed, before_path, in_turn, real_path, write_whole

Side = Literal["ask", "mine", "theirs"]


class ChangedOnDisk(Exception):
    """The file was changed by somebody else, in keys that were changed here too. Nothing was written.

    Ask, then call `save(..., on_conflict="mine")` or `"theirs"`. `theirs` is the project on disk.
    """

    def __init__(self, file: str, conflicts: tuple[Conflict, ...], theirs: Project) -> None:
        what = "; ".join(conflict.where for conflict in conflicts)
        super().__init__(f"{file} was changed on disk, in the same places as here: {what}.")
        self.file, self.conflicts, self.theirs = file, conflicts, theirs


class Saved(NamedTuple):
    """What `save` did. `project` is what the file says now: another than the one given where `merged`."""

    project: Project
    merged: bool = False
    note: str = ""


class ProjectFile:
    """A project file that is open. `saved` is the project as last read or written."""

    def __init__(self, path: Path, document: Document, saved: Project, data: bytes | None) -> None:
        self.path = path
        self.document = document
        self.saved = saved
        self._data = data

    @classmethod
    def open(cls, path: str | Path, *, pipes: bool = False) -> ProjectFile:
        """Read a file. Raises ProjectUnreadable, also where there is no such file.

        With `pipes` one that was handed to this process, as `/dev/stdin`, is read too: to be shown only.
        """
        where = Path(path)
        data = bytes_of(where, pipes=pipes)
        if data is None:
            raise ProjectUnreadable(str(path), "there is no such file.", "Check the name and the folder.")
        reading = read_bytes(data, where.name)
        return cls(where, reading.document, reading.project, data)

    @classmethod
    def new(cls, path: str | Path) -> ProjectFile:
        """A project that has no file yet; the first `save` makes it (and asks where one has appeared)."""
        return cls(Path(path), Document(""), Project(), None)

    def aside(self) -> ProjectFile:
        """The same as it is now, apart: it can be saved in another thread, and `take` brings it back."""
        return copy.copy(self)

    def take(self, other: ProjectFile) -> None:
        """Be as `other` is, which was set aside from this one and saved since."""
        self.path, self.document, self.saved, self._data = (
            other.path,
            other.document,
            other.saved,
            other._data,
        )

    @property
    def data(self) -> bytes | None:
        """The bytes of the file as last read or written; None where there is none yet."""
        return self._data

    @property
    def before(self) -> Path:
        """Where the last version is kept."""
        return before_path(real_path(self.path))

    def problems(self, project: Project | None = None) -> tuple[Problem, ...]:
        """All that is wrong with the shape of a project (default: as saved), with file and line."""
        return locate(project or self.saved, self.saved, self.document, self.path.name)

    def changed_on_disk(self) -> bool:
        """Whether the file differs from what was last read or written here (gone counts as changed)."""
        try:
            return bytes_of(self.path) != self._data
        except ProjectUnreadable:
            return True

    def save(self, project: Project, on_conflict: Side = "ask") -> Saved:
        """Write the project. A change on disk since the last reading is merged in, by (tab, given).

        Raises ChangedOnDisk where both sides changed the same key and `on_conflict` is "ask"; SaveFailed
        where it cannot be written; ProjectUnreadable where what is on disk now cannot be read.
        """
        with in_turn(real_path(self.path)):
            return self._save(project, on_conflict)

    def _save(self, project: Project, on_conflict: Side) -> Saved:
        try:
            on_disk = bytes_of(self.path)
            changed = on_disk is not None and on_disk != self._data
            reading = read_bytes(on_disk, self.path.name) if on_disk is not None and changed else None
        except ProjectUnreadable as error:
            way = f"{error.way_out} It is left as it is: save as another file."
            raise ProjectUnreadable(error.file, error.why, way, error.line, error.column) from error
        if on_disk == self._data and project is self.saved and on_disk is not None:
            return Saved(project)
        base, document, wanted, merged = self.saved, self.document, project, False
        if reading is not None:
            document, base = reading.document, rekeyed(reading.project, self.saved)
            wanted = self._merge(project, base, on_conflict)
            merged = not same_plain(wanted.to_plain(), project.to_plain())
            # The person's own object where nothing came in: `is` then tells that all is as it was.
            wanted = wanted if merged else project
        return self._write(document, base, wanted, on_disk, merged)

    def save_as(self, path: str | Path, project: Project) -> Saved:
        """Write the project under another name and go on there. One there is kept as `.NAME.before`."""
        with in_turn(real_path(Path(path))):
            other = ProjectFile(Path(path), self.document, self.saved, bytes_of(Path(path)))
            done = other._write(self.document, self.saved, project, other._data, False)
        self.take(other)
        return done

    def _merge(self, mine: Project, theirs: Project, on_conflict: Side) -> Project:
        first, second = (theirs, mine) if on_conflict == "theirs" else (mine, theirs)
        result = merge(self.saved, first, second)
        if result.conflicts and on_conflict == "ask":
            raise ChangedOnDisk(self.path.name, tuple(result.conflicts), theirs)
        return result.project

    def _write(
        self, document: Document, base: Project, wanted: Project, on_disk: bytes | None, merged: bool
    ) -> Saved:
        safe = "The file on disk is whole and as it was." if on_disk is not None else "No file was made."
        try:
            edited = document.apply(base, wanted)
            data = edited.text.encode("utf-8")
        except (CannotWrite, UnicodeEncodeError) as error:
            raise SaveFailed(f"{self.path.name} could not be saved: {error}", safe) from error
        if len(data) > LIMIT:
            why = f"{self.path.name} could not be saved: it would be larger than {LIMIT // 1_000_000} MB"
            raise SaveFailed(f"{why}, and not be opened again.", safe, "Take long notes or tabs out.")
        target = real_path(self.path)
        # Once more, as near to the replacing as can be: working out the text took a moment.
        if bytes_of(target) != on_disk:
            raise SaveFailed(
                f"{self.path.name} was changed on disk while it was being saved.", safe, "Save again."
            )
        note = write_whole(target, data) if data != on_disk else ""
        if on_disk is None and self._data is not None:
            note = f"The file had been taken away; it was written again. {note}".strip()
        self.document = Document.from_text(edited.text)
        self.saved, self._data = wanted, data
        return Saved(wanted, merged, " ".join(part for part in (edited.note, note) if part))
