"""The worker process: imports plugins, describes them, runs their calculators. Started by `process.py`.

It talks to the main process over private copies of its first pipes. Everything that a plugin prints, even
straight to the file descriptors, goes to the null device.
"""

import contextlib
import faulthandler
import os
import pickle
import sys
import threading
from collections.abc import Iterator, Mapping
from dataclasses import replace
from queue import SimpleQueue
from time import monotonic
from typing import BinaryIO

from boltend.core.contract import Answer, Start, Table
from boltend.core.host.bounds import TooMuch, bounded, plain_cannot
from boltend.core.host.calls import Fault, Outcome
from boltend.core.host.child import take_pipes
from boltend.core.host.faults import one_line
from boltend.core.host.frames import FrameError, read_frame, write_frame
from boltend.core.host.invoke import invoke
from boltend.core.host.messages import (
    Better,
    CallRequest,
    Describe,
    Described,
    Done,
    PluginRef,
    Ready,
    Reply,
    Stop,
)
from boltend.core.host.opening import Opened, open_plugin

TELL_EVERY = 0.05
"""Seconds between two better answers that are sent at once; a later one waits, so that a search that
improves a thousand times a second does not drown the screen."""

WATCHDOG_GRACE = 10.0
"""Seconds past its timeout after which a run is ended from inside, should nobody outside live to do it."""


DESCRIBE_MOST = 60.0
"""Seconds that an import may take in any case; the main process has less patience, while it lives."""

MOST_MEMORY = 2 * 2**30
"""Bytes that a worker may take; beyond them Python raises MemoryError, before the machine begins to swap."""


def main() -> None:
    """Serve requests until the pipe ends."""
    bound_memory()
    child = Child(*take_pipes())
    child.serve()


class Child:
    """The worker's two threads: this one runs plugins, the other listens, so that a stop is heard."""

    def __init__(self, requests: BinaryIO, replies: BinaryIO) -> None:
        self._requests, self._replies = requests, replies
        self._pid = os.getpid()
        if hasattr(os, "register_at_fork"):
            os.register_at_fork(after_in_child=self._in_a_fork)
        self._writing = threading.Lock()
        self._inbox: SimpleQueue[Describe | CallRequest] = SimpleQueue()
        self._opened: dict[PluginRef, Opened] = {}
        self._job: SearchJob | None = None
        self._listener = threading.Thread(target=self._listen, name="boltend-listener", daemon=True)

    def serve(self) -> None:
        """Answer one request after the other, for ever."""
        self._listener.start()
        self.send(Ready())
        while True:
            request = self._inbox.get()
            if isinstance(request, Describe):
                self._describe(request)
            else:
                self._run(request)

    def _in_a_fork(self) -> None:
        """A process that a plugin forked has no part in the talk, and does not hold its pipes open."""
        for pipe in (self._requests, self._replies):
            with contextlib.suppress(OSError):
                os.close(pipe.fileno())

    def send(self, reply: Reply) -> None:
        """Send a reply; both threads may. Raises `FrameError` before any byte is sent."""
        if os.getpid() != self._pid:
            os._exit(0)  # forked in the middle of a call: one of the two answers
        with self._writing:
            write_frame(self._replies, reply)

    def _listen(self) -> None:
        while True:
            try:
                request = pickle.loads(read_frame(self._requests))
            except (EOFError, OSError, FrameError):
                os._exit(0)  # the main process is gone, or wants this one gone: no plugin delays that
            if isinstance(request, Stop):
                job = self._job
                if job is not None:
                    job.stop()
                continue
            if isinstance(request, CallRequest):
                # made here, so that a stop that came too late for one run never meets the next
                self._job = SearchJob(self) if request.searches else None
            self._inbox.put(request)

    def _open(self, ref: PluginRef) -> Opened:
        if ref not in self._opened:
            self._opened[ref] = open_plugin(ref, deep=False)
        return self._opened[ref]

    def _describe(self, request: Describe) -> None:
        before = set(threading.enumerate())
        with watchdog(DESCRIBE_MOST):
            opened = open_plugin(request.plugin, deep=True)
        reply = Described(
            tuple(c.spec for c in opened.calculators),
            tuple(map(plain_table, opened.tables)),
            tuple(map(plain_start, opened.starts)),
            tuple(opened.faults),
            leaked(before),
            opened.contract,
        )
        try:
            self.send(reply)
        except FrameError as error:
            self.send(Described((), (), (), (Fault(one_line(f"its description {error}.")),)))

    def _run(self, run: CallRequest) -> None:
        before = set(threading.enumerate())
        with watchdog(run.timeout):
            outcome = self._outcome(run)
        left = leaked(before)
        try:
            self.send(Done(outcome, left))
        except FrameError as error:
            fault = Fault(one_line(f"its answer {error}."))
            self.send(Done(Outcome(fault=fault, seconds=outcome.seconds), left))

    def _outcome(self, run: CallRequest) -> Outcome:
        try:
            return self._bounded(run)
        except TooMuch as much:
            return Outcome(fault=Fault(f"its answer {much}"))
        finally:
            if self._job is not None:
                self._job.end()

    def _bounded(self, run: CallRequest) -> Outcome:
        opened = self._open(run.plugin)
        prepared = opened.prepared.get(run.calculator)
        if prepared is None:
            gone = Fault(f"its plugin brings no calculator {run.calculator} any more.")
            return Outcome(fault=opened.faults[0] if opened.faults else gone)
        outcome = invoke(prepared, run.args, run.settings, self._job)
        if outcome.answer is not None:
            return outcome._replace(answer=bounded(outcome.answer))
        return outcome._replace(cannot=plain_cannot(outcome.cannot)) if outcome.cannot else outcome


class SearchJob:
    """A `Job` on the worker's side: sends better answers, hears of the stop."""

    def __init__(self, child: Child) -> None:
        self._child = child
        self._stop = threading.Event()
        self._lock = threading.Lock()
        self._told = 0.0
        self._untold: Better | None = None
        self._ended = False

    def better(self, answer: Answer, bound: object = None) -> None:
        """Tell of a better answer, at once or after a moment."""
        if not isinstance(answer, Answer):
            raise TypeError(f"job.better takes an Answer, not {type(answer).__name__}")
        answer = bounded(answer)
        with self._lock:
            if self._ended:
                return
            self._untold = Better(answer, bound)
            # once stopped, at once: there may be no later moment
            if self._stop.is_set() or monotonic() - self._told >= TELL_EVERY:
                self._tell()

    def stopped(self) -> bool:
        """Whether to stop; also the moment to tell what has waited."""
        with self._lock:
            if self._untold is not None and monotonic() - self._told >= TELL_EVERY:
                self._tell()
        return self._stop.is_set()

    def stop(self) -> None:
        """Called by the listening thread: tell the best so far and let the search know."""
        self._stop.set()
        with self._lock:
            self._tell()

    def end(self) -> None:
        """The search is over: what a thread of its says later belongs to no run."""
        with self._lock:
            self._ended, self._untold = True, None

    def _tell(self) -> None:
        if self._untold is not None:
            untold, self._untold = self._untold, None
            self._told = monotonic()
            self._child.send(untold)


@contextlib.contextmanager
def watchdog(seconds: float) -> Iterator[None]:
    """End this process from inside, some time after `seconds`, even where a plugin holds the interpreter."""
    with open(os.devnull, "w") as null:
        # a C thread that needs no GIL
        faulthandler.dump_traceback_later(seconds + WATCHDOG_GRACE, exit=True, file=null)
        yield
        faulthandler.cancel_dump_traceback_later()


def leaked(before: set[threading.Thread]) -> bool:
    """Whether a plugin left threads or processes behind, which would go on under the feet of the next."""
    return any(thread not in before for thread in threading.enumerate()) or has_children()


def has_children() -> bool:
    """Whether this process has any of its own, ended ones too that nobody asked after."""
    if not hasattr(os, "waitid"):
        return False
    try:
        os.waitid(os.P_ALL, 0, os.WEXITED | os.WNOHANG | os.WNOWAIT)
    except ChildProcessError:
        return False
    return True


def bound_memory() -> None:
    """Refuse this process more than `MOST_MEMORY`, where the system can."""
    if sys.platform == "win32":
        return
    import resource

    _, most = resource.getrlimit(resource.RLIMIT_DATA)
    bound = MOST_MEMORY if most == resource.RLIM_INFINITY else min(most, MOST_MEMORY)
    with contextlib.suppress(ValueError, OSError):
        resource.setrlimit(resource.RLIMIT_DATA, (bound, bound))


def plain_table(table: Table) -> Table:
    """The same table in plain dicts, whatever mappings the plugin used."""
    rows = {name: dict(cells) for name, cells in table.rows.items()}
    return replace(table, columns=dict(table.columns), rows=rows)


def plain_start(start: Start) -> Start:
    """The same start in plain tuples and dicts."""
    tabs = ((name, calculator, _plain_givens(givens)) for name, calculator, givens in start.tabs)
    return Start(start.question, tuple(tabs))


def _plain_givens(givens: Mapping[str, object]) -> dict[str, object]:
    return {key: dict(said) if isinstance(said, Mapping) else said for key, said in givens.items()}


if __name__ == "__main__":
    main()
