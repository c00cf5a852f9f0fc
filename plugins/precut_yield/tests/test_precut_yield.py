"""Pieces out of a precut: by hand, against every way of cutting, and drawn."""

from fractions import Fraction as Fr
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box, union_all

from boltend.plugin import Cannot, Part, Rect, Sheet, Stock, cutting_plan
from boltend.testing import Worked, work
from boltend_precut_yield import boltend_starts, boltend_tables
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS


def lying(**said: Any) -> Worked:
    return work(precut_yield, tables=[PRECUTS], **said)


def of(width: Any, height: Any, **said: Any) -> Any:
    """Founds for pieces of this size."""
    return lying(piece_width=width, piece_height=height, **said).found


def test_five_inch_squares_of_a_ten_inch_square() -> None:
    found = of("5 in", "5 in", precut="10 in square pack", pieces_wanted=64, precuts=20)
    assert (found["pieces_each"], found["pieces"]) == (4, 80)
    # 64 ÷ 4 is 16 squares; they are 16 layers, so two stacks of eight
    assert (found["precuts_needed"], found["spare"], found["stacks"]) == (16, 16, 2)
    assert (found["used"], found["leftover"]) == (100, 0)


def test_both_directions_mixed_give_more() -> None:
    # 3 1/2 × 6 1/2: upright 2 columns of 1; 1 upright and 2 level beside it is 3, 68.25 of 100 sq in.
    worked = lying(piece_width="3 1/2 in", piece_height="6 1/2 in", precut="10 in square pack")
    assert worked.found["pieces_each"] == 3
    assert (worked.found["used"], worked.found["leftover"]) == (Fr(683, 10), Fr(127, 4))
    assert any("2 if all lie alike" in said for said in worked.working)


def test_a_one_way_print_keeps_its_direction() -> None:
    # A fat quarter is 21 across and 18 along: 2 × 6 1/2 stands 10 times beside and 2 above.
    upright = of("2 in", "6 1/2 in", precut="fat quarter", may_turn=False)
    assert upright["pieces_each"] == 20
    assert of("6 1/2 in", "2 in", precut="fat quarter", may_turn=False)["pieces_each"] == 27


def test_without_a_number_wanted_it_says_what_one_gives() -> None:
    worked = lying(piece_width="5 in", piece_height="5 in", precut="10 in square pack")
    found = worked.found
    assert (found["pieces"], found["precuts_needed"], found["spare"], found["stacks"]) == (4, None, None, 1)
    assert any("once the pieces wanted are given" in said for said in worked.cautions)


def test_too_few_in_hand_is_said() -> None:
    worked = lying(
        piece_width="5 in", piece_height="5 in", precut="10 in square pack", precuts=3, pieces_wanted=16
    )
    assert (worked.found["pieces"], worked.found["precuts_needed"], worked.found["spare"]) == (12, 4, 0)
    assert any("4 short of the 16 wanted" in said for said in worked.cautions)


def test_packs_are_told() -> None:
    worked = lying(piece_width="5 in", piece_height="5 in", precut="5 in square pack", pieces_wanted=43)
    assert any("43 precuts come in 2 packs of " in said for said in worked.working)


def test_own_sizes_go_before_the_tables_and_stand_alone() -> None:
    assert of("5 in", "5 in", precut="10 in square pack", precut_width="9 7/8 in")["pieces_each"] == 2
    assert of("5 in", "5 in", precut_width="10 in", precut_length="10 in")["pieces_each"] == 4
    with pytest.raises(Cannot) as caught:
        of("5 in", "5 in", precut_width="10 in")
    assert caught.value.given == "precut"


def test_a_projects_squaring_is_that_of_bolts_and_not_of_precuts() -> None:
    said = {"piece_width": "5 in", "piece_height": "5 in", "precut": "10 in square pack"}
    project: dict[str, object] = {"squaring": "1/2 in"}
    assert lying(**said).found["pieces_each"] == 4
    unheeded = lying(settings=project, **said)
    assert unheeded.found["pieces_each"] == 4
    squared = lying(settings=project, squaring="1/2 in", **said)
    assert squared.found["pieces_each"] == 1  # 9 1/2 × 9 1/2 are left
    # The used part is that of the cloth that is bought: 25 of 100.
    assert (squared.found["used"], squared.found["leftover"]) == (25, Fr(361, 4) - 25)


@pytest.mark.parametrize(
    ("said", "names"),
    [({"piece_width": "11 in", "piece_height": "11 in"}, "piece_width"),
     ({"piece_width": "1 in", "piece_height": "1 in", "squaring": "10 in"}, "squaring"),
     ({"piece_width": "0 in", "piece_height": "1 in"}, "piece_width"),
     ({"piece_width": "1 in", "piece_height": "1 in", "pieces_wanted": 0}, "pieces_wanted")],
)  # fmt: skip
def test_what_cannot_be_cut_names_its_given(said: dict[str, Any], names: str) -> None:
    with pytest.raises(Cannot) as caught:
        lying(precut="10 in square pack", **said)
    assert (caught.value.given, bool(caught.value.why)) == (names, True)


@cache
def every_way(across: int, along: int, width: int, height: int, turns: bool) -> int:
    """The most pieces by straight cuts at every whole unit: slow, and without a thought."""
    best = int(across >= width and along >= height)
    if turns:
        best = max(best, int(across >= height and along >= width))
    for at in range(1, across // 2 + 1):
        found = every_way(at, along, width, height, turns) + every_way(
            across - at, along, width, height, turns
        )
        best = max(best, found)
    for at in range(1, along // 2 + 1):
        found = every_way(across, at, width, height, turns) + every_way(
            across, along - at, width, height, turns
        )
        best = max(best, found)
    return best


UNITS = st.integers(2, 9)


@settings(max_examples=120, deadline=None)
@given(across=st.integers(4, 24), along=st.integers(4, 24), width=UNITS, height=UNITS, turns=st.booleans())
def test_no_way_of_cutting_gives_more(across: int, along: int, width: int, height: int, turns: bool) -> None:
    expected = every_way(across, along, width, height, turns)
    half = Fr(1, 2)
    said: dict[str, Any] = {
        "precut_width": across * half, "precut_length": along * half, "piece_width": width * half,
        "piece_height": height * half, "may_turn": turns,
    }  # fmt: skip
    if not expected:
        with pytest.raises(Cannot):
            lying(**said)
        return
    worked = lying(**said)
    assert worked.found["pieces_each"] == expected
    area = Fr(expected * width * height, 4)
    assert worked.unrounded["leftover"] == Fr(across * along, 4) - area
    assert worked.unrounded["used"] == 100 * area / Fr(across * along, 4)


def boxes(worked: Worked, fill: str) -> list[Any]:
    """What is drawn with this fill."""
    rects = [shape for shape in worked.answer.picture if isinstance(shape, Rect) and shape.fill == fill]
    return [box(*map(float, (r.x, r.y, r.x + r.width, r.y + r.height))) for r in rects]


EIGHTHS = st.integers(8, 60).map(lambda n: Fr(n, 8))


@settings(max_examples=100, deadline=None)
@given(name=st.sampled_from(sorted(PRECUTS.rows)), width=EIGHTHS, height=EIGHTHS, turns=st.booleans())
def test_the_pieces_lie_apart_and_inside(name: str, width: Fr, height: Fr, turns: bool) -> None:
    try:
        worked = lying(precut=name, piece_width=width, piece_height=height, may_turn=turns)
    except Cannot:
        row: Any = PRECUTS.row(name)
        sides = [(width, height), (height, width)] if turns else [(width, height)]
        assert all(a > row["width"] or b > row["length"] for a, b in sides)
        return
    pieces = boxes(worked, "piece")
    assert len(pieces) == worked.found["pieces_each"]
    (whole,) = boxes(worked, "left over")
    together = union_all(pieces)
    assert abs(together.area - float(width * height) * len(pieces)) < 1e-6
    assert whole.buffer(1e-9).covers(together)
    lying_so = {(round(b[2] - b[0], 6), round(b[3] - b[1], 6)) for b in (p.bounds for p in pieces)}
    allowed = {(round(float(width), 6), round(float(height), 6))}
    if turns:
        allowed.add((round(float(height), 6), round(float(width), 6)))
    assert lying_so <= allowed


@settings(max_examples=100, deadline=None)
@given(wanted=st.integers(1, 3000), more=st.integers(0, 500), width=EIGHTHS, height=EIGHTHS,
       layers=st.integers(1, 12))  # fmt: skip
def test_more_wanted_never_needs_less(wanted: int, more: int, width: Fr, height: Fr, layers: int) -> None:
    few, many = (
        of(width, height, precut="half yard", pieces_wanted=n, layers=layers) for n in (wanted, wanted + more)
    )
    assert many["precuts_needed"] >= few["precuts_needed"]
    assert few["pieces"] - few["spare"] == wanted
    assert few["spare"] < few["pieces_each"]
    assert (few["stacks"] - 1) * layers < few["precuts_needed"] <= few["stacks"] * layers


@settings(max_examples=60, deadline=None)
@given(width=st.integers(2, 40), height=st.integers(2, 40))
def test_inches_and_centimetres_answer_alike(width: int, height: int) -> None:
    said = {"precut_width": Fr(20), "precut_length": Fr(18), "piece_width": Fr(width, 4)}
    inches = lying(**said, piece_height=Fr(height, 4), pieces_wanted=100)
    texts = {name: f"{float(value * Fr(254, 100)):.4f} cm" for name, value in said.items()}
    metric = lying(units="centimetres", **texts, piece_height=f"{height * 0.635:.4f} cm", pieces_wanted=100)
    assert {**inches.found, "leftover": 0} == {**metric.found, "leftover": 0}
    assert inches.unrounded["leftover"] == metric.unrounded["leftover"]


@settings(max_examples=80, deadline=None)
@given(name=st.sampled_from(["10 in square pack", "fat quarter", "fat eighth"]), width=EIGHTHS,
       height=EIGHTHS, wanted=st.integers(1, 60), turns=st.booleans())  # fmt: skip
def test_the_engine_that_plans_to_cut_needs_no_fewer(
    name: str, width: Fr, height: Fr, wanted: int, turns: bool
) -> None:
    row: Any = PRECUTS.row(name)
    stock = Stock((Sheet(name, row["width"], row["length"]),))
    plan = cutting_plan([Part("piece", width, height, wanted, turns)], stock)
    if plan.unplaced:
        with pytest.raises(Cannot):
            of(width, height, precut=name, may_turn=turns)
        return
    found = of(width, height, precut=name, may_turn=turns, pieces_wanted=wanted)
    assert plan.bound <= found["precuts_needed"] <= plan.answer
    if not turns:  # all lie alike: strips are as good as any other way
        assert found["precuts_needed"] == plan.answer


def test_the_table_is_sound_and_every_row_has_a_size() -> None:
    (table,) = boltend_tables()
    assert (table.name, table.problem()) == ("precuts", None)
    for name in table.rows:
        row: Any = table.row(name)
        assert min(row["width"], row["length"], row["pieces"]) > 0
        assert row["source"]


def test_a_start_goes_from_precuts_to_blocks() -> None:
    start = boltend_starts()[1]
    assert [calculator for _, calculator, _ in start.tabs] == ["precut_plan", "fabric_in_hand"]
    assert start.tabs[1][2] == {"blocks": {"from": start.tabs[0][0], "take": "blocks"}}
