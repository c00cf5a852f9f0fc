"""What a set on point says of its own arithmetic: each number of a line worked by hand, √2 = 1.41421356."""

import re
from typing import Any

import pytest

from boltend.testing import Worked, work
from boltend_quilt_setting.on_point import on_point


def top(**given: Any) -> Worked:
    return work(on_point, **{"block": "9 in", "across": 3, "down": 4, **given})


def plainly(worked: Worked) -> list[str]:
    """The working, decimals of a quotient without a last 0: 7.24 and 7.240 are one number."""
    return [re.sub(r"(\.\d\d)0 in(?=[:,])", r"\1 in", said) for said in worked.working]


def test_a_sashed_top_is_told() -> None:
    # (9 + 2) · √2 = 15.5563; three are 46.6690, four 62.2254. 9 · √2 = 12.7279, half of it 6.3640.
    told = plainly(top(sash="2 in"))
    assert told[:17] == [
        "diagonal of a block = 9 in × √2 = ≈ 12.728 in finished",
        "each block is trimmed to 9 1/2 in cut, 4 3/4 in from its centre both ways: finished + 2 "
        "seams of 1/4 in",
        "from block to block along the edge (9 in + 2 in sash) × √2 = ≈ 15.556 in",
        "the edge lies through the centres of the outer crossings of the sashes",
        "width = 3 × ≈ 15.556 in = ≈ 46.669 in finished",
        "height = 4 × ≈ 15.556 in = ≈ 62.225 in finished",
        "raw edge to raw edge it measures ≈ 47.169 in × ≈ 62.725 in cut: finished + 2 seams of 1/4 in",
        "blocks = 3 × 4 + 2 × 3 inner ones = 18",
        "side triangles = 2 × 2 + 2 × 3 = 10, four a square: 3 squares, 2 to spare",
        "long side of a side triangle, on the quilt's edge = ≈ 12.728 in finished",
        "side square by the trade's constants = 1.414 × 9 in + 1 1/4 in seams = 13.976 in: cut 14 in",
        "side square, exact least = ≈ 12.728 in + ≈ 1.207 in = ≈ 13.935 in, up to 14 in",
        "corner triangles = 4, two a square: 2 squares",
        "short side of a corner triangle, on the quilt's edge = ≈ 6.364 in finished",
        "corner square by the trade's constants = 9 in ÷ 1.414 + 7/8 in seams = ≈ 7.24 in: cut 7 1/4 in",
        "corner square, exact least = ≈ 6.364 in + ≈ 0.854 in = ≈ 7.218 in, up to 7 1/4 in",
        "sashes = 4 × 3 × 4 = 48, each 2 1/2 in × 9 1/2 in cut",
    ]
    # Half cornerstones: 2.828 + 1 1/4 = 4.078, exact 4.036; squares cut once 2 + 0.854.
    assert told[17:21] == [
        "cornerstones inside = 2 × 3 × 4 − 3 − 4 = 17",
        "at the edge 2 × (3 + 4) = 14 half cornerstones, four a square: 4 squares",
        "their square = 1.414 × 2 in + 1 1/4 in seams = 4.078 in: cut 4 1/8 in; exact least 4 1/8 in",
        "cut twice on the diagonal, for a long side on the straight of grain; squares of 2 7/8 in "
        "cut once (7 of "
        "them) would put the bias on the quilt's edge",
    ]


def test_an_edge_at_the_points_is_told() -> None:
    # Half a diagonal of the sash, 1.4142, inside: 46.6690 − 2.8284. Corner: 6.3649 − 2.828 + 7/8 = 4.4119.
    told = top(sash="2 in", edge="points").working
    assert "the edge lies at the blocks' own points, ≈ 1.414 in inside the outer crossings' centres" in told
    assert "width = 3 × ≈ 15.556 in − 2 × ≈ 1.414 in = ≈ 43.841 in finished" in told
    assert (
        "side square by the trade's constants = 1.414 × 7 in + 1 1/4 in seams = 11.148 in: cut 11 1/4 in"
        in told
    )
    assert (
        "corner square by the trade's constants = 9 in ÷ 1.414 − 1.414 × 2 in + 7/8 in seams = ≈ "
        "4.412 in: cut "
        "4 1/2 in" in told
    )
    # Two at each of 14 points, but one less at each of four corners; 9 + 1.2071 long.
    assert "24 of them end on the slant at the edge: cut ≈ 10.207 in, and trimmed there" in told
    assert not any("half cornerstones" in said or "whole ones" in said for said in told)


def test_an_edge_all_round_is_told() -> None:
    told = top(sash="2 in", edge="sash all round").working
    place = "at the outer points of the crossings, ≈ 1.414 in outside the outer crossings' centres"
    assert f"the edge lies {place}" in told
    assert "width = 3 × ≈ 15.556 in + 2 × ≈ 1.414 in = ≈ 49.497 in finished" in told
    # 4 × 15.5563 + 2 × 1.4142 = 65.054; each and two seams of 1/4 in.
    raw = "raw edge to raw edge it measures ≈ 49.997 in × ≈ 65.554 in cut: finished + 2 seams of 1/4 in"
    assert raw in told
    assert (
        "side square by the trade's constants = 1.414 × 11 in + 1 1/4 in seams = 16.804 in: cut 16 7/8 in"
        in told
    )
    assert any(
        "9 in ÷ 1.414 + 1.414 × 2 in + 7/8 in seams = ≈ 10.068 in: cut 10 1/8 in" in said for said in told
    )
    assert "at the edge 2 × (3 + 4) = 14 whole ones: 31 in all, 2 1/2 in square cut" in told
    assert any("before row 3 and at lower left ends before row 4" in said for said in told)
    assert not any("one of each" in said for said in told)


@pytest.mark.parametrize(
    ("down", "said"),
    [
        (5, "row 4 needs one of each: sew one of them with a partial seam"),
        (6, "rows 4 to 5 need one of each: sew one of them with a partial seam"),
        (7, "rows 4 to 6 need one of each: sew one of them with a partial seam"),
    ],
)
def test_rows_with_a_partial_seam_are_told(down: int, said: str) -> None:
    # Rows between those of the two corners end at two edges that face each other.
    assert said in top(sash="2 in", edge="sash all round", down=down).working
    assert not any("one of each" in each for each in top(sash="2 in", down=down).working)


def test_a_float_and_an_oversize_are_told() -> None:
    told = plainly(top(float="1 in", oversize="1/2 in"))
    assert (
        "the edge lies at the blocks' own points, and 1 in of float outside that, 1 in outside the points"
        in told
    )
    assert "width = 3 × ≈ 12.728 in + 2 × 1 in = ≈ 40.184 in finished" in told
    # 12.726 + 2 + 1 1/4 = 15.976, and half an inch more 16.476; 6.3649 + 2 + 7/8 = 9.240, and 9.740.
    side = "1.414 × 9 in + 2 × 1 in float + 1 1/4 in seams = 15.976 in, with 1/2 in oversize: cut 16 1/2 in"
    assert f"side square by the trade's constants = {side}" in told
    corner = "9 in ÷ 1.414 + 2 × 1 in float + 7/8 in seams = ≈ 9.24 in, with 1/2 in oversize: cut 9 3/4 in"
    assert f"corner square by the trade's constants = {corner}" in told
    assert not any("the edge lies" in said for said in top().working)


def test_long_sashes_are_told() -> None:
    # Past 1, 3, 5, 6, 5, 3, 1 blocks: 13, 35, 57 and 68 with 2 in of sash at each end, and 1.2071 to trim.
    told = top(sash="2 in", cornerstones=False).working
    assert "short sashes = 18 blocks + 6 rows = 24, each 2 1/2 in × 9 1/2 in cut" in told
    assert (
        "long sashes = 6 rows + 1 = 7, the longest ≈ 69.207 in cut (with what is trimmed on the slant at the "
        "edge), ≈ 286.450 in together" in told
    )
    past = "past this many blocks: 1, 3, 5, 6, 5, 3, 1"
    assert f"a long sash lies before, between and after the rows, {past}" in told
    # All round nothing is trimmed: two seams.
    round_ = top(sash="2 in", cornerstones=False, edge="sash all round").working
    assert any("7, the longest 68 1/2 in cut (with 2 seams), 281 1/2 in together" in said for said in round_)


def test_the_sewing_order_is_told() -> None:
    told = top(sash="2 in").working
    at = told.index("diagonal rows = 3 + 4 − 1 = 6, each up to the right:")
    assert told[at + 1 : at + 5] == [
        "rows 1 to 2: 1, 3 blocks; a side triangle at each end",
        "row 3: 5 blocks; a corner triangle at its upper right end, sewn on last, a side triangle at "
        "the other",
        "row 4: 5 blocks; a corner triangle at its lower left end, sewn on last, a side triangle at "
        "the other",
        "rows 5 to 6: 3, 1 blocks; a side triangle at each end",
    ]
    assert any(
        "1, 3, 5, 6, 5, 3, 1 sashes, a cornerstone between two of them, a half one at each" in s for s in told
    )
    square = top(across=2, down=2).working
    assert "row 2: 3 blocks; a corner triangle at each end, sewn on last" in square
    assert "row 1: 1 block; a side triangle at each end" in square
    # Of twelve rows before the corner's the first four and the last three counts.
    assert any(": 1, 3, 5, 7 … 19, 21, 23 blocks;" in said for said in top(across=13, down=13).working)


def test_a_sash_between_steps_is_told() -> None:
    said = "sashes 2 9/16 in wide are cut 2 5/8 in, up to the cutting step, and trimmed to 2 9/16 in"
    assert said in top(sash="2 1/16 in").working
    assert not any("up to the cutting step" in each for each in top(sash="2 in").working)


CUTS = "The edge cuts through the cornerstones ≈ 0.914 in inside their points: there it is on the bias."
SLANT = "Sashes end on the slant at the edge"
POINTS = "Without a sash the edge lies at the blocks' points, whichever edge is asked for."


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({}, None),
        ({"edge": "points"}, None),
        ({"edge": "sash all round"}, POINTS),
        ({"sash": "2 in"}, None),  # half cornerstones, with their long side on the straight of grain
        ({"sash": "2 in", "edge": "sash all round"}, None),
        ({"sash": "2 in", "float": "1/2 in"}, CUTS),  # 1.4142 − 1/2
        ({"sash": "2 in", "edge": "points"}, SLANT),
        ({"sash": "2 in", "edge": "points", "float": "1/2 in"}, SLANT),
        ({"sash": "2 in", "cornerstones": False}, SLANT),
    ],
)
def test_what_the_edge_cuts_is_cautioned(given: dict[str, Any], said: str | None) -> None:
    told = [each for each in top(**given).cautions if "edge" in each and "The short sides" not in each]
    assert len(told) == (said is not None)
    assert all(each.startswith(said or "") for each in told)


def test_a_square_that_is_wider_than_the_cloth_is_cautioned() -> None:
    # 28 · 1.414 + 1 1/4 = 40.842, cut 40 7/8; 29 · 1.414 + 1 1/4 = 42.256, cut 42 3/8.
    assert not any("does not fit" in said for said in top(block="28 in").cautions)
    words = "A square of 42 3/8 in does not fit a usable width of 42 in: take a wider cloth, or piece it."
    assert words in top(block="29 in").cautions


def test_a_single_block_has_corners_only() -> None:
    single = top(across=1, down=1)
    assert "a single block has corner triangles only" in single.working
    assert not any("has no value" in said for said in top().cautions)
    assert (single.found["side_triangles"], single.found["side_squares"]) == (0, 0)


def test_nine_counts_are_told_and_of_more_the_first_and_the_last() -> None:
    # Rows before that of the corners: nine of a set of ten by ten, ten of one of eleven by eleven.
    assert any(": 1, 3, 5, 7, 9, 11, 13, 15, 17 blocks;" in said for said in top(across=10, down=10).working)
    assert any(": 1, 3, 5, 7 … 15, 17, 19 blocks;" in said for said in top(across=11, down=11).working)
