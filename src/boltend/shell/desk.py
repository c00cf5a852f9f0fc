"""An open project on the desk: its file, its history, its journal and its workbook. Knows no screen."""

from collections.abc import Callable, Mapping
from concurrent.futures import Future
from datetime import UTC, datetime
from pathlib import Path
from typing import Protocol, runtime_checkable

from boltend.core.contract import CalculatorSpec, Start, Table
from boltend.core.flow import Result, Workbook
from boltend.core.host import Plugins
from boltend.core.host.calls import Call, Outcome, Runner
from boltend.core.project.history import History
from boltend.core.project.merging import merge
from boltend.core.project.model import Project
from boltend.core.project.problems import Problem
from boltend.core.project.reading import read_bytes
from boltend.core.project.recovered import Recovered, recover, recoveries
from boltend.core.project.recovery import Journal, state_folder
from boltend.core.project.saving import ProjectFile, Side
from boltend.shell.keeping import Aside, Keeper, Save

A_FEW = 12
"""Tabs worked out at a time, some 3 ms, once the one in sight is painted: no key waits for a whole chain."""

OnOutcome = Callable[[int, Outcome], None]


class Bench(Runner, Protocol):
    """What the shell asks of the host, beside running calls."""

    @property
    def specs(self) -> Mapping[str, CalculatorSpec]:
        """Every calculator by name."""
        ...

    @property
    def starts(self) -> tuple[Start, ...]:
        """Questions that several tabs answer."""
        ...

    @property
    def plugins(self) -> Plugins:
        """The plugins that were found, each with its state."""
        ...

    def stop(self, ticket: int) -> None:
        """The person stops a run."""

    def close(self) -> None:
        """Let go of everything."""


@runtime_checkable
class InParts(Protocol):
    """A bench to which some calculators come late."""

    def when_whole(self, tell: Callable[[], object]) -> None:
        """Call `tell` once, from another thread, when they are there."""

    def take_others(self) -> bool:
        """Take them; whether there were any."""
        ...


class _Watched:
    """The host, with a note of which call runs under which ticket, so that a tab's run can be stopped."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self.running: dict[int, Call] = {}

    def spec(self, calculator: str) -> CalculatorSpec | None:
        return self._bench.spec(calculator)

    def why_absent(self, calculator: str) -> tuple[str, str]:
        return self._bench.why_absent(calculator)

    def table(self, name: str) -> Table | None:
        return self._bench.table(name)

    def start(self, call: Call, ticket: int) -> Outcome | None:
        outcome = self._bench.start(call, ticket)
        if outcome is None:
            self.running[ticket] = call
        return outcome

    def drop(self, ticket: int) -> None:
        self.running.pop(ticket, None)
        self._bench.drop(ticket)


class Desk:
    """One open project. Every edit goes through `edit`, which journals it and works it out at once.

    `untitled`: the project has no file yet; its journal lies under a name of ours until it gets one.
    """

    def __init__(self, file: ProjectFile, *, untitled: bool = False) -> None:
        self.file = file
        self.untitled = untitled
        self.history = History(file.saved)
        self.keeper = Keeper(file)
        self.bench: Bench | None = None
        self.book_so_far: Workbook | None = None
        self.before: Mapping[int, Result] = {}
        """What every tab came to before the last step: what changed is shown beside it."""
        self._watched: _Watched | None = None
        self._taken: Project | None = None
        self._kept_aside: Aside | None = None
        self._closed: Future[None] | None = None

    @classmethod
    def open(cls, path: str | None) -> "Desk":
        """Open a file, or begin a project where there is none. Raises ProjectUnreadable."""
        if path is None:
            return cls(_nameless(), untitled=True)
        if not Path(path).exists():
            return cls(ProjectFile.new(path))
        return cls(ProjectFile.open(path))

    @classmethod
    def copy_of(cls, data: bytes, name: str) -> "Desk":
        """A project without a file that says what a file says, comments too. Raises ProjectUnreadable."""
        reading = read_bytes(data, name)
        return cls(ProjectFile(_nameless().path, reading.document, reading.project, None), untitled=True)

    @property
    def book(self) -> Workbook | None:
        """The workbook. Whoever asks for it finds all of it worked out."""
        self.finish()
        return self.book_so_far

    @property
    def journal(self) -> Journal:
        """Where unsaved work is kept for a crash; its `trouble` says where it is not."""
        return self.keeper.journal

    @property
    def is_new(self) -> bool:
        """Whether the project has a name for its file, but no file yet."""
        return not self.untitled and self.file.data is None

    @property
    def project(self) -> Project:
        """The project in sight."""
        return self.history.now

    @property
    def changed(self) -> bool:
        """Whether there is anything that the file does not hold."""
        return self.project is not self.file.saved

    @property
    def as_taken(self) -> bool:
        """Whether this is unsaved work just as it was taken over: its journal offers it again."""
        return self.project is self._taken and not self.journal.trouble

    @property
    def file_name(self) -> str:
        """The name of the file, for the person."""
        return "no file yet" if self.untitled else self.file.path.name

    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with the project's shape, with lines where the file has them."""
        return self.file.problems(self.project)

    # Working out ----------------------------------------------------------------------------------

    def take_bench(self, bench: Bench) -> None:
        """The calculators are there: work the project out."""
        self.bench = bench
        self._watched = _Watched(bench)
        self.book_so_far = Workbook(self._watched, self.project)

    def edit(
        self, project: Project, label: str, merge_key: object | None = None, first: int | None = None
    ) -> set[int]:
        """Take in an edited project; the keys of the tabs that may look different now.

        With `first`, the tab in sight, what comes after it is left for `finish`.
        """
        if project is self.project:
            return set()
        return self._follow(first, new=self.history.do(project, label, merge_key))

    @property
    def unfinished(self) -> bool:
        """Whether an edit may have reached tabs that are not worked out yet."""
        return self.book_so_far is not None and self.bench is not None and self.book_so_far.unfinished

    def finish(self) -> None:
        """Work out what an edit has left."""
        while self.unfinished:
            self.go_on()

    def go_on(self) -> None:
        """Work out a few tabs of what an edit has left."""
        if self.book_so_far is not None:
            self.book_so_far.finish(A_FEW)

    def undo(self) -> str | None:
        """Take the last edit back; what it was called, or None."""
        before = self.project
        label = self.history.undo()
        self._follow()
        if label is not None and before is self._taken:
            label += "; redo brings it back"
            if self._keep_aside(before):
                label += ", or it is offered at the next start"
        return label

    def redo(self) -> str | None:
        """Bring an edit back; what it was called, or None."""
        label = self.history.redo()
        self._follow()
        if self.project is self._taken:
            self._drop_aside()
        return label

    def _keep_aside(self, project: Project) -> bool:
        """Recovered work was undone: it goes into a journal of its own, for an edit would end its redo."""
        self._kept_aside = self.keeper.note_aside(project)
        return self._kept_aside is not None

    def _drop_aside(self) -> None:
        """It is here again, and in the journal of this run."""
        if self._kept_aside is not None:
            self.keeper.forget(self._kept_aside)
            self._kept_aside = None

    def _follow(self, first: int | None = None, *, new: bool = True) -> set[int]:
        # The journal first: whatever happens while working out, what was typed is kept.
        self.keeper.note(self.project)
        if self.book_so_far is None:
            return set()
        if new:
            self.before = dict(self.book_so_far.results)
        return self.book_so_far.update(self.project, first)

    def arrived(self, ticket: int, outcome: Outcome, first: int | None = None) -> set[int]:
        """An outcome that came from the worker; the keys of the tabs that may look different now.

        With `first`, the tab in sight, what comes after it is left for `finish`.
        """
        if self._watched is not None:
            self._watched.running.pop(ticket, None)
        book = self.book_so_far
        return book.arrived(ticket, outcome, first) if book is not None else set()

    def stop(self, key: int) -> bool:
        """Stop the run of a tab; whether there was one."""
        if self.book_so_far is None or self._watched is None or self.bench is None:
            return False
        args = self.book_so_far.results[key].args
        for ticket, call in self._watched.running.items():
            if call.args is args:
                self.bench.stop(ticket)
                return True
        return False

    def take_others(self) -> set[int]:
        """The calculators that came late are there; the keys of the tabs that may look different now."""
        return self.work_anew() if isinstance(self.bench, InParts) and self.bench.take_others() else set()

    def work_anew(self) -> set[int]:
        """Work everything out once more."""
        return self.book_so_far.refresh() if self.book_so_far is not None else set()

    # Keeping --------------------------------------------------------------------------------------

    def save(self, on_conflict: Side = "ask") -> Save:
        """Begin to save what is in sight now; `saved` takes in what came of it."""
        return self.keeper.save(self.project, on_conflict)

    def save_as(self, path: Path) -> Save:
        """Begin to save under a name, to go on there; `saved` takes in what came of it."""
        return self.keeper.save_as(path, self.project)

    def saved(self, save: Save) -> str:
        """A save is done: what to tell the person. What was edited meanwhile stays, and is not saved.

        Raises ChangedOnDisk, SaveFailed, ProjectUnreadable.
        """
        done = self.keeper.saved(save)
        self.untitled = False
        mine = done.project is not save.handed and self._take_in(save.handed, done.project)
        words = [f"Saved in {self.file.path.name}."]
        if done.merged:
            words.append("What somebody else changed in the file was taken in.")
        if mine:
            words.append("Where you have changed the same since, yours stays, not saved yet.")
        return " ".join([*words, done.note] if done.note else words)

    def _take_in(self, handed: Project, now: Project) -> bool:
        """What came from the file; what the person has typed since stays. Whether that was the same place."""
        both = merge(handed, self.project, now) if self.project is not handed else None
        self.history.do(both.project if both is not None else now, "what came from the file")
        self._follow()
        return both is not None and bool(both.conflicts)

    def recovered(self) -> Recovered | None:
        """Unsaved work of an earlier run."""
        return recover(self.file)

    def take_recovered(self, found: Recovered) -> None:
        """Go on with unsaved work; its old journal goes once it stands in the new one."""
        if self.untitled:
            # Nothing stood here before: undo has nowhere to go back to, and must not empty it.
            self.history = History(found.project)
            self._follow()
        else:
            self.edit(found.project, "unsaved work of " + when_words(found.when))
        self._taken = found.project
        self.keeper.forget(found)

    def close(self, *, keep: bool = True) -> Future[None]:
        """Let go, once: unsaved work stays in the journal, unless it is thrown away.

        What is given is done when all is written.
        """
        if self._closed is None:
            self._closed = self.keeper.close(keep=keep and self.changed)
        bench, self.bench = self.bench, None
        if bench is not None:
            bench.close()
        return self._closed


def unsaved_nameless() -> list[Recovered]:
    """The unsaved work of all projects that have no file yet, the newest first."""
    return recoveries(_nameless())


def _nameless() -> ProjectFile:
    """Under this name lie the journals of projects that have no file yet. It is never written."""
    return ProjectFile.new(state_folder() / "untitled.toml")


def ago_words(when: datetime) -> str:
    """How long ago a time was, as one says it; after a week the time itself."""
    minutes = max(0, int((datetime.now(UTC) - when).total_seconds() // 60))
    hours, days = minutes // 60, minutes // (24 * 60)
    if minutes < 1:
        return "just now"
    if hours < 1:
        return f"{minutes} min ago"
    if days < 1:
        return f"{hours} h ago"
    return when_words(when) if days > 7 else "yesterday" if days == 1 else f"{days} days ago"


def when_words(when: datetime) -> str:
    """A time in the person's own zone."""
    return when.astimezone().strftime("%Y-%m-%d %H:%M")
