"""A printed yardage against the plan: enough, generous, short, and where it would do."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import FabricPlan, Pool
from boltend.core.pool import planner as planner_module
from boltend.core.pool.printed import WIDE, Printed
from boltend.core.project.model import project_from_plain
from boltend.core.report.list_words import buy_sheet, say_printed
from boltend.core.values import Notation

from .kit import Made, only, piece, run, snapshot

HOW = Notation()
EIGHTH = Fraction(9, 2)
BORDERS = Made("Borders", runs=[run("Water", "11/2", "268")])
"""268 in of 5 1/2 in: at 42 in eight strips, 44 in; at 43 in seven, 38 1/2 in (by hand: 36 1/2 n + 5 1/2)."""


def printed(length: str, made: Made = BORDERS, **cells: Any) -> Printed:
    found = only(made, fabrics=[{"name": "Slate", "printed": length, **cells}]).printed
    assert found is not None
    return found


def needed(made: Made, width: Fraction, **cells: Any) -> Fraction:
    """What a project with this width needs, worked out anew."""
    cell = {"name": "Slate", "usable_width": f"{width} in", "printed": "9 yd", **cells}
    fabric: FabricPlan = only(made, fabrics=[cell])
    return fabric.buy.needed


def test_enough_and_generous() -> None:
    # 44 1/2 in needed.
    assert printed("1 1/4 yd") == Printed(Fraction(45), "enough", Fraction(1, 2))
    assert printed("44 1/2 in") == Printed(Fraction(89, 2), "enough", Fraction(0))
    assert printed("49 in") == Printed(Fraction(49), "generous", Fraction(9, 2))
    assert printed("48 7/8 in").verdict == "enough"


def test_short_says_by_how_much_and_where_it_would_do() -> None:
    found = printed("1 1/8 yd")
    assert (found.verdict, found.by, found.would_do) == ("short", Fraction(4), Fraction(43))


@pytest.mark.parametrize("length", ["30 in", "1 yd", "1 1/8 yd", "42 in"])
def test_the_width_is_the_least_by_half_inches_that_does(length: str) -> None:
    mixed = Made("A", [piece("a", "7", "9", 10), piece("b", "5", "5", 9)], [run("r", "5/2", "200")])
    for made in (BORDERS, mixed):
        found = printed(length, made)
        if found.verdict != "short" or found.would_do is None:
            continue
        assert needed(made, found.would_do) <= found.length
        wide = [width for width in (Fraction(50), *WIDE["in"]) if width < found.would_do]
        below = wide or [found.would_do - Fraction(1, 2)]
        assert all(needed(made, width) > found.length for width in below)


def test_at_no_width_in_reach() -> None:
    tall = Made("A", [piece("tall", "30", "90", 1, may_turn=False)])
    found = printed("1 yd", tall)
    assert (found.verdict, found.would_do, found.tried) == ("short", None, Fraction(108))
    assert say_printed(found, HOW, EIGHTH) == (
        "the 1 yd printed is short by 1 5/8 yd (54 1/2 in), for it takes 2 5/8 yd; these pieces would not do "
        "with it at any usable width up to 108 in"
    )


def test_wide_cloth_is_tried_too() -> None:
    """Two panels of 42 × 90 in lie beside each other on 90 in, below each other on what is narrower."""
    panels = Made("A", [piece("panel", "42", "90", 2, may_turn=False)])
    found = printed("2 5/8 yd", panels)
    assert (found.verdict, found.would_do) == ("short", Fraction(90))


def test_pieces_as_wide_as_the_cloth_are_others_on_a_wider_one() -> None:
    """42 + 42 + 11 1/2 in lie beside each other on 108 in and take 96 in; 2 yd are too little however."""
    ((_, said),) = of_tabs(given_printed("Backing", "5 yd"))
    assert said.endswith("it would do at a usable width of 108 in")
    ((_, said),) = of_tabs(given_printed("Backing", "2 yd"))
    assert said.endswith(
        "these pieces would not do with it at any usable width up to 108 in, but they are made for 42 in: "
        "try a wider one in the tab"
    )


def test_widths_are_tried_by_whole_steps_from_any_width() -> None:
    found = printed("1 1/8 yd", usable_width="42 1/8 in")
    assert found.would_do == 43


def test_a_metric_project_tries_whole_centimetres() -> None:
    fabric = only(
        BORDERS,
        fabrics=[{"name": "Slate", "printed": "1 m", "usable_width": "106 cm"}],
        units="centimetres",
    )
    assert fabric.printed is not None
    assert fabric.printed.would_do is not None
    # Seven strips, 38 1/2 in, are enough from 7 w − 6 × 5 1/2 in = 268 in on: 43 in, which is 109.22 cm.
    assert fabric.printed.would_do / Fraction(50, 127) == 110


def test_what_is_in_hand_is_no_matter_of_the_pattern() -> None:
    assert printed("1 1/4 yd", have="1 yd") == Printed(Fraction(45), "enough", Fraction(1, 2))


def test_the_plan_shown_is_the_one_that_is_compared() -> None:
    """Where the shop's step is coarse a short search would do for the purchase, but not for the print."""
    sizes = [("25/4", "11", 4), ("11", "49/4", 25), ("5/2", "25/4", 26), ("25/4", "9", 24), ("17/4", "9", 34)]
    made = Made("A", [piece(f"p{n}", *size) for n, size in enumerate(sizes)])
    cell = {"name": "Slate", "printed": "166 in"}
    taken = snapshot(made, fabrics=[cell], buying_step="1 yd")
    (fabric,) = Pool().lists_of(taken).fabrics
    assert fabric.printed is not None
    assert fabric.printed.verdict == "enough"
    assert fabric.buy.needed + fabric.printed.by == 166


def test_prewashing_counts() -> None:
    assert printed("1 1/4 yd", prewash_along="5 %").verdict == "short"


def test_a_piece_that_fits_no_width_is_no_matter_of_yards() -> None:
    wide = Made("A", [piece("wide", "60", "60", 1), piece("small", "5", "5", 1)])
    fabric = only(wide, fabrics=[{"name": "Slate", "printed": "1 yd"}])
    assert fabric.printed is None
    assert fabric.unplaced


def test_a_printed_yardage_of_precuts_is_not_compared() -> None:
    made = Made("A", [piece("a", "5", "5", 4)])
    fabric = only(made, fabrics=[{"name": "Slate", "printed": "1 yd", "form": "fat quarter"}])
    assert fabric.printed is None


def test_other_widths_are_planned_only_where_it_is_short(monkeypatch: pytest.MonkeyPatch) -> None:
    widths: list[Fraction] = []
    plan_pooled = planner_module.plan_pooled

    def counted(groups: Any, stock: Any, *args: Any, **more: Any) -> Any:
        widths.append(stock.bolt.width)
        return plan_pooled(groups, stock, *args, **more)

    monkeypatch.setattr(planner_module, "plan_pooled", counted)
    printed("1 1/4 yd")
    assert set(widths) == {42}
    printed("1 1/8 yd")
    assert set(widths) == {42, Fraction(85, 2), 43}


def test_said_in_words() -> None:
    assert (
        say_printed(printed("1 1/4 yd"), HOW, EIGHTH)
        == "the 1 1/4 yd printed is enough, with 1/2 in to spare"
    )
    assert say_printed(printed("44 1/2 in"), HOW, EIGHTH) == "the 44 1/2 in printed is just enough"
    assert say_printed(printed("2 yd"), HOW, EIGHTH) == "the 2 yd printed is generous by 3/4 yd (27 1/2 in)"
    assert say_printed(printed("1 1/8 yd"), HOW, EIGHTH) == (
        "the 1 1/8 yd printed is short by 4 in; it would do at a usable width of 43 in"
    )


def given_printed(name: str, printed: str | None, **more: Any) -> Any:
    """A backing of a tab that says what is printed for it itself."""
    said = {} if printed is None else {"printed": printed}
    return {"name": name, "calculator": "backing",
            "given": {"width": "87 in", "height": "93 in", **said, **more}}  # fmt: skip


def of_tabs(*tabs: Any, fabrics: Any = (), copies: int = 1) -> list[tuple[str, str]]:
    """To buy of a project of these tabs: what, and how what is printed compares."""
    plain = {"boltend": 1, "project": {"copies": copies}, "tab": list(tabs)}
    plain |= {"fabric": [dict(each) for each in fabrics]} if fabrics else {}
    with Host.load() as host:
        book = Workbook(host, project_from_plain(plain))
        sheet = buy_sheet(Pool().lists(book), HOW)
    return [(row.what, next((note for note in row.notes if "printed" in note), "")) for row in sheet.rows]


def test_what_a_tab_says_is_printed_is_compared_in_to_buy() -> None:
    # 3 panels of 95 1/2 in and 1/2 in: 287 in, 8 yd of which 5 yd are 180 in.
    short = "the 5 yd printed is short by 3 yd (107 in), for it takes 8 yd; it would do at a usable width of "
    ((_, said),) = of_tabs(given_printed("Backing", "5 yd"))
    assert said.startswith(short)
    named = given_printed("Backing", "5 yd", fabric="Fog")
    ((what, said),) = of_tabs(named, fabrics=[{"name": "Fog"}])
    assert (what, said.startswith(short)) == ("Fog", True)
    ((_, said),) = of_tabs(given_printed("Backing", "8 yd"))
    assert said == "the 8 yd printed is enough, with 1 in to spare"


def test_what_is_printed_with_the_fabric_is_for_all_its_tabs() -> None:
    fog = {"name": "Fog", "printed": "9 yd"}
    ((_, said),) = of_tabs(given_printed("B", "5 yd", fabric="Fog"), fabrics=[fog])
    assert said == "the 9 yd printed is generous by 1 yd (37 in)"


def test_what_only_one_of_two_tabs_says_is_held_against_nothing_in_to_buy() -> None:
    two = given_printed("A", "5 yd", fabric="Fog"), given_printed("B", None, fabric="Fog")
    ((_, said),) = of_tabs(*two, fabrics=[{"name": "Fog"}])
    assert said == ""
    both = given_printed("A", "5 yd", fabric="Fog"), given_printed("B", "5 yd", fabric="Fog")
    ((_, said),) = of_tabs(*both, fabrics=[{"name": "Fog"}])
    # The two last panels, 18 1/2 in wide, lie side by side: 5 lengths of 95 1/2 in and 1/2 in make 478 in.
    assert said.startswith("the 10 yd printed is short by 3 3/8 yd (118 in), for it takes 13 3/8 yd")


def test_two_copies_take_what_is_printed_twice() -> None:
    ((_, said),) = of_tabs(given_printed("Backing", "8 yd"), copies=2)
    assert said == "the 16 yd printed is generous by 2 5/8 yd (98 in)"  # 576 − 478
