"""Check what a calculator answered, and round each found once, by its declared step and direction."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
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
    settled = _settle_row("", spec.founds, answer.found, _sizes(spec, settings))
    _check_parts(answer)
    return settled


class _Sizes:
    """The sizes of a calculator's steps under one set of settings, looked up once."""

    def __init__(self, founds: Sequence[FoundSpec], how: Notation, named: dict[str, Fraction]) -> None:
        self.size = {f.name: step_size(f.step, f.reader, how, named) for f in founds if f.kind != "rows"}
        self.inner = {f.name: _Sizes(f.columns, how, named) for f in founds if f.kind == "rows"}


_known: dict[tuple[object, ...], tuple[CalculatorSpec, _Sizes]] = {}
_MOST_KNOWN = 1000


def _sizes(spec: CalculatorSpec, settings: Settings) -> _Sizes:
    # By identity: hashing a whole specification costs more than settling an answer. The entry keeps the
    # specification alive, so that its id stands for nothing else.
    key = (id(spec), settings.system, settings.size_step, settings.cutting_step, settings.buying_step)
    entry = _known.get(key)
    if entry is None:
        if len(_known) >= _MOST_KNOWN:
            _known.clear()
        entry = _known[key] = spec, _Sizes(spec.founds, settings.notation, settings.steps)
    return entry[1]


def _settle_row(where: str, specs: Sequence[FoundSpec], row: Mapping[str, object], sizes: _Sizes) -> Settled:
    if len(row) != len(specs) or any(s.name not in row for s in specs):
        _complain_names(where, specs, row)
    found: dict[str, object] = {}
    for spec in specs:
        value = row[spec.name]
        found[spec.name] = None if value is None else _settle_value(where, spec, value, sizes)
    return Settled(found, dict(row))


def _complain_names(where: str, specs: Sequence[FoundSpec], row: Mapping[str, object]) -> None:
    declared = {s.name for s in specs}
    missing, extra = sorted(declared - set(row)), sorted(map(str, set(row) - declared))
    said = [f"{where}{name} is missing" for name in missing] + [
        f"{where}{name} is not declared" for name in extra
    ]
    raise WrongAnswer("its founds are not those that it declares: " + ", ".join(said) + ".")


def _settle_value(where: str, spec: FoundSpec, value: object, sizes: _Sizes) -> object:
    if spec.kind == "rows":
        return _settle_rows(spec, value, sizes.inner[spec.name])
    if spec.direction:
        value = _rounded(where, spec, value, sizes.size[spec.name])
    problem = spec.reader.check(value)
    if problem is not None:
        raise WrongAnswer(f"{where}{spec.name}: {problem}")
    return value


def _rounded(where: str, spec: FoundSpec, value: object, size: Fraction | None) -> Fraction | Surd:
    if type(value) is int:
        value = Fraction(value)
    if not isinstance(value, Fraction | Surd):
        raise WrongAnswer(f"{where}{spec.name} is {value!r}, not an exact number (a Fraction).")
    if size is None:
        return value
    if (
        type(value) is Fraction
        and value.numerator * size.denominator % (value.denominator * size.numerator) == 0
    ):
        return value  # on its step already, as most are: not worth three operations on fractions
    return ROUND[spec.direction](value, size)


def _settle_rows(spec: FoundSpec, value: object, sizes: _Sizes) -> tuple[dict[str, object], ...]:
    if not isinstance(value, Sequence) or isinstance(value, str):
        raise WrongAnswer(f"{spec.name} is {type(value).__name__}, not rows.")
    if len(value) > MOST_ROWS:
        raise WrongAnswer(f"{spec.name} has {len(value)} rows, more than {MOST_ROWS}.")
    rows = []
    for number, row in enumerate(value, 1):
        if not isinstance(row, Mapping):
            raise WrongAnswer(f"{spec.name}, row {number} is {type(row).__name__}, not a mapping.")
        rows.append(_settle_row(f"{spec.name}, row {number}, ", spec.columns, row, sizes).found)
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
        if not (
            _size_ok(piece.across) and _size_ok(piece.along) and type(piece.count) is int and piece.count >= 0
        ):
            raise WrongAnswer(f"piece {piece.name!r} has no sound size or count.")
    for run in answer.runs:
        if not (_size_ok(run.width) and all(map(_size_ok, run.wants))):
            raise WrongAnswer(f"run {run.name!r} has no sound width or length.")


def _size_ok(value: object) -> bool:
    return isinstance(value, Fraction | int) and value > 0
