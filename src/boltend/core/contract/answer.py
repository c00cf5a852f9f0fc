"""What a calculator answers: founds, pieces, runs, goods, working, cautions and a picture."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal, NamedTuple

from boltend.core.contract.shapes import Shape
from boltend.core.values import Number, Price

Grain = Literal["any", "crosswise", "lengthwise", "bias"]
Join = Literal["diagonal", "straight", "none"]


class Cannot(Exception):
    """The one declared error: this cannot be worked out.

    `given` names the given that stands in the way, `why` the reason, `way_out` what would do.
    """

    def __init__(self, given: str, why: str, way_out: str) -> None:
        super().__init__(given, why, way_out)
        self.given, self.why, self.way_out = given, why, way_out

    def __str__(self) -> str:
        return f"{self.given}: {self.why} {self.way_out}".strip()


class Shown(NamedTuple):
    """A value with its kind, to be shown in the project's own units. Lengths are inches."""

    kind: str
    value: Any
    unit: str = ""


def finished(inches: Number | int) -> Shown:
    """A finished length, for a line of working."""
    return Shown("finished", inches)


def cut(inches: Number | int) -> Shown:
    """A cut length, for a line of working."""
    return Shown("cut", inches)


def length(inches: Number | int) -> Shown:
    """A length without a kind, for a line of working."""
    return Shown("length", inches)


def yards(inches: Number | int) -> Shown:
    """A length of fabric, given in inches and shown in yards (metric: metres) where it comes out in them.

    Thirds, quarters, eighths and sixteenths of a yard do; else inches are shown where a ruler has them,
    else three decimals of a yard, behind ≈.
    """
    return Shown("length", inches, "yd")


def percent(value: Fraction | int) -> Shown:
    """A percentage, for a line of working."""
    return Shown("percent", value)


class Line(NamedTuple):
    """A line of working or a caution: words with `{}` where the values go."""

    words: str
    values: tuple[object, ...] = ()


def line(words: str, *values: object) -> Line:
    """A line of words; each `{}` is filled by a `Shown` length, a whole number or a text."""
    return Line(words, values)


@dataclass(frozen=True, slots=True)
class Piece:
    """Something to cut: `across` the bolt, `along` the selvage, both cut sizes in inches.

    `made_from` says what the piece is once cut: the whole square, or a half or quarter of it (a
    triangle); `count` always counts the squares or rectangles to cut. `later` is what is left to do where it
    is cut larger than it is used, as `trim each unit to 3 1/2 in`: To cut ends with it.
    """

    name: str
    across: Fraction
    along: Fraction
    count: int
    fabric: str | None = None
    grain: Grain = "any"
    made_from: Literal["whole", "half", "quarter"] = "whole"
    may_turn: bool = True
    later: Line | str = ""


@dataclass(frozen=True, slots=True)
class Run:
    """What is sewn from several strips: strips of `width` (cut), joined to each length in `wants`.

    With `join` `none` each length comes in one piece. `later` as of a piece.
    """

    name: str
    width: Fraction
    wants: tuple[Fraction, ...]
    join: Join = "diagonal"
    grain: Grain = "crosswise"
    fabric: str | None = None
    later: Line | str = ""


@dataclass(frozen=True, slots=True)
class Goods:
    """Something to buy by the piece: batting packs, spools, precut packs.

    `unit` is one of them, `units` several where an s behind it will not do (a box, boxes; yd stays yd).
    `part` is the exact amount where that is no whole one and what is left of the last one serves others: 0.31
    of a spool. `amount` is then `part` up to a whole one; what several tabs want is added before it is.
    `price_given` names the given that takes its price: To buy asks for it there, where there is none.
    """

    name: str
    amount: Fraction
    unit: str
    price_each: Price | None = None
    part: Fraction | None = None
    units: str = ""
    price_given: str = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """The answer of a calculator.

    `found` maps every declared found to its value *before* its one rounding (or to None, with a caution
    that says why there is no value); the host rounds, once, by the declared step and direction.
    Rows are sequences of mappings from column to value. `first` is what is done before anything is cut, as
    `trim 12 blocks to 12 1/8 in`: To cut begins with it.
    """

    found: Mapping[str, object]
    pieces: Sequence[Piece] = ()
    runs: Sequence[Run] = ()
    goods: Sequence[Goods] = ()
    working: Sequence[Line | str] = ()
    cautions: Sequence[Line | str] = ()
    picture: Sequence[Shape] = field(default=())
    first: Sequence[Line | str] = ()
