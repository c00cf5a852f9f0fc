"""Check what a calculator answered, and round each found once, by its declared step and direction."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import get_args

from boltend.core.contract import (
    Answer,
    CalculatorSpec,
    FoundSpec,
    Goods,
    Line,
    Piece,
    Run,
    Settings,
    Shape,
    step_size,
)
from boltend.core.values import Notation, Surd, down, nearest, up

ROUND = {"up": up, "down": down, "nearest": nearest}
MOST_ROWS = 10_000
"""More rows than a person could read are no answer but a mistake."""


class WrongAnswer(Exception):
    """A calculator answered something that it did not declare."""


@dataclass(frozen=True, slots=True)
class Settled:
    """Founds as they are shown and passed on, and what they were before their one rounding."""

    found: dict[str, object]
    unrounded: dict[str, object]


def settle(spec: CalculatorSpec, answer: object, settings: Settings) -> Settled:
    """Check an answer against its specification and round its founds. Raises `WrongAnswer`."""
    if not isinstance(answer, Answer):
        raise WrongAnswer(f"it answered {type(answer).__name__}, not an Answer.")
    if not isinstance(answer.found, Mapping):
        raise WrongAnswer("its found is no mapping from names to values.")
    named = _steps(settings.size_step, settings.cutting_step, settings.buying_step)
    settled = _settle_row("", spec.founds, answer.found, settings.notation, named)
    _check_parts(answer)
    return settled


@lru_cache(maxsize=64)
def _steps(size: Fraction, cutting: Fraction, buying: Fraction) -> "Steps":
    return Steps((("size", size), ("cutting", cutting), ("buying", buying)))


class Steps(dict[str, Fraction]):
    """The named steps of one project, usable as a cache key."""

    def __hash__(self) -> int:  # type: ignore[override]  # never changed after it is made
        return hash(tuple(self.items()))


@lru_cache(maxsize=4096)
def _size(spec: FoundSpec, how: Notation, named: Steps) -> Fraction | None:
    return step_size(spec.step, spec.reader, how, named)


def _settle_row(
    where: str, specs: Sequence[FoundSpec], row: Mapping[str, object], how: Notation, named: Steps
) -> Settled:
    if len(row) != len(specs) or any(s.name not in row for s in specs):
        _complain_names(where, specs, row)
    found: dict[str, object] = {}
    unrounded: dict[str, object] = {}
    for spec in specs:
        value = row[spec.name]
        unrounded[spec.name] = value
        found[spec.name] = None if value is None else _settle_value(where, spec, value, how, named)
    return Settled(found, unrounded)


def _complain_names(where: str, specs: Sequence[FoundSpec], row: Mapping[str, object]) -> None:
    declared = {s.name for s in specs}
    missing, extra = sorted(declared - set(row)), sorted(map(str, set(row) - declared))
    said = [f"{where}{name} is missing" for name in missing] + [f"{where}{name} is not declared" for name in extra]
    raise WrongAnswer("its founds are not those that it declares: " + ", ".join(said) + ".")


def _settle_value(where: str, spec: FoundSpec, value: object, how: Notation, named: Steps) -> object:
    if spec.kind == "rows":
        return _settle_rows(spec, value, how, named)
    if spec.direction:
        if type(value) is int:
            value = Fraction(value)
        if not isinstance(value, Fraction | Surd):
            raise WrongAnswer(f"{where}{spec.name} is {value!r}, not an exact number (a Fraction).")
        size = _size(spec, how, named)
        if size is not None:
            value = ROUND[spec.direction](value, size)
    problem = spec.reader.check(value)
    if problem is not None:
        raise WrongAnswer(f"{where}{spec.name}: {problem}")
    return value


def _settle_rows(spec: FoundSpec, value: object, how: Notation, named: Steps) -> tuple[dict[str, object], ...]:
    if not isinstance(value, Sequence) or isinstance(value, str):
        raise WrongAnswer(f"{spec.name} is {type(value).__name__}, not rows.")
    if len(value) > MOST_ROWS:
        raise WrongAnswer(f"{spec.name} has {len(value)} rows, more than {MOST_ROWS}.")
    rows = []
    for number, row in enumerate(value, 1):
        if not isinstance(row, Mapping):
            raise WrongAnswer(f"{spec.name}, row {number} is {type(row).__name__}, not a mapping.")
        rows.append(_settle_row(f"{spec.name}, row {number}, ", spec.columns, row, how, named).found)
    return tuple(rows)


PARTS: tuple[tuple[str, type | tuple[type, ...]], ...] = (
    ("pieces", Piece),
    ("runs", Run),
    ("goods", Goods),
    ("working", (Line, str)),
    ("cautions", (Line, str)),
    ("picture", get_args(Shape)),
)


def _check_parts(answer: Answer) -> None:
    for name, kind in PARTS:
        part = getattr(answer, name)
        if part == ():
            continue
        if not isinstance(part, Sequence) or isinstance(part, str):
            raise WrongAnswer(f"its {name} are {type(part).__name__}, not a sequence.")
        if len(part) > MOST_ROWS:
            raise WrongAnswer(f"its {name} are more than {MOST_ROWS}.")
        for item in part:
            if not isinstance(item, kind):
                raise WrongAnswer(f"its {name} hold {type(item).__name__}.")
    for piece in answer.pieces:
        if not (_size_ok(piece.across) and _size_ok(piece.along) and type(piece.count) is int and piece.count >= 0):
            raise WrongAnswer(f"piece {piece.name!r} has no sound size or count.")
    for run in answer.runs:
        if not (_size_ok(run.width) and all(map(_size_ok, run.wants))):
            raise WrongAnswer(f"run {run.name!r} has no sound width or length.")


def _size_ok(value: object) -> bool:
    return isinstance(value, Fraction | int) and value > 0
