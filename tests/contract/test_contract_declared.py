"""What a declaration says, and what is said of a wrong one."""

import pickle
import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

import pytest

from boltend.core.contract import (
    SETTING_KINDS,
    CalculatorSpec,
    ContractError,
    FoundSpec,
    GivenSpec,
    row_class_of,
)
from boltend.core.values import Notation
from boltend.plugin import (
    Answer,
    Area,
    Calculator,
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
    colour: Colour | None = given("Colour", was=("color", "tint")),
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


def declare(*, find: type = OneFound, name: str = "bad", **annotations: Any) -> Calculator:
    """A calculator with one given `x`: `x=(annotation, given(…))`."""
    names: dict[str, Any] = {"Answer": Answer}
    signature = []
    for key, (hint, said) in annotations.items():
        names[f"{key}_hint"], names[f"{key}_said"] = hint, said
        signature.append(f"{key}: {key}_hint = {key}_said")
    exec(f"def bad({', '.join(signature)}) -> Answer:\n    raise NotImplementedError", names)
    function: Callable[..., Answer] = names["bad"]
    return calculator(name, asks="?", found=find)(function)


def found_class(hint: Any, said: Any) -> type:
    return type("Found", (), {"__annotations__": {"x": hint}, "x": said})


@pytest.mark.parametrize(
    ("hint", "said", "parts"),
    [
        (Fraction, given("X"), ("bad, given x", "no kind of value", "boltend.plugin")),
        (int, given("X"), ("bad, given x", "no kind of value")),
        (Count, None, ("bad, given x", "given(…)")),
        (Count, found("X"), ("bad, given x", "given(…)")),
        (TableRow, given("X"), ("needs table=",)),
        (Count, given("X", table="things"), ("table= is for a TableRow, not for a count",)),
        (Text, given("X", least="a"), ("text is never less or more",)),
        (Money, given("X", most="3"), ("a price is never less or more",)),
        (YesNo, given("X", least="no"), ("a yes no is never less or more",)),
        (Rows[Strip], given("X", default="1"), ("rows have no default", "| None")),
        (Rows[OneFound], given("X"), ("OneFound is no row", "@row")),
        (Literal["a", "A"], given("X"), ("two options are written alike",)),
        (Literal[1, 2], given("X"), ("a choice is among texts", "in quotes")),
        (Literal["double", "single"], given("X", default="dubble"), ("default “dubble”", "“double”")),
        (Count, given("X", step="cutting"), ("the cutting step is a length, and this is a count", '"1"')),
    ],
)  # fmt: skip
def test_a_wrong_given_is_refused_with_its_place_and_a_way_out(
    hint: Any, said: Any, parts: tuple[str, ...]
) -> None:
    with pytest.raises(ContractError) as caught:
        declare(x=(hint, said))
    for part in ("bad, given x", *parts):
        assert part in str(caught.value)


@pytest.mark.parametrize("name", SETTING_KINDS)
def test_a_given_with_a_settings_name_is_that_setting_or_refused(name: str) -> None:
    right = {"length": Length, "count": Count, "percent": Percent}[SETTING_KINDS[name]]
    spec = declare(**{name: (right, given("X"))}).spec.given(name)
    assert spec is not None
    assert spec.setting
    with pytest.raises(ContractError, match=f"kind must be {SETTING_KINDS[name]}"):
        declare(**{name: (Text, given("X"))})


@pytest.mark.parametrize(
    ("hint", "said", "part"),
    [
        (Finished, found("X"), "a finished needs one of up=, down=, nearest="),
        (Area, found("X"), "an area needs one of"),
        (Count, given("X"), "must be made by found(…)"),
        (TableRow, found("X"), "chosen, not found"),
        (Text, found("X", up="1"), "text cannot be rounded"),
        (Money, found("X", up="1"), "a price cannot be rounded"),
        (Rows[Laid], found("X", nearest="size"), "rows cannot be rounded"),
        (Count, found("X", up="size"), "the size step is a length"),
        (Count, found("X", grows_with=("y",)), "grows with 'y', which is no given"),
        (list, found("X"), "no kind of value"),
    ],
)  # fmt: skip
def test_a_wrong_found_is_refused(hint: Any, said: Any, part: str) -> None:
    with pytest.raises(ContractError) as caught:
        declare(find=found_class(hint, said), z=(Count, given("Z")))
    assert part in str(caught.value)
    assert "found x" in str(caught.value)


def test_two_directions_are_refused() -> None:
    with pytest.raises(ContractError, match="two directions"):
        found("X", up="size", down="size")


def test_nothing_found_is_refused() -> None:
    with pytest.raises(ContractError, match="finds nothing"):
        declare(find=type("Empty", (), {}), x=(Count, given("X")))


def test_a_found_without_its_kind_is_refused() -> None:
    with pytest.raises(ContractError, match="made: its kind is missing"):
        declare(find=type("F", (), {"made": found("Made"), "__annotations__": {}}), x=(Count, given("X")))


def test_a_column_without_its_description_is_refused() -> None:
    with pytest.raises(ContractError, match=r"row Bare, width: its given\(…\) or found\(…\) is missing"):

        @row
        class Bare:
            width: Finished


def test_rows_in_rows_are_refused() -> None:
    @row
    class Outer:
        inner: Rows[Strip] = given("Inner")

    with pytest.raises(ContractError, match="rows hold no rows"):
        declare(x=(Rows[Outer], given("X")))


def test_a_parameter_without_an_annotation_is_refused() -> None:
    def bare(many=given("Many")):  # type: ignore[no-untyped-def]
        raise NotImplementedError

    def starred(*many: Count) -> Answer:
        raise NotImplementedError

    for function in (bare, starred):
        with pytest.raises(
            ContractError, match=r"bad, given many: write its kind, as `many: Finished = given\(…\)`"
        ):
            calculator("bad", asks="?", found=OneFound)(function)


def test_an_annotation_that_leads_nowhere_is_refused() -> None:
    def lost(many: "Cuont" = given("Many")) -> Answer:  # type: ignore[name-defined]  # noqa: F821 - this is what must be refused
        raise NotImplementedError

    with pytest.raises(ContractError, match="'Cuont' is not defined"):
        calculator("bad", asks="?", found=OneFound)(lost)


@pytest.mark.parametrize("was", ["y", "old"])
def test_a_former_name_that_means_two_givens_is_refused(was: str) -> None:
    with pytest.raises(ContractError, match=f"was='{was}' is another given's name too"):
        declare(y=(Count, given("Y", was=("old",))), x=(Count, given("X", was=(was,))))


PLUGIN = '''
from boltend.plugin import *

class F:
    n: Count = found("N", grows_with=("width",))

@row
class Cell:
    width: Finished = given("Width")

@calculator("x", asks="?", found=F)
def x(
    width: Finished = given("Width"),
    join: Choice["diagonal", "straight"] = given("Join", default="diagonal"),
    cells: Rows[Cell] | None = given("Cells"),
    *,
    setting: Settings,
) -> Answer:
    """X."""
    reveal_type(join)
    reveal_type(width)
    reveal_type([cell.width for cell in cells or ()])
    reveal_type(setting.seam)
    Cell(width=width)
    Cell(widht=width)
    return Answer(found={"n": 1})
'''


def test_mypy_strict_understands_a_plugins_module(tmp_path: Path) -> None:
    """What an author sees in an editor: the kinds as plain types, choices as words, a slip as an error."""
    mypy = pytest.importorskip("mypy", reason="mypy is of the dev extra, not of the test extra")
    assert mypy
    file = tmp_path / "author.py"
    file.write_text(PLUGIN)
    call = [
        sys.executable,
        "-m",
        "mypy",
        "--strict",
        "--config-file=",
        "--cache-dir",
        str(tmp_path / "cache"),
        str(file),
    ]
    said = subprocess.run(call, capture_output=True, text=True, check=False).stdout
    assert "\"Literal['diagonal'] | Literal['straight']\"" in said
    assert said.count('"fractions.Fraction"') == 2
    assert '"list[fractions.Fraction]"' in said
    assert 'Unexpected keyword argument "widht" for "Cell"' in said
    errors = [line for line in said.splitlines() if ": error:" in line]
    assert len(errors) == 1, said  # the slip, and nothing that is right
