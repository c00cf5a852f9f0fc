"""What is known of one tab after it was worked out, or why it was not."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

from boltend.core.contract import Answer, CalculatorSpec, Line, Settings

State = Literal["worked out", "working", "waiting", "cannot"]

NOTHING: Mapping[str, object] = MappingProxyType({})


class Trouble(NamedTuple):
    """Why something cannot be worked out, and the way out. `given` names what stands in the way."""

    why: str
    way_out: str = ""
    given: str = ""
    traceback: str = ""

    def __str__(self) -> str:
        return f"{self.why} {self.way_out}".strip()


class Result(NamedTuple):
    """One tab's state, and its answer where there is one.

    `found` holds the values that are shown and passed on, `unrounded` the same before their one
    rounding, `notes` the conversions that links made. `troubles` are all reasons, the first one first.
    """

    key: int
    state: State
    spec: CalculatorSpec | None = None
    settings: Settings = Settings()
    found: Mapping[str, object] = NOTHING
    unrounded: Mapping[str, object] = NOTHING
    answer: Answer | None = None
    notes: tuple[Line, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    args: Mapping[str, object] = NOTHING
    stopped: bool = False

    @property
    def why(self) -> str:
        """The reason of a tab that is not worked out, with its way out; else empty."""
        return str(self.troubles[0]) if self.troubles else ""

    def said(self, trouble: Trouble) -> str:
        """A trouble in words, with the label of its given in front: a calculator names the given alone."""
        spec = self.spec.given(trouble.given) if self.spec is not None and trouble.given else None
        words = str(trouble)
        if spec is None or f"{spec.label}: " in words:
            return words
        if words.casefold().startswith((spec.label.casefold(), "row ")):
            return words  # it names its place already
        return f"{spec.label}: {words}"

    @property
    def reasons(self) -> tuple[str, ...]:
        """All reasons in words, the first one first."""
        return tuple(map(self.said, self.troubles))
