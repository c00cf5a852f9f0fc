"""The forms in a project file and in JSON, and the check of what a plugin answers."""

from __future__ import annotations

import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.values import KINDS, ROOT2, ChoiceKind, Notation, NotationError, Price, Rate, ThreadNumber

F = Fraction
US = Notation()
LENGTHS = ("finished", "cut", "length")


@pytest.mark.parametrize("kind", LENGTHS)
def test_a_toml_decimal_is_refused_with_the_text_to_write(kind: str) -> None:
    with pytest.raises(NotationError) as caught:
        KINDS[kind].from_toml(12.5, US)
    assert '"12 1/2 in"' in caught.value.way_out
    assert KINDS[kind].from_toml(caught.value.offers[0], US) == F(25, 2)
    assert KINDS[kind].from_toml(12, US) == 12
    assert KINDS[kind].from_toml(2, US, "yd") == 72


def test_a_price_as_a_toml_decimal_is_refused_too() -> None:
    with pytest.raises(NotationError) as caught:
        KINDS["price"].from_toml(12.5, US)
    assert '"$12.50"' in caught.value.way_out


def test_plain_numbers_take_toml_decimals_by_their_digits() -> None:
    assert KINDS["percent"].from_toml(2.1, US) == F(21, 10)
    assert KINDS["number"].from_toml(0.1, US) == F(1, 10)
    assert KINDS["number"].from_toml(1e-7, US) == F(1, 10**7)
    assert KINDS["number"].to_toml(F(3), US) == 3
    assert KINDS["number"].to_toml(F(1, 3), US) == "1/3"
    assert KINDS["percent"].to_toml(F(10), US) == "10 %"


@pytest.mark.parametrize("raw", [float("nan"), float("inf"), -float("inf"), 1e300, 5e-324])
@pytest.mark.parametrize("kind", [k for k in KINDS if k != "yes_no"])
def test_strange_floats_are_refused(kind: str, raw: float) -> None:
    with pytest.raises(NotationError):
        KINDS[kind].from_toml(raw, US)


@pytest.mark.parametrize("raw", [True, {"a": 1}, datetime.date(2026, 1, 1), None, 10**40])
@pytest.mark.parametrize("kind", [k for k in KINDS if k != "yes_no"])
def test_other_toml_values_are_refused(kind: str, raw: object) -> None:
    with pytest.raises(NotationError):
        KINDS[kind].from_toml(raw, US)


def test_yes_and_no_are_booleans_in_the_file() -> None:
    assert KINDS["yes_no"].from_toml(True, US) is True
    assert KINDS["yes_no"].to_toml(False, US) is False
    for bad in ("yes", "true", 1, 0, None):
        with pytest.raises(NotationError):
            KINDS["yes_no"].from_toml(bad, US)


def test_measured_is_an_array_or_a_text() -> None:
    kind = KINDS["measured"]
    assert kind.from_toml(["12 1/2", 12, "12 finished"], US) == (F(25, 2), 12, F(25, 2))
    assert kind.from_toml("12; 13", US) == (12, 13)
    assert kind.from_toml(["2 of 12", "13"], US) == (12, 12, 13)
    assert kind.to_toml((F(25, 2), F(12)), US) == ["12 1/2 in", "12 in"]
    bad: list[Any] = [
        [],
        ["12", 12.5],
        ["12", True],
        ["0"],
        ["12"] * 51,
        ["50 of 12", 13],
        [["12"]],
        [10**40],
    ]
    for raw in bad:
        with pytest.raises(NotationError):
            kind.from_toml(raw, US)


def test_a_length_in_json_has_always_all_five() -> None:
    # vocabulary.md, JSON: the example
    assert KINDS["cut"].to_json(F(73, 4), US) == {
        "text": "18 1/4 in", "inches": "73/4", "unrounded": "73/4", "exact": True, "kind": "cut"
    }  # fmt: skip
    assert KINDS["finished"].to_json(F(12), US, unrounded=F(191, 16))["unrounded"] == "191/16"
    rooted = KINDS["finished"].to_json(F(227, 8), US, unrounded=20 * ROOT2)
    assert rooted["exact"] is False
    assert rooted["unrounded"] == str(round(20 * Decimal(2).sqrt(), 20))
    assert KINDS["measured"].to_json((F(12),), US) == [
        {"text": "12 in", "inches": "12", "unrounded": "12", "exact": True, "kind": "cut"}
    ]


def test_the_other_forms_of_json() -> None:
    assert KINDS["area"].to_json(F(5184), US, "sq yd") == {"text": "4 sq yd", "square_inches": "5184"}
    price = Price(F(25, 2), "USD")
    assert KINDS["price"].to_json(price, US) == {"text": "$12.50", "amount": "12.50", "currency": "USD"}
    per_yard = KINDS["price"].to_json(Price(F(25, 2), "USD", "yard"), US)
    assert per_yard == {"text": "$12.50 per yard", "amount": "12.50", "currency": "USD", "per": "yard"}
    rate = KINDS["rate"].to_json(Rate(F(5, 2), "in per in"), US)
    assert rate == {"text": "2.5 in per in", "value": "5/2", "unit": "in per in"}
    thread = KINDS["thread_number"].to_json(ThreadNumber(F(50), "Ne"), US)
    assert thread == {"text": "50 Ne", "value": "50", "convention": "Ne"}
    assert KINDS["count"].to_json(16, US) == 16
    assert KINDS["percent"].to_json(F(5, 2), US) == 2.5
    assert KINDS["time"].to_json(F(90), US) == 90
    assert KINDS["yes_no"].to_json(True, US) is True
    assert KINDS["fabric"].to_json("Blue", US) == "Blue"


WRONG: list[tuple[str, object]] = [
    *(
        (kind, bad)
        for kind in (*LENGTHS, "area", "time", "number", "percent")
        for bad in (1.5, "12", None, True)
    ),
    ("cut", F(10**7) + 1),
    ("cut", F(1, 2**5000)),
    ("area", F(-1)),
    ("area", -ROOT2),
    ("time", F(-1)),
    ("count", -1),
    ("count", F(3)),
    ("count", True),
    ("count", 2.0),
    ("measured", ()),
    ("measured", [F(1)]),
    ("measured", (F(0),)),
    ("measured", (F(-1),)),
    ("measured", (1.5,)),
    ("price", F(12)),
    ("price", Price(F(-1), "USD")),
    ("price", Price(F(1), "usd")),
    ("price", Price(12.5, "USD")),  # type: ignore[arg-type]  # what is tested
    ("price", Price(F(1), "USD", "foot")),  # type: ignore[arg-type]  # what is tested
    ("rate", Rate(F(1), "per ell")),
    ("rate", Rate(F(1), "per inch")),
    ("rate", Rate(F(-1), "per in")),
    ("thread_number", ThreadNumber(F(0), "Ne")),
    ("thread_number", ThreadNumber(F(40), "wt")),
    ("yes_no", 1),
    ("text", "a\u202eb"),
    ("text", " padded"),
    ("fabric", ""),
    ("colour", "navy"),
    ("colour", None),
    ("choice", "anything"),
]


@pytest.mark.parametrize(("kind", "value"), WRONG, ids=lambda v: ascii(v)[:30])
def test_a_wrong_answer_of_a_plugin_is_told(kind: str, value: object) -> None:
    assert KINDS[kind].check(value)


def test_a_right_answer_passes() -> None:
    for kind in LENGTHS:
        for value in (12, F(25, 2), 20 * ROOT2, F(-1, 2)):
            assert KINDS[kind].check(value) is None
    assert ChoiceKind(("one run",)).check("one run") is None
    assert ChoiceKind(("one run",)).check("One_Run")
    assert KINDS["count"].check(0) is None


def test_equal_measurements_in_a_row_are_counted_and_read_back() -> None:
    kind, how = KINDS["measured"], Notation()
    value = (Fraction(25, 2),) * 6 + (Fraction(99, 8), Fraction(25, 2))
    assert kind.show(value, how) == "6 of 12 1/2 in; 12 3/8 in; 12 1/2 in"
    assert kind.read(kind.show(value, how, say_kind=True), how) == value
    assert kind.to_toml(value, how) == ["6 of 12 1/2 in", "12 3/8 in", "12 1/2 in"]
    assert kind.from_toml(kind.to_toml(value, how), how) == value
    assert kind.also(value[:2], how) == "≈ 2 of 31.8 cm"
