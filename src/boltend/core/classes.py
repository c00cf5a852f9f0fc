"""Python's `dataclass`, made at a tenth of the cost: a start of the shell makes a hundred such classes.

Python writes each method of each class as text and compiles it, half a millisecond a class (3.11). Here
comparing, hashing, showing and being frozen are shared functions, and `__init__` alone is written, when a
class is first called. All else is left to Python's own: `field`, `fields`, `replace`, `__post_init__`, slots,
keyword-only fields. Not offered: `order`, `InitVar`, `hash` of a field.
"""

import dataclasses
from collections.abc import Callable, Iterable
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass  # to be read and checked as Python's
else:

    def dataclass(cls=None, /, *, frozen=False, eq=True, slots=False, kw_only=False):
        """Make a class of annotated fields a dataclass; the options mean what Python's mean."""

        def make(cls):
            return _made(cls, frozen=frozen, eq=eq, slots=slots, kw_only=kw_only)

        return make if cls is None else make(cls)


_set = object.__setattr__
_NOT_SAID: Any = object()


def _made(cls: type, *, frozen: bool, eq: bool, slots: bool, kw_only: bool) -> type:
    own = set(vars(cls))
    if not cls.__doc__:
        cls.__doc__ = cls.__name__  # else Python would work out a signature to stand there
    made: type[Any] = dataclasses.dataclass(init=False, repr=False, eq=False, slots=slots, kw_only=kw_only)(
        cls
    )
    fields = dataclasses.fields(made)
    methods: dict[str, Any] = {"__init__": _LateInit(made, frozen), "__repr__": _showing(fields)}
    if eq:
        values = _values([f.name for f in fields if f.compare])
        methods |= {"__eq__": _comparing(values), "__hash__": _hashing(values) if frozen else None}
    if frozen:
        methods |= {"__setattr__": _no_setting, "__delattr__": _no_deleting}
    if frozen and slots:
        methods |= {"__getstate__": _state, "__setstate__": _take_state}
    for name, method in methods.items():
        if name not in own or (name == "__hash__" and "__eq__" in own and vars(cls)[name] is None):
            setattr(made, name, method)
    return made


class _LateInit:
    """Stands in the place of `__init__` until somebody looks for it."""

    def __init__(self, made: type, frozen: bool) -> None:
        self._made = made
        self._frozen = frozen

    def __get__(self, each: object, whose: type) -> Any:
        init = _init(self._made, self._frozen)
        self._made.__init__ = init  # type: ignore[misc]  # from now on it is called without us
        return init.__get__(each, whose)


def _init(made: type, frozen: bool) -> Callable[..., None]:
    """The function that sets all fields, written out."""
    known: dict[str, Any] = {"_set": _set, "_not_said": _NOT_SAID}
    takes: list[str] = []
    takes_named: list[str] = []
    body: list[str] = []
    for f in dataclasses.fields(made):
        made_anew, usual = f"_new_{f.name}", f"_usual_{f.name}"
        value, default = f.name, ""
        if f.default_factory is not dataclasses.MISSING:
            known[made_anew] = f.default_factory
            value, default = f"{made_anew}() if {f.name} is _not_said else {f.name}", "=_not_said"
            if not f.init:
                value = f"{made_anew}()"
        elif f.default is not dataclasses.MISSING:
            known[usual] = f.default
            value, default = (f.name if f.init else usual), f"={usual}"
        elif not f.init:
            continue  # `__post_init__` sets it
        if f.init:
            (takes_named if f.kw_only else takes).append(f.name + default)
        body.append(f"_set(_self, {f.name!r}, {value})" if frozen else f"_self.{f.name} = {value}")
    if hasattr(made, "__post_init__"):
        body.append("_self.__post_init__()")
    head = ", ".join(["_self", *takes, *(["*", *takes_named] if takes_named else [])])
    exec(f"def __init__({head}):\n " + "\n ".join(body or ["pass"]), known)
    init: Callable[..., None] = known["__init__"]
    init.__qualname__, init.__module__ = f"{made.__qualname__}.__init__", made.__module__
    hints = {f.name: f.type for f in dataclasses.fields(made) if f.init}
    init.__annotations__ = {**hints, "return": None}
    return init


def _values(names: list[str]) -> Callable[[object], tuple[Any, ...]]:
    """What gives the values of these fields at once."""
    if len(names) > 1:
        return attrgetter(*names)
    return lambda each: tuple(getattr(each, name) for name in names)


def _comparing(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object, object], bool]:
    def __eq__(self: object, other: object) -> bool:  # noqa: N807 - it becomes one
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    return __eq__


def _hashing(values: Callable[[object], tuple[Any, ...]]) -> Callable[[object], int]:
    def __hash__(self: object) -> int:  # noqa: N807 - as above
        return hash(values(self))

    return __hash__


def _showing(fields: Iterable["dataclasses.Field[Any]"]) -> Callable[[object], str]:
    names = [f.name for f in fields if f.repr]

    def __repr__(self: object) -> str:  # noqa: N807 - as above
        said = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{self.__class__.__qualname__}({said})"

    return recursive_repr()(__repr__)


def _no_setting(self: object, name: str, value: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _no_deleting(self: object, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, f.name) for f in dataclasses.fields(self)]


def _take_state(self: Any, state: Iterable[Any]) -> None:
    for f, value in zip(dataclasses.fields(self), state, strict=False):
        _set(self, f.name, value)
