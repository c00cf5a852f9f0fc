"""What straight sets and beds say of their own arithmetic: each number of a line worked by hand."""

from typing import Any

import pytest

from boltend.testing import Worked, work
from boltend_quilt_setting.bed_size import bed_size
from boltend_quilt_setting.beds import BEDS
from boltend_quilt_setting.straight_set import straight_set


def straight(**said: Any) -> Worked:
    """Twenty blocks of 9 × 7 1/2 in, four across and five down, with sashes of 2 in."""
    plain = {"block_width": "9 in", "block_height": "7 1/2 in", "across": 4, "down": 5, "sash": "2 in"}
    return work(straight_set, **{**plain, **said})


def test_long_sashes_are_told() -> None:
    # Rows of 7 pieces have 6 seams of 8 in, five times; 9 rows have 8 of 42 1/2: 240 + 340, seen 225 + 336.
    assert straight().working == [
        "width = 4 × 9 in + 3 × 2 in sash = 42 in finished",
        "height = 5 × 7 1/2 in + 4 × 2 in sash = 45 1/2 in finished",
        "raw edge to raw edge it measures 42 1/2 in × 46 in cut: finished + 2 seams of 1/4 in",
        "blocks = 4 across × 5 down = 20",
        "each block is trimmed to 9 1/2 in × 8 in cut, 4 3/4 in and 4 in from its centre: finished + "
        "2 seams of "
        "1/4 in",
        "short sashes in the rows = 3 × 5 = 15, each 2 1/2 in × 8 in cut",
        "4 long sashes lie between rows, run across and win every crossing: 42 in + 2 seams = 42 1/2 in cut",
        "joined on the diagonal, which takes 2 1/2 in: 2 × 42 in − 1 × 2 1/2 in = 81 1/2 in hold a long sash",
        "joins = 1 a sash × 4 sashes = 4",
        "seams, rows first and then between them: 6 in each of the rows, 8 between them",
        "raw edge to raw edge 580 in, finished 561 in; seams inside blocks are the blocks' own",
    ]


def test_cornerstones_are_told() -> None:
    # Four sash rows more, each of 6 seams, 2 1/2 in raw and 2 in seen.
    said = straight(cornerstones=True).working
    assert said[6:] == [
        "short sashes between rows = 4 × 4 = 16, each 9 1/2 in × 2 1/2 in cut",
        "cornerstones = 3 × 4 = 12, each 2 1/2 in × 2 1/2 in cut",
        "seams, rows first and then between them: 6 in each of the rows and sash rows, 8 between them",
        "raw edge to raw edge 640 in, finished 609 in; seams inside blocks are the blocks' own",
    ]


def test_a_sash_all_round_is_told() -> None:
    said = straight(sash_all_round=True).working
    assert said[:2] == [
        "width = 4 × 9 in + 5 × 2 in sash = 46 in finished",
        "height = 5 × 7 1/2 in + 6 × 2 in sash = 49 1/2 in finished",
    ]
    assert "short sashes in the rows = 5 × 5 = 25, each 2 1/2 in × 8 in cut" in said
    assert (
        "6 long sashes lie between rows, run across and win every crossing: 46 in + 2 seams = 46 1/2 in cut"
        in said
    )


def test_a_short_long_sash_and_one_between_steps_are_told() -> None:
    two = straight(across=2)
    assert "a strip of 42 in holds a long sash: no joins" in two.working
    assert two.found["joins"] == 0
    odd = "sashes 2 9/16 in wide are cut 2 5/8 in, up to the cutting step, and trimmed to 2 9/16 in"
    assert odd in straight(sash="2 1/16 in").working
    assert not any("up to the cutting step" in said for said in two.working)


def test_square_blocks_without_a_sash_are_told() -> None:
    # Three seams in each of five rows of 9 1/2, four of 36 1/2: 142 1/2 + 146; seen 135 + 144.
    assert straight(block_height="9 in", sash="0 in").working == [
        "width = 4 × 9 in = 36 in finished",
        "height = 5 × 9 in = 45 in finished",
        "raw edge to raw edge it measures 36 1/2 in × 45 1/2 in cut: finished + 2 seams of 1/4 in",
        "blocks = 4 across × 5 down = 20",
        "each block is trimmed to 9 1/2 in cut, 4 3/4 in from its centre both ways: finished + 2 "
        "seams of 1/4 in",
        "seams, rows first and then between them: 3 in each of the rows, 4 between them",
        "raw edge to raw edge 288 1/2 in, finished 279 in; seams inside blocks are the blocks' own",
    ]


@pytest.mark.parametrize(
    ("said", "cautions"),
    [
        ({}, []),
        ({"sash": "0 in"}, []),
        ({"cornerstones": True}, []),
        ({"down": 1}, []),
        ({"down": 1, "cornerstones": True}, ["no two sashes cross"]),
        ({"sash": "0 in", "sash_all_round": True}, ["nothing runs all round."]),
        ({"sash": "0 in", "cornerstones": True}, ["nothing runs all round."]),
    ],
)
def test_what_was_asked_in_vain_is_said(said: dict[str, Any], cautions: list[str]) -> None:
    told = straight(**said).cautions
    assert len(told) == len(cautions)
    assert all(words in each for words, each in zip(cautions, told, strict=True))


def quilt(**said: Any) -> Worked:
    return work(bed_size, tables=[BEDS], **{"bed": "US queen", "drop": "13 in", **said})


def test_a_quilt_that_quilting_takes_up_is_told() -> None:
    # 60 + 26 = 86, 80 + 13 + 11 = 104; ÷ 0.95 they are 1720/19 and 2080/19.
    assert quilt(tuck="11 in", take_up="5 %").working[1:5] == [
        "width = 60 in + 2 × 13 in drop = 86 in finished",
        "height = 80 in + 13 in at the foot + 11 in tuck = 104 in finished",
        "width to make = 86 in ÷ (1 − 5 %) = 90 10/19 in finished",
        "height to make = 104 in ÷ (1 − 5 %) = 109 9/19 in finished",
    ]
    plain = quilt().working
    assert "height = 80 in + 13 in at the foot = 93 in finished" in plain
    assert any("what quilting takes up, in print 1 in to 3 in" in said for said in plain)
    assert "a square corner at the foot hangs lower than the edges: 13 in × √2 = ≈ 18.385 in" in plain
    assert not any("√2" in said for said in quilt(foot_drop="12 in").working)


@pytest.mark.parametrize(
    ("said", "places"),
    [
        ({"mattress_depth": "15 in"}, ["13 in all round"]),
        ({"mattress_depth": "13 in"}, []),
        ({"mattress_depth": "15 in", "foot_drop": "10 in"}, ["13 in at the sides", "10 in at the foot"]),
        ({"mattress_depth": "12 in", "foot_drop": "10 in"}, ["10 in at the foot"]),
        ({"mattress_depth": "15 in", "foot_drop": "0 in"}, ["13 in at the sides"]),
    ],
)
def test_a_mattress_that_shows_is_told(said: dict[str, str], places: list[str]) -> None:
    deep = f"the mattress is deep, {said['mattress_depth']}"
    told = [each for each in quilt(**said).cautions if "will show" in each]
    assert told == [f"A drop of {place} is less than {deep}: some of it will show." for place in places]
    assert f"the mattress is {said['mattress_depth']} deep, as given" in quilt(**said).working


@pytest.mark.parametrize(("tuck", "told"), [("0 in", False), ("9 3/4 in", True), ("10 in", False)])
def test_a_tuck_that_is_too_short_is_told(tuck: str, told: bool) -> None:
    assert any("A tuck below 10 in" in said for said in quilt(tuck=tuck).cautions) == told


@pytest.mark.parametrize(
    ("width", "length", "told"),
    [
        ("30 in", "60 in", True),
        ("60 in", "30 in", True),
        ("30 1/8 in", "60 in", False),
        ("30 in", "61 in", False),
    ],
)
def test_a_mattress_that_a_baby_may_sleep_on_is_told(width: str, length: str, told: bool) -> None:
    worked = work(bed_size, tables=[BEDS], mattress_width=width, mattress_length=length, drop="5 in")
    assert any("sleeping infant" in said for said in worked.cautions) == told


def test_a_long_sash_that_is_cut_longer_than_a_strip_is_joined() -> None:
    # 41 9/16 and two seams are 42 1/16, as a strip is, but the sash is cut 42 1/8.
    strip = {"usable_width": "42 1/16 in"}
    assert straight(block_width="41 9/16 in", across=1, down=2, settings=strip).found["joins"] == 1
    assert straight(block_width="41 1/2 in", across=1, down=2, settings=strip).found["joins"] == 0
