"""A set on point in numbers that can be followed with a pencil."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import ROOT2, Cannot, Piece, Run, Surd, cut, line
from boltend.testing import Worked, work
from boltend_quilt_setting import boltend_starts
from boltend_quilt_setting.on_point import on_point


def top(**given: Any) -> Worked:
    return work(on_point, **{"block": "9 in", "across": 3, "down": 4, **given})


def said(worked: Worked, *words: str) -> bool:
    """Whether one line of the working says all of it."""
    return any(all(word in each for word in words) for each in worked.working)


EDGES = [
    ("points", "43.84", Fr(7), "3.536"),
    ("cornerstone centres", "46.67", Fr(9), "6.364"),
    ("sash all round", "49.50", Fr(11), "9.192"),
]


@pytest.mark.parametrize(("edge", "width", "side_leg", "corner_leg"), EDGES)
def test_the_three_edges_of_a_sashed_top(edge: str, width: str, side_leg: Fr, corner_leg: str) -> None:
    """Block 9, sash 2, 3 × 4: measured on a lattice that was built by hand; common practice, no source."""
    worked = top(sash="2 in", edge=edge)
    assert f"{float(worked.unrounded['width']):.2f}" == width  # type: ignore[arg-type]  # a number
    assert said(worked, "long side of a side triangle", f"{float(side_leg * ROOT2):.3f}")
    assert said(worked, "short side of a corner triangle", corner_leg)


def test_without_a_sash_the_constants_are_the_known_ones() -> None:
    worked = top(block="12 in")
    assert said(worked, "side square by the trade's constants = 1.414 × 12 in + 1 1/4 in seams = 18.218 in")
    assert said(
        worked, "side square, exact least", "≈ 16.971 in + ≈ 1.207 in = ≈ 18.178 in", "up to 18 1/4 in"
    )
    assert said(
        worked, "corner square by the trade's constants = 12 in ÷ 1.414 + 7/8 in seams", "cut 9 3/8 in"
    )
    assert (worked.found["side_square"], worked.found["corner_square"]) == (Fr(73, 4), Fr(75, 8))


@pytest.mark.parametrize("block", [4, 7, 10, 13])
def test_the_exact_least_is_an_eighth_smaller_where_the_constants_just_miss_it(block: int) -> None:
    worked = top(block=f"{block} in")
    cut: Any = worked.found["side_square"]
    least = cut - Fr(1, 8)
    assert least >= block * ROOT2 + Fr(1, 2) * (1 + ROOT2)
    text = f"{int(least)} {least - int(least)} in".replace(" 0 in", " in")
    assert said(worked, "side square, exact least", f"up to {text}")


def test_the_constants_never_fall_below_the_exact_least() -> None:
    # 1.414 is short of √2. Seams of 3/4 in take 3.621 in, and 3 5/8 leaves hardly anything over, so that the
    # constants give 31.37475, up to 31 3/8 in, where 31.37526 in is needed.
    worked = top(block="19 5/8 in", settings={"seam": "3/4 in"})
    block = Fr(157, 8)
    assert block * Fr(1414, 1000) + Fr(29, 8) < Fr(251, 8) < block * ROOT2 + Fr(3, 2) * (1 + ROOT2)
    assert worked.found["side_square"] == Fr(63, 2)


def test_other_seams_have_other_constants() -> None:
    worked = top(settings={"seam": "3/8 in"})
    assert said(worked, "side square by the trade's", "+ 1 7/8 in seams")
    assert said(worked, "corner square by the trade's", "+ 1 3/8 in seams")
    metric = top(block="24 cm", units="centimetres")
    assert said(metric, "side square by the trade's", "+ 2.9 cm seams")  # 6 mm: 28.97 mm
    assert said(metric, "corner square by the trade's", "+ 2.1 cm seams")  # 20.49 mm


def test_a_float_widens_the_top_and_both_squares_by_two_floats() -> None:
    plain, floating = top(), top(float="1 in")
    for name in ("width", "height", "side_square", "corner_square"):
        assert floating.unrounded[name] - plain.unrounded[name] == 2  # type: ignore[operator]  # numbers


def test_oversize_goes_on_the_squares_only() -> None:
    plain, larger = top(), top(oversize="1/2 in")
    for name in ("side_square", "corner_square"):
        assert larger.unrounded[name] - plain.unrounded[name] == Fr(1, 2)  # type: ignore[operator]  # numbers
    assert larger.found["width"] == plain.found["width"]
    assert said(larger, "with 1/2 in oversize: cut 14 1/2 in")


def test_what_is_cut_for_a_top_with_cornerstones() -> None:
    worked = top(
        sash="2 in", setting_fabric="ink", sash_fabric="oat", cornerstone_fabric="rust", inner_fabric="milk"
    )
    # The blocks are 3 and 4 times 9 + 2 in on point, and a seam on each side: 33√2 + 1/2 by 44√2 + 1/2.
    raw = [cut(Fr(1, 2) + n * ROOT2) for n in (33, 44)]
    later = line("trim the edges of the sewn top straight, to {} × {}", *raw)
    assert worked.answer.pieces == [
        Piece("side square", Fr(14), Fr(14), 3, "ink", made_from="quarter", later=later),
        Piece("corner square", Fr(29, 4), Fr(29, 4), 2, "ink", made_from="half", later=later),
        Piece("inner block", Fr(19, 2), Fr(19, 2), 6, "milk"),
        Piece("sash", Fr(5, 2), Fr(19, 2), 48, "oat"),
        Piece("cornerstone", Fr(5, 2), Fr(5, 2), 17, "rust"),
        Piece("square for half cornerstones", Fr(33, 8), Fr(33, 8), 4, "rust", made_from="quarter"),
    ]
    assert said(worked, "squares of 2 7/8 in cut once (7 of them) would put the bias on the quilt's edge")


def test_blocks_of_ones_own_are_not_cut() -> None:
    assert {piece.name for piece in top().answer.pieces} == {"side square", "corner square"}


def test_long_sashes_without_cornerstones() -> None:
    # 2 × 3 of 10 in, sash 1, all round: rows of 1, 3, 3, 1 blocks; sash rows past 1, 3, 4, 3, 1 blocks.
    worked = top(block="10 in", across=2, down=3, sash="1 in", edge="sash all round", cornerstones=False)
    assert (worked.found["sashes"], worked.found["long_sashes"]) == (12, 5)
    long = [piece for piece in worked.answer.pieces if piece.name == "long sash"]
    # 1 block: 10 + 2 · 1 + 1/2; 3 blocks: 30 + 4 + 1/2; 4 blocks: 40 + 5 + 1/2, more than a strip of 42 in.
    assert long == [Piece("long sash", Fr(25, 2), Fr(3, 2), 2), Piece("long sash", Fr(69, 2), Fr(3, 2), 2)]
    later = line("join the strips of the long sashes to {} of {}", 1, cut(Fr(91, 2)))
    assert worked.answer.runs == [Run("long sashes", Fr(3, 2), (Fr(91, 2),), later=later)]


def test_long_sashes_of_several_lengths_are_each_joined_to_theirs() -> None:
    """The same of 14 in: 3 blocks are 42 + 4 + 1/2 in, twice; 4 blocks 56 + 5 + 1/2 in."""
    worked = top(block="14 in", across=2, down=3, sash="1 in", edge="sash all round", cornerstones=False)
    (run,) = worked.answer.runs
    words = "join the strips of the long sashes to {} of {}, {} of {}"
    assert run.later == line(words, 2, cut(Fr(93, 2)), 1, cut(Fr(123, 2)))


def test_a_long_sash_that_ends_on_the_slant_is_cut_longer() -> None:
    # Through the crossings' centres: 12 + 2 · 1/4 · (1 + √2) = 13.207.
    worked = top(block="10 in", across=2, down=2, sash="1 in", cornerstones=False)
    assert Piece("long sash", Fr(53, 4), Fr(3, 2), 2) in worked.answer.pieces


def test_sashes_that_run_out_at_the_points_are_cut_longer() -> None:
    # 3 × 4: 2 · (3 + 4) points, two sashes at each, the four at the corners with both ends: 24. 9 + 1.207.
    worked = top(sash="2 in", edge="points")
    assert Piece("sash", Fr(5, 2), Fr(19, 2), 24) in worked.answer.pieces
    assert Piece("sash to the edge", Fr(5, 2), Fr(41, 4), 24) in worked.answer.pieces
    assert (worked.found["cornerstone_count"], worked.found["half_cornerstones"]) == (17, 0)
    assert any("on the slant" in each for each in worked.cautions)


def test_short_sashes_between_long_ones_run_out_at_the_points_too() -> None:
    # 18 blocks and 6 rows make 24 short sashes; the two at each row's ends run out.
    worked = top(sash="2 in", edge="points", cornerstones=False)
    assert Piece("sash", Fr(5, 2), Fr(19, 2), 12) in worked.answer.pieces
    assert Piece("sash to the edge", Fr(5, 2), Fr(41, 4), 12) in worked.answer.pieces


@pytest.mark.parametrize(
    ("edge", "floating", "whole", "halves"),
    [
        ("points", "0 in", 17, 0), ("points", "1 in", 17, 14), ("points", "1 1/2 in", 31, 0),
        ("cornerstone centres", "0 in", 17, 14), ("cornerstone centres", "1/2 in", 31, 0),
        ("cornerstone centres", "2 in", 31, 0),
        ("sash all round", "0 in", 31, 0), ("sash all round", "1 in", 31, 0),
    ],
)  # fmt: skip
def test_cornerstones_at_the_edge_by_where_it_lies(edge: str, floating: str, whole: int, halves: int) -> None:
    # Sash 2: its half diagonal is 1.414, so a float of 1 from the points ends short of the centres.
    found = top(sash="2 in", edge=edge, float=floating).found
    assert (found["cornerstone_count"], found["half_cornerstones"]) == (whole, halves)


def test_an_edge_through_whole_cornerstones_says_so() -> None:
    assert any("cuts through the cornerstones" in each for each in top(sash="2 in", float="1/2 in").cautions)
    assert not any("cuts through" in each for each in top(sash="2 in", float="2 in").cautions)
    assert not any("cuts through" in each for each in top(sash="2 in", edge="sash all round").cautions)
    assert not any("slant" in each for each in top(sash="2 in").cautions)
    # Long sashes run out at the edge; half cornerstones 0.414 in inside their centres leave sashes that do.
    assert any("slant" in each for each in top(sash="2 in", cornerstones=False).cautions)
    assert any("slant" in each for each in top(sash="2 in", edge="points", float="1 in").cautions)


def test_a_single_block() -> None:
    worked = top(across=1, down=1)
    found = worked.found
    assert (found["blocks"], found["side_triangles"], found["side_square"], found["side_squares"]) == (
        1,
        0,
        None,
        0,
    )
    assert found["diagonal_rows"] == 1
    assert not any("side square" in each for each in worked.cautions), "nobody asked for it"
    assert [piece.name for piece in worked.answer.pieces] == ["corner square"]
    # Four sides of 9 in finished, 9 1/2 raw.
    assert (found["ditch_length"], found["seam_length"]) == (36, 38)


def test_a_single_column() -> None:
    worked = top(across=1)
    found = worked.found
    assert (found["blocks"], found["inner_blocks"], found["side_triangles"], found["diagonal_rows"]) == (
        4,
        0,
        6,
        4,
    )
    assert worked.unrounded["width"] == 9 * ROOT2


def test_seams_of_a_small_top() -> None:
    # 2 × 2 of 10 in: 4 · 2 · 2 sides of 10 in show. Sewn: 2 in the middle row, 4 side triangles, 2 row seams
    # of 30 in, 4 corners: 12 seams.
    found = top(block="10 in", across=2, down=2).found
    assert found["ditch_length"] == 160
    assert found["seam_length"] == 160 + 12 * Fr(1, 2)


def test_which_row_holds_what() -> None:
    worked = top()
    assert said(worked, "diagonal rows = 3 + 4 − 1 = 6")
    assert said(worked, "rows 1 to 2: 1, 3 blocks; a side triangle at each end")
    assert said(worked, "row 3: 5 blocks; a corner triangle at its upper right end")
    assert said(worked, "row 4: 5 blocks; a corner triangle at its lower left end")
    assert said(worked, "rows 5 to 6: 3, 1 blocks")
    square = top(across=3, down=3)
    assert said(square, "row 3: 5 blocks; a corner triangle at each end")
    long = top(across=2, down=6, sash="1 in", edge="sash all round")
    assert said(long, "rows 3 to 5: 3, 3, 3 blocks; a side triangle at each end")
    assert said(long, "rows 3 to 5 need one of each: sew one of them with a partial seam")
    assert said(long, "1, 3, 4, 4, 4, 4, 3, 1 sashes, a cornerstone between two of them, one at each end too")


def test_triangles_over_a_row_and_a_sash_row_only_outside_the_crossings() -> None:
    words = "sewn to its row and the end of one sash row"
    assert not said(top(sash="2 in"), words)
    assert not said(top(sash="2 in", edge="points", float="1 in"), words)
    assert not said(top(float="1 in"), words)
    outside = top(sash="2 in", edge="sash all round")
    assert said(outside, words, "before row 3 and at lower left ends before row 4")
    assert not said(outside, "partial seam")
    assert said(top(across=2, sash="2 in", edge="sash all round"), "row 3 needs one of each")


def test_many_rows_are_listed_short() -> None:
    worked = top(across=40, down=60)
    assert said(worked, "rows 1 to 39: 1, 3, 5, 7 … 73, 75, 77 blocks")
    assert len(worked.working) < 40


def test_a_large_top_is_drawn_row_by_row() -> None:
    assert len(top(across=40, down=30).answer.picture) == 69 + 2 * 39 + 2 * 29 + 4
    # 18 × 18 with a sash: 613 blocks, 1296 sashes and 684 cornerstones are more than 2000 only together.
    assert len(top(across=18, down=18, sash="1 in").answer.picture) == 35 + 36 + 4 * 17 + 4


def test_bias_is_warned_of() -> None:
    assert any("on the bias" in each and "bias edge underneath" in each for each in top().cautions)


def test_a_square_that_the_cloth_does_not_hold() -> None:
    assert any("does not fit a usable width" in each for each in top(block="30 in").cautions)
    assert not any("does not fit" in each for each in top(block="28 in").cautions)
    # A single block has no side square: 50 ÷ 1.414 + 7/8 fits.
    assert not any("does not fit" in each for each in top(block="50 in", across=1, down=1).cautions)


@pytest.mark.parametrize(
    ("given", "named"),
    [
        ({"sash": "4 1/2 in", "edge": "points"}, "sash"), ({"sash": "6 in", "edge": "points"}, "sash"),
        ({"float": "6 1/2 in"}, "float"),
    ],
)  # fmt: skip
def test_what_cannot_be_sewn(given: dict[str, str], named: str) -> None:
    with pytest.raises(Cannot) as caught:
        top(**given)
    assert caught.value.given == named


def test_what_can_just_be_sewn() -> None:
    top(sash="4 3/8 in", edge="points")
    top(float="6 1/4 in")  # less than 6.364, half of 9 · √2
    top(sash="6 in", edge="points", float="5 in")
    top(float="36 in", across=1, down=1)


def test_the_edge_without_a_sash_is_the_points() -> None:
    worked = top(edge="sash all round")
    assert worked.unrounded["width"] == Surd(0, 27)
    assert any("Without a sash" in each for each in worked.cautions)
    assert not any("Without a sash" in each for each in top(edge="points").cautions)


def test_a_start_asks_for_it() -> None:
    (start,) = (s for s in boltend_starts() if "on point" in s.question and "edges" in s.question)
    assert [calculator for _, calculator, _ in start.tabs] == ["on_point"]
