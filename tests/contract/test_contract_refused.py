"""What is said of a declaration that is wrong, and what mypy says of one that is right."""

import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

import pytest

from boltend.core.contract import (
    SETTING_KINDS,
    ContractError,
)
from boltend.plugin import (
    Answer,
    Area,
    Calculator,
    Count,
    Finished,
    Length,
    Money,
    Percent,
    Rows,
    TableRow,
    Text,
    YesNo,
    calculator,
    found,
    given,
    row,
)


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
        (Length, given("X", empty="as the sides"), ("empty= is for what may be left out", "| None")),
        (Count | None, given("X", default="1", empty="one"), ("empty= is for what may be left out",)),
        (Rows[Strip], given("X", default="1"), ("rows have no default", "| None")),
        (Rows[OneFound], given("X"), ("OneFound is no row", "@row")),
        (Literal["a", "A"], given("X"), ("two options are written alike",)),
        (Literal["a", "b"], given("X", choices={"c": "The third."}), ("tells of 'c'", "none of its options")),
        (Literal["a", "b"], given("X", choices=("a",)), ("what each option means",)),  # type: ignore[arg-type]  # as written
        (Literal[1, 2], given("X"), ("a choice is among texts", "in quotes")),
        (Literal["double", "single"], given("X", default="dubble"), ("default “dubble”", "“double”")),
        (Count, given("X", step="fine"), ("'fine' is no step", "size, cutting, buying", '"1/2 in"')),
        (Length, given("X", step="sise"), ("'sise' is no step", "Did you mean 'size'?")),
        (Length, given("X", was="old"), ('was= takes a tuple of names. Write was=("old",)',)),  # type: ignore[arg-type]  # as written
        (Length, given("X", takes="old"), ('takes= takes a tuple of names. Write takes=("old",)',)),  # type: ignore[arg-type]  # as written
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
        (Count, found("X", grows_with=("y",)), "grows with 'y', which is no given. It takes z."),
        (Count, found("X", grows_with=("zz",)), "'zz', which is no given. Did you mean 'z'?"),
        (Count, found("X", grows_with="z"), 'grows_with= takes a tuple of names. Write grows_with=("z",).'),  # type: ignore[arg-type]  # as written
        (Finished, found("X", up="cuting"), "'cuting' is no step. Did you mean 'cutting'?"),
        (Finished, found("X", up="Buying"), "'Buying' is no step. Did you mean 'buying'?"),
        (Finished, found("X", up=("cutting", "1 cm")), "A pair is of two sizes, as (\"1/2 in\", \"1 cm\")."),
        (Finished, found("X", up=3), "3 is no step."),  # type: ignore[arg-type]  # that is what is wrong
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
