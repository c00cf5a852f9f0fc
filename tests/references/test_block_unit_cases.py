"""Published cutting sizes of units, read from the file of check values when the test runs."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.testing import work
from boltend_block_units.geese import flying_geese
from boltend_block_units.half_square import half_square_triangles
from boltend_block_units.quarter_square import quarter_square_triangles
from boltend_block_units.square_in_square import square_in_square
from boltend_shared import Case, cases

CASES = {case.id: case for case in cases("hst", "qst", "flying_geese", "square_in_a_square", "rounding_rule")}

NOT_HELD_AGAINST_US = {
    "formulas-combs": "A rule in words; its + 7/8 and + 1 1/4 are run as numbers by the cases beside it.",
    "round-msqc": "A rule of a shop that sells by the quarter yard: the shop's step is a setting.",
    "round-apq": "Observed by the collector, not printed; it is where the default step of 1/8 yd comes from.",
}
"""Cases that are no check value, by id, each with the reason."""


def named(key: str) -> str:
    source = CASES[key].source
    return f"{key} ({source.title}, {source.publisher}, {source.year})"


def pairs(case: Case, where: Any) -> list[tuple[Fraction, Fraction]]:
    return [(Fraction(a), Fraction(b)) for a, b in where["pairs"]]


def square(calculator: Any, finished: Fraction, **more: Any) -> Any:
    return work(calculator, finished_size=f"{finished} in", count=8, **more).found


def two_at_a_time(case: Case) -> None:
    for finished, cut in pairs(case, case.expected):
        assert square(half_square_triangles, finished)["square"] == cut


def oversize(calculator: Any, more: str, method: str) -> Any:
    def run(case: Case) -> None:
        for finished, cut in pairs(case, case.expected):
            found = square(calculator, finished, oversize=more, method=method)
            assert found["square"] == cut
            assert found["trim_to"] == finished + Fraction(1, 2)

    return run


def eight_at_a_time(case: Case) -> None:
    for finished, cut in pairs(case, case.expected):
        assert square(half_square_triangles, finished, method="eight at a time")["square"] == cut


def trimmed(case: Case) -> None:
    """Trimmed units are smaller than their squares give: as much oversize as they have left makes them."""
    for cut, trim_to in zip(case.inputs["cut_squares"], case.expected["trim_to"], strict=True):
        finished = Fraction(trim_to) - Fraction(1, 2)
        spare = Fraction(cut) - finished - Fraction(7, 8)
        found = square(half_square_triangles, finished, oversize=f"{spare} in")
        assert (found["square"], found["trim_to"]) == (cut, trim_to)


def from_a_precut(case: Case) -> None:
    finished = Fraction(case.expected["finished_unit"])
    assert square(half_square_triangles, finished)["square"] <= case.inputs["cut_square"]
    count = case.expected["quilt"][0] // finished * (case.expected["quilt"][1] // finished)
    found = work(half_square_triangles, finished_size=f"{finished} in", count=int(count)).found
    assert found["squares"] <= case.inputs["pairs"]  # type: ignore[operator]  # both are counts


def geese(case: Case) -> None:
    for height, width, small, large in case.expected["rows"]:
        assert Fraction(height) * 2 == width
        found = work(flying_geese, finished_width=f"{Fraction(width)} in", count=4).found
        assert (found["small_square"], found["large_square"]) == (small, large)


def round_a_centre(case: Case) -> None:
    """From the centre: the block round a finished centre c is c·√2 wide."""
    centre = case.inputs["center_finished"]
    found = work(square_in_square, method="from the centre", finished_size=f"{centre} in", count=1).found
    assert found["corner_square"] == case.expected["corner_square_cut"]


RUN: dict[str, Any] = {
    "hst-plus-7-8": two_at_a_time,
    "hst-oversize": oversize(half_square_triangles, "1/4 in", "two at a time"),
    "hst-eight-at-a-time": eight_at_a_time,
    "hst-trim-moda": trimmed,
    "hst-from-5in": from_a_precut,
    "qst-oversize": oversize(quarter_square_triangles, "1/4 in", "hourglass two at a time"),
    "geese-table": geese,
    "sis-onpoint-block": round_a_centre,
}


@pytest.mark.parametrize("key", RUN, ids=named)
def test_the_printed_size_is_found(key: str) -> None:
    RUN[key](CASES[key])


def test_every_case_runs_or_has_its_reason() -> None:
    assert {key for key, case in CASES.items() if case.agrees} == set(RUN)
    assert {key for key, case in CASES.items() if not case.agrees} == set(NOT_HELD_AGAINST_US)
