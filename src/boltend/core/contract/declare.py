"""Declaring a calculator: `given`, `found`, `row` and the `calculator` decorator.

The annotations say the kind of every value; `given` and `found` say the rest. Everything is read once,
when the plugin is loaded, and kept as plain data (`CalculatorSpec`).
"""

import inspect
import types
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import (
    Annotated,
    Any,
    Literal,
    NamedTuple,
    TypeVar,
    Union,
    dataclass_transform,
    get_args,
    get_origin,
    get_type_hints,
)

from boltend.core.contract.answer import Answer
from boltend.core.contract.kinds import KIND_OF_CLASS, Is
from boltend.core.contract.settings import SETTING_KINDS
from boltend.core.contract.sound import check_found, check_given, check_names
from boltend.core.contract.specs import STEPS, CalculatorSpec, ContractError, FoundSpec, GivenSpec, Step

StepLike = str | tuple[str, str]
T = TypeVar("T")


class _Given(NamedTuple):
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
    takes: tuple[str, ...]
    inherits: bool
    example: StepLike
    empty: str
    choices: Mapping[str, str]


class _Found(NamedTuple):
    label: str
    direction: str
    step: StepLike | None
    unit: str
    grows_with: tuple[str, ...]
    bounded: bool
    help: str
    empty: str


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
    takes: tuple[str, ...] = (),
    inherits: bool = True,
    example: StepLike = "",
    empty: str = "",
    choices: Mapping[str, str] = MappingProxyType({}),
) -> Any:
    """Describe a given.

    `default`, `least` and `most` are texts in the trade's notation and the given's own kind; `metric` is
    the default of a metric project. `step` is the stride of a stepper or a search (any value between may
    still be typed): a text, a pair of texts (inches, metric), or a project step (`size`, `cutting`,
    `buying`). `unit` is the unit in which a bare number is read and the value shown (`yd` becomes `m` in
    metric). `table` names the table that a `TableRow` is chosen from. `was` lists former names. `takes` names
    founds of other calculators that say the same under another name, as a top's width is a setting's
    `width`: a new tab is linked to them by itself, as to a found of the given's own name.
    `inherits=False` keeps a given that bears a setting's name from taking the project's: its fabric and the
    default speak, as for the squaring of a precut. `example` is what could be typed, a text or a pair
    of texts (inches, metric), where what is usual for the kind would make little sense. `empty` says in few
    words what an optional given means while it is left out, as `as at the sides`: it stands faintly in the
    empty field. In a column `{}` stands for the row's number: a `name` left empty means `Border {}`.
    `choices` says of the options of a choice what each means: `{"mitred": "Joined at 45° in the corner."}`.
    """
    return _Given(
        label, default, metric, least, most, step, unit, table, help, was, takes, inherits, example, empty,
        choices,
    )  # fmt: skip


def found(
    label: str,
    *,
    up: StepLike | None = None,
    down: StepLike | None = None,
    nearest: StepLike | None = None,
    unit: str = "",
    grows_with: tuple[str, ...] = (),
    bounded: bool = False,
    help: str = "",  # noqa: A002 - the word that authors look for
    empty: str = "",
) -> Any:
    """Describe a found, and its one rounding: `up`, `down` or `nearest` to a step.

    A step is `size`, `cutting` or `buying` (the project's), a text, or a pair of texts (inches, metric).
    `grows_with` names the givens with which an amount to buy may never shrink. `bounded` says that what comes
    before the rounding is a bound or an estimate and no exact number (an arc, a root): it is shown behind ≈.
    `empty` is a sentence why there may be no value, where that is so because nobody asked for it: only who
    links to it is told, and no caution is needed.
    """
    said = [(d, s) for d, s in (("up", up), ("down", down), ("nearest", nearest)) if s is not None]
    if len(said) > 1:
        raise ContractError(f"found {label!r} rounds in two directions. Keep one of up, down, nearest.")
    direction, step = said[0] if said else ("", None)
    return _Found(label, direction, step, unit, grows_with, bounded, help, empty)


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(given, found))
def row(cls: type[T]) -> type[T]:
    """Make a class of annotated columns a row of a table: frozen, with keyword arguments only."""
    _all_described(f"row {cls.__name__}", cls, "given(…) or found(…)")
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
        hints = _hints(name, function)
        takes = {k: p for k, p in signature.parameters.items() if k not in ("setting", "job")}
        for key, parameter in takes.items():
            if parameter.kind in (parameter.VAR_POSITIONAL, parameter.VAR_KEYWORD) or key not in hints:
                raise ContractError(f"{name}, given {key}: write its kind, as `{key}: Finished = given(…)`.")
        givens = tuple(
            _given_spec(f"{name}, given {key}", key, hints[key], parameter.default)
            for key, parameter in takes.items()
        )
        founds = _found_specs(name, found)
        check_names(name, givens, founds)
        spec = CalculatorSpec(
            name=name,
            asks=asks,
            givens=givens,
            founds=founds,
            help=inspect.getdoc(function) or "",
            searches="job" in signature.parameters,
            place=_place(function),
        )
        return Calculator(spec, function)

    return declare


def _place(function: Callable[..., object]) -> str:
    """File and line, as a traceback says them."""
    code = getattr(function, "__code__", None)
    return f'File "{code.co_filename}", line {code.co_firstlineno}' if code is not None else ""


def _hints(where: str, declared: Callable[..., object]) -> dict[str, object]:
    try:
        return get_type_hints(declared, include_extras=True)
    except NameError as error:  # an annotation in quotes, or under `from __future__ import annotations`
        raise ContractError(f"{where}: {error}. Declare what annotations name at the module's top.") from None


def _all_described(where: str, cls: type, what: str) -> None:
    """Raise ContractError for a column without an annotation, or an annotation without a description."""
    described = {name for name, value in vars(cls).items() if isinstance(value, _Given | _Found)}
    annotated = set(vars(cls).get("__annotations__", {}))
    for name in sorted(described ^ annotated):
        lacks = "its kind" if name in described else f"its {what}"
        raise ContractError(f"{where}, {name}: {lacks} is missing. Write `{name}: Count = {what}`.")


def _step(step: StepLike | None) -> Step | None:
    if step is None:
        return None
    if isinstance(step, tuple):
        return Step(inches=step[0], metric=step[1])
    return Step(name=step) if step in STEPS else Step(inches=step, metric=step)


def _given_spec(where: str, key: str, hint: object, said: object, *, column: bool = False) -> GivenSpec:
    if not isinstance(said, _Given):
        raise ContractError(f"{where}: its default must be made by given(…).")
    hint, optional = _strip_none(hint)
    kind, options, columns = _kind_of(where, hint)
    if not column and SETTING_KINDS.get(key, kind) != kind:
        raise ContractError(f"{where}: bears a setting's name, so its kind must be {SETTING_KINDS[key]}.")
    _refuse_inner_rows(where, kind, column)
    if not isinstance(said.choices, Mapping):
        raise ContractError(f'{where}: choices= takes what each option means, as {{"straight": "…"}}.')
    spec = GivenSpec(
        name=key, kind=kind, label=said.label, unit=said.unit, help=said.help, options=options,
        default=said.default, metric_default=said.metric, optional=optional, least=said.least,
        most=said.most, step=_step(said.step), table=said.table,
        setting=not column and key in SETTING_KINDS, inherits=said.inherits, was=said.was,
        takes=said.takes,
        example=said.example if isinstance(said.example, tuple) else (said.example, said.example),
        empty=said.empty, meanings=tuple(said.choices.items()),
        columns=tuple(_given_spec(f"{where}.{n}", n, h, s, column=True) for n, h, s in columns),
    )  # fmt: skip
    check_given(where, spec)
    return spec


def _refuse_inner_rows(where: str, kind: str, column: bool) -> None:
    if column and kind == "rows":
        raise ContractError(f"{where}: rows hold no rows. Make them a table of their own.")


def _found_specs(where: str, cls: type) -> tuple[FoundSpec, ...]:
    said = getattr(cls, "__columns__", None)
    if said is None:
        _all_described(where, cls, "found(…)")
        said = {k: v for k, v in vars(cls).items() if isinstance(v, _Found)}
    hints = _hints(where, cls)
    return tuple(_found_spec(f"{where}, found {key}", key, hints[key], said.get(key)) for key in hints)


def _found_spec(where: str, key: str, hint: object, said: object, *, column: bool = False) -> FoundSpec:
    if not isinstance(said, _Found):
        raise ContractError(f"{where}: must be made by found(…).")
    hint, _ = _strip_none(hint)
    kind, options, columns = _kind_of(where, hint)
    _refuse_inner_rows(where, kind, column)
    spec = FoundSpec(
        name=key, kind=kind, label=said.label, unit=said.unit, help=said.help, options=options,
        direction=said.direction, step=_step(said.step), grows_with=said.grows_with, bounded=said.bounded,
        empty=said.empty,
        columns=tuple(_found_spec(f"{where}.{n}", n, h, s, column=True) for n, h, s in columns),
    )  # fmt: skip
    check_found(where, spec)
    return spec


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
    if isinstance(hint, type) and hint in KIND_OF_CLASS:
        return KIND_OF_CLASS[hint], (), []
    if get_origin(hint) is Literal:
        if not all(isinstance(a, str) for a in get_args(hint)):
            raise ContractError(f"{where}: a choice is among texts. Write each option in quotes.")
        return "choice", get_args(hint), []
    if get_origin(hint) is tuple:
        cls = get_args(hint)[0]
        columns: dict[str, object] = getattr(cls, "__columns__", {})
        if columns:
            hints = _hints(where, cls)
            return "rows", (), [(n, hints[n], s) for n, s in columns.items()]
        if isinstance(cls, type):
            raise ContractError(f"{where}: {cls.__name__} is no row. Mark the class with @row.")
    raise ContractError(
        f"{where}: {hint!r} is no kind of value. Use one of boltend.plugin's kinds, a Literal, or Rows[…]."
    )


def row_class_of(function: Callable[..., Answer], key: str) -> type:
    """The row class of a `rows` given, to build its rows from."""
    hint, _ = _strip_none(get_type_hints(function, include_extras=True)[key])
    cls: type = get_args(hint)[0]
    return cls
