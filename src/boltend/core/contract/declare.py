"""Declaring a calculator: `given`, `found`, `row` and the `calculator` decorator.

The annotations say the kind of every value; `given` and `found` say the rest. Everything is read once,
when the plugin is loaded, and kept as plain data (`CalculatorSpec`).
"""

import inspect
import types
from collections.abc import Callable
from dataclasses import dataclass
from typing import (
    Annotated,
    Any,
    Literal,
    TypeVar,
    Union,
    dataclass_transform,
    get_args,
    get_origin,
    get_type_hints,
)

from boltend.core.contract.answer import Answer
from boltend.core.contract.kinds import Is
from boltend.core.contract.settings import SETTING_KINDS
from boltend.core.contract.specs import STEPS, CalculatorSpec, ContractError, FoundSpec, GivenSpec, Step

StepLike = str | tuple[str, str]
T = TypeVar("T")


@dataclass(frozen=True)
class _Given:
    label: str
    default: str | None
    metric: str | None
    least: str | None
    most: str | None
    step: StepLike | None
    unit: str
    table: str | None
    help: str
    was: tuple[str, ...]


@dataclass(frozen=True)
class _Found:
    label: str
    direction: str
    step: StepLike | None
    unit: str
    grows_with: tuple[str, ...]
    help: str


def given(
    label: str,
    *,
    default: str | None = None,
    metric: str | None = None,
    least: str | None = None,
    most: str | None = None,
    step: StepLike | None = None,
    unit: str = "",
    table: str | None = None,
    help: str = "",  # noqa: A002 - the word that authors look for
    was: tuple[str, ...] = (),
) -> Any:
    """Describe a given.

    `default`, `least` and `most` are texts in the trade's notation and the given's own kind; `metric` is
    the default of a metric project. `step` is the stride of a stepper or a search (any value between may
    still be typed): a text, a pair of texts (inches, metric), or a project step (`size`, `cutting`,
    `buying`). `unit` is the unit in which a bare number is read and the value shown (`yd` becomes `m` in
    metric). `table` names the table that a `TableRow` is chosen from. `was` lists former names.
    """
    return _Given(label, default, metric, least, most, step, unit, table, help, was)


def found(
    label: str,
    *,
    up: StepLike | None = None,
    down: StepLike | None = None,
    nearest: StepLike | None = None,
    unit: str = "",
    grows_with: tuple[str, ...] = (),
    help: str = "",  # noqa: A002 - the word that authors look for
) -> Any:
    """Describe a found, and its one rounding: `up`, `down` or `nearest` to a step.

    A step is `size`, `cutting` or `buying` (the project's), a text, or a pair of texts (inches, metric).
    `grows_with` names the givens with which an amount to buy may never shrink.
    """
    said = [(d, s) for d, s in (("up", up), ("down", down), ("nearest", nearest)) if s is not None]
    if len(said) > 1:
        raise ContractError(f"found {label!r} rounds in two directions. Keep one of up, down, nearest.")
    direction, step = said[0] if said else ("", None)
    return _Found(label, direction, step, unit, grows_with, help)


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(given, found))
def row(cls: type[T]) -> type[T]:
    """Make a class of annotated columns a row of a table: frozen, with keyword arguments only."""
    columns = {name: value for name, value in vars(cls).items() if isinstance(value, _Given | _Found)}
    for name in columns:
        delattr(cls, name)
    made = dataclass(frozen=True, kw_only=True)(cls)
    made.__columns__ = columns  # type: ignore[attr-defined]  # the schema of the row, read below
    return made


class Calculator:
    """A declared calculator: its specification and its function."""

    def __init__(self, spec: CalculatorSpec, function: Callable[..., Answer]) -> None:
        self.spec = spec
        self.function = function
        takes = inspect.signature(function).parameters
        self.takes_setting = "setting" in takes
        self.takes_job = "job" in takes
        self.__doc__ = function.__doc__

    def __call__(self, **givens: Any) -> Answer:
        """Work out the answer from exact Python values."""
        return self.function(**givens)


def calculator(name: str, *, asks: str, found: type) -> Callable[[Callable[..., Answer]], Calculator]:
    """Declare a pure function as a calculator.

    `name` is its name in files and on the command line, `asks` the question that it answers, `found` a
    class whose annotated attributes (made with `found`) are what it finds. Parameters made with `given`
    are its givens; the keyword-only `setting` receives the project's settings, and `job`, where it is
    declared, marks a search that can be stopped.
    """

    def declare(function: Callable[..., Answer]) -> Calculator:
        signature = inspect.signature(function)
        hints = get_type_hints(function, include_extras=True)
        givens = tuple(
            _given_spec(f"{name}, given {key}", key, hints[key], parameter.default)
            for key, parameter in signature.parameters.items()
            if key not in ("setting", "job")
        )
        founds = _found_specs(name, found)
        _check(name, givens, founds)
        spec = CalculatorSpec(
            name=name,
            asks=asks,
            givens=givens,
            founds=founds,
            help=inspect.getdoc(function) or "",
            searches="job" in signature.parameters,
        )
        return Calculator(spec, function)

    return declare


def _check(name: str, givens: tuple[GivenSpec, ...], founds: tuple[FoundSpec, ...]) -> None:
    names = {g.name for g in givens}
    for spec in founds:
        for grower in spec.grows_with:
            if grower not in names:
                raise ContractError(f"{name}: found {spec.name} grows with {grower!r}, which is no given.")


def _step(where: str, step: StepLike | None) -> Step | None:
    if step is None:
        return None
    if isinstance(step, tuple):
        return Step(inches=step[0], metric=step[1])
    return Step(name=step) if step in STEPS else Step(inches=step, metric=step)


def _given_spec(where: str, key: str, hint: object, said: object) -> GivenSpec:
    if not isinstance(said, _Given):
        raise ContractError(f"{where}: its default must be made by given(…).")
    hint, optional = _strip_none(hint)
    kind, options, columns = _kind_of(where, hint)
    setting = SETTING_KINDS.get(key) == kind
    if key in SETTING_KINDS and not setting:
        raise ContractError(f"{where}: bears a setting's name, so its kind must be {SETTING_KINDS[key]}.")
    if kind == "table_row" and said.table is None:
        raise ContractError(f"{where}: a TableRow needs table=….")
    return GivenSpec(
        name=key, kind=kind, label=said.label, unit=said.unit, help=said.help, options=options,
        default=said.default, metric_default=said.metric, optional=optional, least=said.least,
        most=said.most, step=_step(where, said.step), table=said.table, setting=setting, was=said.was,
        columns=tuple(_given_spec(f"{where}.{n}", n, h, s) for n, h, s in columns),
    )  # fmt: skip


def _found_specs(where: str, cls: type) -> tuple[FoundSpec, ...]:
    hints = get_type_hints(cls, include_extras=True)
    said = getattr(cls, "__columns__", None) or {k: v for k, v in vars(cls).items() if isinstance(v, _Found)}
    return tuple(_found_spec(f"{where}, found {key}", key, hints[key], said.get(key)) for key in hints)


def _found_spec(where: str, key: str, hint: object, said: object) -> FoundSpec:
    if not isinstance(said, _Found):
        raise ContractError(f"{where}: must be made by found(…).")
    hint, _ = _strip_none(hint)
    kind, options, columns = _kind_of(where, hint)
    if kind in ("finished", "cut", "length", "area") and not said.direction:
        raise ContractError(f"{where}: a length needs one of up=, down=, nearest=.")
    return FoundSpec(
        name=key, kind=kind, label=said.label, unit=said.unit, help=said.help, options=options,
        direction=said.direction, step=_step(where, said.step), grows_with=said.grows_with,
        columns=tuple(_found_spec(f"{where}.{n}", n, h, s) for n, h, s in columns),
    )  # fmt: skip


def _strip_none(hint: object) -> tuple[object, bool]:
    if get_origin(hint) in (Union, types.UnionType):
        rest = [a for a in get_args(hint) if a is not type(None)]
        if len(rest) == 1:
            return rest[0], True
    return hint, False


def _kind_of(where: str, hint: object) -> tuple[str, tuple[str, ...], list[tuple[str, object, object]]]:
    if get_origin(hint) is Annotated:
        for mark in get_args(hint)[1:]:
            if isinstance(mark, Is):
                return mark.kind, (), []
    if get_origin(hint) is Literal:
        return "choice", tuple(str(a) for a in get_args(hint)), []
    if get_origin(hint) is tuple:
        cls = get_args(hint)[0]
        columns: dict[str, object] = getattr(cls, "__columns__", {})
        if columns:
            hints = get_type_hints(cls, include_extras=True)
            return "rows", (), [(n, hints[n], s) for n, s in columns.items()]
    raise ContractError(
        f"{where}: {hint!r} is no kind of value. Use one of boltend.plugin's kinds, a Literal, or Rows[…]."
    )


def row_class_of(function: Callable[..., Answer], key: str) -> type:
    """The row class of a `rows` given, to build its rows from."""
    hint, _ = _strip_none(get_type_hints(function, include_extras=True)[key])
    cls: type = get_args(hint)[0]
    return cls
