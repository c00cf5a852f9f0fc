"""A line of calls for each distribution, each before a worker of its own.

So a stranger's calculator that sleeps, or that changed what everybody calculates with, harms calculators of
its own makers only: others run beside it, in processes that it never was in.
"""

import threading

from boltend.core.host.calls import Fault
from boltend.core.host.line import CallLine, OnBetter, OnOutcome, Waiting
from boltend.core.host.messages import CallRequest
from boltend.core.host.worker import Worker


class Lines:
    """Lines by home (the name of a distribution), each begun when it is first needed."""

    def __init__(self, on_better: OnBetter | None = None) -> None:
        self._on_better = on_better
        self._lock = threading.Lock()
        self._by_home: dict[str, CallLine] = {}
        self._closed = False

    def add(self, home: str, ticket: object, request: CallRequest, report: OnOutcome | None) -> Waiting:
        """Put a call in its home's line; an older one under the same ticket is dropped, wherever it is."""
        with self._lock:
            line = self._by_home.get(home)
            if line is None:
                line = self._by_home[home] = CallLine(Worker(), self._on_better)
                if self._closed:
                    line.close()
        for other in self._lines():
            if other is not line:
                other.drop(ticket)
        return line.add(ticket, request, report)

    def drop(self, ticket: object) -> None:
        """Nobody waits for this ticket any more: its outcome will not be reported."""
        for line in self._lines():
            line.drop(ticket)

    def stop(self, ticket: object) -> None:
        """A person's stop: the best so far is reported, or that it was stopped with nothing found."""
        for line in self._lines():
            line.stop(ticket)

    @property
    def busy(self) -> bool:
        """Whether anything runs or waits to."""
        return any(line.busy for line in self._lines())

    @property
    def last_problem(self) -> Fault | None:
        """What a listener last raised, or None."""
        return next((line.last_problem for line in self._lines() if line.last_problem), None)

    def close(self) -> None:
        """Stop everything without reports, and the workers with it."""
        with self._lock:
            self._closed = True
        lines = self._lines()
        for line in lines:
            line.let_go()
        for line in lines:
            line.close()

    def _lines(self) -> list[CallLine]:
        with self._lock:
            return list(self._by_home.values())
