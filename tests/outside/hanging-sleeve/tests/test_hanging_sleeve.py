"""By hand, through the door, and against the whole contract."""

from fractions import Fraction

import pytest
from boltend.plugin import Cannot
from boltend.testing import check, load, work

from hanging_sleeve import hanging_sleeve


def test_by_hand() -> None:
    worked = work(hanging_sleeve, width="60 in")
    # 2 × 4 in and 1/2 in ease and two seams of 1/4 in; 60 in less 1 in a side, and four turns of 1/2 in
    assert worked.found == {"strip_width": 9, "section_length": 60, "finished_length": 58}


def test_two_sections_leave_a_gap_for_the_bracket() -> None:
    worked = work(hanging_sleeve, width="80 in", sections=2)
    assert worked.found["finished_length"] == 38  # (80 − 2 − 2) ÷ 2
    (run,) = worked.answer.runs
    assert run.width == 9
    assert list(run.wants) == [40, 40]


def test_what_is_cut_goes_round_the_tube_and_along_it() -> None:
    worked = work(hanging_sleeve, width="51 3/8 in", depth="3 1/4 in", settings={"seam": "3/8 in"})
    assert worked.found["strip_width"] == Fraction("7.75")  # 6 1/2 + 1/2 + 3/4
    assert worked.found["section_length"] == Fraction(51, 1) + Fraction(3, 8)


def test_no_room() -> None:
    with pytest.raises(Cannot) as refused:
        work(hanging_sleeve, width="10 in", sections=6)
    assert refused.value.given == "sections"


def test_the_door() -> None:
    assert list(load("hanging-sleeve")) == ["hanging_sleeve"]


def test_the_contract() -> None:
    check(hanging_sleeve, width="60 in")
