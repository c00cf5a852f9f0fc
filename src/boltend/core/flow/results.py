"""What is known of one tab after it was worked out, or why it was not."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from boltend.core.contract import Answer, CalculatorSpec, Line, Settings

State = Literal["worked out", "working", "waiting", "cannot"]

NOTHING: Mapping[str, object] = {}


@dataclass(frozen=True, slots=True)
class Trouble:
    """Why something cannot be worked out, and the way out. `given` names what stands in the way."""

    why: str
    way_out: str = ""
    given: str = ""
    traceback: str = ""

    def __str__(self) -> str:
        return f"{self.why} {self.way_out}".strip()


@dataclass(frozen=True, slots=True)
class Result:
    """One tab's state, and its answer where there is one.

    `found` holds the values that are shown and passed on, `unrounded` the same before their one
    rounding, `notes` the conversions that links made. `troubles` are all reasons, the first one first.
    """

    key: int
    state: State
    spec: CalculatorSpec | None = None
    settings: Settings = field(default_factory=Settings)
    found: Mapping[str, object] = field(default_factory=dict)
    unrounded: Mapping[str, object] = field(default_factory=dict)
    answer: Answer | None = None
    notes: tuple[Line, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    args: Mapping[str, object] = field(default_factory=dict)
    stopped: bool = False

    @property
    def why(self) -> str:
        """The reason of a tab that is not worked out, with its way out; else empty."""
        return str(self.troubles[0]) if self.troubles else ""
