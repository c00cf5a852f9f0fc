"""Quilts for beds, worked by hand, and what they warn of."""

from fractions import Fraction as Fr

import pytest

from boltend.plugin import Cannot
from boltend.testing import work
from boltend_quilt_setting.bed_size import bed_size
from boltend_quilt_setting.beds import BEDS


def test_a_queen_bed_with_a_drop_of_thirteen() -> None:
    # 60 + 26 = 86 and 80 + 13 = 93
    worked = work(bed_size, tables=[BEDS], bed="US queen", drop="13 in")
    assert (worked.found["width"], worked.found["height"]) == (86, 93)


def test_a_tuck_and_a_drop_of_its_own_at_the_foot() -> None:
    worked = work(bed_size, tables=[BEDS], bed="US queen", drop="13 in", foot_drop="0 in", tuck="10 in")
    assert (worked.found["width"], worked.found["height"]) == (86, 90)


def test_what_quilting_takes_up_is_divided_out() -> None:
    worked = work(bed_size, tables=[BEDS], bed="US queen", drop="13 in", take_up="3 %")
    assert worked.unrounded["width"] == Fr(86) / Fr(97, 100)
    assert worked.found["width"] == Fr(1419, 16)  # 88.66, up to the sixteenth: 88 11/16


def test_a_drop_under_the_mattress_is_warned_of() -> None:
    shallow = work(bed_size, tables=[BEDS], mattress_width="60 in", mattress_length="80 in",
                   mattress_depth="12 in", drop="10 in")  # fmt: skip
    assert any("depth" in said or "deep" in said for said in shallow.cautions)
    deep = work(bed_size, tables=[BEDS], mattress_width="60 in", mattress_length="80 in",
                mattress_depth="12 in", drop="13 in")  # fmt: skip
    assert not any("depth" in said or "deep" in said for said in deep.cautions)


def test_a_crib_says_the_safe_sleep_caution() -> None:
    (crib,) = (name for name in BEDS.rows if name == "US crib")
    worked = work(bed_size, tables=[BEDS], bed=crib, drop="0 in")
    said = " ".join(worked.cautions)
    assert "twelve months" in said
    queen = work(bed_size, tables=[BEDS], bed="US queen", drop="13 in")
    assert "twelve months" not in " ".join(queen.cautions)


def test_no_bed_and_no_size_says_what_would_do() -> None:
    with pytest.raises(Cannot):
        work(bed_size, tables=[BEDS], drop="13 in")
