"""Block units in published patterns: what print cuts for them, against the calculators of units.

Of the pattern cases only three tell what their blocks are sewn from; it stands in the case's own inputs and,
where the file tells of it only there, in the note of its collector. Each test says what is inferred.
"""

import re
from fractions import Fraction
from typing import Any

import pytest
from pattern_quilt import from_bolt

from boltend.testing import Worked, work
from boltend_block_units.framed import framed_square
from boltend_block_units.strip_grid import strip_pieced_grid
from boltend_borders_binding.borders import borders
from boltend_quilt_setting.straight_set import straight_set
from boltend_shared import Case, cases

CASES = {case.id: case for case in cases("pattern")}


def source(key: str) -> str:
    """Where a case was printed, as the name of its test."""
    printed = CASES[key].source
    return f"{key} ({printed.title}, {printed.publisher}, {printed.year})"


def noted(case: Case, words: str) -> tuple[Fraction, ...]:
    """The numbers of the note of a case where it reads so; `#` stands for a number."""
    (match,) = re.finditer(re.escape(words).replace(r"\#", r"(\d+(?:\.\d+)?)"), case.note)
    return tuple(map(Fraction, match.groups()))


def framed(centre: str, *widths: Fraction, count: int) -> Worked:
    """Squares in frames of strips of these finished widths."""
    rows = [{"width": f"{width} in"} for width in widths]
    return work(framed_square, centre=centre, rounds=rows, count=count)


def fast_flowers() -> tuple[Case, Worked]:
    """24 middles of 10 1/2 in raw in frames of 1 1/2 in: those four that one of six fabrics frames."""
    case = CASES["pat-fast-flowers"]
    raw, width, _ = noted(case, "# raw + 2*# = # finished")
    return case, framed(f"{raw} in cut", width, count=case.expected["blocks"] // 6)


@pytest.mark.parametrize("key", ["pat-fast-flowers"], ids=source)
def test_framed_blocks_make_the_printed_quilt(key: str) -> None:
    case, worked = fast_flowers()
    each: Any = worked.found["each"]
    side = each[0]["after"]
    assert side == case.inputs["block"]
    top: Any = work(
        straight_set, block_width=f"{side} in", block_height=f"{side} in", across=case.inputs["across"],
        down=case.inputs["down"],
    ).found  # fmt: skip
    rows = [{"width": f"{width} in"} for width in case.inputs["borders_finished"]]
    bordered: Any = work(
        borders, top_width=f"{top['width']} in", top_height=f"{top['height']} in", borders=rows
    ).found
    assert [bordered["width"] + Fraction(1, 2), bordered["height"] + Fraction(1, 2)] == case.expected[
        "finished"
    ]


@pytest.mark.parametrize("key", ["pat-fast-flowers"], ids=source)
def test_the_printed_yards_of_a_frame_are_enough_for_ours(key: str) -> None:
    """That each of the six fabrics frames four of the 24 blocks is inferred."""
    case, worked = fast_flowers()
    frames = [(p.across, p.along, p.count) for p in worked.answer.pieces if p.name != "centre square"]
    assert 0 < from_bolt(frames) <= Fraction(case.expected["yards"]["frames each of 6"]) * 36


@pytest.mark.parametrize("key", ["pat-polly"], ids=source)
def test_the_middle_of_a_block_in_two_frames_is_cut_as_printed(key: str) -> None:
    """Its borders' strips differ (see test_pattern_cases), its blocks do not: 7.5 and two frames make 11."""
    case = CASES[key]
    core, inner, outer, block = noted(case, "Block #+#+#=#")
    assert block == case.inputs["block"]
    found: Any = framed(
        f"{block - inner - outer} in", inner / 2, outer / 2, count=case.expected["blocks"]
    ).found
    assert found["centre_square"] == case.expected["block_core_cut"] == core + Fraction(1, 2)
    assert found["centre_squares"] == case.expected["blocks"]
    assert found["trim_to"] == block + Fraction(1, 2)


@pytest.mark.parametrize("key", ["pat-crib"], ids=source)
def test_a_chequered_grid_has_the_printed_patches(key: str) -> None:
    """65 and 60 squares are five chequered blocks of 13 and 12: inferred, five of its nine blocks."""
    case = CASES[key]
    dark, light, cornerstones = noted(case, "# + # + # squares 2.5")
    assert cornerstones == case.expected["cornerstones"]
    worked = work(
        strip_pieced_grid, finished_size=f"{case.inputs['block']} in", patches=5, count=5, squaring="0 in"
    )
    size: Any = worked.found["strip_width"]
    assert size == Fraction(5, 2)
    patches = {run.name: sum(run.wants) / size for run in worked.answer.runs}
    assert patches == {"dark strip": dark, "light strip": light}
