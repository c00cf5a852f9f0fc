"""`boltend.core.classes.dataclass` does what Python's own does, which stands beside it as the measure."""

import copy
import dataclasses
import inspect
import pickle
import re
from dataclasses import FrozenInstanceError, field, fields, replace
from pathlib import Path
from typing import Any

import pytest

from boltend.core import classes
from boltend.core.classes import dataclass

SRC = Path(classes.__file__).parent.parent
HOW: list[dict[str, bool]] = [
    {},
    {"frozen": True},
    {"eq": False},
    {"slots": True},
    {"frozen": True, "slots": True},
    {"frozen": True, "eq": False},
    {"frozen": True, "kw_only": True},
]


def patch(make: Any, how: dict[str, bool]) -> Any:
    """A class with every sort of field, made by `make`."""

    class Patch:
        width: int
        height: int = 4
        names: list[str] = field(default_factory=list)
        place: str = field(default="", compare=False)
        seen: list[int] = field(default_factory=list, init=False, repr=False)
        area: int = field(init=False, compare=False)

        def __post_init__(self) -> None:
            object.__setattr__(self, "area", self.width * self.height)

    Patch.__qualname__ = "Patch"
    return make(**how)(Patch)


@pytest.fixture(params=HOW, ids=str)
def both(request: pytest.FixtureRequest) -> tuple[Any, Any]:
    return patch(dataclass, request.param), patch(dataclasses.dataclass, request.param)


def told(call: Any) -> Any:
    """What comes of a call: its value, or the class of its error."""
    try:
        return call()
    except Exception as error:
        return type(error)


def test_as_pythons(both: tuple[Any, Any]) -> None:
    ours, pythons = (
        [
            repr(cls(width=3)),
            repr(cls(width=3, names=["a"], place="b")),
            told(lambda cls=cls: repr(cls(3, 5, ["a"]))),
            cls(width=3) == cls(width=3),
            cls(width=3) == cls(width=3, place="elsewhere"),
            cls(width=3) == cls(width=4),
            cls(width=3) == 3,
            cls(width=3, height=7).area,
            told(lambda cls=cls: cls()),
            told(lambda cls=cls: cls(width=3, colour="red")),
            told(lambda cls=cls: setattr(cls(width=3), "width", 4)),
            told(lambda cls=cls: delattr(cls(width=3), "height")),
            told(lambda cls=cls: isinstance(hash(cls(width=3)), int)),
            repr(replace(cls(width=3), height=9)),
            replace(cls(width=3), height=9).area,
            repr(copy.deepcopy(cls(width=3, names=["a"]))),
            cls(width=3).names is cls(width=3).names,
            cls.__match_args__,
            [f.name for f in fields(cls)],
            hasattr(cls(width=3), "__dict__"),
            list(inspect.signature(cls).parameters),
            [p.kind for p in inspect.signature(cls).parameters.values()],
        ]
        for cls in both
    )
    assert ours == pythons


@dataclass(frozen=True, slots=True)
class Slotted:
    width: int
    names: tuple[str, ...] = ()


@dataclass(frozen=True)
class Base:
    width: int


@dataclass(frozen=True)
class Derived(Base):
    height: int = 2


@dataclass(frozen=True)
class OwnWays:
    width: int

    def __eq__(self, other: object) -> bool:
        return True

    def __repr__(self) -> str:
        return "own"


def test_across_a_pipe() -> None:
    sent = Slotted(3, ("a",))
    assert pickle.loads(pickle.dumps(sent, pickle.HIGHEST_PROTOCOL)) == sent
    assert pickle.loads(pickle.dumps(Derived(3), pickle.HIGHEST_PROTOCOL)) == Derived(3)


def test_equal_means_the_same_hash() -> None:
    assert {Slotted(3, ("a",)), Slotted(3, ("a",))} == {Slotted(3, ("a",))}
    assert len({Derived(3), Derived(3, 2), Derived(4)}) == 2
    assert len({Base(3), Base(3)}) == 1


def test_a_class_below_another() -> None:
    assert repr(Derived(3)) == "Derived(width=3, height=2)"
    assert Derived(3) != Base(3)
    with pytest.raises(FrozenInstanceError):
        Derived(3).width = 4  # type: ignore[misc]  # this is what is tried


def test_what_a_class_says_itself_stays() -> None:
    assert repr(OwnWays(3)) == "own"
    assert OwnWays(3) == OwnWays(4)
    assert isinstance(hash(OwnWays(3)), int)


def test_help_shows_what_it_takes() -> None:
    assert list(inspect.signature(Slotted).parameters) == ["width", "names"]
    assert inspect.signature(Slotted).parameters["width"].annotation is int


def test_ours_are_made_so() -> None:
    """One class made the slow way costs a start as much as ten of these."""
    slow = re.compile(r"^from dataclasses import .*\bdataclass\b", re.MULTILINE)
    files = [f for f in SRC.rglob("*.py") if f != Path(classes.__file__) and "template" not in f.parts]
    assert files
    assert [f.name for f in files if slow.search(f.read_text(encoding="utf-8"))] == []
