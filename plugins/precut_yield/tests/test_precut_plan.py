"""Whole sets of pieces out of one precut: by hand, drawn, and beside the yield of one size."""

from collections import Counter
from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box, union_all

from boltend.plugin import Cannot, Rect
from boltend.testing import Worked, work
from boltend_precut_yield.precut_plan import precut_plan
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS

HALVES: list[dict[str, object]] = [
    {"name": "square", "width": "2 1/2 in", "height": "2 1/2 in", "count": 4},
    {"name": "bar", "width": "2 1/2 in", "height": "5 in", "count": 2},
]
"""50 of the 100 square inches of a 10 in square."""


def sets(cuts: Any, **said: Any) -> Worked:
    return work(precut_plan, tables=[PRECUTS], cuts=cuts, **said)


def test_two_sets_fill_a_ten_inch_square() -> None:
    worked = sets(HALVES, precut="10 in square pack", precuts=42, blocks_per_set=3)
    found = worked.found
    assert (found["sets_each"], found["used"], found["blocks"]) == (2, 100, 42 * 2 * 3)
    rows: Any = found["cuts_out"]
    assert [(row["name"], row["in_a_set"], row["in_all"]) for row in rows] == [
        ("square", 4, 42 * 2 * 4),
        ("bar", 2, 42 * 2 * 2),
    ]
    assert found["stacks"] == 6  # 42 squares, eight at a time


def test_blocks_wanted_tell_the_precuts() -> None:
    found: Any = sets(HALVES, precut="10 in square pack", blocks_wanted=31).found
    assert (found["precuts_needed"], found["blocks"], found["stacks"]) == (16, 32, 2)


def test_a_set_larger_than_one_precut_says_out_of_how_many() -> None:
    # Six squares and two bars of a 5 in square: a bar takes a whole one, four squares another.
    cuts = [{"width": "2 1/2 in", "height": "2 1/2 in", "count": 6},
            {"width": "3 in", "height": "5 in", "count": 2}]  # fmt: skip
    worked = sets(cuts, precut="5 in square pack", blocks_wanted=2, layers=8)
    found = worked.found
    # 37 1/2 + 30 sq in want three squares by area; beside a bar of 3 only 2 in are left, so four are taken.
    assert (found["sets_each"], found["precuts_needed"], found["blocks"]) == (0, 8, 2)
    assert any("does not come out of one precut: it takes 4" in said for said in worked.cautions)
    assert found["used"] == Fr(675, 10)


def test_precuts_in_hand_that_make_no_whole_set() -> None:
    cuts = [{"width": "5 in", "height": "5 in", "count": 3}]
    worked = sets(cuts, precut="5 in square pack", precuts=2, blocks_wanted=1)
    assert (worked.found["blocks"], worked.found["precuts_needed"]) == (0, 3)
    assert any("1 short of the 1 wanted" in said for said in worked.cautions)


def test_thousands_of_small_pieces_are_counted_and_drawn_as_strips() -> None:
    cuts = [{"width": "1/2 in", "height": "1/2 in", "count": 2}, {"width": "1/2 in", "height": "1 in"}]
    worked = sets(cuts, precut="yard")
    # 1 sq in a set: 84 × 72 half inches hold as many sets as square inches.
    assert worked.found["sets_each"] == 36 * 42
    assert len(worked.answer.picture) < 200


def test_strips_of_a_fat_quarter_side_by_side() -> None:
    # 4 1/2 + 3 + 2 1/2 + 2 1/2 + 2 + 1 1/2 = 16 of 18 in.
    widths = ["4 1/2 in", "3 in", "2 1/2 in", "2 1/2 in", "2 in", "1 1/2 in"]
    worked = sets([{"width": "21 in", "height": w} for w in widths], precut="fat quarter")
    assert worked.found["sets_each"] == 1
    assert any("Left over: 1 of 21 in × 2 in" in said for said in worked.working)


@pytest.mark.parametrize(
    ("cuts", "said", "names"),
    [([{"width": "11 in", "height": "2 in"}], {"precut": "10 in square pack"}, "cuts"),
     ([{"width": "2 in", "height": "2 in"}], {}, "precut"),
     ([], {"precut": "10 in square pack"}, "cuts"),
     ([{"width": "6 in", "height": "11 in", "may_turn": False}], {"precut": "long quarter"}, "cuts")],
)  # fmt: skip
def test_what_cannot_be_cut_names_its_given(cuts: Any, said: dict[str, Any], names: str) -> None:
    with pytest.raises(Cannot) as caught:
        sets(cuts, **said)
    assert caught.value.given == names


def test_a_projects_squaring_is_not_that_of_precuts() -> None:
    project: dict[str, object] = {"squaring": "1/2 in"}
    assert sets(HALVES, precut="10 in square pack", settings=project).found["sets_each"] == 2
    squared = sets(HALVES, precut="10 in square pack", settings=project, squaring="1/2 in")
    assert squared.found["sets_each"] == 1


EIGHTHS = st.integers(8, 56).map(lambda n: Fr(n, 8))
CUTS = st.lists(
    st.fixed_dictionaries(
        {"width": EIGHTHS, "height": EIGHTHS, "count": st.integers(1, 4), "may_turn": st.booleans()}
    ),
    min_size=1,
    max_size=3,
)


@pytest.mark.outside_check("precut_plan", against="geometry")
@settings(max_examples=60, deadline=None)
@given(name=st.sampled_from(["10 in square pack", "fat quarter", "fat eighth"]), cuts=CUTS)
def test_every_set_is_there_apart_and_inside(name: str, cuts: list[dict[str, Any]]) -> None:
    row: Any = PRECUTS.row(name)
    area = sum(c["width"] * c["height"] * c["count"] for c in cuts)
    try:
        worked = sets([dict(c, name=f"p{n}") for n, c in enumerate(cuts)], precut=name)
    except Cannot:
        sides = [[(c["width"], c["height"]), (c["height"], c["width"])][: 1 + c["may_turn"]] for c in cuts]
        assert any(all(a > row["width"] or b > row["length"] for a, b in each) for each in sides)
        return
    found: Any = worked.found
    each = found["sets_each"]
    assert each * area <= row["width"] * row["length"]
    if not each:
        return
    drawn = [
        shape for shape in worked.answer.picture if isinstance(shape, Rect) and shape.fill != "left over"
    ]
    placed = Counter(sorted_sides(shape.width, shape.height) for shape in drawn)
    wanted: Counter[Any] = Counter()
    for c in cuts:
        wanted[sorted_sides(c["width"], c["height"])] += c["count"] * each
    assert all(placed[size] >= count for size, count in wanted.items())
    boxes = [box(*map(float, (r.x, r.y, r.x + r.width, r.y + r.height))) for r in drawn]
    together = union_all(boxes)
    assert abs(together.area - sum(b.area for b in boxes)) < 1e-6
    assert box(0, 0, float(row["width"]), float(row["length"])).buffer(1e-9).covers(together)


def sorted_sides(a: Any, b: Any) -> tuple[Any, Any]:
    """The two sides, the shorter first: a piece lies either way."""
    return min(a, b), max(a, b)


@settings(max_examples=60, deadline=None)
@given(name=st.sampled_from(["10 in square pack", "fat quarter", "half yard"]), width=EIGHTHS, height=EIGHTHS,
       count=st.integers(1, 5), turns=st.booleans())  # fmt: skip
def test_one_size_agrees_with_its_yield(name: str, width: Fr, height: Fr, count: int, turns: bool) -> None:
    said: dict[str, Any] = {"tables": [PRECUTS], "precut": name}
    try:
        alone: Any = work(precut_yield, piece_width=width, piece_height=height, may_turn=turns, **said).found
    except Cannot:
        with pytest.raises(Cannot):
            sets([{"width": width, "height": height, "count": count, "may_turn": turns}], precut=name)
        return
    cut = [{"width": width, "height": height, "count": count, "may_turn": turns}]
    assert sets(cut, precut=name).found["sets_each"] == alone["pieces_each"] // count


@settings(max_examples=60, deadline=None)
@given(wanted=st.integers(1, 400), more=st.integers(0, 60), per_set=st.integers(1, 4))
def test_more_blocks_never_need_fewer_precuts(wanted: int, more: int, per_set: int) -> None:
    said: dict[str, Any] = {"precut": "10 in square pack", "blocks_per_set": per_set}
    few: Any = sets(HALVES, blocks_wanted=wanted, **said).found
    many: Any = sets(HALVES, blocks_wanted=wanted + more, **said).found
    assert many["precuts_needed"] >= few["precuts_needed"]
    assert few["blocks"] >= wanted > (few["precuts_needed"] - 1) * few["sets_each"] * per_set


def test_inches_and_centimetres_answer_alike() -> None:
    high = ("6.35 cm", "12.7 cm")
    metric = [{**cut, "width": "6.35 cm", "height": h} for cut, h in zip(HALVES, high, strict=True)]
    steps: dict[str, object] = {"cutting_step": "1 mm"}
    inches = sets(HALVES, precut="10 in square pack", precuts=5, settings=steps)
    centimetres = sets(metric, precut="10 in square pack", precuts=5, settings=steps, units="centimetres")
    assert inches.found == centimetres.found


def test_a_block_of_one_piece_is_asked_about() -> None:
    one = {"width": "5 in", "height": "5 in"}

    def asked(*cuts: dict[str, object], **said: Any) -> bool:
        worked = sets(list(cuts), precut="10 in square pack", precuts=40, **said)
        return any("One piece makes a block here" in line for line in worked.cautions)

    assert asked(one)
    assert not asked({**one, "count": 4})
    assert not asked(one, one)
    assert not asked(one, blocks_per_set=2)
