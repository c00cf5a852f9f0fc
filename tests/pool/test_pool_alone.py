"""What a tab says is bought for it alone, held against what To buy buys: nobody reads a lesser number."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.plugin import Calculator
from boltend.testing import Worked, work
from boltend_backing_batting.backing import backing
from boltend_borders_binding.binding import binding
from boltend_borders_binding.borders import borders

from .kit import Made, lists, only

EIGHTH = Fraction(9, 2)
SLATE = {"name": "Slate"}


def made(worked: Worked, name: str = "It") -> Made:
    return Made(name, worked.answer.pieces, worked.answer.runs)


def test_squaring_tips_a_binding_over_the_shops_step() -> None:
    # 2 · 70 1/2 + 2 · 90 1/2 + 10 = 332 in: 9 strips (8 make 318 1/2), 22 1/2 in, just 5/8 yd; squared 23 in.
    worked = work(binding, width="70 in", height="90 in", fabric="Slate")
    assert worked.found["length_to_buy"] == 5 * EIGHTH
    assert worked.found["buy_alone"] == 6 * EIGHTH
    said = next(line for line in worked.working if line.startswith("To buy, this tab alone: "))
    assert "22 1/2 in + 1/2 in to square the end makes 23 in, so the shop cuts 3/4 yd." in said
    assert only(made(worked), fabrics=[SLATE]).buy.length == 6 * EIGHTH


@pytest.mark.parametrize(
    ("calculator", "said"),
    [
        (binding, {"width": "70 in", "height": "90 in"}),
        (binding, {"width": "44 in", "height": "60 in", "strip_width": "2 1/4 in"}),
        (binding, {"width": "60 in", "height": "80 in", "grain": "bias"}),
        (binding, {"width": "60 in", "height": "80 in", "grain": "lengthwise"}),
        (backing, {"width": "87 in", "height": "93 in"}),
        (backing, {"width": "40 in", "height": "93 in"}),
        (backing, {"width": "60 in", "height": "80 in", "usable_width": "108 in"}),
        (borders, {"top_width": "60 in", "top_height": "72 in",
                   "borders": [{"width": "4 in", "fabric": "Slate"}]}),
    ],
)  # fmt: skip
@pytest.mark.parametrize("squaring", ["1/2 in", "0 in", "3 in"])
def test_a_tab_alone_buys_what_it_says(calculator: Calculator, said: dict[str, Any], squaring: str) -> None:
    fabric = {} if calculator is borders else {"fabric": "Slate"}
    worked = work(calculator, settings={"squaring": squaring}, **said, **fabric)
    fabrics = [{**SLATE, "usable_width": said.get("usable_width", "42 in")}]
    assert only(made(worked), fabrics=fabrics, squaring=squaring).buy.length == worked.found["buy_alone"]


def test_two_tabs_of_one_fabric_are_squared_once() -> None:
    one = work(binding, width="70 in", height="90 in", fabric="Slate")
    other = work(binding, width="30 in", height="40 in", fabric="Slate")
    (pooled,) = lists(made(one, "A"), made(other, "B"), fabrics=[SLATE]).fabrics
    assert pooled.buy.length <= one.found["buy_alone"] + other.found["buy_alone"]
    assert pooled.separate == one.found["buy_alone"] + other.found["buy_alone"]


def test_borders_of_several_fabrics_say_it_for_each() -> None:
    rows = [{"width": "2 in", "fabric": "Slate"}, {"width": "4 in", "fabric": "Fog"}]
    worked = work(borders, top_width="60 in", top_height="72 in", borders=rows)
    assert worked.found["buy_alone"] is None
    each = worked.found["each"]
    # 7 strips of 2 1/2 in and 8 of 4 1/2 in, 1/2 in to square: 18 in is 1/2 yd, 36 1/2 in is over the yard.
    assert [row["buy_alone"] for row in each] == [4 * EIGHTH, 9 * EIGHTH]
    bought = {
        f.cloth.name: f.buy.length for f in lists(made(worked), fabrics=[SLATE, {"name": "Fog"}]).fabrics
    }
    assert bought == {"Slate": 4 * EIGHTH, "Fog": 9 * EIGHTH}
    assert any(said.startswith("Border 2 alone: 36 in + 1/2 in to square its end") for said in worked.working)


def test_prewashing_shrinks_the_squared_end_too() -> None:
    worked = work(binding, width="70 in", height="90 in", fabric="Slate", settings={"prewash_along": "5 %"})
    assert worked.unrounded["buy_alone"] == Fraction(23) / Fraction(95, 100)
    assert only(made(worked), fabrics=[SLATE], prewash_along="5 %").buy.length == worked.found["buy_alone"]
