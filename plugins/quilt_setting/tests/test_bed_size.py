"""A quilt for a bed: by hand, its cautions, its table, and the questions that begin with a bed."""

from fractions import Fraction as Fr
from importlib.metadata import entry_points
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.edits import add_tab
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.plugin import Cannot, Rect
from boltend.testing import Worked, check, work
from boltend_quilt_setting import boltend_starts
from boltend_quilt_setting.bed_size import bed_size
from boltend_quilt_setting.bed_size_starts import FOR_A_BED, FOR_A_BED_ON_POINT
from boltend_quilt_setting.bed_size_words import INFANT, SMALL
from boltend_quilt_setting.beds import BEDS

CM = Fr(50, 127)
QUEEN: dict[str, Any] = {"bed": "US queen", "drop": "13 in"}


def quilt(**said: Any) -> Worked:
    return work(bed_size, tables=[BEDS], **said)


def size(worked: Worked) -> tuple[Any, Any]:
    return worked.found["width"], worked.found["height"]


def test_a_queen_bed_by_hand() -> None:
    worked = quilt(**QUEEN)
    assert size(worked) == (86, 93)  # 60 + 2 · 13 and 80 + 13
    assert worked.cautions == []
    said = " ".join(worked.working)
    assert "US queen mattress: 60 in × 80 in" in said
    assert "width = 60 in + 2 × 13 in drop = 86 in finished" in said
    assert "height = 80 in + 13 in at the foot = 93 in finished" in said
    assert "13 in × √2 = ≈ 18.385 in" in said  # 13² + 13² = 338
    assert "in print 1 in to 3 in" in said


def test_a_footboard_a_tuck_and_what_quilting_takes_up() -> None:
    worked = quilt(**QUEEN, foot_drop="0 in", tuck="10 in", take_up="4 %")
    # 86 ÷ 0.96 = 89.583… and 90 ÷ 0.96 = 93.75, both up to 1/16 in.
    assert worked.unrounded["width"] == Fr(86) / Fr(96, 100)
    assert size(worked) == (Fr(1434, 16), Fr(375, 4))
    said = " ".join(worked.working)
    assert "height = 80 in + 0 in at the foot + 10 in tuck = 90 in finished" in said
    assert "height to make = 90 in ÷ (1 − 4 %) = 93 3/4 in finished" in said
    assert "√2" not in said  # no square corner hangs where nothing hangs at the foot
    assert worked.cautions == []


def test_without_a_drop_no_corner_hangs() -> None:
    assert "√2" not in " ".join(quilt(bed="US queen", drop="0 in").working)


def test_what_is_given_of_the_mattress_speaks_before_the_table() -> None:
    both = quilt(**QUEEN, mattress_width="61 in", mattress_length="82 in")
    assert size(both) == (87, 95)
    assert "as given" in both.working[0]
    one = quilt(**QUEEN, mattress_width="61 in")
    assert size(one) == (87, 93)
    assert one.working[0] == "mattress: 61 in × 80 in, its length as for US queen, the other one as given"
    other = quilt(**QUEEN, mattress_length="81 in")
    assert other.working[0] == "mattress: 60 in × 81 in, its width as for US queen, the other one as given"


def test_a_bed_of_no_table() -> None:
    worked = quilt(mattress_width="100 cm", mattress_length="210 cm", drop="35 cm")
    assert worked.unrounded["width"] == 170 * CM
    assert worked.unrounded["height"] == 245 * CM
    assert worked.working[0].startswith("mattress: 100 cm × 210 cm, as given")


@pytest.mark.parametrize("side", ["width", "length"])
def test_without_a_bed_both_sides_must_be_said(side: str) -> None:
    other = {"width": "mattress_length", "length": "mattress_width"}[side]
    with pytest.raises(Cannot) as caught:
        quilt(drop="10 in", **{other: "70 in"})
    assert caught.value.given == f"mattress_{side}"
    assert "table" in caught.value.way_out


def test_a_metric_bed_in_centimetres() -> None:
    worked = quilt(units="centimetres", bed="UK double", drop="30 cm")
    assert size(worked) == (195 * CM, 220 * CM)
    assert "width = 135 cm + 2 × 30 cm drop = 195 cm finished" in worked.working


def test_it_covers_to_the_step_upwards() -> None:
    # 135 cm + 2 · 13 in = 79.1496 in: 79 3/16, where the nearest would be 79 1/8 and too little.
    assert size(quilt(bed="UK double", drop="13 in")) == (Fr(1267, 16), Fr(1405, 16))


@pytest.mark.parametrize("bed", [name for name in BEDS.rows if "crib" in name or "cot" in name])
def test_a_size_for_a_baby_has_the_safe_sleep_caution(bed: str) -> None:
    assert INFANT in quilt(bed=bed, drop="6 in").cautions
    # and a mattress of one's own of that size too, either way round
    row: Any = BEDS.row(bed)
    assert INFANT in quilt(mattress_width=row["length"], mattress_length=row["width"], drop="6 in").cautions


def test_no_other_bed_has_it() -> None:
    plain = [name for name in BEDS.rows if not ("crib" in name or "cot" in name)]
    assert len(plain) > 30
    for bed in plain:
        assert INFANT not in quilt(bed=bed, drop="16 in").cautions


def test_a_bed_that_is_called_a_cot_keeps_the_caution_whatever_its_size() -> None:
    assert (
        INFANT in quilt(bed="UK cot", mattress_width="60 in", mattress_length="80 in", drop="6 in").cautions
    )


def test_a_row_of_ones_own_that_says_no_is_no_babys_whatever_its_size() -> None:
    """A throw of 48 × 76 in for a chair is asked for as 20 × 48 in and its drops: no cot is meant."""
    throw = {"name": "throw", "width": Fr(20), "length": Fr(48), "source": "the chair"}
    said = {answer: [*_cautions(throw, answer)] for answer in (None, True, False)}
    assert [INFANT in each for each in said.values()] == [True, True, False]
    # A mattress that is measured is another than the row's.
    assert INFANT in _cautions(throw, False, mattress_width=Fr(25))


def _cautions(row: dict[str, Any], infant: bool | None, **measured: Fr) -> Any:
    cells = row if infant is None else {**row, "infant": infant}
    sides = {"mattress_width": None, "mattress_length": None, "mattress_depth": None, **measured}
    drops = {"drop": Fr(14), "foot_drop": None, "tuck": Fr(0), "take_up": Fr(0)}
    return bed_size(bed=cells, **sides, **drops).cautions


def test_small_is_within_thirty_by_sixty() -> None:
    assert SMALL == (30, 60)
    at = quilt(mattress_width="30 in", mattress_length="60 in", drop="6 in")
    wider = quilt(mattress_width="30 1/16 in", mattress_length="60 in", drop="6 in")
    longer = quilt(mattress_width="30 in", mattress_length="60 1/16 in", drop="6 in")
    assert [INFANT in w.cautions for w in (at, wider, longer)] == [True, False, False]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (
            {"drop": "8 in"},
            ["A drop of 8 in all round is less than such a mattress may be deep, 9 in"],
        ),
        ({"drop": "9 in"}, []),
        ({"drop": "8 in", "foot_drop": "0 in"}, ["at the sides"]),
        ({"drop": "10 in", "foot_drop": "8 in"}, ["A drop of 8 in at the foot"]),
        (
            {"drop": "8 in", "foot_drop": "7 in"},
            ["A drop of 8 in at the sides", "A drop of 7 in at the foot"],
        ),
        ({"drop": "13 in", "mattress_depth": "14 in"}, ["less than the mattress is deep, 14 in"]),
        ({"drop": "13 in", "mattress_depth": "13 in"}, []),
        ({"drop": "0 in"}, ["A drop of 0 in all round"]),
    ],
)
def test_a_drop_less_than_the_mattress_is_deep(said: dict[str, str], expected: list[str]) -> None:
    cautions = quilt(bed="US queen", **said).cautions
    assert len(cautions) == len(expected)
    for caution, words in zip(cautions, expected, strict=True):
        assert words in caution
        assert "some of it will show" in caution


def test_where_no_depth_is_known_it_is_to_be_measured() -> None:
    worked = quilt(bed="EU double", drop="1 in")
    assert worked.cautions == []
    assert "measure it" in " ".join(worked.working)
    assert "measure it" not in " ".join(quilt(bed="EU double", drop="1 in", mattress_depth="20 cm").working)


@pytest.mark.parametrize(("tuck", "cautioned"), [("0 in", 0), ("5 in", 1), ("9 15/16 in", 1), ("10 in", 0)])
def test_a_tuck_too_small_for_pillows(tuck: str, cautioned: int) -> None:
    assert sum("pillows" in said for said in quilt(**QUEEN, tuck=tuck).cautions) == cautioned


def test_the_picture_is_the_bed_from_above() -> None:
    whole, mattress = quilt(**QUEEN, foot_drop="11 in", tuck="10 in").answer.picture
    assert isinstance(whole, Rect)
    assert isinstance(mattress, Rect)
    assert (whole.width, whole.height) == (86, 101)
    assert (mattress.x, mattress.y, mattress.width, mattress.height) == (13, 10, 60, 80)
    assert whole.height - mattress.y - mattress.height == 11  # below the mattress hangs the foot


@pytest.mark.parametrize(
    ("said", "named"),
    [({"bed": "US emperor"}, "bed"), ({"drop": "-1 in"}, "drop"), ({"drop": "61 in"}, "drop"),
     ({"drop": ""}, "drop"),
     ({"mattress_width": "9 in"}, "mattress_width"), ({"mattress_length": "201 in"}, "mattress_length"),
     ({"mattress_depth": "0 in"}, "mattress_depth"), ({"foot_drop": "-1 in"}, "foot_drop"),
     ({"tuck": "61 in"}, "tuck"), ({"take_up": "31 %"}, "take_up")],
)  # fmt: skip
def test_beyond_the_limits_the_given_is_named(said: dict[str, Any], named: str) -> None:
    with pytest.raises(Cannot) as caught:
        quilt(**{**QUEEN, **said})
    assert caught.value.given == named


@settings(max_examples=100, deadline=None)
@given(
    bed=st.sampled_from(list(BEDS.rows)), drop=st.integers(0, 480).map(lambda n: Fr(n, 8)),
    foot=st.none() | st.integers(0, 480).map(lambda n: Fr(n, 8)), tuck=st.integers(0, 60),
    take_up=st.integers(0, 60).map(lambda n: Fr(n, 2)),
)  # fmt: skip
def test_quilted_it_covers_the_bed_and_one_step_less_would_not(
    bed: str, drop: Fr, foot: Fr | None, tuck: int, take_up: Fr
) -> None:
    more = {} if foot is None else {"foot_drop": foot}
    worked = quilt(bed=bed, drop=drop, tuck=f"{tuck} in", take_up=f"{take_up} %", **more)
    row: Any = BEDS.row(bed)
    wanted = row["width"] + drop + drop, row["length"] + (drop if foot is None else foot) + tuck
    for made, covered in zip(size(worked), wanted, strict=True):
        assert made * (100 - take_up) >= 100 * covered
        assert (made - Fr(1, 16)) * (100 - take_up) < 100 * covered


def test_it_keeps_the_contract() -> None:
    check(bed_size, tables=[BEDS], **QUEEN, foot_drop="10 in", tuck="10 in", take_up="3 %")


def test_every_row_of_the_table_reads_and_has_its_source() -> None:
    assert BEDS.problem() is None
    for name in BEDS.rows:
        row: Any = BEDS.row(name)
        assert row["width"] <= row["length"]
        assert row["infant"] is (True if "crib" in name or "cot" in name else None)


# The questions ------------------------------------------------------------------------------------


def in_a_project(
    at: int, bed: dict[str, object], block: dict[str, object], top: dict[str, object]
) -> Workbook:
    """A question's tabs as the shell would add them, with what a person types."""
    typed: dict[str, dict[str, object]] = {"Bed": bed, "Blocks": block, "Top": top}
    project = Project(settings={"units": "inches"})
    for fabric in ("Border", "Binding", "Backing"):
        project = add_fabric(project, fabric)
    for name, calculator, said in (FOR_A_BED, FOR_A_BED_ON_POINT)[at].tabs:
        project = add_tab(project, name, calculator, {**said, **typed.get(name, {})})
    with Host.load() as host:
        return Workbook(host, project)


def everything_found(book: Workbook) -> dict[str, Any]:
    for tab in book.project.tabs:
        result = book.results[tab.key]
        assert result.state == "worked out", (tab.name, result.troubles)
    return {tab.name: book.results[tab.key].found for tab in book.project.tabs}


def test_a_queen_bed_from_nine_inch_blocks_at_least_covering() -> None:
    """The whole question: drop 13 in, 9 in blocks; typed are the bed, the drop and the block."""
    block: dict[str, object] = {"block_width": "9 in", "block_height": "9 in"}
    found = everything_found(in_a_project(0, {**QUEEN}, {"block_width": "9 in"}, block))
    assert (found["Blocks"]["across"], found["Blocks"]["down"], found["Blocks"]["border_sides"]) == (
        9,
        10,
        Fr(5, 2),
    )
    assert (found["Top"]["width"], found["Top"]["height"]) == (81, 90)
    # The borders make what the grid promised, and binding, backing and batting go round that.
    for side in ("width", "height"):
        assert found["Borders"][side] == found["Blocks"][side] >= found["Bed"][side]
    assert (found["Borders"]["width"], found["Borders"]["height"]) == (86, 95)
    assert found["Binding"]["length"] >= 2 * (86 + 95)
    assert found["Backing"]["backing_height"] >= 95 + 8
    assert found["Batting"]["package"]


def test_the_same_on_point() -> None:
    found = everything_found(in_a_project(1, {**QUEEN}, {"block_width": "9 in"}, {"block": "9 in"}))
    for side in ("width", "height"):
        assert found["Borders"][side] == found["Blocks"][side] >= found["Bed"][side]


def test_a_start_names_real_calculators_givens_and_founds() -> None:
    modules: list[Any] = [
        e.load() for e in entry_points(group="boltend.plugins") if e.dist and e.dist.name == "boltend"
    ]
    specs = {c.spec.name: c.spec for module in modules for c in module.boltend_calculators()}
    starts = boltend_starts()
    assert FOR_A_BED in starts
    assert FOR_A_BED_ON_POINT in starts
    for start in starts:
        before: dict[str, str] = {}
        for tab, calculator, givens in start.tabs:
            for name, value in givens.items():
                assert specs[calculator].given(name) is not None
                cells = value if isinstance(value, list) else [{name: value}]
                for link in [v for row in cells for v in row.values() if isinstance(v, dict)]:
                    assert specs[before[link["from"]]].found(link["take"]) is not None
            before[tab] = calculator
