"""A line of calls before a worker: one after the other, under tickets, by one thread."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field

from boltend.core.contract import Answer
from boltend.core.host.calls import Fault, Outcome
from boltend.core.host.faults import fault_of
from boltend.core.host.messages import CallRequest
from boltend.core.host.worker import Errand, Worker

IDLE = 300.0
"""Seconds after which a worker that nobody needs is ended: it holds some thirty megabytes."""

OnOutcome = Callable[[object, Outcome], None]
OnBetter = Callable[[object, Answer, object], None]


@dataclass(slots=True, eq=False)
class Waiting:
    """A call in the line. `reported` is set once its outcome is there, or once nobody wants it."""

    ticket: object
    errand: Errand
    report: OnOutcome | None
    reported: threading.Event = field(default_factory=threading.Event)
    outcome: Outcome | None = None


class CallLine:
    """Calls in order, each under a ticket; a newer call with the same ticket takes the place of the older."""

    def __init__(self, worker: Worker, on_better: OnBetter | None = None) -> None:
        self._worker = worker
        self._on_better = on_better
        self._lock = threading.Condition()
        self._queued: dict[object, Waiting] = {}
        self._running: Waiting | None = None
        self._closed = False
        self._thread: threading.Thread | None = None
        self._patience: float | None = None
        self.last_problem: Fault | None = None

    def add(self, ticket: object, request: CallRequest, report: OnOutcome | None) -> Waiting:
        """Put a call in the line; `report` is called with its outcome, from the line's own thread."""
        waiting = Waiting(ticket, Errand(request), report)
        if self._on_better is not None:
            waiting.errand.on_better = lambda answer, bound: self._better(waiting, answer, bound)
        with self._lock:
            if self._closed:
                waiting.outcome = Outcome(stopped=True)
                waiting.reported.set()
                return waiting
            self._ask_running(ticket, "drop")
            older = self._queued.get(ticket)
            if older is not None:
                older.reported.set()
            self._queued[ticket] = waiting
            if self._thread is None:
                self._thread = threading.Thread(target=self._work, name="boltend-line", daemon=True)
                self._thread.start()
            self._lock.notify_all()
        return waiting

    def drop(self, ticket: object) -> None:
        """Nobody waits for this ticket any more: its outcome will not be reported."""
        with self._lock:
            queued = self._queued.pop(ticket, None)
            if queued is not None:
                queued.reported.set()
            self._ask_running(ticket, "drop")

    def stop(self, ticket: object) -> None:
        """A person's stop: the best so far is reported, or that it was stopped with nothing found."""
        with self._lock:
            queued = self._queued.pop(ticket, None)
            self._ask_running(ticket, "stop")
        if queued is not None:
            # a thread of its own: whoever stops is not to hear of it in the middle of the call to `stop`
            stopped = (queued, Outcome(stopped=True))
            threading.Thread(target=self._report, args=stopped, name="boltend-stopped").start()

    @property
    def busy(self) -> bool:
        """Whether anything runs or waits to."""
        return self._running is not None or bool(self._queued)

    def let_go(self) -> None:
        """Stop everything without reports."""
        with self._lock:
            self._closed = True
            for waiting in self._queued.values():
                waiting.reported.set()
            self._queued.clear()
            if self._running is not None:
                self._ask_running(self._running.ticket, "drop")
            self._lock.notify_all()

    def close(self) -> None:
        """Stop everything without reports, and the worker with it."""
        self.let_go()
        if self._thread is not None and self._thread is not threading.current_thread():
            self._thread.join(2)  # not longer: it may be waiting for the very thread that closes
        self._worker.close()

    def _ask_running(self, ticket: object, what: str) -> None:
        running = self._running
        if running is None or running.ticket != ticket or running.errand.asked == "drop":
            return
        if what == "drop":
            running.errand.asked = "drop"
            running.reported.set()
        else:
            running.errand.asked = "stop"
        self._worker.wake()

    def _next(self) -> Waiting | None:
        """Wait for a call and take it; None where there is none for long, or never will be."""
        with self._lock:
            came = self._lock.wait_for(lambda: self._queued or self._closed, self._patience)
            self._patience = IDLE
            if not came:
                self._patience = None
                return None
            if self._closed:
                return None
            waiting = self._running = self._queued.pop(next(iter(self._queued)))
            return waiting

    def _work(self) -> None:
        while True:
            waiting = self._next()
            if waiting is None:
                if self._closed:
                    return
                self._worker.close()  # it is started anew when somebody needs it
                continue
            try:
                outcome = self._worker.run(waiting.errand)
            except Exception as error:  # a mistake of ours: the line must live on, and say so
                outcome = Outcome(fault=fault_of(error, "the host itself raised"))
            with self._lock:
                self._running = None
                dropped = waiting.errand.asked == "drop"
            if not dropped:
                self._report(waiting, outcome)

    def _report(self, waiting: Waiting, outcome: Outcome) -> None:
        waiting.outcome = outcome
        waiting.reported.set()
        if waiting.report is not None:
            try:
                waiting.report(waiting.ticket, outcome)
            except Exception as error:  # the listener went away, as a shell does when it closes
                self.last_problem = fault_of(error, "the report raised")

    def _better(self, waiting: Waiting, answer: Answer, bound: object) -> None:
        if self._on_better is not None and waiting.errand.asked == "":
            try:
                self._on_better(waiting.ticket, answer, bound)
            except Exception as error:  # as above
                self.last_problem = fault_of(error, "the report raised")
