"""A runner for a workbook of its own: it waits for every answer, in whatever thread that workbook lives."""

import itertools
import threading

from boltend.core.contract import CalculatorSpec, Table
from boltend.core.host.calls import Call, Outcome, Runner
from boltend.core.pool.cutter import Stopping

LOOK = 0.05
"""Seconds between two looks whether an answer is still wanted."""

_numbers = itertools.count(-1, -1)
"""Tickets below nought: those of the person's own workbook count upwards from one."""


class Apart:
    """Runs calls through another runner, which may answer later, and waits for what it answers.

    Never on the thread to which that runner reports. `arrived` takes an outcome, from any thread; a call
    that `job` stops has the outcome *stopped*.
    """

    def __init__(self, runner: Runner, job: Stopping | None = None) -> None:
        self._runner, self._job = runner, job
        self._waits: dict[int, threading.Event] = {}
        self._came: dict[int, Outcome] = {}

    def spec(self, calculator: str) -> CalculatorSpec | None:
        """As the other says."""
        return self._runner.spec(calculator)

    def why_absent(self, calculator: str) -> tuple[str, str]:
        """As the other says."""
        return self._runner.why_absent(calculator)

    def table(self, name: str) -> Table | None:
        """As the other says."""
        return self._runner.table(name)

    def start(self, call: Call, ticket: int) -> Outcome:
        """Run a call to its end."""
        if self._stopped():
            return Outcome(stopped=True)
        number = next(_numbers)
        came = self._waits[number] = threading.Event()
        try:
            outcome = self._runner.start(call, number)
            if outcome is not None:
                return outcome
            while not came.wait(LOOK):
                if self._stopped():
                    self._runner.drop(number)
                    return Outcome(stopped=True)
            return self._came.pop(number)
        finally:
            del self._waits[number]

    def drop(self, ticket: int) -> None:
        """Nothing runs on: every call was waited for."""

    def arrived(self, ticket: object, outcome: Outcome) -> bool:
        """Take an outcome, where it is one that is waited for here."""
        came = self._waits.get(ticket) if isinstance(ticket, int) else None
        if came is None or not isinstance(ticket, int):
            return False
        self._came[ticket] = outcome
        came.set()
        return True

    def _stopped(self) -> bool:
        return self._job is not None and self._job.stopped()
