"""What is asked of working backwards: which given, along which values, and what a found should reach."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from boltend.core.asking.ladder import BUY, Take, takes_of
from boltend.core.asking.spots import AskError, Spot, spot_of, tab_of
from boltend.core.contract import GivenSpec, Settings
from boltend.core.flow import Workbook
from boltend.core.values import KINDS, NotationError

Reach = Literal["exactly", "at least", "at most"]
REACHES: tuple[Reach, ...] = ("at least", "at most", "exactly")

RANGED = ("count", "number", "percent", "finished", "cut", "length")
"""Kinds of given that have steps."""


@dataclass(frozen=True)
class Wish:
    """What is asked: a given of a tab, and the amount that a column should reach. The range is in steps.

    `only` are the values themselves, where they were said one by one; `finer` the steps that may be looked at
    between two values, ever finer, where the given's own step is coarser than one cuts.
    """

    spot: Spot
    take: Take
    wanted: Fraction
    reach: Reach
    step: Fraction
    least: Fraction
    most: Fraction
    only: tuple[Fraction, ...] = ()
    finer: tuple[Fraction, ...] = ()

    @property
    def tab(self) -> int:
        """The key of the tab."""
        return self.spot.tab

    @property
    def given(self) -> GivenSpec:
        """What the given takes."""
        return self.spot.spec

    @property
    def of(self) -> int:
        """How many values there are in the range."""
        return len(self.only) or int((self.most - self.least) // self.step) + 1

    def value(self, place: int) -> Fraction:
        """The value so many places from the least."""
        return self.only[place] if self.only else self.least + place * self.step

    def place(self, value: Fraction) -> int:
        """At which place one of the values stands."""
        return self.only.index(value) if self.only else int((value - self.least) / self.step)


def read_wish(book: Workbook, said: Mapping[str, Any]) -> Wish:
    """Read what is asked: `tab`, `given`, `take`, `reach`, `wanted`. Raises `AskError`.

    Along which values: `least`, `most` and `step`, or `values`, a list of them; all that make sense else.
    """
    tab = tab_of(book, said.get("tab"))
    spot = spot_of(book, tab, said.get("given"))
    given = spot.spec
    if given.kind not in RANGED:
        raise AskError(f"“{given.label}” has no steps to go along.", "Ask for a length, a count or a number.")
    raw = said.get("take")
    takes = list(takes_of(book, tab, BUY if str(raw).casefold() == "total" else raw))
    if len(takes) != 1:
        raise AskError("several founds are asked for.", "Ask for one.")
    take = takes[0]
    reach = said.get("reach") or "at least"
    if reach not in REACHES:
        raise AskError(f"{reach!r} is no way to reach something.", f"Say one of: {', '.join(REACHES)}.")
    settings = book.results[tab.key].settings
    wanted = _wanted(take, said.get("wanted"), settings)
    step = _step(given, settings, said.get("step"))
    only = tuple(sorted({_value(given, raw, settings) for raw in said.get("values") or ()}))
    if only:
        return Wish(spot, take, wanted, reach, step, only[0], only[-1], only)
    least, most = _range(book, spot, settings, step, said)
    return Wish(spot, take, wanted, reach, step, least, most, finer=tuple(_finer(given, settings, step)))


def _step(given: GivenSpec, settings: Settings, said: Any) -> Fraction:
    """The step that is said, else the given's own."""
    if not said:
        return step_of(given, settings)
    step = read_step(given, str(said), settings)
    if given.kind == "count" and step.denominator > 1:
        raise AskError(f"“{said:.40}” is no step of a count.", "Write a whole number behind “by”.")
    return step


def read_step(given: GivenSpec, text: str, settings: Settings) -> Fraction:
    """Read the step behind “by”. Raises `AskError`."""
    try:
        kind = KINDS["length"] if given.is_length else given.reader
        step = Fraction(kind.read(text, settings.notation, given.unit))
    except NotationError as error:
        raise AskError(f"“{text:.40}”: {error.why}.", error.way_out) from None
    if step <= 0:
        raise AskError("the stride is nothing.", "Write more than 0 behind “by”.")
    return step


def _finer(given: GivenSpec, settings: Settings, step: Fraction) -> Iterator[Fraction]:
    """Of a length each half of the step before, down to the step in which one cuts."""
    finest = Fraction(settings.cutting_step)
    while given.is_length and step > finest:
        half = step / 2
        # Half a centimetre is whole millimetres, a quarter is not.
        step = half if (half / finest).denominator == 1 else finest
        yield step


def _value(given: GivenSpec, raw: Any, settings: Settings) -> Fraction:
    try:
        return Fraction(given.reader.from_toml(raw, settings.notation, given.unit))
    except NotationError as error:
        raise AskError(f"{raw!r:.60}: {error.why}.", error.way_out) from None


def step_of(given: GivenSpec, settings: Settings) -> Fraction:
    """The stride along the values of a given of one of the kinds `RANGED`."""
    if given.kind in ("count", "number", "percent"):
        return Fraction(1)
    step = given.step
    if step is None:
        return Fraction(settings.size_step)
    if step.name:
        return Fraction(getattr(settings, f"{step.name}_step"))
    text = step.metric if settings.system == "cm" else step.inches
    return Fraction(KINDS["length"].read(text, settings.notation))


def _range(
    book: Workbook, spot: Spot, settings: Settings, step: Fraction, said: Mapping[str, Any]
) -> tuple[Fraction, Fraction]:
    """From `least` to `most` as said, else the given's own limits, not far beyond four times the present."""
    given = spot.spec

    def read(text: Any) -> Fraction:
        return _value(given, text, settings)

    own_least = (
        read(given.least) if given.least is not None else (Fraction(0) if given.kind == "percent" else step)
    )
    own_most = read(given.most) if given.most is not None else None
    present = spot.number(book)
    now = own_least if present is None else present
    usual = max(4 * now, own_least + 400 * step)
    least = read(said["least"]) if said.get("least") else own_least
    most = read(said["most"]) if said.get("most") else (usual if own_most is None else min(usual, own_most))
    least = max(least, own_least)
    if own_most is not None:
        most = min(most, own_most)
    if not said.get("step"):  # from where it is said, by the step that is said
        least = -(-least // step) * step
    if most < least:
        raise AskError("the range is empty.", "Let the most be no less than the least.")
    return least, most


def _wanted(take: Take, text: Any, settings: Settings) -> Fraction:
    how = settings.notation
    if text is None or text == "":
        raise AskError("what should be reached?", "Say an amount.")
    try:
        if take.found is None:
            return Fraction(KINDS["price"].from_toml(str(text), how).amount)
        return Fraction(take.found.reader.from_toml(text, how, take.found.unit))
    except NotationError as error:
        raise AskError(f"{text!r:.60}: {error.why}.", error.way_out) from None
    except TypeError:
        raise AskError(f"“{take.label}” is no amount.", "Ask for a length, a count or a number.") from None
