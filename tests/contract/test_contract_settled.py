"""What a calculator answers is checked, and each found is rounded once."""

from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal

import pytest

from boltend.core.host.settle import MOST_KINDS, MOST_ROWS, Settled, WrongAnswer, settle
from boltend.core.values import ROOT2, Surd
from boltend.plugin import (
    Answer,
    Area,
    Calculator,
    Count,
    Cut,
    Finished,
    Goods,
    Length,
    Line,
    Measured,
    Money,
    Percent,
    Piece,
    PlainNumber,
    Price,
    Rect,
    Rows,
    Run,
    Settings,
    Text,
    Time,
    YesNo,
    calculator,
    found,
    given,
    row,
)

MM = Fraction(5, 127)
INCHES = Settings()
METRIC = Settings(system="cm", size_step=MM, cutting_step=MM, buying_step=100 * MM)


@row
class Laid:
    width: Cut = found("Width", up="cutting")
    name: Text | None = found("Name")


class Found:
    up: Cut = found("Up", up="cutting")
    down: Finished = found("Down", down="size")
    near: Finished = found("Near", nearest="size")
    own: Length = found("Own", up=("1/2 in", "1 cm"))
    buy: Length = found("Buy", up="buying", unit="yd")
    area: Area = found("Area", nearest=("1 sq in", "1 sq cm"))
    whole: Count = found("Whole", up="1")
    count: Count = found("Count")
    used: Percent = found("Used", nearest="0.1 %")
    number: PlainNumber = found("Number")
    minutes: Time = found("Minutes", up="5 min")
    price: Money = found("Price")
    sizes: Measured = found("Sizes")
    yes: YesNo = found("Yes")
    fold: Literal["double", "single"] = found("Fold")
    laid: Rows[Laid] = found("Laid")


@calculator("every", asks="?", found=Found)
def every(x: Count = given("X")) -> Answer:
    raise NotImplementedError


GOOD: dict[str, Any] = {
    "up": Fraction(9), "down": Fraction(9), "near": Fraction(9), "own": Fraction(9), "buy": Fraction(9),
    "area": Fraction(9), "whole": 3, "count": 3, "used": Fraction(50), "number": Fraction(1, 3),
    "minutes": Fraction(5), "price": Price(Fraction(3), "USD"), "sizes": (Fraction(1, 3),), "yes": True,
    "fold": "double", "laid": [{"width": Fraction(1), "name": None}],
}  # fmt: skip


def settled(settings: Settings = INCHES, calculator: Calculator = every, **other: Any) -> Settled:
    return settle(calculator.spec, Answer(found={**GOOD, **other}), settings)


def wrong(**other: Any) -> str:
    with pytest.raises(WrongAnswer) as caught:
        settled(**other)
    return str(caught.value)


def test_what_is_right_passes_unchanged() -> None:
    assert settled().found == {**GOOD, "laid": ({"width": 1, "name": None},)}


@pytest.mark.parametrize(
    ("name", "value", "inches", "metric"),
    [
        ("up", Fraction(905, 100), Fraction(73, 8), 230 * MM),  # 9.05 in: 9 1/8; 22.987 cm: 23.0
        ("up", 9 * ROOT2, Fraction(51, 4), 324 * MM),  # 12.7279 in: 12 3/4; 32.3289 cm: 32.4
        ("down", 9 * ROOT2, Fraction(203, 16), 323 * MM),  # 12 11/16; 32.3
        ("near", 9 * ROOT2, Fraction(51, 4), 323 * MM),  # 12.7279 is nearer 12.75 than 12.6875; 32.3
        ("near", Fraction(1, 32), Fraction(1, 16), MM),  # half a step goes up; 0.79 mm: 1
        ("own", Fraction(905, 100), Fraction(19, 2), 230 * MM),
        ("buy", Fraction(37), Fraction(81, 2), 1000 * MM),  # 37 in: 1 1/8 yd; 93.98 cm: 1 m
        ("buy", Fraction(36), Fraction(36), 1000 * MM),
        ("area", Fraction(25, 2), 13, 81 * MM * MM * 100),  # 12.5 sq in; 80.645 sq cm: 81
        ("used", Fraction(200, 3), Fraction(667, 10), Fraction(667, 10)),
        ("minutes", Fraction(61, 3), 25, 25),
        ("up", 9, 9, 229 * MM),  # a whole number of inches is exact too; 22.86 cm: 22.9
    ],
)
def test_each_found_is_rounded_once_by_its_step_and_direction(
    name: str, value: Any, inches: Fraction, metric: Fraction
) -> None:
    for settings, expected in ((INCHES, inches), (METRIC, metric)):
        result = settled(settings, **{name: value})
        assert result.found[name] == expected
        assert type(result.found[name]) is Fraction
        assert result.unrounded[name] == value


def test_a_hair_over_a_step_is_a_step_more_and_none_at_the_step() -> None:
    hair = Fraction(1, 10**30)
    assert settled(buy=Fraction(45, 2)).found["buy"] == Fraction(45, 2)
    assert settled(buy=Fraction(45, 2) + hair).found["buy"] == 27
    assert settled(buy=Surd(Fraction(45, 2) - 2, 0) + 2).found["buy"] == Fraction(45, 2)


def test_a_count_may_be_rounded_to_whole_pieces() -> None:
    result = settled(whole=Fraction(7, 2))
    assert (result.found["whole"], type(result.found["whole"])) == (4, int)
    assert settled(whole=ROOT2).found["whole"] == 2


def test_a_whole_number_stands_for_a_fraction() -> None:
    found = settled(number=3).found
    assert (found["number"], type(found["number"])) == (3, Fraction)


def test_none_stays_none_and_rows_keep_both_values() -> None:
    result = settled(up=None, laid=[{"width": ROOT2, "name": None}, {"width": None, "name": "B"}])
    assert result.found["up"] is None
    assert result.found["laid"] == ({"width": Fraction(3, 2), "name": None}, {"width": None, "name": "B"})
    assert result.unrounded["laid"] == ({"width": ROOT2, "name": None}, {"width": None, "name": "B"})


class Rude:
    """What a plugin may put anywhere: it even raises where it is looked at."""

    def __repr__(self) -> str:
        raise RuntimeError("do not look")

    def __eq__(self, other: object) -> bool:
        raise RuntimeError("do not compare")

    __hash__ = None  # type: ignore[assignment]  # nor be found in a set


@pytest.mark.parametrize(
    ("other", "part"),
    [
        ({"up": 2.5}, "up is 2.5, not an exact number (a Fraction)"),
        ({"up": float("nan")}, "up is nan, not an exact number"),
        ({"up": float("inf")}, "up is inf, not an exact number"),
        ({"up": True}, "up is True, not an exact number"),
        ({"up": "9 in"}, "up is str, not an exact number"),
        ({"up": Decimal("9")}, "up is Decimal, not an exact number"),
        ({"up": 10**7000}, "up: "),
        ({"up": Rude()}, "up is Rude, not an exact number"),
        ({"number": 0.5}, "number: "),
        ({"number": ROOT2}, "number holds a root and no rounding is declared"),
        ({"area": Fraction(-3)}, "area: a value below 0"),
        ({"count": -1}, "count: a value below 0"),
        ({"count": Fraction(3)}, "count: Fraction where a whole number"),
        ({"count": True}, "count: bool where a whole number"),
        ({"price": Fraction(3)}, "price: Fraction where a Price is wanted"),
        ({"price": Price(Fraction(3), "dollars")}, "price: a currency is three capital letters"),
        ({"yes": 1}, "yes: int where a bool is wanted"),
        ({"fold": "triple"}, "fold: "),
        ({"sizes": [1.5]}, "sizes: "),
        ({"laid": 3}, "laid is int, not rows"),
        ({"laid": "rows"}, "laid is str, not rows"),
        ({"laid": [3]}, "laid, row 1 is int, not a mapping"),
        ({"laid": [{"width": Fraction(1)}]}, "laid, row 1, name is missing"),
        ({"laid": [{"width": 0.5, "name": None}]}, "laid, row 1, width is 0.5, not an exact number"),
        (
            {"laid": [{"width": 1, "name": None}] * (MOST_ROWS + 1)},
            f"laid has {MOST_ROWS + 1} rows, more than {MOST_ROWS}",
        ),
        ({"extra": 3}, "extra is not declared"),
    ],
)
def test_a_wrong_found_is_told_with_its_place(other: dict[str, Any], part: str) -> None:
    assert part in wrong(**other)


def test_missing_and_undeclared_names_are_both_told() -> None:
    found = {k: v for k, v in GOOD.items() if k != "up"} | {"upp": 1}
    with pytest.raises(WrongAnswer, match="up is missing, upp is not declared"):
        settle(every.spec, Answer(found=found), INCHES)


@pytest.mark.parametrize("answer", [None, 3, {"up": 1}, Answer])
def test_no_answer_at_all(answer: object) -> None:
    with pytest.raises(WrongAnswer, match="not an Answer"):
        settle(every.spec, answer, INCHES)


def test_a_found_that_is_no_mapping() -> None:
    with pytest.raises(WrongAnswer, match="no mapping"):
        settle(every.spec, Answer(found=[1]), INCHES)  # type: ignore[arg-type]  # this is what must be told


ONE, TEXT = Fraction(1), "words"


@pytest.mark.parametrize(
    ("part", "value", "said"),
    [
        ("pieces", [3], "its pieces hold int"),
        ("pieces", Piece("a", ONE, ONE, 1), "its pieces are Piece, not a sequence"),
        ("pieces", TEXT, "its pieces are str, not a sequence"),
        ("pieces", [Piece("a", ONE, ONE, 1)] * (MOST_KINDS + 1), f"its pieces are more than {MOST_KINDS}"),
        ("pieces", [Piece("a", 1.5, ONE, 1)], "piece 'a' has no sound size or count"),  # type: ignore[arg-type]
        ("pieces", [Piece("a", ROOT2, ONE, 1)], "no sound size"),  # type: ignore[arg-type]
        ("pieces", [Piece("a", Fraction(0), ONE, 1)], "no sound size"),
        ("pieces", [Piece("a", ONE, ONE, -1)], "no sound size or count"),
        ("pieces", [Piece("a", ONE, ONE, True)], "no sound size or count"),
        ("pieces", [Piece("", ONE, ONE, 1)], "no sound name"),
        ("pieces", [Piece("a", ONE, ONE, 1, fabric=3)], "no sound name or fabric"),  # type: ignore[arg-type]
        ("pieces", [Piece("a", ONE, ONE, 1, grain="upwards")], "an unknown grain"),  # type: ignore[arg-type]
        ("pieces", [Piece("a", ONE, ONE, 1, made_from="third")], "made from no part"),  # type: ignore[arg-type]
        ("runs", [Run("a", ONE, (ONE, -ONE))], "run 'a' has no sound width or length"),
        ("runs", [Run("a", ONE, None)], "run 'a' has no sound width or length"),  # type: ignore[arg-type]
        ("runs", [Run("a", ONE, (ONE,), join="glue")], "unknown grain or join"),  # type: ignore[arg-type]
        ("goods", [Goods("", ONE, "spool")], "no sound name, unit or amount"),
        ("goods", [Goods("a", 0.5, "spool")], "no sound name, unit or amount"),  # type: ignore[arg-type]
        ("goods", [Goods("a", ONE, "spool", price_each=ONE)], "no sound price"),  # type: ignore[arg-type]
        ("goods", [Goods("a", ONE, "spool", units=3)], "no sound word for several"),  # type: ignore[arg-type]
        ("goods", [Goods("a", ONE, "spool", price_given=3)], "name no sound given for their price"),  # type: ignore[arg-type]
        ("goods", [Goods("a", ONE, "spool", part=0.5)], "is not their part"),  # type: ignore[arg-type]
        ("goods", [Goods("a", ONE, "spool", part=Fraction(0))], "is not their part"),
        ("goods", [Goods("a", ONE, "spool", part=Fraction(11, 10))], "is not their part, up to a whole one"),
        ("goods", [Goods("a", 2 * ONE, "spool", part=ONE)], "is not their part, up to a whole one"),
        ("working", [3], "its working hold int"),
        ("working", TEXT, "its working are str, not a sequence"),
        ("working", [Line(3)], "has no words"),  # type: ignore[arg-type]
        ("cautions", [Line("a {}", 3)], "has no words"),  # type: ignore[arg-type]
        ("first", TEXT, "its first are str, not a sequence"),
        ("first", [Line(3)], "has no words"),  # type: ignore[arg-type]
        ("picture", [TEXT], "its picture hold str"),
        ("picture", Rude(), ""),
    ],
)
def test_a_wrong_part_is_told(part: str, value: Any, said: str) -> None:
    with pytest.raises(WrongAnswer) as caught:
        settle(every.spec, Answer(found=GOOD, **{part: value}), INCHES)
    assert said in str(caught.value)


def test_sound_parts_pass() -> None:
    answer = Answer(
        found=GOOD,
        pieces=[Piece("a", ONE, ONE, 0, fabric="Moss")],
        runs=(Run("b", ONE, (ONE, ONE), join="straight", grain="bias"),),
        goods=[
            Goods("batting", ONE, "pack", Price(ONE, "USD")),
            Goods("thread", ONE, "spool", part=Fraction(3, 10)),
            Goods("thread", 2 * ONE, "spool", part=2 * ONE),
        ],
        working=["plain", Line("a {}", (3,))],
        cautions=(),
        picture=[Rect(0, 0, 1, 1)],
    )
    assert settle(every.spec, answer, INCHES).found["up"] == 9
