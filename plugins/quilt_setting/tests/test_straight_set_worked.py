"""A straight set in numbers that can be followed with a pencil."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Answer, Cannot, Line, Piece, Run, Settings, cut, line
from boltend_quilt_setting.straight_set import straight_set


def top(setting: Settings = Settings(), **given: Any) -> Answer:  # noqa: B008 - frozen, so sharing it is safe
    plain = {
        "block_width": Fr(12), "block_height": Fr(12), "across": 4, "down": 4, "sash": Fr(0),
        "sash_all_round": False, "cornerstones": False, "sash_fabric": None, "cornerstone_fabric": None,
    }  # fmt: skip
    return straight_set(**{**plain, **given}, setting=setting)


def words(answer: Answer) -> str:
    """The working as plain text, values in bare inches."""
    lines = []
    for each in answer.working:
        assert isinstance(each, Line)
        lines.append(each.words.format(*(getattr(v, "value", v) for v in each.values)))
    return "\n".join(lines)


def test_sixteen_blocks_of_12_in_make_48_in() -> None:
    """Common practice, no source."""
    found = top().found
    assert (found["width"], found["height"], found["blocks"]) == (48, 48, 16)


def test_a_12_in_block_is_trimmed_to_12_and_a_half_6_and_a_quarter_from_its_centre() -> None:
    """Common practice, no source."""
    assert "trimmed to 25/2 cut, 25/4 from its centre both ways" in words(top())


def test_an_oblong_block_has_two_trimming_measures() -> None:
    assert "trimmed to 25/2 × 17/2 cut, 25/4 and 17/4 from its centre" in words(top(block_height=Fr(8)))


def test_sash_between_with_cornerstones() -> None:
    # 3 × 4 blocks of 10 × 8, sash 2: 30 + 2·2 = 34 by 32 + 3·2 = 38.
    found = top(block_width=Fr(10), block_height=Fr(8), across=3, down=4, sash=Fr(2), cornerstones=True).found
    assert (found["width"], found["height"]) == (34, 38)
    assert (found["sashes_down"], found["sashes_across"], found["cornerstone_count"]) == (8, 9, 6)
    # Raw: 4 rows of 4 joins at 8 1/2, 3 sash rows of 4 joins at 2 1/2, 6 long seams of 34 1/2.
    assert found["seam_length"] == 4 * 4 * Fr(17, 2) + 3 * 4 * Fr(5, 2) + 6 * Fr(69, 2) == 373
    # Finished: 4 upright lines as high as the top, 6 level ones as wide as it.
    assert found["ditch_length"] == 4 * 38 + 6 * 34 == 356


def test_sash_all_round_with_long_sashes() -> None:
    # 58 in; 5 long sashes of 58 1/2 cut; two strips of 42 less a join of 2 1/2 reach 81 1/2.
    answer = top(sash=Fr(2), sash_all_round=True)
    found = answer.found
    assert (found["width"], found["height"], found["sashes_down"], found["sashes_across"]) == (58, 58, 20, 0)
    assert (found["long_sashes"], found["long_sash_length"], found["joins"]) == (5, Fr(117, 2), 5)
    later = line("join the strips of the long sashes to {} of {}", 5, cut(Fr(117, 2)))
    assert answer.runs == [Run("long sash", Fr(5, 2), (Fr(117, 2),) * 5, later=later)]
    assert answer.pieces == [Piece("sash in the rows", Fr(5, 2), Fr(25, 2), 20)]
    assert found["seam_length"] == 4 * 8 * Fr(25, 2) + 8 * Fr(117, 2)


def test_a_long_sash_that_a_strip_holds_is_a_piece_without_joins() -> None:
    # 3 · 13 + 2 · 5/4 = 41 1/2, cut 42: just the usable width.
    answer = top(block_width=Fr(13), across=3, down=2, sash=Fr(5, 4), sash_fabric="sea glass")
    assert (answer.found["long_sash_length"], answer.found["joins"]) == (42, 0)
    assert answer.runs == []
    assert Piece("long sash", Fr(42), Fr(7, 4), 1, "sea glass") in answer.pieces


def test_one_eighth_more_needs_a_join() -> None:
    answer = top(block_width=Fr(13), across=3, down=2, sash=Fr(21, 16))
    assert (answer.found["long_sash_length"], answer.found["joins"]) == (Fr(337, 8), 1)


def test_the_fabric_says_its_own_width_and_what_washing_takes() -> None:
    setting = Settings(fabrics={"narrow": {"usable_width": Fr(30)}, "washed": {"prewash_across": Fr(5)}})
    plain = {"block_width": Fr(10), "down": 3, "sash": Fr(1, 2)}  # long sashes cut 42
    assert [
        top(setting, sash_fabric=cloth, **plain).found["joins"] for cloth in (None, "narrow", "washed")
    ] == [
        0,
        2,
        2,
    ]


def test_a_join_that_takes_the_whole_strip_cannot_be_made() -> None:
    with pytest.raises(Cannot) as caught:
        top(Settings(usable_width=Fr(6)), sash=Fr(6))
    assert caught.value.given == "sash"


def test_without_a_sash_nothing_is_asked_of_it() -> None:
    answer = top(sash_all_round=True, cornerstones=True)
    found = answer.found
    counts = ("sashes_down", "sashes_across", "long_sashes", "joins", "cornerstone_count")
    assert [found[name] for name in counts] == [0] * 5
    assert found["long_sash_length"] is None
    assert (answer.pieces, answer.runs, found["width"]) == ([], [], 48)


@pytest.mark.parametrize(
    "given", [{"sash": Fr(1), "cornerstones": True}, {"sash": Fr(1), "down": 1}, {"sash": Fr(0)}]
)
def test_where_there_is_no_long_sash_it_has_no_length_and_who_asks_is_told(given: dict[str, Any]) -> None:
    answer = top(**given)
    assert answer.found["long_sash_length"] is None
    assert answer.cautions == [], "nobody asked for it"
    asked = next(f for f in straight_set.spec.founds if f.name == "long_sash_length")
    assert asked.empty.startswith("There is no long sash")


def test_a_sash_off_the_cutting_step_is_cut_larger_and_the_working_says_so() -> None:
    answer = top(sash=Fr(17, 16), cornerstones=True)  # 1 9/16 cut, up to 1 5/8
    assert {piece.across for piece in answer.pieces if piece.name == "cornerstone"} == {Fr(13, 8)}
    assert "sashes 25/16 wide are cut 13/8, up to the cutting step, and trimmed to 25/16" in words(answer)


def test_joins_are_counted_with_strips_as_they_are_cut() -> None:
    # 82 2/5 cut, up to 82 1/2; strips 1 9/16 wide are cut 1 5/8: two reach 82 3/8, which is not enough.
    # Unrounded sizes would promise 82 7/16.
    width = (Fr(412, 5) - Fr(1, 2) - Fr(17, 16)) / 2
    assert top(block_width=width, across=2, down=2, sash=Fr(17, 16)).found["joins"] == 2


def test_the_cornerstones_have_their_own_fabric() -> None:
    answer = top(sash=Fr(1), cornerstones=True, sash_fabric="grey", cornerstone_fabric="red")
    assert {piece.name: piece.fabric for piece in answer.pieces} == {
        "sash in the rows": "grey",
        "sash between rows": "grey",
        "cornerstone": "red",
    }


def test_more_seams_than_anyone_sews_are_refused_with_a_way_out() -> None:
    with pytest.raises(Cannot, match="Take fewer"):
        top(block_width=Fr(120), block_height=Fr(120), across=500, down=500)
