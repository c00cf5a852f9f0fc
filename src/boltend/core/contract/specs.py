"""What is known of a calculator without running it: plain data that forms, commands, JSON and links
derive from. Nothing here holds code of a plugin, so a specification can cross a process border.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from boltend.core.values import KINDS, ChoiceKind, Kind, Notation

CONTRACT = 1
"""The version of the contract between Boltend and its plugins."""

LENGTH_KINDS = frozenset({"finished", "cut", "length"})

STEPS = ("size", "cutting", "buying")
"""Steps that a project names; a found rounds to one of them or to a step of its own."""


class ContractError(TypeError):
    """A calculator is declared in a way that the contract does not know. Says which and what would do."""


class Step(NamedTuple):
    """A rounding step: one of the project's by name, or a size of its own in both systems.

    A step of its own is a text of the found's kind, in inches and in metric (`"1/2 in"`, `"1 cm"`).
    """

    name: str = ""
    inches: str = ""
    metric: str = ""

    def describe(self) -> str:
        """Words for the schema: `size step`, or `1/2 in (1 cm)`."""
        if self.name:
            return f"{self.name} step"
        return self.inches if self.inches == self.metric else f"{self.inches} ({self.metric})"


@dataclass(frozen=True)
class Valued:
    """What givens and founds have in common: a name, a kind and a label."""

    name: str
    kind: str
    label: str
    unit: str = ""
    help: str = ""
    options: tuple[str, ...] = ()

    @cached_property
    def reader(self) -> Kind:
        """The kind of value: reads and shows it. Not for `rows`."""
        if self.options:
            return ChoiceKind(self.options)
        return KINDS["text" if self.kind in ("table_row", "choice") else self.kind]

    @property
    def is_length(self) -> bool:
        """Whether the value is one length, of whatever kind."""
        return self.kind in LENGTH_KINDS


@dataclass(frozen=True)
class GivenSpec(Valued):
    """One given: its kind, default and limits, as texts in the trade's notation."""

    default: str | None = None
    metric_default: str | None = None
    optional: bool = False
    least: str | None = None
    most: str | None = None
    step: Step | None = None
    table: str | None = None
    columns: tuple["GivenSpec", ...] = ()
    setting: bool = False
    inherits: bool = True
    was: tuple[str, ...] = ()
    takes: tuple[str, ...] = ()
    example: tuple[str, ...] = ("", "")
    empty: str = ""
    meanings: tuple[tuple[str, str], ...] = ()
    """Options, and what each means."""

    def __hash__(self) -> int:
        # Limits and defaults are kept by given, and looked up at every edit: all 20 fields would take 3 µs.
        return hash((self.name, self.kind, self.label))

    @property
    def required(self) -> bool:
        """Whether the person must say it."""
        return self.default is None and not self.optional and not self.setting

    def empty_at(self, row: int) -> str:
        """What it means left empty in a row (from 0); `{}` in it stands for the row's number."""
        return self.empty.replace("{}", str(row + 1))

    def default_text(self, how: Notation) -> str | None:
        """The default in the project's system, as it could be typed."""
        if how.system == "cm" and self.metric_default is not None:
            return self.metric_default
        return self.default


@dataclass(frozen=True)
class FoundSpec(Valued):
    """One found: its kind, and the one rounding that it goes through.

    `direction` is `up`, `down`, `nearest` or, for what needs no rounding, empty. `bounded`: what comes
    before the rounding is a bound or an estimate, and no exact number. `empty` says why there is no value
    where that is no matter of caution: it was not asked for.
    """

    direction: str = ""
    step: Step | None = None
    grows_with: tuple[str, ...] = ()
    columns: tuple["FoundSpec", ...] = ()
    bounded: bool = False
    empty: str = ""


class Start(NamedTuple):
    """A question of a person, and the tabs and links that answer it.

    `tabs` are (name, calculator, givens) where a given is a text, a yes/no or a link
    `{"from": tab name, "take": found}`.
    """

    question: str
    tabs: tuple[tuple[str, str, Mapping[str, object]], ...]


@dataclass(frozen=True)
class CalculatorSpec:
    """Everything that the platform knows of one calculator; `place` is where its author finds it."""

    name: str
    asks: str
    givens: tuple[GivenSpec, ...]
    founds: tuple[FoundSpec, ...]
    help: str = ""
    searches: bool = False
    plugin: str = ""
    distribution: str = ""
    built_in: bool = False
    contract: int = CONTRACT
    place: str = field(default="", compare=False)
    by_name: dict[str, GivenSpec] = field(default_factory=dict, compare=False, repr=False)

    def __post_init__(self) -> None:
        self.by_name.update({g.name: g for g in self.givens})

    def given(self, name: str) -> GivenSpec | None:
        """The given of this name, or None."""
        return self.by_name.get(name)

    def found(self, name: str) -> FoundSpec | None:
        """The found of this name, or None."""
        return next((f for f in self.founds if f.name == name), None)


def step_size(step: Step | None, kind: Kind, how: Notation, named: dict[str, Fraction]) -> Fraction | None:
    """The size of a step in base units in one project, or None where there is no step.

    `named` gives the sizes of the project's own steps.
    """
    if step is None:
        return None
    if step.name:
        return named[step.name]
    text = step.metric if how.system == "cm" else step.inches
    value = kind.read(text, how)
    if not isinstance(value, int | Fraction):
        raise ContractError(f"a step of {text!r} is no number")
    return Fraction(value)
