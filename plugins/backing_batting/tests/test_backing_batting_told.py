"""What a backing and a batting say of their own arithmetic: each number of a line worked by hand."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Cannot, Price, Table
from boltend.testing import Worked, work
from boltend_backing_batting.backing import backing
from boltend_backing_batting.batting import batting
from boltend_backing_batting.battings import BATTINGS
from boltend_backing_batting.packs import pack_of


def test_the_working_of_a_washed_backing() -> None:
    worked = work(backing, width="59 9/10 in", height="77 in", prewash_across="10 %", prewash_along="5 %")
    # 42 · 0.9 = 37.8, pitch 37.3. Down: 67.9 ÷ 37.3 = 1.8, 68.4 − 37.3 = 31.1; 85.5 ÷ 0.95 = 90 each.
    # Across: 85 ÷ 37.3 = 2.3, 85.5 − 74.6 = 10.9; 68.4 ÷ 0.95 = 72 each.
    assert worked.working[:10] == [
        "Backing width: 59 9/10 in finished + 2 × 1/4 in seam + 2 × 4 in overage makes 68 2/5 in.",
        "Backing height: 77 in finished + 2 × 1/4 in seam + 2 × 4 in overage makes 85 1/2 in.",
        "Washing first takes 10 % of the width: 42 in leaves 37 4/5 in.",
        "Washing first takes 5 % of the length: each panel as bought is ÷ (1 − 5 %).",
        "Seams down the quilt: (68 2/5 in − 2 × 1/4 in) ÷ (37 4/5 in − 2 × 1/4 in) makes 2 panels of "
        "85 1/2 in, joined without their selvages.",
        "2 × 90 in makes 5 yd.",
        "The last panel is 31 1/10 in wide.",
        "Seams across the quilt: (85 1/2 in − 2 × 1/4 in) ÷ (37 4/5 in − 2 × 1/4 in) makes 3 panels of "
        "68 2/5 in, joined without their selvages.",
        "3 × 72 in makes 6 yd.",
        "The last panel is 10 9/10 in wide.",
    ]


def test_without_washing_nothing_is_said_of_it() -> None:
    worked = work(backing, width="60 in", height="81 1/2 in", usable_width="108 in")
    assert not any("Washing" in said for said in worked.working)
    # 68 1/2 and 90 both lie within 108; 90 in are 2 1/2 yd.
    lies = "lie within one width of 108 in"
    assert f"Cloth down the quilt: 68 1/2 in {lies}; 90 in makes 2 1/2 yd." in worked.working
    assert any(
        said.startswith(f"Cloth across the quilt: 90 in {lies}; 68 1/2 in makes") for said in worked.working
    )


def test_the_working_of_a_repeat() -> None:
    worked = work(backing, width="60 in", height="80 in", repeat="24 in", seams="down")
    # 88 1/2 up to four repeats is 96; 88 1/2 + 96 = 184 1/2 in, which is 5 1/8 yd.
    said = "88 1/2 in and 1 × 96 in, a whole number of repeats of 24 in, make 5 1/8 yd."
    assert said in worked.working


@pytest.mark.parametrize(
    ("width", "left"),
    [
        (
            "79 1/2 in",
            "1 3/4 in",
        ),  # 80 raw, 88 with the overage: three. Two: 42 + 41 1/2 − 80 = 3 1/2, halved
        ("83 in", "0 in"),  # 83 1/2 raw: two panels are as wide, and leave nothing
        ("83 1/8 in", None),
    ],
)
def test_what_one_panel_less_of_three_would_leave(width: str, left: str | None) -> None:
    worked = work(backing, width=width, height="100 in", seams="down")
    assert worked.found["panels"] == 3
    said = f"With 2 of these panels, {left} would be left for overage on a side, instead of 4 in."
    assert (said in worked.working) == (left is not None)
    assert any(each.startswith("With 2 of") for each in worked.working) == (left is not None)


def test_an_overage_that_is_little_is_told_beside_what_is_usual() -> None:
    worked = work(backing, width="60 in", height="80 in", overage="1 in")
    said = "An overage of 1 in on a side is little: quilting by hand asks 2 in, a long-arm frame 4 in."
    assert said in worked.cautions


def test_nearly_158_miles_of_cloth_are_worked_out_and_no_more() -> None:
    # Strips 1 in wide without seam: 1000 of 9999 in are 9 999 000 in; 1001 of 10000 in are over 10 000 000.
    plain = {"overage": "0 in", "seam": "0 in", "usable_width": "1 in", "seams": "down"}
    worked = work(backing, width="1000 in", height="9999 in", **plain)
    assert worked.unrounded["length_to_buy"] == 9_999_000
    with pytest.raises(Cannot, match="158 miles"):
        work(backing, width="1001 in", height="10000 in", **plain)


def test_a_length_that_only_the_shops_step_makes_too_long_is_refused() -> None:
    # 1000 strips of 10000 in are 10 000 000 in, by steps of 4 1/2 in 2 222 223 of them: 10 000 003 1/2.
    plain = {"overage": "0 in", "seam": "0 in", "usable_width": "1 in", "settings": {"squaring": "0 in"}}
    with pytest.raises(Cannot, match="158 miles") as caught:
        work(backing, width="1000 in", height="10000 in", **plain)
    assert caught.value.given == "usable_width"
    # 2151 strips of 4649 in are 9 999 999 in, 2 222 222 steps: the longest that the shop cuts.
    worked = work(backing, width="2151 in", height="4649 in", **plain)
    assert worked.found["length_to_buy"] == worked.found["buy_alone"] == 9_999_999
    with pytest.raises(Cannot, match="158 miles"):  # its end squared it is no more
        work(backing, width="2151 in", height="4649 in", **{**plain, "settings": {"squaring": "2 in"}})


def test_a_batting_of_nearly_158_miles_is_worked_out_and_no_more() -> None:
    # 1 + 2 · 4 999 999 1/2 are 10 000 000 in; off a roll, by steps of 4 1/2 in, 10 000 003 1/2.
    plain = {"width": "1 in", "height": "1 in", "settings": {"seam": "0 in"}}
    worked = work(batting, tables=[BATTINGS], overage="4999999 1/2 in", **plain)
    assert worked.found["needed_width"] == worked.found["needed_height"] == 10_000_000
    for said in (
        {"overage": "4999999 1/2 in", "roll_width": "10000000 in"},
        {"overage": "5000000 in"},
        {"overage": "4999999 1/2 in", "shrinkage": "1 %"},
        {"overage": "5000000 in", "batting": "twin"},
    ):
        with pytest.raises(Cannot, match="158 miles") as caught:
            work(batting, tables=[BATTINGS], **plain, **said)
        assert caught.value.given == "overage"


def batted(**said: Any) -> Worked:
    return work(batting, tables=[BATTINGS], width="60 in", height="80 in", **said)


def test_the_working_of_a_batting_that_shrinks() -> None:
    worked = batted(shrinkage="5 %")
    # 68 1/2 ÷ 0.95 = 1370/19 = 72 2/19; 88 1/2 ÷ 0.95 = 1770/19 = 93 3/19: full is 81 × 96.
    assert worked.working[:3] == [
        "Batting width: 60 in finished + 2 × 1/4 in seam + 2 × 4 in overage makes 68 1/2 in, ÷ (1 − 5 %) "
        "makes 72 2/19 in, up to whole inches: 73 in needed.",
        "Batting height: 80 in finished + 2 × 1/4 in seam + 2 × 4 in overage makes 88 1/2 in, ÷ (1 − 5 %) "
        "makes 93 3/19 in, up to whole inches: 94 in needed.",
        "The package of least area that covers 73 in × 94 in either way round: full, 81 in × 96 in.",
    ]


def test_the_working_of_a_batting_that_does_not_shrink() -> None:
    said = "60 in finished + 2 × 1/4 in seam + 2 × 4 in overage makes 68 1/2 in"
    assert batted().working[0] == f"Batting width: {said}, up to whole inches: 69 in needed."


@pytest.mark.parametrize(
    ("roll", "across", "along"),
    [("96 in", "89 in", "69 in"), ("70 in", "69 in", "89 in"), ("69 in", "69 in", "89 in")],
)
def test_what_lies_across_a_roll(roll: str, across: str, along: str) -> None:
    worked = batted(roll_width=roll)
    assert f"Off a roll {roll} wide: {across} lie across it, so {along} of its length." in worked.working


def test_a_roll_of_a_kind_is_bought_by_its_name_in_the_systems_unit() -> None:
    (goods,) = batted(batting="wool", roll_width="96 in").answer.goods
    assert (goods.name, goods.unit) == ("batting, wool, off the roll", "yd")
    (goods,) = batted(roll_width="96 in", units="centimetres").answer.goods
    assert (goods.name, goods.unit) == ("batting, off the roll", "m")


def test_a_batting_without_a_gap_says_nothing_of_one() -> None:
    assert not any("apart" in said for said in batted(batting="bamboo and cotton").working)


def test_of_two_ways_of_one_price_the_one_of_fewer_panels_is_best() -> None:
    # Without seams and overage: down 2 · 90 = 180 in, across 3 · 59 1/4 = 177 3/4 in; both are bought as
    # 5 yd.
    said = {"height": "90 in", "seam": "0 in", "overage": "0 in"}
    worked = work(backing, width="59 1/4 in", **said, settings={"squaring": "0 in"})
    assert (worked.found["seams_run"], worked.found["panels"]) == ("down", 2)
    assert worked.found["length_to_buy"] == 180


def test_of_two_ways_of_one_price_squaring_tells_them_apart() -> None:
    # As above, but 180 in and 1/2 in to square are 5 1/8 yd, and 178 1/4 in are 5.
    said = {"height": "90 in", "seam": "0 in", "overage": "0 in"}
    worked = work(backing, width="59 1/4 in", **said)
    assert (worked.found["seams_run"], worked.found["buy_alone"]) == ("across", 180)
    # Else a quilt 1/8 in higher, down 180 1/4 in, would take less than this one.
    higher = work(backing, width="59 1/4 in", **{**said, "height": "90 1/8 in"})
    assert (higher.found["seams_run"], higher.found["buy_alone"]) == ("across", 180)


def test_the_longest_length_itself_is_worked_out() -> None:
    # In whole inches 1000 strips of 10000 in are 10 000 000 in, just as long as any length may be.
    steps = {"buying_step": "1 in", "squaring": "0 in"}
    plain = {"overage": "0 in", "seam": "0 in", "usable_width": "1 in", "settings": steps}
    worked = work(backing, width="1000 in", height="10000 in", **plain)
    assert worked.found["length_to_buy"] == 10_000_000


def test_nothing_is_told_of_a_roll_that_nobody_has() -> None:
    assert not any("Off a roll" in said for said in batted().working)
    assert not any("neither side" in said for said in batted(roll_width="96 in").cautions)
    assert not any("Off a roll" in said for said in batted(roll_width="45 in").working)


def test_a_price_of_a_package_is_none_of_a_roll() -> None:
    rows = {"twin of mine": {"width": "72 in", "length": "90 in", "price": "24.50", "source": "invented"}}
    table = Table("battings", BATTINGS.columns, rows)
    said = {"width": "60 in", "height": "80 in", "batting": "twin of mine"}
    (flat,) = work(batting, tables=[table], **said).answer.goods
    assert flat.price_each == Price(Fr(49, 2), "USD")
    (goods,) = work(batting, tables=[table], roll_width="96 in", **said).answer.goods
    assert goods.price_each is None


def test_a_row_with_a_width_alone_is_no_package() -> None:
    assert pack_of({"name": "roll", "width": Fr(96), "length": None}) is None
    assert pack_of({"name": "odd", "width": None, "length": Fr(96)}) is None


def test_a_printed_yardage_is_told_to_be_enough_or_by_how_much_it_is_not() -> None:
    # 3 panels across of 95 1/2 in and 1/2 in to square: 287 in, 8 yd; 5 yd are 180 in, 107 in less.
    short = work(backing, width="87 in", height="93 in", printed="5 yd")
    assert (short.found["printed_is"], short.found["printed_short"]) == ("not enough", 108)
    assert short.found["printed_spare"] is None
    said = "The 5 yd printed is not enough: 8 yd are needed (287 in), and it is short by 3 yd (107 in)."
    assert said in short.working
    just = work(backing, width="87 in", height="93 in", printed="287 in")
    assert (just.found["printed_is"], just.found["printed_spare"]) == ("enough", 0)
    hair = work(backing, width="87 in", height="93 in", printed="286 7/8 in")
    assert (hair.found["printed_is"], hair.found["printed_short"]) == ("not enough", Fr(9, 2))
    ample = work(backing, width="87 in", height="93 in", printed="9 yd")
    assert (ample.found["printed_is"], ample.found["printed_spare"]) == ("enough", 36)  # 37 in, whole eighths
    plain = work(backing, width="87 in", height="93 in")
    assert plain.found["printed_is"] is None
    assert plain.cautions == []
    metric = work(backing, width="221 cm", height="236 cm", printed="4.5", units="centimetres")
    assert metric.json["given"]["printed"]["text"] == "4.5 m"
