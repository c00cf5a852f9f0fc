"""Published widths and cuts of fabric, units and safety, against ours; read from the file of standards."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import pytest
from scipy import constants

from boltend.core.contract import DEFAULTS, Settings
from boltend.core.flow.basis import default_of
from boltend.core.report.safety import CUTTING_CAUTION
from boltend.core.values import Notation, ThreadNumber, nearest
from boltend.core.values.kinds_thread import tex
from boltend.core.values.units import INCHES, factor, registry
from boltend.testing import work
from boltend_backing_batting.backing import backing
from boltend_backing_batting.batting import batting
from boltend_backing_batting.battings import BATTINGS
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS
from boltend_shared import source_line, standards

FABRIC: Any = standards()["fabric"]
CUTS: Any = standards()["fabric_cuts"]
SAFETY: Any = standards()["safety"]
EXACT: Any = standards()["units"]["exact"]
LIBRARIES: Any = standards()["units"]["library_values"]
CENTIMETRE = INCHES["cm"]


def ours(name: str) -> tuple[Fraction, Fraction]:
    """Along the selvage and across: a row of our table, in inches."""
    row = PRECUTS.row(name)
    return Fraction(row["length"]), Fraction(row["width"])


# --- widths


def test_our_usable_width_lies_between_what_is_surely_usable_and_what_is_printed() -> None:
    width = Settings().usable_width
    assert FABRIC["usable_in"] <= width <= FABRIC["nominal_upper_in"]
    low, high = FABRIC["nominal_in"]
    assert low <= width <= high
    low, high = FABRIC["range_in"]
    assert low <= width <= high


def test_our_metric_width_lies_in_the_printed_range() -> None:
    low, high = FABRIC["metric_wof_cm"]
    assert low <= default_of("usable_width", Notation("cm")) / CENTIMETRE <= high
    assert DEFAULTS["usable_width"][1] == f"{low} cm"


@pytest.mark.parametrize("key", ["wide_backing_in", "wider_backing_in"])
def test_a_wide_backing_goes_without_a_seam_up_to_its_width(key: str) -> None:
    wide = Fraction(FABRIC[key])
    said: dict[str, Any] = {"height": "120 in", "overage": "4 in", "usable_width": wide, "seams": "down"}
    assert work(backing, settings={"seam": "0 in"}, width=wide - 8, **said).found["panels"] == 1
    assert work(backing, settings={"seam": "0 in"}, width=wide - 7, **said).found["panels"] == 2


def test_a_yard_of_the_nominal_width_gives_its_area_in_inches() -> None:
    """One yard, 36 × 44 in: 1584 squares of an inch, by our yield."""
    long, wide = FABRIC["yard_by_wof_in"]
    found: Any = work(
        precut_yield,
        precut_width=Fraction(wide),
        precut_length=Fraction(long),
        piece_width="1 in",
        piece_height="1 in",
    ).found
    assert found["pieces_each"] == long * wide == 1584


# --- cuts

CUT_ROWS: Mapping[str, str] = {
    "fat_quarter_in": "fat quarter, 18 × 22 in",
    "fat_quarter_alt_in/1": "fat quarter",
    "metric_fat_quarter_cm": "fat quarter, 50 × 55 cm",
}
"""Printed cuts that are rows of our table."""

NOT_OUR_ROWS: Mapping[str, str] = {
    "quarter_yard_in": "Printed with the nominal 44 in; our long quarter has the usable 42 in: tested below.",
    "fat_quarter_alt_in/0": "18 × 20 in, one page's: typed as width and length.",
    "nz_fat_quarter_cm": "50 × 53 cm, one shop's: typed as width and length.",
    "us_fq_in_metric_shops_cm": "18 × 22 in rounded down to 45 × 55 cm: our row is exact, tested below.",
    "fat_quarter_cm_converted": "18 × 22 in in centimetres: tested below.",
    "sale_step_seen": "Steps of two shops: tested below against our buying step.",
    "sale_step_memory": "From memory: tested below against our buying step.",
    "bolt_length_unit_ft": "A unit of GNU units, 120 ft, for bolts as woven: no calculator starts from it.",
}


def printed(key: str) -> list[Fraction]:
    name, _, at = key.partition("/")
    return [Fraction(each) for each in (CUTS[name][int(at)] if at else CUTS[name])]


def test_every_printed_cut_is_a_row_or_has_its_reason() -> None:
    told = {key for key in CUTS if not key.rpartition("_")[2].startswith("source")}
    told = (told - {"fat_quarter_alt_in"}) | {"fat_quarter_alt_in/0", "fat_quarter_alt_in/1"}
    assert told == {*CUT_ROWS, *NOT_OUR_ROWS}


@pytest.mark.parametrize("key", CUT_ROWS)
def test_a_printed_cut_is_a_row_of_our_table(key: str) -> None:
    unit = CENTIMETRE if key.endswith("_cm") else 1
    assert ours(CUT_ROWS[key]) == tuple(side * unit for side in printed(key))


def test_a_long_quarter_is_a_quarter_of_a_yard_by_the_usable_width() -> None:
    along, across = printed("quarter_yard_in")
    assert ours("long quarter") == (along, Settings().usable_width)
    assert across in FABRIC["nominal_in"]


def test_a_fat_quarter_in_centimetres() -> None:
    exact = [side / CENTIMETRE for side in ours("fat quarter, 18 × 22 in")]
    assert exact == printed("fat_quarter_cm_converted")
    for side, shop in zip(exact, printed("us_fq_in_metric_shops_cm"), strict=True):
        assert 0 <= side - shop < 1  # a shop rounds down to the centimetre


def test_our_steps_of_buying_are_the_shops_or_finer() -> None:
    seen, memory = CUTS["sale_step_seen"], CUTS["sale_step_memory"]
    step = Settings().buying_step / 36
    assert step == memory["us_yd"]
    assert (Fraction(seen["us_yd"]) / step).denominator == 1  # every amount of theirs is one of ours
    metric = default_of("buying_step", Notation("cm")) / CENTIMETRE
    assert metric in memory["uk_eu_cm"]


# --- units

FACTORS: Mapping[str, tuple[str, str]] = {
    "inch_m": ("in", "m"), "foot_m": ("ft", "m"), "yard_m": ("yd", "m"),
    "inch_cm": ("in", "cm"), "yard_m_decimal": ("yd", "m"), "foot_m_decimal": ("ft", "m"),
}  # fmt: skip


def unit_named(key: str) -> str:
    return f"{key} ({'; '.join(map(source_line, EXACT['sources']))})"


@pytest.mark.parametrize("key", FACTORS, ids=unit_named)
def test_a_unit_is_exact(key: str) -> None:
    assert factor(*FACTORS[key]) == Fraction(EXACT[key])


def test_a_pound_is_exact() -> None:
    pound = registry().Quantity(Fraction(1), "pound").to("kilogram").magnitude
    assert pound == Fraction(EXACT["pound_kg"])
    assert abs(pound - Fraction(constants.pound)) < Fraction(1, 10**15)


def test_every_exact_unit_is_run() -> None:
    assert set(EXACT) == {*FACTORS, "pound_kg", "sources"}


SCIPY: Mapping[str, tuple[float, str]] = {
    "scipy_yard_m_float": (constants.yard, "yd"),
    "scipy_foot_m_float": (constants.foot, "ft"),
}
OF_OTHERS: Mapping[str, str] = {
    "pint_inch_m": "pint's default registry, which is never made here (190 ms): ours is exact, tested above.",
    "pint_yard_m": "The same.",
    "pint_foot_m_float": "The same.",
    "astropy_yard_m_float": "astropy is no dependency, not of the tests either.",
    "pint_exact": "Of the default registry; ours is read with Fractions, tested above.",
    "pint_textile_units": "Names of the default registry; ours has its own file of units.",
    "pint_textile_context": "Its number is run below by our own conversion.",
    "pint_trap_mil": "A trap of the default registry: ours has no mil.",
    "pint_trap_acre": "A trap of the default registry: ours has no acre.",
    "pint_missing": "What the default registry lacks: a list of words.",
}


@pytest.mark.parametrize("key", SCIPY)
def test_the_floats_of_another_library_are_ours_but_for_their_last_bits(key: str) -> None:
    theirs, unit = SCIPY[key]
    # the file is read in exact decimals, so the printed float is made one again
    assert theirs == float(LIBRARIES[key])
    assert abs(Fraction(theirs) - factor(unit, "m")) < Fraction(1, 10**15)


def test_every_library_value_is_run_or_has_its_reason() -> None:
    assert set(LIBRARIES) == {*SCIPY, *OF_OTHERS}


def test_forty_ne_is_as_many_tex_as_pint_says() -> None:
    said = LIBRARIES["pint_textile_context"]
    assert 'Quantity(40,"Ne")' in said
    assert nearest(tex(ThreadNumber(Fraction(40), "Ne")), Fraction(1, 10_000)) == Fraction(said.split()[-1])


@pytest.mark.parametrize("unit", ["mil", "acre"])
def test_a_trap_of_the_default_registry_is_no_unit_of_ours(unit: str) -> None:
    assert unit in LIBRARIES[f"pint_trap_{unit}"]
    with pytest.raises(ValueError, match="cannot be turned"):
        factor(unit, "in")


# --- safety: what is said, and that it defers to those who know


def test_a_crib_size_says_what_is_advised_and_defers() -> None:
    infant = SAFETY["infant"]
    cautions = work(batting, tables=[BATTINGS], width="36 in", height="50 in").cautions
    (said,) = (each for each in cautions if "infant" in each)
    assert infant["age_months_under"] == 12
    assert "under twelve months" in said
    assert "quilts" in infant["keep_out_of_sleep_space"]
    assert "a quilt is no bedding" in said
    assert "guidance" in said
    assert "follow what holds where you live" in said


ROTARY: Mapping[str, str] = {
    "close or lock the blade after every cut": "close the blade whenever you lay it down",
    "push away from the body": "cut away from yourself",
    "keep fingers back from the ruler edge": "keep fingers behind the ruler's edge",
    "store closed and out of reach of young children": "out of children's reach",
}
"""Printed rules, and our words for them."""

NOT_SAID: Mapping[str, str] = {
    "replace dull blades": "Care of the tool: the makers' advice, to which the caution defers.",
    "wrap old blades before binning": "The same, and local rules of waste.",
}


def test_every_rule_of_the_rotary_cutter_is_said_or_has_its_reason() -> None:
    assert set(SAFETY["rotary_cutter"]["rules"]) == {*ROTARY, *NOT_SAID}
    assert [words for words in ROTARY.values() if words not in CUTTING_CAUTION] == []
    assert "Follow the makers' and local advice." in CUTTING_CAUTION


def test_the_file_tells_of_no_other_danger() -> None:
    assert set(SAFETY) == {"infant", "rotary_cutter"}
