"""One call of a calculator and what came of it: the same shapes in this process and in the worker."""

from collections.abc import Mapping
from typing import NamedTuple, Protocol

from boltend.core.contract import Answer, CalculatorSpec, Cannot, Settings, Table


class Call(NamedTuple):
    """A calculator with exact values for all its givens. Rows are tuples of plain dicts here."""

    spec: CalculatorSpec
    args: Mapping[str, object]
    settings: Settings


class Fault(NamedTuple):
    """A calculator broke its promise: it raised, answered nonsense, ran too long or took its process down.

    `refused`: nothing broke, but the house has no place for it (its contract, or a name that another bears).
    """

    why: str
    traceback: str = ""
    refused: bool = False


class Outcome(NamedTuple):
    """What came of a call: an answer, a declared `Cannot`, or a fault. `stopped`: best so far, not kept."""

    answer: Answer | None = None
    cannot: Cannot | None = None
    fault: Fault | None = None
    stopped: bool = False
    seconds: float = 0.0


class Runner(Protocol):
    """Runs calls. The flow knows no more of the host than this."""

    def spec(self, calculator: str) -> CalculatorSpec | None:
        """What is known of a calculator, or None where nobody brings it."""

    def why_absent(self, calculator: str) -> tuple[str, str]:
        """Why a calculator is not there, and the way out."""
        ...

    def table(self, name: str) -> Table | None:
        """A table that givens choose from, or None where nobody brings it."""
        ...

    def start(self, call: Call, ticket: int) -> Outcome | None:
        """Run at once and give the outcome, or None: the outcome comes later, under the ticket."""

    def drop(self, ticket: int) -> None:
        """Nobody waits for this ticket any more: stop it if it runs."""
