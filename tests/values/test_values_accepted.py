"""What people type, and the exact value of it, worked out by hand."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from boltend.core.values import (
    KINDS,
    ChoiceKind,
    Notation,
    Price,
    Rate,
    ThreadNumber,
    convert_length,
    read_length,
)

F = Fraction
US = Notation()
EU = Notation("cm", F(30, 127), "EUR")  # a seam of 6 mm: 0.6 cm = 0.6 · 50/127 in
CM = F(50, 127)  # 1 in = 2.54 cm, so 1 cm = 100/254 in

LENGTHS = [
    ("12 1/2", F(25, 2)), ('12-1/2"', F(25, 2)), ("12½ in", F(25, 2)), ('12 ½"', F(25, 2)), ("½", F(1, 2)),
    ("5/8 yd", F(45, 2)), ("1 5/8 yd", F(117, 2)), ("1 yd 4 in", F(40)), ("3 ft 2 in", F(38)),
    ("3' 2\"", F(38)),
    ("3'2\"", F(38)), ("3′ 2½″", F(77, 2)), ("32 cm", 32 * CM), ("1.5 m", 150 * CM), ("0.25", F(1, 4)),
    (".5", F(1, 2)), ("5 1/3 cm", F(16, 3) * CM), ("-1/2 in", F(-1, 2)), ("−2 3/4", F(-11, 4)),
    ("1/3 yd", F(12)),
    ("12in", F(12)), ("12 IN", F(12)), ("12 inches", F(12)), ("1 inch", F(1)), ("2 Feet", F(24)),
    ("1 foot", F(12)),
    ("2 yards", F(72)), ("3 yds", F(108)), ("12 in.", F(12)), ("45 mm", F(9, 2) * CM),
    ("1 m 20 cm", 120 * CM),
    ("2 metres", 200 * CM), ("1 meter", 100 * CM), ("12''", F(12)), ("12”", F(12)), ("  7  ", F(7)),
    ("1 1/2 yd 4 in", F(58)), ("3⁄4 in", F(3, 4)), ("7/4", F(7, 4)), ("0", F(0)), ("0.015 in", F(3, 200)),
    ("12\u00a01/2 in", F(25, 2)), ("1 ft 14 in", F(26)), ("1 yd 1 ft 1 in", F(49)), ("4 centimeters", 4 * CM),
]  # fmt: skip


@pytest.mark.parametrize(("text", "inches"), LENGTHS)
def test_a_length_is_read_exactly(text: str, inches: Fraction) -> None:
    assert read_length(text, US) == (inches, None)
    assert KINDS["length"].read(text, US) == inches


@pytest.mark.parametrize(
    ("unit", "us", "eu"),
    [("", 3, 3 * CM), ("in", 3, 3 * CM), ("ft", 36, 3 * CM), ("yd", 108, 300 * CM), ("cm", 3, 3 * CM),
     ("m", 108, 300 * CM), ("mm", 3, F(3, 10) * CM)],
)  # fmt: skip
def test_a_bare_number_takes_the_shown_unit(unit: str, us: int, eu: Fraction) -> None:
    assert KINDS["length"].read("3", US, unit) == us
    assert KINDS["length"].read("3", EU, unit) == eu


@pytest.mark.parametrize(
    ("text", "kind"),
    [("12 in", None), ("12 in cut", "cut"), ("12 CUT", "cut"), ("12 raw", "cut"), ("12 in unfinished", "cut"),
     ("1 ft 0 in finished", "finished"), ('12" Finished', "finished"), ("12 in. cut", "cut")],
)  # fmt: skip
def test_a_length_may_say_its_kind(text: str, kind: str | None) -> None:
    assert read_length(text, US) == (12, kind)


def test_a_length_of_the_other_kind_is_converted_by_two_seams() -> None:
    assert KINDS["finished"].read("60 1/4 in cut", US) == F(239, 4)
    assert KINDS["cut"].read("12 in finished", US) == F(25, 2)
    assert KINDS["cut"].read("12 in cut", US) == 12
    assert KINDS["length"].read("60 1/4 in cut", US) == F(241, 4)
    assert KINDS["cut"].read("30 cm finished", EU) == F(156, 5) * CM  # 30 + 2 · 0.6
    assert KINDS["measured"].read("12; 12 finished", US) == (12, F(25, 2))


def test_conversion_of_kinds() -> None:
    assert convert_length(F(12), "finished", "cut", F(1, 4)) == F(25, 2)
    assert convert_length(F(25, 2), "cut", "finished", F(1, 4)) == 12
    assert convert_length(F(12), "cut", "length", F(1, 4)) == 12
    assert convert_length(F(12), "cut", "cut", F(1, 4)) == 12
    for wanted in ("finished", "cut"):
        with pytest.raises(ValueError, match="say whether"):
            convert_length(F(12), "length", wanted, F(1, 4))


OTHERS: list[tuple[str, str, str, Any]] = [
    ("measured", "60 1/4; 60 1/8 in", "", (F(241, 4), F(481, 8))),
    ("measured", "2 of 12 1/2; 12 3/8", "", (F(25, 2), F(25, 2), F(99, 8))),
    ("measured", "1 of 12, 2of 13 in", "", (F(12), F(13), F(13))),
    ("measured", "2 OF 12 finished", "", (F(25, 2), F(25, 2))),
    ("measured", "60 1/4, 60", "", (F(241, 4), F(60))),
    ("measured", "1 yd 4 in", "", (F(40),)),
    ("area", "4 sq yd", "", F(5184)),
    ("area", "144 sq in", "", F(144)),
    ("area", "144", "", F(144)),
    ("area", "2", "sq yd", F(2592)),
    ("area", "2 square feet", "", F(288)),
    ("area", "1.5 yd²", "", F(1944)),
    ("area", "2 ft^2", "", F(288)),
    ("area", "3 sq. in.", "", F(3)),
    ("area", "2 sq m", "", 20000 * CM * CM),
    ("count", "16", "", 16),
    ("count", "0", "", 0),
    ("percent", "10 %", "", F(10)),
    ("percent", "10", "", F(10)),
    ("percent", "2.5%", "", F(5, 2)),
    ("percent", "2 1/2 percent", "", F(5, 2)),
    ("number", "-2.75", "", F(-11, 4)),
    ("number", "1/3", "", F(1, 3)),
    ("time", "45 min", "", F(45)),
    ("time", "2 h 30 min", "", F(150)),
    ("time", "1.5 h", "", F(90)),
    ("time", "90", "", F(90)),
    ("time", "2", "h", F(120)),
    ("time", "1 min 30 s", "", F(3, 2)),
    ("price", "12.50", "", Price(F(25, 2), "USD")),
    ("price", "$12.50", "", Price(F(25, 2), "USD")),
    ("price", "12.50 USD", "", Price(F(25, 2), "USD")),
    ("price", "usd 12.5", "", Price(F(25, 2), "USD")),
    ("price", "12.50/yd", "", Price(F(25, 2), "USD", "yard")),
    ("price", "$11.99 per yard", "", Price(F(1199, 100), "USD", "yard")),
    ("price", "14 USD per metre", "", Price(F(14), "USD", "metre")),
    ("price", "14 / m", "", Price(F(14), "USD", "metre")),
    ("price", "$12.50 a yard", "", Price(F(25, 2), "USD", "yard")),
    ("price", "12.50 USD a metre", "", Price(F(25, 2), "USD", "metre")),
    ("price", "14", "yd", Price(F(14), "USD", "yard")),
    ("price", "14 each", "yd", Price(F(14), "USD")),
    ("price", "14/m", "yd", Price(F(14), "USD", "metre")),
    ("rate", "10 per in", "", Rate(F(10), "per in")),
    ("rate", "10 stitches per inch", "", Rate(F(10), "per in")),
    ("rate", "10/in", "", Rate(F(10), "per in")),
    ("rate", "4 per cm", "per in", Rate(F(254, 25), "per in")),
    ("rate", "10", "per in", Rate(F(10), "per in")),
    ("rate", "850 per min", "", Rate(F(850), "per min")),
    ("rate", "1/2 per minute", "per hour", Rate(F(30), "per hour")),
    ("rate", "2.5 in per in", "", Rate(F(5, 2), "in per in")),
    ("rate", "2.5", "in per in", Rate(F(5, 2), "in per in")),
    ("thread_number", "50 Ne", "", ThreadNumber(F(50), "Ne")),
    ("thread_number", "25 TEX", "", ThreadNumber(F(25), "tex")),
    ("thread_number", "40 Nm", "", ThreadNumber(F(40), "Nm")),
    ("thread_number", "240 den", "", ThreadNumber(F(240), "den")),
    ("thread_number", "240 denier", "", ThreadNumber(F(240), "den")),
    ("thread_number", "83.5 dtex", "", ThreadNumber(F(167, 2), "dtex")),
    ("thread_number", "40 wt Nm", "", ThreadNumber(F(40), "wt Nm")),
    ("thread_number", "40wt Ne 2-ply", "", ThreadNumber(F(40), "wt Ne 2 ply")),
    ("thread_number", "50", "tex", ThreadNumber(F(50), "tex")),
    ("yes_no", "Yes", "", True),
    ("yes_no", "no", "", False),
    ("fabric", "  Blue dots ", "", "Blue dots"),
    ("fabric", "Cafe\u0301", "", "Café"),
    ("text", "", "", ""),
    ("colour", "#A0B1c2", "", "#a0b1c2"),
    ("colour", "#abc", "", "#aabbcc"),
    ("colour", "Navy", "", "#000080"),
]


@pytest.mark.parametrize(("kind", "text", "unit", "value"), OTHERS)
def test_each_kind_reads_what_people_type(kind: str, text: str, unit: str, value: object) -> None:
    read = KINDS[kind].read(text, US, unit)
    assert read == value
    assert type(read) is type(value)
    assert KINDS[kind].check(read) is None


def test_money_of_the_project() -> None:
    assert KINDS["price"].read("14 EUR per metre", EU) == Price(F(14), "EUR", "metre")
    assert KINDS["price"].read("€14", EU, "yd") == Price(F(14), "EUR", "metre")
    assert KINDS["price"].read("$5", Notation(currency="NZD")) == Price(F(5), "NZD")
    assert KINDS["price"].read("5 CHF", Notation(currency="CHF")) == Price(F(5), "CHF")


@pytest.mark.parametrize("text", ["each side", "Each_Side", " EACH  side"])
def test_a_choice_is_matched_by_its_words(text: str) -> None:
    assert ChoiceKind(("one run", "each side")).read(text, US) == "each side"


def test_two_options_that_look_alike_are_a_mistake_of_the_plugin() -> None:
    with pytest.raises(ValueError, match="alike"):
        ChoiceKind(("one run", "One_run"))


SHOWN: list[tuple[str, object, str, str, str | None]] = [
    # kind, value, unit, text in inches, the same in metric
    ("cut", F(25, 2), "", "12 1/2 in", "≈ 31.8 cm"),
    ("cut", F(117, 2), "yd", "1 5/8 yd", "≈ 1.49 m"),
    ("cut", F(13), "yd", "13 in", "≈ 0.33 m"),
    ("cut", 32 * CM, "", "32 cm", "≈ 32 cm"),
    ("length", F(15, 254), "mm", "1.5 mm", "≈ 1/16 in"),  # 0.059 in; a sixteenth is 0.0625
    ("cut", F(3, 200), "", "0.015 in", "≈ 0 cm"),
    ("cut", F(-1, 2), "", "-1/2 in", "≈ -1.3 cm"),
    ("cut", F(1, 128), "", "1/128 in", "≈ 0 cm"),
    ("measured", (F(12), F(25, 2)), "", "12 in; 12 1/2 in", "≈ 30.5 cm; 31.8 cm"),
    ("area", F(5184), "sq yd", "4 sq yd", "≈ 3.34 sq m"),
    ("percent", F(25, 2), "", "12.5 %", None),
    ("time", F(150), "", "2 h 30 min", None),
    ("price", Price(F(25, 2), "USD", "yard"), "", "$12.50 per yard", "≈ $13.67 per metre"),
    ("price", Price(F(25, 2), "USD"), "", "$12.50", None),
    ("rate", Rate(F(10), "per in"), "per in", "10 per in", "≈ 3.94 per cm"),
    ("thread_number", ThreadNumber(F(40), "Nm"), "", "40 Nm", "≈ 25.0 tex"),
    ("yes_no", True, "", "yes", None),
]


@pytest.mark.parametrize(("kind", "value", "unit", "text", "also"), SHOWN)
def test_values_are_shown_as_the_trade_writes_them(
    kind: str, value: object, unit: str, text: str, also: str | None
) -> None:
    assert KINDS[kind].show(value, US, unit) == text
    assert KINDS[kind].also(value, US, unit) == also


def test_metric_projects_show_metric() -> None:
    assert KINDS["cut"].show(6 * CM, EU) == "6 cm"
    assert KINDS["cut"].show(F(6), EU) == "15.24 cm"
    assert KINDS["cut"].show(150 * CM, EU, "yd") == "1.5 m"
    assert KINDS["cut"].also(150 * CM, EU, "yd") == "≈ 59 in"  # 59.055, and cloth is no finer than 1/4 in
    assert KINDS["cut"].show(F(16, 3) * CM, EU) == "5 1/3 cm"
    assert KINDS["price"].show(Price(F(14), "EUR", "metre"), EU) == "€14.00 per metre"


def test_the_kind_is_shown_where_it_is_asked_for() -> None:
    assert KINDS["cut"].show(F(25, 2), US, say_kind=True) == "12 1/2 in cut"
    assert KINDS["finished"].show(F(12), US, say_kind=True) == "12 in finished"
    assert KINDS["length"].show(F(12), US, say_kind=True) == "12 in"
