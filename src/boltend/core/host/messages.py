"""What the host and its worker process say to each other: plain data in both directions."""

from dataclasses import dataclass
from typing import NamedTuple

from boltend.core.contract import Answer, CalculatorSpec, Settings, Start, Table
from boltend.core.host.calls import Fault, Outcome


class PluginRef(NamedTuple):
    """Where a plugin is found: the name and the value of its entry point."""

    name: str
    value: str


class Hello(NamedTuple):
    """The first word to a worker: the import path of the main process, so that both find the same code."""

    path: tuple[str, ...]


class Describe(NamedTuple):
    """Import a plugin and say what it brings."""

    plugin: PluginRef


class CallRequest(NamedTuple):
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


class Described(NamedTuple):
    """What a plugin brings, without any of its code, and what was wrong with it. `leaked`: as for `Done`."""

    calculators: tuple[CalculatorSpec, ...]
    tables: tuple[Table, ...]
    starts: tuple[Start, ...]
    faults: tuple[Fault, ...]
    leaked: bool = False
    contract: int | None = None


class Better(NamedTuple):
    """A better answer of a running search, and its proved bound where there is one."""

    answer: Answer
    bound: object


class Done(NamedTuple):
    """What came of a run. `leaked`: the plugin left threads behind, so the worker should be replaced."""

    outcome: Outcome
    leaked: bool


Request = Hello | Describe | CallRequest | Stop
Reply = Ready | Described | Better | Done
