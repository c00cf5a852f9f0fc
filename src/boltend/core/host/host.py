"""The host: knows the plugins, and runs their calculators here or in the worker."""

import threading
from collections.abc import Callable, Iterable
from types import TracebackType
from typing import TYPE_CHECKING

from boltend.core.contract import CalculatorSpec, Cannot, Start, Table
from boltend.core.host.brought import PLUGIN_OF
from boltend.core.host.calls import Call, Fault, Outcome
from boltend.core.host.faults import fault_of
from boltend.core.host.invoke import invoke
from boltend.core.host.line import OnBetter, OnOutcome
from boltend.core.host.lines import Lines
from boltend.core.host.loading import DESCRIBE_TIMEOUT, Loading
from boltend.core.host.messages import CallRequest, PluginRef
from boltend.core.host.others import Others
from boltend.core.host.plugins import Plugins
from boltend.core.host.tables import TableRows

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

QUICK = 0.005
"""Seconds: a built-in calculator whose last run took less is run at once, in the same frame."""

TIMEOUT = 60.0
"""Seconds that a call may run in the worker."""


class Host:
    """Runs calculators, by the rule of the design.

    In this process, at once: a calculator of the `boltend` distribution that declares no search, while its
    last run took under 5 ms (its first run too). All else goes to the worker of its distribution, in order
    there; what others bring runs beside it. With `wait` (the command line) `start` blocks until the outcome
    is there. Without it (the shell) `start` gives None, and `on_outcome(ticket, outcome)` is called later
    **from another thread**, which it must not hold up; an outcome whose ticket was dropped in the same moment
    may still arrive. Where the last run took under 5 ms, `start` first waits `linger` seconds for the worker
    and gives the outcome if it is there by then; it is told to `on_outcome` as well.
    """

    def __init__(
        self,
        plugins: Plugins,
        on_outcome: OnOutcome | None = None,
        *,
        wait: bool | None = None,
        on_better: OnBetter | None = None,
        timeout: float = TIMEOUT,
    ) -> None:
        self.linger = 0.0
        self.wait = on_outcome is None if wait is None else wait
        self.timeout = timeout
        self._on_outcome = on_outcome
        self._others: Others | None = None
        self._unopened: Loading | None = None
        self._opening = threading.RLock()
        self._lines = Lines(on_better)
        self._seconds: dict[str, float] = {}
        self._take(plugins)

    def _take(self, plugins: Plugins) -> None:
        self._known = plugins
        self._rows = TableRows(plugins.tables)
        self._refs = {c.name: (p.home, p.ref) for p in plugins for c in p.calculators}
        here = [c.name for c in plugins.specs.values() if c.built_in and not c.searches]
        self._here = {name: plugins.prepared[name] for name in here}

    @classmethod
    def load(
        cls,
        entry_points: "Iterable[EntryPoint] | None" = None,
        on_outcome: OnOutcome | None = None,
        *,
        wait: bool | None = None,
        on_better: OnBetter | None = None,
        timeout: float = TIMEOUT,
        describe_timeout: float = DESCRIBE_TIMEOUT,
        patience: float | None = None,
    ) -> "Host":
        """A host with every installed plugin, or with those of the given entry points.

        `on_better(ticket, answer, bound)` hears of a running search, from another thread. Times in seconds.
        With `patience` strangers that are not described by then come later: see `when_whole`. Where there
        are none, a built-in plugin is opened once somebody asks for what it brings.
        """
        loading = Loading(entry_points, describe_timeout)
        if patience is None:
            return cls(loading.all(), on_outcome, wait=wait, on_better=on_better, timeout=timeout)
        if not loading.strangers:
            host = cls(Plugins(), on_outcome, wait=wait, on_better=on_better, timeout=timeout)
            host._unopened = loading
            return host
        ours = loading.ours()  # before the thread begins: what is ours is opened in this one
        others = Others(loading)
        plugins = others.wait(patience)
        host = cls(plugins or ours, on_outcome, wait=wait, on_better=on_better, timeout=timeout)
        host._others = None if plugins is not None else others
        return host

    @property
    def plugins(self) -> Plugins:
        """All plugins, opened; but for strangers that come late."""
        with self._opening:
            if self._unopened is not None:
                self._take(self._unopened.all())
                self._unopened = None
        return self._known

    def when_whole(self, tell: Callable[[], object]) -> None:
        """Call `tell` once, from another thread, when strangers that came late are there to be taken."""
        if self._others is not None:
            self._others.when_there(tell)

    def take_others(self) -> bool:
        """Take the strangers that came late; whether there were any. For the thread that starts calls."""
        others, self._others = self._others, None
        plugins = others.wait(0) if others is not None else None
        if plugins is None:
            self._others = others
            return False
        self._take(plugins)
        return True

    @property
    def specs(self) -> dict[str, CalculatorSpec]:
        """Every calculator by name: built-in plugins first, then by plugin, then as each lists them."""
        return self.plugins.specs

    @property
    def starts(self) -> tuple[Start, ...]:
        """The questions for the start screen."""
        return self.plugins.starts

    def spec(self, calculator: str) -> CalculatorSpec | None:
        """What is known of a calculator, or None where nobody brings it."""
        with self._opening:
            if self._unopened is not None and calculator in PLUGIN_OF and calculator not in self._known.specs:
                self._take(self._unopened.one_of_ours(PLUGIN_OF[calculator]))
        known = self._known if calculator in self._known.specs else self.plugins
        return known.specs.get(calculator)

    def table(self, name: str) -> Table | None:
        """A table that givens choose from, or None where nobody brings it."""
        known = self._known if name in self._known.tables else self.plugins
        return known.tables.get(name)

    def why_absent(self, calculator: str) -> tuple[str, str]:
        """Why a calculator is not there, and the way out."""
        return self.plugins.why_absent(calculator)

    def start(self, call: Call, ticket: object) -> Outcome | None:
        """Run at once and give the outcome, or None: the outcome comes later, under the ticket."""
        name = call.spec.name
        if self._lines.busy:
            self._lines.drop(ticket)  # an older call under this ticket is of no more use
        try:
            args = self._rows.fill(call.spec, call.args, call.settings.currency)
        except Cannot as cannot:
            return Outcome(cannot=cannot)
        except Exception as error:  # a cell of a table that cannot be read
            return Outcome(fault=fault_of(error, "a table that it needs cannot be read:"))
        prepared = self._here.get(name)
        if prepared is not None and self._seconds.get(name, 0.0) < QUICK:
            outcome = invoke(prepared, args, call.settings)
            self._seconds[name] = outcome.seconds
            return outcome
        ref = self._refs.get(name)
        if ref is None:
            return Outcome(fault=Fault(" ".join(self.why_absent(name))))
        return self._send(*ref, call, dict(args), ticket)

    def _send(
        self, home: str, ref: PluginRef, call: Call, args: dict[str, object], ticket: object
    ) -> Outcome | None:
        spec = call.spec
        request = CallRequest(ref, spec.name, args, call.settings, spec.searches, self.timeout)

        def ended(ticket: object, outcome: Outcome) -> None:
            if not outcome.stopped:
                self._seconds[spec.name] = outcome.seconds
            if not self.wait and self._on_outcome is not None:
                self._on_outcome(ticket, outcome)

        quick = self._seconds.get(spec.name, QUICK) < QUICK
        waiting = self._lines.add(home, ticket, request, ended)
        if not self.wait:
            there = quick and self.linger > 0 and waiting.reported.wait(self.linger)
            return waiting.outcome if there else None
        try:
            waiting.reported.wait()
        except BaseException:  # Ctrl-C: nobody waits any more
            self._lines.drop(ticket)
            raise
        return waiting.outcome or Outcome(stopped=True)

    def drop(self, ticket: object) -> None:
        """Nobody waits for this ticket any more: its outcome is not reported, and it ends if it runs."""
        self._lines.drop(ticket)

    def stop(self, ticket: object) -> None:
        """A person's stop: the outcome comes at once or within a second, with the best so far if any."""
        self._lines.stop(ticket)

    @property
    def last_problem(self) -> Fault | None:
        """What `on_outcome` or `on_better` last raised, or None: nobody above them could catch it."""
        return self._lines.last_problem

    def close(self) -> None:
        """End the workers. Calls that still run are dropped."""
        if self._others is not None:
            self._others.stop()
        self._lines.close()

    def __enter__(self) -> "Host":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()
