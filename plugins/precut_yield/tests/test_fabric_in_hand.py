"""Blocks in hand: the choices by hand, and what holds for any blocks."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from boltend.plugin import Answer, Cannot, Rect
from boltend.testing import work
from boltend_precut_yield import boltend_starts
from boltend_precut_yield.fabric_in_hand import MOST_CHOICES, fabric_in_hand

SHAPES = ["any", "square", "near square", "tall", "wide"]


def quilts(blocks: int, **said: Any) -> Answer:
    plain = {
        "block_width": Fr(12), "block_height": Fr(12), "sash": Fr(0), "border": Fr(0), "shape": "any",
        "leave_at_most": None, "pick": 1,
    }  # fmt: skip
    return fabric_in_hand(blocks=blocks, **{**plain, **said})


def choices(answer: Answer) -> list[tuple[int, int, int]]:
    rows: Any = answer.found["choices"]
    return [(row["across"], row["down"], row["spare"]) for row in rows]


@pytest.mark.parametrize(
    ("blocks", "best"),
    [(1, (1, 1, 0)), (2, (1, 2, 0)), (7, (2, 3, 1)), (16, (4, 4, 0)), (17, (4, 4, 1)), (30, (5, 6, 0)),
     (31, (5, 6, 1)), (48, (6, 8, 0)), (60, (7, 8, 4)), (100, (10, 10, 0))],
)  # fmt: skip
def test_the_first_choice_is_one_that_somebody_would_make(blocks: int, best: tuple[int, int, int]) -> None:
    assert choices(quilts(blocks))[0] == best


def test_all_choices_of_thirty_one_blocks_in_order() -> None:
    # Near squares 60 × 72; then 48 × 84; then the strips, the nearest to square first.
    assert choices(quilts(31)) == [
        (5, 6, 1), (6, 5, 1), (4, 7, 3), (7, 4, 3), (3, 10, 1), (10, 3, 1), (2, 15, 1), (15, 2, 1),
        (1, 31, 0), (31, 1, 0),
    ]  # fmt: skip


def test_the_size_has_the_sash_between_and_the_border_on_each_side() -> None:
    found = quilts(30, sash=Fr(2), border=Fr(5)).found
    # 5 · 12 + 4 · 2 + 2 · 5 = 78; 6 · 12 + 5 · 2 + 2 · 5 = 92.
    assert (found["across"], found["down"], found["width"], found["height"]) == (5, 6, 78, 92)


def test_a_block_without_a_height_is_square() -> None:
    answer = quilts(30, block_width=Fr(9), block_height=None)
    # 5 · 9 = 45; 6 · 9 = 54.
    assert (answer.found["width"], answer.found["height"], answer.found["block_height"]) == (45, 54, 9)


def test_pick_goes_on_with_another_choice() -> None:
    answer = quilts(31, pick=3)
    assert (answer.found["across"], answer.found["down"], answer.found["spare"]) == (4, 7, 3)


def test_a_pick_beyond_the_choices_says_how_many_there_are() -> None:
    with pytest.raises(Cannot, match="Pick 1 to 10"):
        quilts(31, pick=11)


def test_leaving_less_than_any_quilt_does_says_what_would_do() -> None:
    with pytest.raises(Cannot, match="Allow 6") as caught:
        quilts(31, shape="square", leave_at_most=2)
    assert caught.value.given == "leave_at_most"


def test_no_square_from_one_oblong_block() -> None:
    with pytest.raises(Cannot) as caught:
        quilts(1, block_height=Fr(8), shape="square")
    assert caught.value.given == "shape"


def test_oblong_blocks_make_a_square() -> None:
    # 12 × 8 blocks: 2 across and 3 down are 24 × 24; four times that takes 24 blocks.
    assert choices(quilts(24, block_height=Fr(8), shape="square")) == [(4, 6, 0)]


@settings(max_examples=60, deadline=None)
@given(
    blocks=st.integers(1, 50_000), block_width=st.sampled_from([Fr(1, 2), Fr(12), Fr(120), Fr(37, 3)]),
    block_height=st.sampled_from([Fr(1, 2), Fr(9), Fr(120)]), sash=st.sampled_from([Fr(0), Fr(1, 7), Fr(36)]),
    border=st.sampled_from([Fr(0), Fr(60)]), shape=st.sampled_from(SHAPES),
    leave_at_most=st.none() | st.integers(0, 3), pick=st.integers(1, 60),
)  # fmt: skip
@example(
    blocks=49_999, block_width=Fr(120), block_height=Fr(120), sash=Fr(36), border=Fr(60), shape="any",
    leave_at_most=0, pick=2,
)  # fmt: skip
def test_within_the_limits_there_is_an_answer_or_a_cannot(**said: Any) -> None:
    answer, cannot = None, None
    try:
        answer = fabric_in_hand(**said)
    except Cannot as refused:
        cannot = refused
    if cannot is not None:
        assert cannot.given in ("shape", "leave_at_most", "pick")
        assert cannot.way_out
        return
    assert answer is not None
    rows: Any = answer.found["choices"]
    assert 1 <= len(rows) <= MOST_CHOICES
    assert all(row["across"] * row["down"] + row["spare"] == said["blocks"] for row in rows)
    assert all(max(row["width"], row["height"]) <= 10**7 for row in rows)  # no longer length is shown
    assert len(answer.picture) <= 3602


def test_the_picture_has_border_sash_and_every_block() -> None:
    answer = quilts(6, sash=Fr(1), border=Fr(2))
    rects = [shape for shape in answer.picture if isinstance(shape, Rect)]
    assert [r.fill for r in rects] == ["border", "sash", *["block"] * 6]
    last = rects[-1]  # 2 across, 3 down: the last block ends a border's width from the corner
    assert (last.x + last.width + 2, last.y + last.height + 2) == (
        answer.found["width"],
        answer.found["height"],
    )


def test_the_start_goes_from_blocks_to_binding() -> None:
    start = boltend_starts()[0]
    assert [calculator for _, calculator, _ in start.tabs] == [
        "fabric_in_hand",
        "straight_set",
        "borders",
        "binding",
    ]
    names = [name for name, _, _ in start.tabs]
    for at, (_, _, said) in enumerate(start.tabs):
        links = [value for value in said.values() if isinstance(value, dict)]
        assert all(link["from"] in names[:at] for link in links)
        assert bool(links) is (at > 0)


def test_typed_as_a_person_types_it() -> None:
    worked = work(fabric_in_hand, blocks="31", block_width="10 in", block_height="10 1/2 in cut")
    # Cut 10 1/2 in is finished 10: 5 · 10 by 6 · 10, one left over.
    found = worked.found
    assert (found["across"], found["down"], found["width"], found["height"], found["spare"]) == (
        5,
        6,
        50,
        60,
        1,
    )
    assert any("5 across × 6 down = 30 blocks, 1 left over" in said for said in worked.working)
    assert worked.cautions == []


@pytest.mark.parametrize("shape", SHAPES)
def test_inches_and_centimetres_answer_alike(shape: str) -> None:
    said: dict[str, Any] = {"blocks": 40, "shape": shape, "settings": {"size_step": "1 mm"}}
    inches = work(fabric_in_hand, block_width=Fr(10), block_height=Fr(9, 2), sash=Fr(1), **said)
    metric = work(
        fabric_in_hand,
        units="centimetres",
        block_width="25.4 cm",
        block_height="11.43 cm",
        sash="2.54 cm",
        **said,
    )
    assert inches.found == metric.found


@pytest.mark.parametrize(
    ("said", "given_"),
    [({"blocks": 0}, "blocks"), ({"blocks": 50_001}, "blocks"), ({"pick": 0}, "pick"),
     ({"sash": "-1 in"}, "sash"), ({"block_width": "1/4 in"}, "block_width"), ({"shape": "round"}, "shape"),
     ({"leave_at_most": "x"}, "leave_at_most")],
)  # fmt: skip
def test_beyond_the_limits_the_given_is_named(said: dict[str, Any], given_: str) -> None:
    plain: dict[str, Any] = {"blocks": 20, "block_width": "8 in", "block_height": "8 in"}
    with pytest.raises(Cannot) as caught:
        work(fabric_in_hand, **{**plain, **said})
    assert caught.value.given == given_


def test_the_largest_quilt_of_all_is_a_length_that_can_be_shown() -> None:
    worked = work(fabric_in_hand, blocks=49_999, block_width="120 in", block_height="120 in", sash="36 in",
                  border="60 in", leave_at_most=0, pick=1)  # fmt: skip
    # 49 999 is a prime number: only one row, or one column, leaves none over.
    assert worked.found["height"] == 49_999 * 120 + 49_998 * 36 + 2 * 60
