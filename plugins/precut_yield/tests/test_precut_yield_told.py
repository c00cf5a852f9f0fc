"""What precuts and blocks in hand say of their own arithmetic: each number of a line worked by hand."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.testing import Worked, work
from boltend_precut_yield.fabric_in_hand import fabric_in_hand
from boltend_precut_yield.precut_plan import precut_plan
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS


def squares(**said: Any) -> Worked:
    """Squares of 4 in out of a pack of 10 in squares."""
    plain = {"precut": "10 in square pack", "piece_width": "4 in", "piece_height": "4 in"}
    return work(precut_yield, tables=[PRECUTS], **{**plain, **said})


def test_four_inch_squares_are_told() -> None:
    # 2 × 2 of them; 100 ÷ 16 = 6.25 by area; beside them 2 × 10, below them 8 × 2.
    worked = squares(pieces_wanted=100)
    assert worked.working == [
        "One piece of 10 in square pack is 10 in × 10 in.",
        "2 × 2 = 4 pieces of 4 in × 4 in lie in 10 in × 10 in.",
        "4 pieces by cuts from edge to edge; 4 if all lie alike; no more than 6 by area.",
        "Left over of each: 2 in × 10 in.",
        "Left over of each: 8 in × 2 in.",
        "4 from each precut: 100 pieces in all.",
        "100 pieces wanted: 25 precuts.",
        "25 precuts in layers of at most 8: 4 stacks.",
        "25 precuts come in 1 pack of 42, with 17 to spare.",
    ]
    assert worked.cautions == []
    assert (worked.found["spare"], worked.found["stacks"], worked.found["used"]) == (0, 4, 64)
    assert worked.unrounded["leftover"] == 36


def test_several_packs_are_told() -> None:
    assert "75 precuts come in 2 packs of 42, with 9 to spare." in squares(pieces_wanted=300).working
    assert "42 precuts come in 1 pack of 42." in squares(pieces_wanted=168).working
    assert "43 precuts come in 2 packs of 42, with 41 to spare." in squares(pieces_wanted=169).working
    quarter = squares(precut="fat quarter", pieces_wanted=100).working  # cut singly
    assert not any("come in" in said for said in quarter)
    own = {"precut_width": "10 in", "precut_length": "10 in", "piece_width": "4 in", "piece_height": "4 in"}
    assert not any("come in" in said for said in work(precut_yield, tables=[PRECUTS], **own).working)
    # What is in hand comes in no pack any more.
    assert not any("come in" in said for said in squares(pieces_wanted=168, precuts=50).working)


def test_too_few_in_hand_and_more_than_enough_are_told() -> None:
    few = squares(pieces_wanted=100, precuts=20)
    assert few.cautions == ["The precuts in hand make 80 pieces, 20 short of the 100 wanted."]
    assert "20 precuts in layers of at most 8: 3 stacks." in few.working
    assert (few.found["pieces"], few.found["spare"]) == (80, 0)
    many = squares(pieces_wanted=100, precuts=30)
    assert many.cautions == []
    assert "25 precuts in layers of at most 8: 4 stacks." in many.working  # only those needed are cut
    assert (many.found["pieces"], many.found["spare"]) == (120, 20)


def test_without_a_number_wanted_all_in_hand_are_cut() -> None:
    worked = squares(precuts=30)
    assert worked.cautions == ["How many precuts are needed is told once the pieces wanted are given."]
    assert "4 from each precut: 120 pieces in all." in worked.working
    assert "30 precuts in layers of at most 8: 4 stacks." in worked.working
    assert not any("wanted:" in said for said in worked.working)


def test_squaring_is_told() -> None:
    # A quarter off each way leaves 9 3/4; 95 1/16 less 64 is 31 1/16.
    worked = squares(squaring="1/4 in")
    assert worked.working[1] == "Squared by 1/4 in in each direction: 9 3/4 in × 9 3/4 in are left."
    assert worked.unrounded["leftover"] == Fr(497, 16)
    assert not any("Squared" in said for said in squares().working)


def planned(*cuts: dict[str, Any], **said: Any) -> Worked:
    return work(precut_plan, tables=[PRECUTS], cuts=list(cuts), precut="10 in square pack", **said)


PATCH = {"name": "patch", "width": "5 in", "height": "5 in", "count": 2}


def test_sets_out_of_one_precut_are_told() -> None:
    worked = planned(PATCH, blocks_wanted=5)
    assert worked.working[1:3] == [
        "A set has 2 patch of 5 in × 5 in.",
        "2 whole sets come out of one precut; area promises 2.",
    ]
    assert "2 from each precut: 6 blocks in all." in worked.working
    assert "5 blocks wanted: 3 precuts." in worked.working
    assert worked.cautions == []
    one = planned({**PATCH, "count": 3})
    assert "1 whole set comes out of one precut; area promises 1." in one.working
    assert one.found["used"] == 75


def test_a_set_out_of_two_precuts_is_told() -> None:
    # Six of 5 in, four a precut: two precuts a set, 150 of their 200 sq in.
    six = planned({**PATCH, "count": 6}, precuts=5)
    assert "One set comes out of 2 precuts." in six.working
    assert "1 from each 2 precuts: 2 blocks in all." in six.working
    assert (
        "4 precuts in layers of at most 8: 2 stacks." in six.working
    )  # two that are cut in one way, two in another
    assert "A set does not come out of one precut: it takes 2, of one fabric or several." in six.cautions
    assert (six.found["used"], six.found["sets_each"]) == (75, 0)
    assert planned({**PATCH, "count": 6}, blocks_wanted=3).found["precuts_needed"] == 6


@pytest.mark.parametrize(
    ("precuts", "cut", "stacks", "blocks"), [(5, 4, 2, 2), (6, 6, 2, 3), (9, 6, 2, 4), (1, 0, 0, 0)]
)
def test_of_those_in_hand_only_whole_sets_are_cut(precuts: int, cut: int, stacks: int, blocks: int) -> None:
    # Two precuts a set and three sets wanted: six. Of five in hand the fifth makes no set; of nine six do.
    six = planned({**PATCH, "count": 6}, precuts=precuts, blocks_wanted=3)
    assert "3 blocks wanted: 6 precuts." in six.working
    assert f"{cut} precuts in layers of at most 8: {stacks} stacks." in six.working
    assert (six.found["blocks"], six.found["stacks"]) == (blocks, stacks)


def test_pieces_of_one_name_are_told_apart() -> None:
    worked = planned(PATCH, {**PATCH, "count": 1})
    rows: Any = worked.found["cuts_out"]
    assert [(row["name"], row["in_a_set"]) for row in rows] == [("patch", 2), ("patch (2)", 1)]


def in_hand(**said: Any) -> Worked:
    return work(fabric_in_hand, **{"blocks": 31, "block_width": "9 in", "block_height": "7 in", **said})


@pytest.mark.parametrize(
    ("said", "width", "height"),
    [
        ({}, "5 × 9 in = 45 in", "6 × 7 in = 42 in"),
        ({"sash": "1 in"}, "5 × 9 in + 4 × 1 in sash = 49 in", "6 × 7 in + 5 × 1 in sash = 47 in"),
        ({"border": "3 in"}, "5 × 9 in + 2 × 3 in border = 51 in", "6 × 7 in + 2 × 3 in border = 48 in"),
    ],
)
def test_a_grid_tells_its_size(said: dict[str, str], width: str, height: str) -> None:
    # Thirty blocks of 9 × 7 in five across and six down are nearest to square with one left over.
    working = in_hand(**said).working
    assert working[:3] == [
        "5 across × 6 down = 30 blocks, 1 left over",
        f"width = {width} finished",
        f"height = {height} finished",
    ]


def test_a_border_that_is_only_allowed_for_is_told() -> None:
    worked = in_hand(border="3 in")
    assert (worked.found["width"], worked.found["top_width"]) == (51, 45)
    assert (worked.found["height"], worked.found["top_height"]) == (48, 42)
    (said,) = worked.cautions
    assert said.startswith("A border of 3 in is only in these sizes: nothing is cut or bought for it here.")
    assert in_hand().cautions == []


def test_fifty_choices_are_the_most() -> None:
    rows: Any = in_hand(blocks=5000).found["choices"]
    assert len(rows) == 50


def test_a_set_more_is_sought_at_length() -> None:
    # 400 ÷ (5 1/2 · 8 1/4 + 4 · 5 3/4) = 5.9. Five do lie in 20 × 20: the large ones three and two in two
    # rows of 8 1/4, beside the three 3 1/2 × 8 1/4 for three bars on end, beside the two 9 × 8 1/4 for eight,
    # and below them 20 × 3 1/2 for nine.
    large = {"name": "large", "width": "5 1/2 in", "height": "8 1/4 in", "count": 1}
    bars = {"name": "bar", "width": "5 3/4 in", "height": "1 in", "count": 4}
    worked = work(precut_plan, cuts=[large, bars], precut_width="20 in", precut_length="20 in")
    assert worked.found["sets_each"] == 5
    assert "5 whole sets come out of one precut; area promises 5." in worked.working
