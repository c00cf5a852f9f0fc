"""The worker: runs calls in a process of its own, which is ended on stop or timeout and started anew."""

from collections.abc import Callable
from dataclasses import dataclass, field
from time import monotonic
from typing import Literal

from boltend.core.contract import Answer
from boltend.core.host.calls import Fault, Outcome
from boltend.core.host.faults import how_it_ended, one_line
from boltend.core.host.frames import FrameError
from boltend.core.host.messages import Better, CallRequest, Describe, Described, Done, PluginRef, Reply, Stop
from boltend.core.host.process import Gone, Process, worker_process

STOP_GRACE = 1.0
"""Seconds that a search gets to answer with its best once it was asked to stop."""

DROP_GRACE = 0.25
"""Seconds that a call nobody waits for gets to end by itself, which is cheaper than a new process."""


@dataclass(slots=True, eq=False)
class Errand:
    """One run under way: what may be asked of it meanwhile, and the best that it has told so far.

    `asked` is set by other threads: `stop` is a person's wish, `drop` means that nobody waits any more.
    `told` is set once a search was told to stop, by a person or by the clock.
    """

    request: CallRequest
    on_better: Callable[[Answer, object], None] | None = None
    asked: Literal["", "stop", "drop"] = ""
    told: bool = False
    best: Answer | None = None
    begin: float = field(default_factory=monotonic)

    def grace(self) -> float:
        """Seconds until the process is ended, once something was asked."""
        if self.asked == "drop":
            return DROP_GRACE
        return STOP_GRACE if self.request.searches else 0.0

    def hear(self, better: Better) -> None:
        """Keep a better answer, and pass it on while somebody waits for more."""
        self.best = better.answer
        if self.on_better is not None and not self.told:
            self.on_better(better.answer, better.bound)

    def ended(self, outcome: Outcome) -> Outcome:
        """The outcome of a run that came to its end; after a stop it is the best so far, marked so."""
        if not self.told:
            return outcome
        best = outcome.answer or self.best
        if best is not None:
            return Outcome(best, stopped=True, seconds=outcome.seconds)
        return outcome._replace(stopped=True)

    def cut_short(self) -> Outcome:
        """The outcome of a run whose process had to be ended."""
        if self.best is not None or self.asked:
            return Outcome(self.best, stopped=True, seconds=self._seconds())
        why = f"it ran longer than {self.request.timeout:g} s and was stopped."
        return Outcome(fault=Fault(why), seconds=self._seconds())

    def failed(self, why: str) -> Outcome:
        """The outcome of a run that broke its process or its promise; after a stop, a best so far counts."""
        if self.told and self.best is not None:
            return Outcome(self.best, stopped=True, seconds=self._seconds())
        return Outcome(fault=Fault(one_line(why)), stopped=bool(self.asked), seconds=self._seconds())

    def _seconds(self) -> float:
        return monotonic() - self.begin


def _nothing(why: str) -> Described:
    return Described((), (), (), (Fault(one_line(why)),))


class Worker:
    """One worker process, started when first needed. Used by one thread, but for `wake`."""

    def __init__(self) -> None:
        self._process: Process[Reply] | None = None
        self._ran: set[PluginRef] = set()

    def describe(self, plugin: PluginRef, timeout: float) -> Described:
        """What a plugin brings, without importing it here. Its import may take `timeout` seconds."""
        while True:
            blameless = self._alone(plugin)
            try:
                return self._describe(plugin, timeout)
            except Gone as gone:
                self.end()
                if blameless:
                    return _nothing(f"its import ended the process {how_it_ended(gone.code)}.")
            except FrameError as error:
                self.end()
                return _nothing(f"its description {error}.")
            except OSError as error:
                self.end()
                return _nothing(f"the worker process could not be started ({error}).")

    def _describe(self, plugin: PluginRef, timeout: float) -> Described:
        process = self._running(plugin)
        process.send(Describe(plugin))
        deadline = monotonic() + timeout
        while (left := deadline - monotonic()) > 0:
            reply = process.receive(left)
            if isinstance(reply, Described):
                if reply.leaked:
                    self.end()
                return reply
        self.end()
        return _nothing(f"it took longer than {timeout:g} s to import and was stopped.")

    def run(self, errand: Errand) -> Outcome:
        """Run a call to its end, whatever that is."""
        while True:
            blameless = self._alone(errand.request.plugin)
            try:
                return self._run(errand)
            except Gone as gone:
                self.end()
                # the process may have died of what another plugin left in it: once more, in a new one
                if blameless or errand.asked:
                    return errand.failed(f"it ended the worker process {how_it_ended(gone.code)}.")
            except FrameError as error:
                self.end()
                return errand.failed(f"its answer {error}.")
            except OSError as error:
                self.end()
                return errand.failed(f"the worker process could not be started ({error}).")

    def _run(self, errand: Errand) -> Outcome:
        process = self._running(errand.request.plugin)
        errand.begin = monotonic()
        try:
            process.send(errand.request)
        except FrameError as error:
            return errand.failed(f"one of its givens {error}.")
        deadline = errand.begin + errand.request.timeout
        while True:
            if not errand.told and (errand.asked or (errand.request.searches and monotonic() >= deadline)):
                errand.told = True
                deadline = monotonic() + errand.grace()
                if errand.request.searches:
                    process.send(Stop())
            if monotonic() >= deadline:
                self.end()
                return errand.cut_short()
            reply = process.receive(deadline - monotonic())
            if isinstance(reply, Better):
                errand.hear(reply)
            elif isinstance(reply, Done):
                if reply.leaked:
                    self.end()
                return errand.ended(reply.outcome)

    def _alone(self, plugin: PluginRef) -> bool:
        """Whether the process is new, or has run this plugin only: then nobody else can have harmed it."""
        return self._process is None or self._ran <= {plugin}

    def _running(self, plugin: PluginRef) -> Process[Reply]:
        if self._process is None:
            self._process = worker_process()
            self._ran.clear()
        self._ran.add(plugin)
        return self._process

    def wake(self) -> None:
        """Make a waiting `run` look at what is asked of its errand. Any thread may call this."""
        process = self._process
        if process is not None:
            process.wake()

    def end(self) -> None:
        """Kill the process, if there is one; the next run starts a new one."""
        process, self._process = self._process, None
        if process is not None:
            process.end()

    def close(self) -> None:
        """End an idle process in peace."""
        process, self._process = self._process, None
        if process is not None:
            process.close()
