"""Published backings and battings, against our own arithmetic; what is expected is read from the file.

Print takes no seam off a width and measures the quilt as printed, so cases run with `seam` 0 unless the table
says otherwise; the table states overage, width of cloth and the shop's step where print leaves them open.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.values import nearest, up
from boltend.testing import Worked, work
from boltend_backing_batting.backing import backing
from boltend_backing_batting.batting import batting
from boltend_backing_batting.battings import BATTINGS
from boltend_borders_binding.binding import binding
from boltend_shared import Case, cases

KINDS = (
    "backing", "backing_rule", "backing_table", "backing_wide", "batting_rule", "batting_size",
    "batting_table", "shrinkage",
)  # fmt: skip
CASES = {case.id: case for case in cases(*KINDS)}


@dataclass(frozen=True)
class Stated:
    """What a printed backing rests on; `size` is the backing itself, where its two overages differ."""

    overage: Fraction | int | None = None
    usable_width: Fraction | int | None = None
    seam: str = "0 in"
    buying_step: str = "1/8 yd"
    size: tuple[int, int] | None = None


PLAIN = Stated()
"""Overage and width as the case has them, by the eighth of a yard. These patterns print the batting, and so
the backing, up to the whole inch: that size goes in, and the test holds that it is ours."""
QUARTERS = Stated(buying_step="1/4 yd")  # the collector's reading of its five sizes

BACKINGS: dict[str, Stated] = {
    **dict.fromkeys(
        ("back-big", "back-hal", "back-candy", "back-salsa", "back-rings", "back-past", "back-strips",
         "back-neutral", "back-sea", "back-twin", "back-mirror"),
        PLAIN,
    ),
    **dict.fromkeys(("back-gems-baby", "back-gems-throw", "back-gems-twin", "back-gems-king"), QUARTERS),
    # 1 in at each side and 3 in at each end: a backing of 44 × 60 in; 1 2/3 yd is bought, so by the third
    "back-penny-baby": Stated(overage=0, size=(44, 60), buying_step="1/3 yd"),
    "back-penny-throw": Stated(overage=6),  # 60 + 12 by about 87 in: at least 6 in on each side
    "back-qov": Stated(overage=4, usable_width=42),  # 71 − 63 of the batting, twice 4
    "back-karen-set": Stated(overage=Fraction(9, 2), usable_width=42),  # 99 in is 90 and twice 4 1/2
    "back-mm": Stated(overage=6),  # 63 in is 51 and twice 6
    "back-patf": Stated(overage=5, buying_step="1/4 yd"),  # length_overage_total 10
    "back-qb-80x56": Stated(overage=0),  # the backing's own size is printed
    # 40 in in one width of 44, 3 in at each end: a backing of 44 × 51 in
    "back-stcroix-small": Stated(overage=0, size=(44, 51)),
    "back-lpq": Stated(overage=Fraction(9, 2), usable_width=42),  # 90 is 81 and twice 4 1/2
    # no overage at all: 3 × 100 1/2 in is the raw size of 100 in finished
    "back-shed": Stated(overage=0, seam="1/4 in"),
    "wide-thimble": Stated(overage=Fraction(15, 4)),  # 81 is 73 1/2 and 7 1/2
    "wide-country": Stated(overage=Fraction(43, 8)),  # 99 is 88 1/4 and 10 3/4
    "wide-patf": Stated(overage=10),  # length_overage_total 20
}  # fmt: skip


def inch(value: Fraction | int | str | None) -> Fraction:
    """A printed number, exact; what nobody says is 0."""
    return Fraction(value or 0)


def back(case: Case, stated: Stated | None = None, **more: Any) -> Worked:
    """The backing of a case, under what is stated for it."""
    said = stated or BACKINGS[case.id]
    inputs = case.inputs
    overage = inputs.get("overage_each_side") if said.overage is None else said.overage
    if "backing_w" in inputs:
        width, height = inputs["backing_w"], inputs["backing_l"]
        if "quilt_w" in inputs:
            covered = batted(inch(inputs["quilt_w"]), inch(inputs["quilt_l"]), inch(overage)).found
            assert (covered["needed_width"], covered["needed_height"]) == (width, height)
        overage = 0
    else:
        width, height = said.size or (inputs["quilt_w"], inputs["quilt_l"])
    usable = inputs.get("fabric_width") if said.usable_width is None else said.usable_width
    return work(
        backing,
        settings={"buying_step": said.buying_step},
        width=inch(width),
        height=inch(height),
        overage=inch(overage),
        usable_width=inch(usable),
        seam=said.seam,
        **more,
    )


def backed(case: Case) -> dict[str, object]:
    """What we find, under the names that the case expects."""
    worked = back(case)
    found = worked.found
    bought: Any = worked.unrounded["length_to_buy"]
    shop: Any = found["length_to_buy"]
    extra = case.inputs.get("shrink_extra", 0)  # print adds inches for washing, once, to the whole length
    length: Any = found["panel_length"]
    ours: dict[str, object] = {
        "yards": shop / 36,
        "inches": bought + extra,
        "yards_exact": nearest((bought + extra) / 36, Fraction(1, 100)),
        "panels": found["panels"],
        "length": length,
        "backing": [found["backing_width"], found["backing_height"]],
    }
    if extra:
        ours["yards"] = up(bought + extra, Fraction(9)) / 36
    if "end_overage" in case.expected:
        ours["end_overage"] = (length - case.inputs["quilt_l"]) / 2
    if case.id == "back-lpq":
        ours |= rest_of_lpq(case)
    return {key: ours[key] for key in case.expected}


def rest_of_lpq(case: Case) -> dict[str, object]:
    """Its batting with the same overage, and its binding of 2 1/2 in with the usual tail."""
    width, height = inch(case.inputs["quilt_w"]), inch(case.inputs["quilt_l"])
    covered = batted(width, height, BACKINGS[case.id].overage)
    bound = work(binding, width=f"{width} in cut", height=f"{height} in cut")
    shop: Any = bound.found["length_to_buy"]
    return {
        "batting": [covered.found["needed_width"], covered.found["needed_height"]],
        "binding_yards": shop / 36,
    }


def batted(width: Fraction, height: Fraction, overage: Fraction | int | None) -> Worked:
    """The batting of a quilt as printed: its size is taken as raw, so without a seam."""
    return work(batting, settings={"seam": "0 in"}, width=width, height=height, overage=inch(overage or 0))


def batting_needed(case: Case) -> dict[str, object]:
    """The size needed, up to the whole inch."""
    inputs = case.inputs
    found = batted(inch(inputs["quilt_w"]), inch(inputs["quilt_l"]), inputs["overage_each_side"]).found
    return {"batting_w": found["needed_width"], "batting_l": found["needed_height"]}


def packages(case: Case) -> dict[str, object]:
    """Our table's packages in the print's order; print's alternatives stay print's."""
    rows = [
        row if row[0].endswith(" alt") else [row[0], *(BATTINGS.row(row[0])[side] for side in SIDES)]
        for row in case.expected["rows"]
    ]
    # Mattresses and the quilts for them: those come with the calculator of beds, not with that of battings.
    beds = {key: case.expected[key] for key in ("mattress", "quilt") if key in case.expected}
    return {"rows": rows, **beds}


SIDES = ("width", "length")
BY_KIND: dict[str, Callable[[Case], dict[str, object]]] = {
    "backing": backed,
    "backing_wide": backed,
    "batting_size": batting_needed,
    "batting_table": packages,
}

REASONS: dict[str, str] = {
    "back-chain": "SHORT: 6 yd are two lengths of 108 in, 84 in wide on cloth of 42 in, under a quilt of "
    "86 in. Ours is 7 7/8 yd, tested below.",
    "back-chic": "3 1/3 yd is by the third of a yard; with that step ours is the same, tested below.",
    "back-wonder": "3 2/3 yd is by the third of a yard; with that step ours is the same, tested below.",
    "back-blues": "7 1/3 yd is by the third of a yard; with that step ours is the same, tested below.",
    "back-fast": "One step of an eighth more than the panels take: tested below.",
    "back-table-stcroix": "Names of beds without the sizes of their quilts.",
    "wide-rule": "A range of overage (4 to 8 in in all): a given.",
    "back-rule-apq": "A rule: at least 4 in on each side, our default, tested below.",
    "back-rule-pastimes": "A rule: 3 in on each side; overage is a given.",
    "wide-fairfield": "No quilt size is printed.",
    "batting-overage": "A range of overage (4 to 12 in in all): a given.",
    "batting-trish": "A package of 108 in leaves 2 1/2 in on each side of 103 in: thin, and ours says so "
    "only below 2 in. With that overage ours needs the same 108 in, tested below.",
    "batting-table-2": "Other sizes for craft, full and king: makers vary by an inch or so, it says.",
    "shrink-top": "A measurement of what quilting alone draws in.",
    "shrink-wide": "A measurement of one washed cloth: 11 and 12 %; prewash loss is asked for.",
    "shrink-batting": "Ranges; our table has their careful end, tested below.",
}


def normal(value: object) -> object:
    """A printed value for comparing: "4/3" and 0.5 as exact fractions, lists within; names stay."""
    if isinstance(value, list):
        return [normal(item) for item in value]
    if isinstance(value, str) and not value[0].isdigit():
        return value
    return Fraction(value) if isinstance(value, str | int) else value


def named(case: Case) -> str:
    """A test's name: the case and where it was printed."""
    return f"{case.id} ({case.source.title}, {case.source.publisher}, {case.source.year})"


@pytest.mark.outside_check("backing", "batting", against="published")
@pytest.mark.parametrize("case", [case for case in CASES.values() if case.agrees], ids=named)
def test_arithmetic_gives_what_is_printed(case: Case) -> None:
    assert {key: normal(value) for key, value in BY_KIND[case.kind](case).items()} == {
        key: normal(value) for key, value in case.expected.items()
    }


def test_every_check_value_runs_and_every_other_case_has_its_reason() -> None:
    agreeing = [case for case in CASES.values() if case.agrees]
    assert {case.kind for case in agreeing} == set(BY_KIND)
    assert {case.id for case in agreeing if BY_KIND[case.kind] is backed} == set(BACKINGS)
    assert {case.id for case in CASES.values() if not case.agrees} == set(REASONS)


def test_the_named_kinds_are_all_kinds_of_backing_batting_and_shrinkage() -> None:
    prefixes = ("backing", "batting", "shrink")
    assert {case.kind for case in cases() if case.kind.startswith(prefixes)} == set(KINDS)


RUN = {"seams parallel to width": "across", "seams parallel to length": "down"}


@pytest.mark.parametrize("case", [case for case in CASES.values() if "direction" in case.computed], ids=named)
def test_the_collectors_panels_and_their_direction(case: Case) -> None:
    worked = back(case, PLAIN)
    assert worked.found["panels"] == case.computed["panels"]
    assert worked.unrounded["length_to_buy"] == case.computed["inches"]
    run = RUN[case.computed["direction"]] if case.computed["panels"] > 1 else "none"
    assert worked.found["seams_run"] == run


def test_a_printed_backing_that_is_short() -> None:
    case = CASES["back-chain"]
    stated = Stated(overage=4, usable_width=42)
    ours: Any = back(case, stated).found["length_to_buy"]
    assert ours / 36 == case.computed["yards_min"] > case.expected["yards"]
    bare: Any = back(case, Stated(overage=0, usable_width=42)).found["length_to_buy"]
    assert bare / 36 > case.expected["yards"]  # not even the quilt itself is covered


@pytest.mark.parametrize("key", ["back-chic", "back-wonder", "back-blues"])
def test_backings_by_the_third_of_a_yard(key: str) -> None:
    case = CASES[key]
    ours: Any = back(case, Stated(buying_step="1/3 yd")).found["length_to_buy"]
    assert ours / 36 == Fraction(case.expected["yards"])


def test_a_backing_that_buys_an_eighth_more() -> None:
    case = CASES["back-fast"]
    ours: Any = back(case, PLAIN).found["length_to_buy"]
    assert ours / 36 == case.computed["yards_up_to_eighth"] == case.expected["yards"] - Fraction(1, 8)


def test_with_four_inches_the_panel_quilt_takes_less() -> None:
    case = CASES["back-mm"]
    ours: Any = back(case, Stated(overage=4)).found["length_to_buy"]
    assert ours / 36 == case.computed["yards_min"]


def test_the_default_overage_is_what_the_rule_asks() -> None:
    worked = work(backing, width="60 in", height="70 in", seam="0 in")
    assert worked.found["backing_width"] == 60 + 2 * CASES["back-rule-apq"].expected["each_side_min"]


def test_a_thin_batting_is_what_its_overage_makes() -> None:
    case = CASES["batting-trish"]
    found = batted(inch(case.inputs["quilt_w"]), inch(case.inputs["quilt_l"]), Fraction(5, 2)).found
    assert found["needed_width"] == case.expected["batting_w"]
    assert found["needed_height"] == case.expected["batting_l"]


def test_the_tables_shrinkage_is_the_larger_end_of_print() -> None:
    printed = CASES["shrink-batting"].expected
    for name, share in (
        ("cotton, with scrim", printed["cotton"][1]),
        ("cotton, without scrim", printed["cotton"][1]),
        ("cotton, not stabilised", printed["cotton"][1]),
        ("bamboo and cotton", printed["bamboo_blend"][1]),
        ("polyester", Fraction(printed["polyester"])),
    ):
        assert BATTINGS.row(name)["shrinkage"] == 100 * share
