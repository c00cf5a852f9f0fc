"""A fabric's cells: read, doubted, and kept from harming other fabrics."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.report.list_words import fabric_troubles, plan_notes
from boltend.core.values import Notation

from .kit import Made, lists, only, piece, plan_of, run

OTHER = Made("Other", [piece("o", "3", "3", 4, "Mustard")])
TAB = Made("A", [piece("a", "5", "5", 8)])
HOW = Notation()


def with_cell(**cells: Any) -> tuple[Any, Any]:
    slate, mustard = lists(TAB, OTHER, fabrics=[{"name": "Slate", **cells}, {"name": "Mustard"}]).fabrics
    return slate, mustard


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"price": "twelve"}, "price: “twelve”"),
        ({"price": "12 EUR"}, "reckons in USD"),
        ({"price": "12 each"}, "priced by the yard or the metre"),
        ({"price": 12.5}, "price:"),
        ({"have": "some"}, "have: “some”"),
        ({"have": "-1 yd"}, "have:"),
        ({"printed": "a lot"}, "printed: “a lot”"),
        ({"printed": "0 yd"}, "printed: it must be more than nothing"),
        ({"colour": "mauvish"}, "colour:"),
        ({"one_way": "yes"}, "one way: write true or false"),
    ],
)
def test_a_wrong_cell_is_told_and_left_out_and_the_rest_is_planned(cells: dict[str, Any], said: str) -> None:
    slate, mustard = with_cell(**cells)
    (trouble,) = slate.troubles
    assert said in trouble
    assert plan_of(slate).length_used == 5
    assert slate.buy.cost is None
    assert slate.printed is None
    assert slate.buy.have_used == 0
    assert not mustard.troubles
    assert plan_of(mustard).length_used == 3


def test_a_doubtful_one_way_print_is_not_turned() -> None:
    assert with_cell(one_way="yes")[0].cloth.one_way
    assert not with_cell(one_way=False)[0].cloth.one_way


@pytest.mark.parametrize("form", ["fat eighths", 7, "no size"])
def test_a_form_that_nobody_knows_keeps_only_its_own_fabric_from_being_planned(form: object) -> None:
    slate, mustard = with_cell(form=form)
    assert slate.plan is None
    assert not slate.whole
    assert [said for said in fabric_troubles(slate, HOW) if "precut" in said]
    assert mustard.whole


def test_a_form_is_found_in_any_case_and_a_bolt_needs_no_name() -> None:
    assert with_cell(form=" Fat Quarter ")[0].cloth.precut.name == "fat quarter"
    for form in ("bolt", "Bolt", "", None):
        cells = {} if form is None else {"form": form}
        assert with_cell(**cells)[0].cloth.precut is None


def test_a_fabric_that_the_project_does_not_have_is_told() -> None:
    fabric = only(Made("A", [piece("a", "5", "5", 1, "Nowhere")]))
    assert fabric.troubles == ("the project has no fabric “Nowhere”.",)
    assert fabric.whole


def test_a_bare_price_is_for_the_shops_length() -> None:
    inch = only(TAB, fabrics=[{"name": "Slate", "price": "10"}])
    cm = only(TAB, fabrics=[{"name": "Slate", "price": "10"}], units="centimetres")
    assert inch.cloth.price is not None
    assert cm.cloth.price is not None
    assert (inch.cloth.price.per, cm.cloth.price.per) == ("yard", "metre")


def test_a_precut_is_priced_each_and_counted() -> None:
    cells = {"form": "fat quarter", "price": "3 per yard", "have": "1/2 yd"}
    slate = with_cell(**cells)[0]
    assert len(slate.troubles) == 2
    assert "priced each" in slate.troubles[0]


def test_squaring_is_counted_once_for_each_fabric() -> None:
    for squaring, length in (("1/2 in", Fraction(36)), ("0 in", Fraction(36)), ("3/4 in", Fraction(81, 2))):
        # 35 1/2 in are cut: 36 in with half an inch, one step more with three quarters.
        made = [Made(name, [piece("a", "30", "71/4", 1, may_turn=False)]) for name in ("A", "B")]
        found = only(*made, fabrics=[{"name": "Slate"}], squaring=squaring)
        assert plan_of(found).length_used == Fraction(71, 2)
        assert found.buy.length == length


def test_a_precut_is_squared_only_where_it_or_a_tab_says_so() -> None:
    def room(says: dict[str, Any], **cells: Any) -> Any:
        made = Made("A", [piece("a", "2", "2", 1)], says=says)
        cloth = {"name": "Slate", "form": "small square", **cells}
        return only(made, fabrics=[cloth], squaring="1 in").cloth.room

    assert (room({}).across, room({}).along) == (10, 10)
    assert room({}, squaring="1/4 in").across == Fraction(39, 4)
    assert room({"squaring": Fraction(1, 2)}).along == Fraction(19, 2)
    assert room({"squaring": Fraction(1, 2)}, squaring="1/4 in").along == Fraction(19, 2)


def test_four_fives_come_out_of_a_ten_and_one_once_it_is_squared() -> None:
    made = Made("A", [piece("a", "5", "5", 16)])
    sheets = {
        said: only(made, fabrics=[{"name": "Slate", "form": "small square", **cell}]).buy.pieces
        for said, cell in (("raw", {}), ("squared", {"squaring": "1/4 in"}))
    }
    assert sheets == {"raw": 4, "squared": 16}


def test_prewashing_is_counted_once() -> None:
    # 94 in at 5 % needs 98.95 in (handbook 8), and the width shrinks before strips are cut.
    made = Made("Back", [piece("panel", "40", "94", 1, grain="lengthwise")])
    cloth = {"name": "Slate", "prewash_along": "5 %", "prewash_across": "4 %", "squaring": "0 in"}
    found = only(made, fabrics=[cloth])
    assert found.cloth.usable == Fraction(42) * Fraction(96, 100)
    assert found.buy.needed == Fraction(94) / Fraction(95, 100)
    assert found.buy.length == 99


def test_a_tab_may_say_the_prewash_loss_and_it_holds_for_the_cloth() -> None:
    washed = Made("Back", [piece("panel", "30", "94", 1)], says={"prewash_along": Fraction(5)})
    found = only(washed, fabrics=[{"name": "Slate", "squaring": "0 in"}])
    assert found.buy.needed == Fraction(94) / Fraction(95, 100)


def test_the_projects_prewash_loss_does_not_speak_for_precuts() -> None:
    made = Made("A", [piece("a", "5", "5", 4)])
    whole = {"name": "Slate", "form": "small square"}
    assert only(made, fabrics=[whole], prewash_along="5 %", prewash_across="5 %").buy.pieces == 1
    said = replace(made, says={"prewash_along": Fraction(5)})
    assert only(said, fabrics=[whole]).cloth.room.along == Fraction(19, 2)
    washed = only(made, fabrics=[{**whole, "prewash_along": "5 %"}])
    assert washed.cloth.room.along == Fraction(19, 2)
    assert washed.buy.pieces == 2


def test_tabs_that_disagree_are_cut_by_what_is_safe_and_told() -> None:
    narrow = Made("Binding", runs=[run("binding", "2", "81")], says={"usable_width": Fraction(40)})
    found = only(TAB, narrow, fabrics=[{"name": "Slate", "usable_width": "43 in"}])
    assert found.cloth.usable == 40
    notes = plan_notes(found, HOW)
    assert notes[0] == (
        "“A” reckons with a usable width of 43 in; together they are cut by 40 in, which is safe for all."
    )
    losses = only(
        TAB, Made("B", [piece("b", "2", "2", 1)], says={"squaring": Fraction(2)}), fabrics=[{"name": "Slate"}]
    )
    assert losses.cloth.squaring == 2
    fewer = Made("B", [piece("b", "2", "2", 1)], says={"layers": 4})
    assert only(TAB, fewer, fabrics=[{"name": "Slate"}]).cloth.settings.layers == 4


def test_tabs_that_agree_say_nothing() -> None:
    assert not plan_notes(only(TAB, fabrics=[{"name": "Slate", "usable_width": "43 in"}]), HOW)


def test_squaring_that_takes_all_of_a_precut_is_told() -> None:
    slate, mustard = with_cell(form="strip", squaring="3 in")
    assert slate.plan is None
    assert "squaring takes all of the cloth" in slate.troubles[0]
    assert mustard.whole


def test_strips_of_a_run_out_of_precuts() -> None:
    made = Made("Binding", runs=[run("binding", "5/2", "289")])
    found = only(made, fabrics=[{"name": "Slate", "form": "strip", "have": 5}])
    assert found.whole
    # 8 strips as off the bolt, each out of one precut strip; 5 are in hand, so one pack of 40.
    assert (found.buy.have_used, found.buy.pieces, found.buy.packs) == (5, 3, 1)
