"""Ladders worked out off the screen's own thread, rung by rung, and what there is of them so far."""

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice

from textual.message import Message

from boltend.core.asking import AskError, Ladder, Rung, read_ladder
from boltend.core.asking.apart import Apart
from boltend.core.asking.ladder import climb_in_turns
from boltend.core.flow import Workbook
from boltend.core.pool import Pool
from boltend.core.project.model import LadderRow, Project
from boltend.shell.lanes import give_way
from boltend.shell.planning import Wanted

TOGETHER = 0.05
"""Seconds within which rungs are told together: a hundred quick ones need no hundred paintings."""


@dataclass(frozen=True)
class Standing:
    """A ladder of the project with its rungs so far; `why` tells where it cannot be read."""

    row: LadderRow
    ladder: Ladder | None = None
    rungs: tuple[Rung | None, ...] = ()
    why: str = ""

    @property
    def done(self) -> tuple[Rung, ...]:
        """The rungs that are there."""
        return tuple(rung for rung in self.rungs if rung is not None)


@dataclass
class Climbs:
    """All ladders of a project as far as they are worked out."""

    project: Project = field(default_factory=Project)
    standing: tuple[Standing, ...] = ()

    def follow(self, book: Workbook) -> bool:
        """Read what has changed; whether there is more to work out, or less."""
        before, self.project = self.project, book.project
        same = _same_but_ladders(before, self.project)
        kept = {each.row: each for each in self.standing} if same else {}
        if same and before.ladders is self.project.ladders:
            return False
        self.standing = tuple(kept.get(row) or _read(book, row) for row in self.project.ladders)
        return True

    def open(self, first: int | None = None) -> list[tuple[int, Ladder]]:
        """The ladders that are not worked out whole, by the keys of their rows; the one of `first` leads."""
        found = [
            (each.row.key, each.ladder)
            for each in self.standing
            if each.ladder is not None and any(rung is None or rung.open for rung in each.rungs)
        ]
        return sorted(found, key=lambda each: each[0] != first)

    @property
    def counts(self) -> tuple[int, int]:
        """How many rungs there are, and of how many."""
        return (
            sum(len(each.done) for each in self.standing),
            sum(len(each.rungs) for each in self.standing),
        )

    def take(self, told: "Sequence[tuple[int, int, Rung]]") -> None:
        """Keep rungs: (key of the row, which, rung)."""
        for key, at, rung in told:
            self.standing = tuple(
                replace(each, rungs=(*each.rungs[:at], rung, *each.rungs[at + 1 :]))
                if each.row.key == key
                else each
                for each in self.standing
            )


def _same_but_ladders(one: Project, other: Project) -> bool:
    return (
        one.settings is other.settings
        and one.fabrics is other.fabrics
        and one.root.get("row") is other.root.get("row")
        and len(one.tabs) == len(other.tabs)
        and all(a is b for a, b in zip(one.tabs, other.tabs, strict=True))
    )


def _read(book: Workbook, row: LadderRow) -> Standing:
    try:
        ladder = read_ladder(book, row)
    except AskError as error:
        return Standing(row, why=str(error))
    return Standing(row, ladder, (None,) * len(ladder.values))


class Climbed(Message):
    """Rungs that are ready; with `last` there are no more. Posted from the thread, where posting is safe."""

    def __init__(
        self, run: Wanted, told: list[tuple[int, int, Rung]], *, last: bool = False, fault: str = ""
    ) -> None:
        self.run, self.told, self.last, self.fault = run, told, last, fault
        super().__init__()


def climb_in_thread(
    pool: Pool,
    apart: Apart,
    project: Project,
    ladders: Sequence[tuple[int, Ladder]],
    run: Wanted,
    tell: Callable[[Message], object],
) -> None:
    """The whole of a thread's work. A fault of ours is told, not raised: it must not take the form along."""
    give_way()
    told: list[tuple[int, int, Rung]] = []
    since = time.monotonic()
    try:
        for key, at, rung in _in_turns(pool, apart, project, ladders, run):
            told.append((key, at, rung))
            if time.monotonic() - since > TOGETHER:
                tell(Climbed(run, told))
                told, since = [], time.monotonic()
    except Exception as error:
        tell(Climbed(run, told, last=True, fault=f"{type(error).__name__}: {error}"))
        return
    tell(Climbed(run, told, last=True))


def _in_turns(
    pool: Pool, apart: Apart, project: Project, ladders: Sequence[tuple[int, Ladder]], run: Wanted
) -> Iterator[tuple[int, int, Rung]]:
    """Of all ladders what is there quickly; only then, ladder by ladder, what takes a long search."""
    begun = [
        (key, len(ladder.values), climb_in_turns(apart, project, ladder, pool, run))
        for key, ladder in ladders
    ]
    for key, count, rungs in begun:
        yield from ((key, at, rung) for at, rung in islice(rungs, count))
    for key, _, rungs in begun:
        yield from ((key, at, rung) for at, rung in rungs)
