"""What a declaration says."""

import pickle
from fractions import Fraction
from typing import Literal

import pytest

from boltend.core.contract import (
    CalculatorSpec,
    FoundSpec,
    GivenSpec,
    row_class_of,
)
from boltend.core.values import KINDS, Notation
from boltend.plugin import (
    Answer,
    Area,
    Choice,
    Colour,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Measured,
    Money,
    Percent,
    PlainNumber,
    Price,
    Rate,
    Rows,
    Settings,
    TableRow,
    Text,
    ThreadNumber,
    Time,
    YesNo,
    calculator,
    found,
    given,
    row,
    tex,
)

ONE = given("One")


class OneFound:
    one: Count = found("One")


@row
class Strip:
    width: Finished = given("Width", least="1 in")
    note: Text | None = given("Note")
    layers: Count = given("Layers", default="1")


@row
class Laid:
    width: Finished = found("Width", nearest="size")


class EveryFound:
    finished: Finished = found("Finished", nearest="size")
    cut: Cut = found("Cut", up="cutting")
    length: Length = found("Length", up="buying", unit="yd", grows_with=("finished", "count"))
    area: Area = found("Area", nearest="1 sq in")
    count: Count = found("Count")
    percent: Percent | None = found("Percent", nearest="0.1 %")
    fold: Literal["double", "single"] = found("Fold")
    laid: Rows[Laid] = found("Laid")


@calculator("every", asks="Which kinds are there?", found=EveryFound)
def every(
    finished: Finished = ONE,
    cut: Cut = given(
        "Cut", default="2 1/2 in", metric="6 cm", least="1 in", most="9 in", step=("1/8 in", "1 mm")
    ),
    length: Length = given("Length", unit="yd", step="buying", help="Off the bolt."),
    measured: Measured = ONE,
    area: Area = ONE,
    count: Count = ONE,
    percent: Percent = ONE,
    money: Money = given("Price", unit="yd"),
    rate: Rate = given("Rate", unit="per in"),
    time: Time = ONE,
    thread: ThreadNumber = ONE,
    number: PlainNumber = ONE,
    yes: YesNo = given("Yes", default="yes"),
    fabric: Fabric | None = ONE,
    text: Text | None = ONE,
    colour: Colour | None = given("Colour", was=("color", "tint"), takes=("shade",)),
    thing: TableRow = given("Thing", table="things"),
    join: Choice["diagonal", "straight"] = given("Join", default="diagonal"),  # noqa: F821 - ruff takes only typing's own for literals
    turns: Literal["whole turns", "10 %"] = ONE,
    strips: Rows[Strip] = ONE,
    more: Rows[Strip] | None = ONE,
    usable_width: Length = ONE,
    prewash_along: Percent | None = ONE,
    layers: Count = given("Layers", default="4"),
    *,
    setting: Settings,
) -> Answer:
    """One of each kind."""
    raise NotImplementedError


KINDS_OF = {
    "finished": "finished", "cut": "cut", "length": "length", "measured": "measured", "area": "area",
    "count": "count", "percent": "percent", "money": "price", "rate": "rate", "time": "time",
    "thread": "thread_number", "number": "number", "yes": "yes_no", "fabric": "fabric", "text": "text",
    "colour": "colour", "thing": "table_row", "join": "choice", "turns": "choice", "strips": "rows",
    "more": "rows", "usable_width": "length", "prewash_along": "percent", "layers": "count",
}  # fmt: skip


def the(name: str) -> GivenSpec:
    spec = every.spec.given(name)
    assert spec is not None
    return spec


def the_found(name: str) -> FoundSpec:
    spec = every.spec.found(name)
    assert spec is not None
    return spec


def test_each_annotation_says_its_kind() -> None:
    assert {g.name: g.kind for g in every.spec.givens} == KINDS_OF
    assert [f.kind for f in every.spec.founds] == [
        "finished", "cut", "length", "area", "count", "percent", "choice", "rows",
    ]  # fmt: skip
    assert (every.spec.name, every.spec.asks, every.spec.help) == (
        "every",
        "Which kinds are there?",
        "One of each kind.",
    )
    assert every.takes_setting
    assert not every.takes_job
    assert not every.spec.searches


def test_values_of_more_than_a_number_are_made_by_what_a_plugin_imports() -> None:
    made = {
        "rate": Rate(Fraction(10), "per in"),
        "thread_number": ThreadNumber(Fraction(50), "Ne"),
        "price": Price(Fraction(25, 2), "USD", "yard"),
    }
    for kind, value in made.items():
        assert KINDS[kind].check(value) is None
    shown = [KINDS[kind].show(value, Notation()) for kind, value in made.items()]
    assert shown == ["10 per in", "50 Ne", "$12.50 per yard"]
    assert tex(ThreadNumber(Fraction(25), "tex")) == 25


def test_what_given_says_is_kept() -> None:
    spec = the("cut")
    assert (spec.default, spec.metric_default, spec.least, spec.most) == ("2 1/2 in", "6 cm", "1 in", "9 in")
    assert spec.default_text(Notation("in")) == "2 1/2 in"
    assert spec.default_text(Notation("cm")) == "6 cm"
    assert spec.step is not None
    assert (spec.step.inches, spec.step.metric, spec.step.describe()) == ("1/8 in", "1 mm", "1/8 in (1 mm)")
    step = the("length").step
    assert step is not None
    assert (step.name, step.describe()) == ("buying", "buying step")
    assert (the("length").unit, the("length").help) == ("yd", "Off the bolt.")
    assert the("colour").was == ("color", "tint")
    assert (the("colour").takes, the("cut").takes) == (("shade",), ())


def test_required_optional_defaulted_and_settings() -> None:
    assert the("finished").required
    assert not the("fabric").required
    assert the("fabric").optional
    assert not the("cut").required
    settings = {g.name for g in every.spec.givens if g.setting}
    assert settings == {"usable_width", "prewash_along", "layers"}
    assert not the("usable_width").required
    assert not any(g.optional for g in every.spec.givens if g.name in ("finished", "cut", "layers"))


def test_choices_are_the_literals_in_order() -> None:
    assert the("join").options == ("diagonal", "straight")
    assert the("turns").options == ("whole turns", "10 %")
    assert the_found("fold").options == ("double", "single")


def test_rows_hold_their_columns_and_no_setting() -> None:
    columns = the("strips").columns
    assert [(c.name, c.kind, c.optional, c.default) for c in columns] == [
        ("width", "finished", False, None), ("note", "text", True, None), ("layers", "count", False, "1"),
    ]  # fmt: skip
    assert not any(c.setting for c in columns)  # a column is one row's, never the whole tab's setting
    assert [c.direction for c in the_found("laid").columns] == ["nearest"]
    assert row_class_of(every.function, "strips") is Strip
    assert row_class_of(every.function, "more") is Strip


def test_a_row_is_frozen_and_takes_keywords_only() -> None:
    made = Strip(width=Fraction(2), note=None, layers=1)
    with pytest.raises(AttributeError):
        made.width = Fraction(3)  # type: ignore[misc]  # this is what must fail
    with pytest.raises(TypeError):
        Strip(Fraction(2), None, 1)  # type: ignore[misc]  # so must this
    with pytest.raises(TypeError):
        Strip(width=Fraction(2))  # type: ignore[call-arg]  # no default hides what the platform did not fill


def test_founds_say_direction_step_and_what_they_grow_with() -> None:
    assert [(f.name, f.direction) for f in every.spec.founds if f.direction] == [
        ("finished", "nearest"), ("cut", "up"), ("length", "up"), ("area", "nearest"), ("percent", "nearest"),
    ]  # fmt: skip
    assert the_found("length").grows_with == ("finished", "count")


def test_a_calculator_is_still_a_function() -> None:
    @calculator("plain", asks="?", found=OneFound)
    def plain(many: Count = given("Many")) -> Answer:
        """Doubles."""
        return Answer(found={"one": 2 * many})

    assert plain(many=4).found == {"one": 8}
    assert plain.__doc__ == "Doubles."


def test_a_specification_crosses_a_process_and_holds_no_code_of_a_plugin() -> None:
    assert the("cut").reader is the("cut").reader  # one that was made must not stand in the way
    assert pickle.loads(pickle.dumps(every.spec)) == every.spec
    modules = {type(value).__module__ for value in walk(every.spec)}
    assert all(m == "builtins" or m.startswith("boltend.core.") for m in modules), modules
    assert not any(callable(value) for value in walk(every.spec))


def walk(value: object) -> list[object]:
    """A specification and all that it holds."""
    if isinstance(value, tuple | list | dict):
        parts = list(value.values()) if isinstance(value, dict) else list(value)
    elif isinstance(value, CalculatorSpec | GivenSpec | FoundSpec) or hasattr(value, "__dataclass_fields__"):
        parts = [getattr(value, name) for name in type(value).__dataclass_fields__]  # type: ignore[attr-defined]  # a dataclass has them
    else:
        return [value]
    return [value, *(inner for part in parts for inner in walk(part))]
