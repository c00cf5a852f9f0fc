"""What is bought: in the shop's step, after what is in hand, priced to the cent."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltend.core.contract import Goods
from boltend.core.report.list_json import lists_json
from boltend.core.report.list_words import buy_sheet, list_notes
from boltend.core.values import Notation, Price

from .kit import Made, lists, only, piece, plan_of, run, usual

HOW = Notation()


def strip(along: str, count: int = 1) -> Made:
    """Something as wide as the cloth, so that its length alone counts."""
    return Made("A", [piece("strip", "42", along, count)])


@usual
@given(st.integers(1, 8 * 200).map(lambda n: Fraction(n, 8)), st.sampled_from(["1/8 yd", "1/4 yd", "10 cm"]))
def test_lengths_go_up_to_the_shops_step_and_never_down(along: Fraction, step: str) -> None:
    found = only(strip(str(along)), fabrics=[{"name": "Slate"}], buying_step=step)
    size = {"1/8 yd": Fraction(9, 2), "1/4 yd": Fraction(9), "10 cm": Fraction(10) * Fraction(50, 127)}[step]
    assert found.buy.needed == along + Fraction(1, 2)
    assert (found.buy.length / size).denominator == 1
    assert found.buy.length - size < along + Fraction(1, 2) <= found.buy.length


def test_no_step_is_bought_for_nothing_and_none_is_missing() -> None:
    # 17 1/2 in + 1/2 in are 18 in, half a yard to the hair; a sixty-fourth more is a step more.
    assert only(strip("35/2"), fabrics=[{"name": "Slate"}]).buy.length == 18
    assert only(strip("1121/64"), fabrics=[{"name": "Slate"}]).buy.length == Fraction(45, 2)


def test_a_metric_project_buys_by_ten_centimetres() -> None:
    found = only(strip("40"), fabrics=[{"name": "Slate", "usable_width": "42 in"}], units="centimetres")
    cm = Fraction(50, 127)
    # 101.6 cm and 12 mm for squaring: 102.8 cm.
    assert found.buy.needed / cm == Fraction(1028, 10)
    assert found.buy.length / cm == 110


def test_what_is_in_hand_is_used_first_and_squared_too() -> None:
    # 9 in in hand: 8 1/2 in once squared, so four strips of 2 in; the fifth is bought.
    found = only(strip("2", 5), fabrics=[{"name": "Slate", "have": "1/4 yd"}])
    assert {each.name: each.length_used for each in plan_of(found).sheetplans} == {"in hand": 8, "bolt": 2}
    assert (found.buy.have_used, found.buy.needed, found.buy.length) == (
        Fraction(17, 2),
        Fraction(5, 2),
        Fraction(9, 2),
    )
    assert found.separate == Fraction(27, 2)  # 10 1/2 in with nothing in hand


def test_nothing_is_bought_where_the_cloth_in_hand_will_do() -> None:
    found = lists(strip("2", 4), fabrics=[{"name": "Slate", "have": "1/4 yd", "price": "9"}])
    (fabric,) = found.fabrics
    assert (fabric.buy.length, fabric.buy.needed) == (0, 0)
    assert found.total is None
    assert not found.unpriced
    assert buy_sheet(found, HOW).rows[0].amount == "nothing to buy"


def test_a_bare_length_in_hand_is_in_the_shops_unit() -> None:
    assert only(strip("2"), fabrics=[{"name": "Slate", "have": "1/2"}]).cloth.have == 18


def test_cloth_in_hand_that_is_too_short_is_said_to_be_of_no_use() -> None:
    found = lists(strip("9"), fabrics=[{"name": "Slate", "have": "9 in"}])
    assert found.fabrics[0].buy.have_used == 0
    assert "the 1/4 yd in hand are of no use for it" in buy_sheet(found, HOW).rows[0].notes


def test_precuts_in_hand_are_used_first_and_packs_are_bought_whole() -> None:
    made = Made("A", [piece("a", "5", "5", 4 * 50)])
    for have, pieces, packs in ((0, 50, 2), (8, 42, 1), (7, 43, 2), (60, 0, 0)):
        cloth = {"name": "Slate", "form": "small square", "have": have, "price": "30"}
        (found,) = lists(made, fabrics=[cloth]).fabrics
        assert (found.buy.pieces, found.buy.packs) == (pieces, packs)
        assert found.buy.have_used == min(have, 50)
        assert found.buy.cost == Price(Fraction(30 * packs), "USD")


def test_prices_by_the_yard_by_the_metre_by_the_pack_and_each() -> None:
    goods = [
        Goods("batting", Fraction(1), "package", Price(Fraction(3499, 100), "USD")),
        Goods("spool", Fraction(3), "spool"),
    ]
    found = lists(
        Made("A", [piece("a", "42", "40", 1)], goods=goods),
        Made("B", [piece("b", "42", "40", 1, "Mustard")]),
        Made("C", [piece("c", "10", "10", 3, "Tens")]),
        Made("D", [piece("d", "2", "2", 3, None)]),
        fabrics=[
            {"name": "Slate", "price": "12.50 per yard"},
            {"name": "Mustard", "price": "14.20 per metre"},
            {"name": "Tens", "form": "small square", "price": "39.90"},
        ],
    )
    # 40 1/2 in are 1 1/8 yd: 14.0625; 1.0287 m: 14.60754.
    assert [f.buy.cost and f.buy.cost.amount for f in found.fabrics] == [
        Fraction(1406, 100), Fraction(1461, 100), Fraction(3990, 100), None,
    ]  # fmt: skip
    assert found.goods[0].cost == Price(Fraction(3499, 100), "USD")
    assert found.total == Price(Fraction(1406 + 1461 + 3990 + 3499, 100), "USD")
    assert found.unpriced == ("D", "spool")
    assert "The total leaves out what has no price: D, spool." in list(list_notes(found))


def test_goods_that_several_tabs_want_are_bought_together() -> None:
    dear, cheap = Price(Fraction(8), "USD"), Price(Fraction(749, 100), "USD")
    grey = Goods("thread, grey", Fraction(2), "spool", dear)
    found = lists(
        Made("Piecing", goods=[grey, Goods("pins", Fraction(1), "pack")]),
        Made("Off", goods=[grey], flags={"aside": True}),
        Made("Quilting", goods=[replace(grey, amount=Fraction(3)), grey]),
        Made("Sale", goods=[replace(grey, price_each=cheap), replace(grey, price_each=None)]),
        Made("Cones", goods=[replace(grey, unit="cone")]),
        copies=2,
    )
    # (2 + 3 + 2) twice; what differs in price or unit is another thing.
    assert [(line.tabs, line.goods.name, line.goods.amount, line.goods.unit) for line in found.goods] == [
        (("Piecing", "Quilting"), "thread, grey", 14, "spool"),
        (("Piecing",), "pins", 2, "pack"),
        (("Sale",), "thread, grey", 4, "spool"),
        (("Sale",), "thread, grey", 4, "spool"),
        (("Cones",), "thread, grey", 4, "cone"),
    ]
    assert [line.cost and line.cost.amount for line in found.goods] == [
        112,
        None,
        Fraction(2996, 100),
        None,
        32,
    ]
    rows = buy_sheet(found, HOW).rows
    assert (rows[0].amount, rows[0].cost, rows[0].notes) == (
        "14 spools",
        "$112.00",
        ("for “Piecing”, “Quilting”",),
    )
    assert lists_json(found, HOW)["to_buy"][0]["tabs"] == ["Piecing", "Quilting"]


def test_goods_without_a_price_take_the_only_one_that_is_said() -> None:
    """Two tabs with the same batting, one of them priced: one line, and the price is for both."""
    pack = Goods("batting, twin", Fraction(1), "package", price_given="price")
    priced = replace(pack, price_each=Price(Fraction(24), "USD"))
    for first, second in ((pack, priced), (priced, pack)):
        found = lists(Made("Bed", goods=[first]), Made("Crib", goods=[second]))
        (row,) = buy_sheet(found, HOW).rows
        assert (row.amount, row.cost, row.notes) == ("2 packages", "$48.00", ("for “Bed”, “Crib”",))
        assert found.unpriced == ()


def test_parts_of_what_is_sold_whole_are_added_before_they_are_rounded_up() -> None:
    price = Price(Fraction(8), "USD")

    def grey(part: str) -> Goods:
        exact = Fraction(part)
        whole = Fraction(-(-exact.numerator // exact.denominator))
        return Goods("thread, grey", whole, "spool", price, exact)

    # 0.31 + 0.42 + 1.2 are 1.93: two spools. Each tab alone buys 1, 1 and 2.
    found = lists(
        Made("Quilting", goods=[grey("0.31")]), Made("Piecing", goods=[grey("0.42")]),
        Made("Off", goods=[grey("5")], flags={"done": True}), Made("Binding", goods=[grey("1.2")]),
    )  # fmt: skip
    (line,) = found.goods
    assert (line.goods.amount, line.goods.part, line.separate) == (2, Fraction(193, 100), 4)
    assert (line.cost, found.total) == (Price(Fraction(16), "USD"), Price(Fraction(16), "USD"))
    (row,) = buy_sheet(found, HOW).rows
    assert (row.amount, row.cost) == ("2 spools", "$16.00")
    assert row.notes == (
        "for “Quilting”, “Piecing”, “Binding”",
        "0.31 + 0.42 + 1.20 spools",
        "4 spools if each tab bought its own",
    )
    (told,) = lists_json(found, HOW)["to_buy"]
    assert (told["amount"], told["part"], told["separate_amount"]) == (2, 1.93, 4)
    # A hair more than a spool is two; a spool to the hair is one.
    for parts, amount in ((("1/3", "2/3"), 1), (("1/3", "2/3", "1/1000000"), 2)):
        (line,) = lists(*(Made(part, goods=[grey(part)]) for part in parts)).goods
        assert line.goods.amount == amount
    (row,) = buy_sheet(lists(Made("A", goods=[grey("1/3")]), Made("B", goods=[grey("1/4")])), HOW).rows
    assert row.amount == "1 spool"
    assert row.notes[1:] == ("≈ 0.34 + 0.25 of a spool", "2 spools if each tab bought its own")
    # Three quilts take three thirds; one tab alone says nothing of parts, and two wishes of it are one.
    (line,) = lists(Made("A", goods=[grey("1/3")]), copies=3).goods
    assert (line.goods.amount, line.separate, line.parts) == (1, 1, (1,))
    twice = lists(Made("A", goods=[grey("0.6"), grey("0.3")]))
    assert (twice.goods[0].goods.amount, twice.goods[0].parts) == (1, (Fraction(9, 10),))
    assert buy_sheet(twice, HOW).rows[0].notes == ("for “A”",)


def test_goods_that_tell_a_part_and_goods_that_do_not_are_one_line() -> None:
    part = Goods("pins", Fraction(1), "box", part=Fraction(1, 4), units="boxes")
    without = replace(part, part=None)
    found = lists(Made("A", goods=[part]), Made("B", goods=[without]), Made("C", goods=[part]))
    (line,) = found.goods  # a box, and half a box up to one
    assert (line.goods.amount, line.goods.part, line.separate) == (2, Fraction(1, 2), 3)
    assert line.parts == (Fraction(1, 4), Fraction(1, 4))
    assert buy_sheet(found, HOW).rows[0].amount == "2 boxes"


@pytest.mark.parametrize(
    ("amount", "unit", "units", "said"),
    [
        ("1", "spool", "", "1 spool"),
        ("4", "spool", "", "4 spools"),
        ("3", "package", "", "3 packages"),
        ("3/4", "yard", "", "0.75 yard"),
        ("15/8", "yard", "", "1.875 yards"),
        ("15/8", "yd", "", "1 7/8 yd"),
        ("3", "m", "", "3 m"),
        ("2", "pieces", "", "2 pieces"),
        ("2", "box", "", "2 boxes"),
        ("2", "bunch", "", "2 bunches"),
        ("2", "foot of it", "feet of it", "2 feet of it"),
    ],
)
def test_more_than_one_of_a_unit(amount: str, unit: str, units: str, said: str) -> None:
    goods = Goods("it", Fraction(amount), unit, units=units)
    assert buy_sheet(lists(Made("A", goods=[goods])), HOW).rows[0].amount == said


def test_a_length_off_the_roll_is_added_too_and_priced_as_one() -> None:
    roll = Goods("batting, off the roll", Fraction(15, 8), "yard", Price(Fraction(999, 100), "USD", "yard"))
    found = lists(Made("A", goods=[roll]), Made("B", goods=[replace(roll, amount=Fraction(9, 8))]))
    (line,) = found.goods
    assert (line.goods.amount, line.cost) == (3, Price(Fraction(2997, 100), "USD"))


def test_goods_priced_in_other_money_are_left_out_of_the_total() -> None:
    goods = [
        Goods("here", Fraction(2), "pack", Price(Fraction(5), "USD")),
        Goods("there", Fraction(1), "pack", Price(Fraction(7), "EUR")),
    ]
    found = lists(Made("A", goods=goods))
    assert found.total == Price(Fraction(10), "USD")
    assert found.unpriced == ("there",)


def test_the_purchase_is_called_least_only_where_it_is_proved() -> None:
    proved = only(strip("40"), fabrics=[{"name": "Slate"}])
    assert proved.buy.least
    # 23 of 22 in wide waste nearly half of every strip; by area alone far less would do.
    loose = Made("A", [piece("a", "22", "23", 3), piece("b", "23", "22", 4, may_turn=False)])
    wide = only(loose, fabrics=[{"name": "Slate"}])
    assert wide.buy.least == (plan_of(wide).bound + Fraction(1, 2) > wide.buy.length - Fraction(9, 2))


def test_one_run_of_the_whole_width_is_named_as_it_is_bought() -> None:
    found = lists(Made("B", runs=[run("binding", "5/2", "289")]), fabrics=[{"name": "Slate", "price": "10"}])
    (row,) = buy_sheet(found, HOW).rows
    # 8 strips of 2 1/2 in and half an inch: 20 1/2 in, up to 5/8 yd.
    assert (row.what, row.amount, row.cost) == ("Slate", "5/8 yd", "$6.25")
