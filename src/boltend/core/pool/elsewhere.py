"""Cutting plans made in a process of its own: the screen's process only waits, and can stop it."""

import contextlib
import pickle
import threading
from dataclasses import dataclass, replace
from time import monotonic

from boltend.core.cutting import Plan
from boltend.core.host.process import Gone, Process
from boltend.core.pool.cutter import CutTask, Stopping, cut_here

MODULE = "boltend.core.pool.elsewhere_main"

LOOK = 0.05
"""Seconds between looks whether the plan is still wanted."""

GRACE = 0.5
"""Seconds that a plan gets to end by itself once it was asked to stop; then its process is ended."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A plan to make, with a number, so that a late word on an earlier one is known as such."""

    number: int
    task: CutTask


@dataclass(frozen=True, slots=True)
class StopAsked:
    """Stop, and give the best so far."""


@dataclass(frozen=True, slots=True)
class Told:
    """A plan: a better one, or the last word; None where the engine failed, and why."""

    number: int
    plan: Plan | None
    last: bool
    fault: str = ""


def _read(data: bytes) -> object:
    return pickle.loads(data)  # from a process that runs nothing but our own code


class Elsewhere:
    """A process that makes plans, started when first needed; one plan at a time, whoever asks."""

    def __init__(self) -> None:
        self._process: Process[object] | None = None
        self._number = 0
        self._turn = threading.Lock()

    def __call__(self, task: CutTask, job: Stopping | None) -> Plan:
        """Make a plan. A process that dies or does not start costs the proof, not the plan."""
        best: Plan | None = None
        with self._turn:
            try:
                return self._cut(task, job)
            except _EndedEarly as early:
                best = early.best
            except (Gone, OSError):
                self.end()
        if best is None:
            best = cut_here(replace(task, effort=0, proof=None), None)
        return replace(best, stopped=True)

    def _cut(self, task: CutTask, job: Stopping | None) -> Plan:
        process = self._process = self._process or Process(MODULE, _read)
        self._number += 1
        process.send(Asked(self._number, task))
        best, deadline = None, float("inf")
        while monotonic() < deadline:
            told = process.receive(LOOK)
            if isinstance(told, Told) and told.number == self._number:
                best = told.plan or best
                if told.last:
                    if told.plan is None:
                        raise _EndedEarly(best)
                    return told.plan
            if deadline == float("inf") and job is not None and job.stopped():
                process.send(StopAsked())
                deadline = monotonic() + GRACE
        self.end()
        raise _EndedEarly(best)

    def end(self) -> None:
        """End the process, if there is one; the next plan starts a new one. Any thread may call this."""
        process, self._process = self._process, None
        if process is not None:
            with contextlib.suppress(OSError):
                process.end()


class _EndedEarly(Exception):
    """The last word is missing; `best` is the best plan that was told before."""

    def __init__(self, best: Plan | None) -> None:
        super().__init__()
        self.best = best
