"""Published beds, the quilts for them, and safe sleep, read from the standards when the test runs."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.values import nearest
from boltend.testing import Worked, work
from boltend_backing_batting.batting import batting
from boltend_quilt_setting.bed_size import bed_size
from boltend_quilt_setting.bed_size_words import INFANT, LEAST_TUCK
from boltend_quilt_setting.beds import BEDS
from boltend_shared import cases, source_line, standards

Row = Mapping[str, Any]

BED_ROWS: list[Row] = standards()["bed"]
CHECKS: list[Row] = standards()["bed_check"]
QUILTS: list[Row] = standards()["bed_quilt_batting"]
DROP: Row = standards()["drop"]
DEPTH: Row = standards()["mattress_depth"]
CENTIMETRE = Fraction(50, 127)

NAMES = {
    ("US", "crib_mattress_common"): "US crib",
    ("US", "portable_crib_mattress_minimum"): "US portable crib",
    ("US", "twin_xl"): "US twin XL",
    ("US", "california_king"): "US California king",
    ("NZ", "california_king"): "NZ California king",
    **{("JP", f"semi_{size}"): f"JP semi-{size}" for size in ("single", "double")},
}
"""Rows that our table names otherwise than by region and name."""

NOT_IN_OUR_TABLE: dict[tuple[str, str], str] = {
    **{
        (
            "US trade actual",
            name,
        ): "makers' actual sizes, up to 1/2 in shorter (full: 1 in narrower), grade C; a quilt "
        "that covers the nominal size covers these too"
        for name in ("twin", "twin_xl", "full", "queen", "king", "california_king")
    },
    ("US", "crib_interior_full_size"): "the inside of the crib, not its mattress",
    (
        "US",
        "crib_mattress_minimum_a",
    ): "the least by rule; print has two figures, and the common mattress covers both",
    (
        "US",
        "crib_mattress_minimum_b",
    ): "the least by rule; print has two figures, and the common mattress covers both",
}


def our_name(row: Row) -> str:
    key = (row["region"], row["name"])
    return NAMES.get(key, f"{key[0]} {key[1].replace('_', ' ')}")


def stated(row: Row) -> tuple[Fraction, Fraction]:
    """Width and length as the source states them, exact inches."""
    unit, size = (1, "in") if row["stated_unit"] == "in" else (CENTIMETRE, "cm")
    return Fraction(row[f"width_{size}"]) * unit, Fraction(row[f"length_{size}"]) * unit


def bed_named(row: Row) -> str:
    return f"{our_name(row)} ({source_line(row['source'])})"


OURS = [row for row in BED_ROWS if (row["region"], row["name"]) not in NOT_IN_OUR_TABLE]


@pytest.mark.parametrize("row", OURS, ids=bed_named)
def test_the_table_has_the_mattress_as_its_source_states_it(row: Row) -> None:
    ours: Any = BEDS.row(our_name(row))
    assert (ours["width"], ours["length"]) == stated(row)
    entry = standards()["sources"][row["source"]]
    year = "undated" if entry["year"] == "n.d." else entry["year"]
    assert year in ours["source"]
    title, publisher = entry["title"].split(" (")[0], entry["publisher"].split(" (")[0]
    assert title.split(",")[0] in ours["source"]
    assert publisher.split(",")[0] in ours["source"]


def test_every_bed_is_in_the_table_or_has_its_reason_and_no_other_is() -> None:
    assert {(row["region"], row["name"]) for row in BED_ROWS} >= set(NOT_IN_OUR_TABLE)
    assert sorted(map(our_name, OURS)) == sorted(BEDS.rows)


def test_what_is_left_out_is_covered_by_what_is_in() -> None:
    for row in BED_ROWS:
        if row["region"] == "US trade actual" or row["name"].startswith("crib_mattress_minimum"):
            name = "US crib" if "crib" in row["name"] else our_name({**row, "region": "US"})
            ours: Any = BEDS.row(name)
            assert ours["width"] >= stated(row)[0]
            assert ours["length"] >= stated(row)[1]


def test_depths_are_the_larger_end_of_what_is_printed() -> None:
    for name in BEDS.rows:
        row: Any = BEDS.row(name)
        wanted: dict[str, Any] = {
            "US": 6 if name == "US crib" else 4 if name == "US portable crib" else DEPTH["standard_in"][1],
            "AU": None if name == "AU cot" else DEPTH["au_typical_cm"][1] * CENTIMETRE,
            "NZ": {
                "NZ single": DEPTH["nz_single_cm"][1] * CENTIMETRE,
                "NZ queen": DEPTH["nz_queen_cm"][1] * CENTIMETRE,
            }.get(name),
        }
        assert row["depth"] == wanted.get(name[:2])


def test_the_depths_of_cribs_are_those_of_their_notes() -> None:
    notes = {row["name"]: row.get("note", "") for row in BED_ROWS}
    assert "max thickness 6 in" in notes["crib_mattress_minimum_a"]
    assert "max thickness 4 in" in notes["portable_crib_mattress_minimum"]


# Check values -------------------------------------------------------------------------------------


def quilt(mattress: list[Any], drop: Any, **more: Any) -> Worked:
    """A quilt over a mattress of these inches."""
    sides = {
        f"mattress_{name}": Fraction(side) for name, side in zip(("width", "length"), mattress, strict=True)
    }
    return work(
        bed_size, tables=[BEDS], **sides, drop=Fraction(drop), **{k: Fraction(v) for k, v in more.items()}
    )


def size(worked: Worked) -> list[Any]:
    return [worked.found["width"], worked.found["height"]]


NOT_ASKED_OF_US = {
    "D05": "how high a bed is, is not asked for: the drop is given, at most down to the floor",
    "D06": "a rule from the bed's height, which is not asked for; the corner's drop itself is D07",
}
FORWARD = [row for row in CHECKS if "drop" in row["inputs"] or "depth" in row["inputs"]]
INVERSE = [row for row in CHECKS if "quilt" in row["inputs"]]
CORNER = [row for row in CHECKS if "side_drop" in row["inputs"]]


def check_named(row: Row) -> str:
    return f"{row['id']} ({source_line(row['source'])})"


@pytest.mark.outside_check("bed_size", against="published")
@pytest.mark.parametrize("row", FORWARD, ids=check_named)
def test_a_printed_quilt_for_a_bed(row: Row) -> None:
    """The rule takes the mattress's depth as the least drop: what is printed there is its drop."""
    said = row["inputs"]
    worked = quilt(said["mattress"], said["depth"], tuck=said.get("tuck", 0))
    assert size(worked) == row["expected"]["quilt"]


@pytest.mark.parametrize("row", INVERSE, ids=check_named)
def test_a_printed_drop_and_tuck_give_back_the_quilt(row: Row) -> None:
    expected = row["expected"]
    worked = quilt(row["inputs"]["mattress"], expected["side_and_foot_drop"], tuck=expected["tuck"])
    assert size(worked) == row["inputs"]["quilt"]


@pytest.mark.parametrize("row", CORNER, ids=check_named)
def test_the_corner_hangs_lower(row: Row) -> None:
    worked = quilt([60, 80], row["inputs"]["side_drop"])
    (said,) = (line for line in worked.working if "√2" in line)
    shown = Fraction(said.split("≈ ")[1].removesuffix(" in"))
    assert nearest(shown, Fraction(1, 100)) == row["expected"]["corner_drop"]


def test_every_check_row_runs_or_has_its_reason() -> None:
    run = [row["id"] for row in (*FORWARD, *INVERSE, *CORNER)]
    assert sorted([*run, *NOT_ASKED_OF_US]) == sorted(row["id"] for row in CHECKS)


# Quilts and battings by the name of a bed -----------------------------------------------------------

DROPS = {
    # name: drop at the sides, drop at the foot; print says so but for the crib, see below
    "crib": (Fraction(11, 2), 2),
    "twin": (13, 13),
    "twin_xl": (13, 13),
    "full": (13, 13),
    "queen": (13, 13),
    "king": (13, 13),
    "california_king": (14, 13),
}
MATTRESS_OF_ITS_OWN = {
    "crib": "28 × 52 in, the crib's inside; ours has its mattress, 27 1/4 × 52",
    "twin": "39 in wide, as many quilters' tables; ours has 38",
    "twin_xl": "39 in wide, as many quilters' tables; ours has 38",
    "king": "78 in wide, the quilt table; the same page's batting table has 76 to 78; ours has 76",
}
"""Rows whose mattress is not that of our table: they run with the mattress as printed."""


def quilt_named(row: Row) -> str:
    return f"{row['name']} ({source_line(row['source'])})"


@pytest.mark.parametrize("row", QUILTS, ids=quilt_named)
def test_a_printed_quilt_by_the_name_of_its_bed(row: Row) -> None:
    drop, foot = DROPS[row["name"]]
    implied = row.get("implied", "")
    if row["name"] != "crib":  # of the crib's quilt no drop is printed; these two make it
        assert f"drop {drop} in each side" in implied
        assert f"{foot} in at foot" in implied or (drop == foot and "and foot" in implied)
    worked = quilt(row["mattress_in"], drop, foot_drop=foot)
    assert size(worked) == row["quilt_in"]
    ours: Any = BEDS.row(f"US {row['name'].replace('_', ' ').replace('xl', 'XL').replace('cal', 'Cal')}")
    same = [ours["width"], ours["length"]] == row["mattress_in"]
    assert same != (row["name"] in MATTRESS_OF_ITS_OWN)
    assert (INFANT in worked.cautions) == (row["name"] == "crib")


@pytest.mark.parametrize("row", [row for row in QUILTS if row["batting_in"]], ids=quilt_named)
def test_the_printed_batting_is_the_package_that_covers_the_quilt(row: Row) -> None:
    """With 1/2 in of overage: print adds "about 6 in" in all, but its full and queen leave 1 in one way."""
    drop, foot = DROPS[row["name"]]
    width, height = size(quilt(row["mattress_in"], drop, foot_drop=foot))
    bare = {"seam": "0 in"}  # print measures the quilt as finished
    worked = work(batting, width=width, height=height, overage="1/2 in", settings=bare)
    choices: Any = worked.found["choices"]
    assert [choices[0]["width"], choices[0]["length"]] == row["batting_in"]


def test_the_same_beds_in_the_file_of_cases() -> None:
    """The page's mattresses and quilts stand among the cases of battings too; its king is 76 to 78 in."""
    (case,) = (case for case in cases("batting_table") if "mattress" in case.expected)
    assert case.agrees
    beds = {name: (width, length) for name, width, length in case.expected["mattress"]}
    for name, *printed in case.expected["quilt"]:
        drop, foot = DROPS[name.replace("cal ", "california_")]
        width, length = beds[name]
        if name == "king":
            assert width == 77
            width = 78  # the mattress of the page's own quilt
        assert size(quilt([width, length], drop, foot_drop=foot)) == printed


# Rules --------------------------------------------------------------------------------------------


def test_the_rules_of_drop_and_tuck() -> None:
    assert DROP["pillow_fold_in_too_small_below"] == LEAST_TUCK
    assert DROP["pillow_fold_in_good"] > LEAST_TUCK
    assert DROP["tuck_add_in"] == LEAST_TUCK  # what the rule adds is not cautioned
    assert DROP["minimum"] == "mattress depth"
    assert DROP["formula"] == "width = W + 2*drop, length = L + drop (foot only) + tuck"
    (said,) = (line for line in quilt([60, 80], 13).working if "quilting takes up" in line)
    least, most = DROP["quilting_take_up_in"]
    assert f"{least} in to {most} in" in said
    for key in DROP["sources"]:
        assert standards()["sources"][key]["publisher"].split(" /")[0] in said


RULES_NOT_ASKED = {
    "side_drop_share_of_bed_height": "the bed's height is not asked for: the drop is given",
    "maximum": "the bed's height is not asked for; the help of the drop says it",
    "corner_factor": "√2, exact with us: D07",
    "sources": "named in the words",
}


def test_every_rule_of_the_drop_is_held_or_has_its_reason() -> None:
    held = {
        "formula", "minimum", "pillow_fold_in_good", "pillow_fold_in_too_small_below", "tuck_add_in",
        "quilting_take_up_in",
    }  # fmt: skip
    assert held | set(RULES_NOT_ASKED) == set(DROP)


def test_the_safe_sleep_caution_says_what_the_guidance_says() -> None:
    infant: Row = standards()["safety"]["infant"]
    assert infant["age_months_under"] == 12
    assert "under twelve months" in INFANT
    for thing in ("quilt", "pillow", "loose blanket"):
        assert any(kept_out.startswith(thing) for kept_out in infant["keep_out_of_sleep_space"])
        assert thing in INFANT
    named = [
        key for key in infant["sources"] if standards()["sources"][key]["publisher"].split(" (")[0] in INFANT
    ]
    assert "aap2022" in named
    assert standards()["sources"]["nhs_sutton"]["title"] in INFANT
    assert "where you live" in INFANT
