"""Battings by hand, and every package against the size that it must cover."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from boltend.plugin import Cannot, Price, Table
from boltend.testing import Worked, work
from boltend_backing_batting.batting import batting
from boltend_backing_batting.battings import BATTINGS

PACKS: dict[str, Any] = {
    name: (row["width"], row["length"]) for name in BATTINGS.rows if (row := BATTINGS.row(name))["width"]
}


def batted(**said: Any) -> Worked:
    return work(batting, tables=[said.pop("table", BATTINGS)], **said)


def test_worked_by_hand() -> None:
    worked = batted(width="60 in", height="80 in")
    # 60 + 1/2 + 8 = 68 1/2, up to 69; 80 + 1/2 + 8 = 88 1/2, up to 89: within 72 × 90.
    found = worked.found
    assert (found["needed_width"], found["needed_height"], found["package"]) == (69, 89, "twin")
    assert [row["package"] for row in rows(worked)] == ["twin", "full", "queen", "king"]
    (goods,) = worked.answer.goods
    assert (goods.name, goods.amount, goods.unit) == ("batting, twin", Fr(1), "package")
    assert goods.price_each is None


def rows(worked: Worked) -> Any:
    return worked.found["choices"]


def test_shrinkage_divides() -> None:
    # 94 in at 5 % is 98.95 in: 85 1/2 finished, a seam and 4 in on each side make 94.
    worked = batted(width="85 1/2 in", height="85 1/2 in", shrinkage="5 %")
    assert worked.unrounded["needed_width"] == 99  # 98 18/19, up to the whole inch
    assert worked.found["package"] == "king"


def test_a_package_covers_either_way_round() -> None:
    assert batted(width="80 in", height="60 in").found["package"] == "twin"


def test_off_the_roll_the_shorter_of_the_two_ways() -> None:
    wide = batted(width="60 in", height="80 in", roll_width="96 in")
    assert wide.unrounded["roll_length"] == 69  # both sides are within 96
    narrow = batted(width="60 in", height="80 in", roll_width="70 in")
    assert narrow.unrounded["roll_length"] == 89  # only 69 is within 70
    (goods,) = narrow.answer.goods
    assert (goods.amount * 36, goods.unit) == (Fr(90), "yd")  # 89 in, up to the eighth of a yard


def test_off_the_roll_no_package_is_named() -> None:
    # 69 × 89 in would go into the twin, which nobody buys who takes it off the roll.
    worked = batted(width="60 in", height="80 in", roll_width="96 in")
    assert worked.found["package"] is None
    assert worked.cautions == []
    assert "bought off the roll" in batting.spec.found("package").empty
    assert not any("package" in said for said in worked.working)
    assert [row["package"] for row in rows(worked)] == ["twin", "full", "queen", "king"]  # what else there is
    # 138 1/2 in up to 139 by 139: no package covers it, and none is missed.
    giant = batted(width="130 in", height="130 in", roll_width="140 in")
    assert not any("No usual package" in said for said in giant.cautions)
    crib = batted(width="36 in", height="48 in", roll_width="96 in")
    assert any("no bedding for a sleeping infant" in said for said in crib.cautions)


def test_a_roll_that_is_too_narrow_says_so_and_a_package_is_bought() -> None:
    worked = batted(width="60 in", height="80 in", roll_width="45 in")
    assert worked.found["roll_length"] is None
    assert any("neither side is within 45 in" in said for said in worked.cautions)
    assert worked.answer.goods[0].name == "batting, twin"


def test_nothing_usual_covers_a_giant() -> None:
    worked = batted(width="130 in", height="130 in")
    assert (worked.found["package"], worked.answer.goods) == (None, [])
    assert any("No usual package" in said for said in worked.cautions)


def test_the_persons_own_package_must_cover() -> None:
    assert batted(width="60 in", height="80 in", batting="king").found["package"] == "king"
    with pytest.raises(Cannot, match="Choose twin") as caught:
        batted(width="60 in", height="80 in", batting="crib")
    assert caught.value.given == "batting"


def test_a_kind_of_batting_tells_its_gap_and_asks_for_its_shrinkage() -> None:
    worked = batted(width="60 in", height="80 in", batting="cotton, without scrim")
    assert any("at most 3 in apart" in said for said in worked.working)
    assert any("may shrink by 5 %" in said for said in worked.cautions)
    asked = batted(width="60 in", height="80 in", batting="cotton, without scrim", shrinkage="5 %")
    assert not any("may shrink" in said for said in asked.cautions)


OWN = Table(
    "battings",
    BATTINGS.columns,
    {
        "shop's twin": {"width": "72 in", "length": "90 in", "price": "24.50", "source": "invented"},
        "shop's roll": {"price": "9.90 per metre", "source": "invented"},
    },
)


def test_a_price_of_the_persons_own_table_is_passed_on() -> None:
    pack = batted(table=OWN, width="60 in", height="80 in", batting="shop's twin").answer.goods[0]
    assert pack.price_each == Price(Fr(49, 2), "USD")
    roll = batted(table=OWN, width="60 in", height="80 in", batting="shop's roll", roll_width="96 in")
    (goods,) = roll.answer.goods
    # 69 in, up to 1/8 yd is 72 in: 1.8288 m, for the price is that of a metre
    assert (goods.amount, goods.unit) == (Fr(18288, 10_000), "m")
    assert goods.price_each == Price(Fr(99, 10), "USD", "metre")
    flat = batted(table=OWN, width="60 in", height="80 in", batting="shop's roll").answer.goods[0]
    assert flat.price_each is None  # a price of a metre is no price of a package


def test_a_tables_price_is_in_the_projects_currency() -> None:
    euros = {"currency": "EUR"}
    worked = batted(table=OWN, width="60 in", height="80 in", batting="shop's twin", settings=euros)
    price = worked.answer.goods[0].price_each
    assert price is not None
    assert price.currency == "EUR"


def test_a_crib_is_cautioned() -> None:
    worked = batted(width="36 in", height="48 in")
    assert worked.found["package"] == "crib"
    assert any("no bedding for a sleeping infant" in said for said in worked.cautions)
    assert not any("infant" in said for said in batted(width="60 in", height="80 in").cautions)


def test_whole_centimetres_in_a_metric_project() -> None:
    # 150 + 2 · 0.6 + 2 · 10 = 171.2 cm, up to 172.
    worked = batted(units="centimetres", width="150 cm", height="200 cm")
    assert worked.found["needed_width"] == Fr(17200, 254)


SIZES = st.integers(8, 1200).map(lambda n: Fr(n, 8))


@settings(max_examples=150, deadline=None)
@given(width=SIZES, height=SIZES, overage=st.integers(0, 8), shrinkage=st.integers(0, 8),
       roll=st.none() | st.integers(20, 124))  # fmt: skip
def test_the_package_covers_and_none_that_is_smaller_does(
    width: Fr, height: Fr, overage: int, shrinkage: int, roll: int | None
) -> None:
    worked = batted(width=width, height=height, overage=f"{overage} in", shrinkage=f"{shrinkage} %",
                    roll_width="" if roll is None else f"{roll} in")  # fmt: skip
    found: Any = worked.found
    kept = 1 - Fr(shrinkage, 100)
    for side, name in ((width, "needed_width"), (height, "needed_height")):
        lacking = side + Fr(1, 2) + 2 * overage - found[name] * kept
        assert -kept < lacking <= 0  # enough once it has shrunk, and not an inch too much
    wanted = box(0, 0, float(found["needed_width"]), float(found["needed_height"]))
    covers = [
        (w * h, name)
        for name, (w, h) in PACKS.items()
        if box(0, 0, float(w), float(h)).covers(wanted) or box(0, 0, float(h), float(w)).covers(wanted)
    ]
    assert sorted(row["package"] for row in rows(worked)) == sorted(name for _, name in covers)
    needed = found["needed_width"], found["needed_height"]
    ways = [needed[1 - i] for i in (0, 1) if roll is not None and needed[i] <= roll]
    assert worked.unrounded["roll_length"] == (min(ways) if ways else None)
    assert found["package"] == (min(covers)[1] if covers and not ways else None)


@settings(max_examples=100, deadline=None)
@given(width=SIZES, height=SIZES, more=st.integers(1, 90), side=st.sampled_from(["width", "height"]))
def test_a_larger_quilt_never_needs_less(width: Fr, height: Fr, more: int, side: str) -> None:
    said: dict[str, Any] = {"width": width, "height": height}
    grown = {**said, side: said[side] + Fr(more, 8)}
    roll: tuple[Any, Any] = tuple(batted(**sizes, roll_width="300 in").found for sizes in (said, grown))
    assert all(roll[1][name] >= roll[0][name] for name in ("needed_width", "needed_height", "roll_length"))
    small: Any = batted(**said).found
    large: Any = batted(**grown).found
    names = list(PACKS)
    if large["package"] is not None:
        assert names.index(large["package"]) >= names.index(small["package"])


def test_a_price_given_speaks_over_the_tables() -> None:
    size = {"table": OWN, "width": "60 in", "height": "80 in"}
    (pack,) = batted(**size, batting="shop's twin", price="19").answer.goods
    assert (pack.price_each, pack.price_given) == (Price(Fr(19), "USD"), "price")
    # Off the roll a price that names no length is one of a yard, in metric of a metre.
    (roll,) = batted(**size, roll_width="96 in", price="8").answer.goods
    assert (roll.amount, roll.unit, roll.price_each) == (Fr(2), "yd", Price(Fr(8), "USD", "yard"))
    metric = {"units": "centimetres"}
    (roll,) = batted(**size, roll_width="96 in", price="8", settings=metric).answer.goods
    assert (roll.unit, roll.price_each) == ("m", Price(Fr(8), "USD", "metre"))
    (roll,) = batted(**size, batting="shop's roll", roll_width="96 in", price="8 per yard").answer.goods
    assert (roll.unit, roll.price_each) == ("yd", Price(Fr(8), "USD", "yard"))


def test_a_price_of_a_length_is_refused_for_a_package() -> None:
    with pytest.raises(Cannot) as refused:
        batted(width="60 in", height="80 in", price="8 per yard")
    assert refused.value.given == "price"
