"""What the host and its worker process say to each other: plain data in both directions."""

from dataclasses import dataclass

from boltend.core.contract import Answer, CalculatorSpec, Settings, Start, Table
from boltend.core.host.calls import Fault, Outcome


@dataclass(frozen=True, slots=True)
class PluginRef:
    """Where a plugin is found: the name and the value of its entry point."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class Hello:
    """The first word to a worker: the import path of the main process, so that both find the same code."""

    path: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Describe:
    """Import a plugin and say what it brings."""

    plugin: PluginRef


@dataclass(frozen=True, slots=True)
class CallRequest:
    """Run one calculator. `args` hold table rows as values already; `timeout` is in seconds."""

    plugin: PluginRef
    calculator: str
    args: dict[str, object]
    settings: Settings
    searches: bool
    timeout: float


@dataclass(frozen=True, slots=True)
class Stop:
    """Ask the running search to answer with its best so far."""


@dataclass(frozen=True, slots=True)
class Ready:
    """The worker is there."""


@dataclass(frozen=True, slots=True)
class Described:
    """What a plugin brings, without any of its code, and what was wrong with it. `leaked`: as for `Done`."""

    calculators: tuple[CalculatorSpec, ...]
    tables: tuple[Table, ...]
    starts: tuple[Start, ...]
    faults: tuple[Fault, ...]
    leaked: bool = False


@dataclass(frozen=True, slots=True)
class Better:
    """A better answer of a running search, and its proved bound where there is one."""

    answer: Answer
    bound: object


@dataclass(frozen=True, slots=True)
class Done:
    """What came of a run. `leaked`: the plugin left threads behind, so the worker should be replaced."""

    outcome: Outcome
    leaked: bool


Request = Hello | Describe | CallRequest | Stop
Reply = Ready | Described | Better | Done
