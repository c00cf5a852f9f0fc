"""Backings by hand, by geometry, and as they grow."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import box, union_all
from shapely.geometry.base import BaseGeometry

from boltend.core.cutting import Bolt
from boltend.plugin import Answer, Cannot, Part, Rect, Settings, Stock, cutting_plan
from boltend.testing import Worked, work
from boltend_backing_batting import boltend_starts, boltend_tables
from boltend_backing_batting.backing import backing


def panels(**said: Any) -> Answer:
    """A backing from exact values; 60 × 80 in on 42 in cloth where nothing is said."""
    plain = {
        "width": Fr(60), "height": Fr(80), "overage": Fr(4), "usable_width": Fr(42), "seam": Fr(1, 4),
        "repeat": Fr(0), "prewash_along": None, "prewash_across": None, "seams": "best", "fabric": None,
        "printed": None, "last_panel": "whole", "other_widths": (Fr(42), Fr(108)),
    }  # fmt: skip
    return backing(setting=Settings(), **{**plain, **said})


def typed(**said: Any) -> Worked:
    """A backing from texts."""
    return work(backing, **said)


def bought(answer: Answer) -> Fr:
    length = answer.found["length_to_buy"]
    assert isinstance(length, Fr)
    return length


def test_worked_by_hand() -> None:
    worked = work(backing, width="60 in", height="80 in")
    # 60 + 1/2 + 8 by 80 + 1/2 + 8: 68 1/2 × 88 1/2. Down: 68 ÷ 41 1/2 is two panels of 88 1/2, 177 in, 5 yd
    # by the eighth; across: 88 ÷ 41 1/2 is three panels of 68 1/2, 205 1/2 in.
    found = worked.found
    assert (found["backing_width"], found["backing_height"]) == (Fr(137, 2), Fr(177, 2))
    assert (found["panels"], found["seams_run"], found["panel_length"]) == (2, "down", Fr(177, 2))
    assert (worked.unrounded["length_to_buy"], found["length_to_buy"]) == (177, 5 * 36)
    ways: Any = worked.unrounded["choices"]
    assert [(w["panels"], w["length_to_buy"], w["last_width"]) for w in ways] == [
        (2, 177, Fr(27)),  # 68 1/2 less one pitch of 41 1/2
        (3, Fr(411, 2), Fr(11, 2)),  # 88 1/2 less two
        (3, 2 * Fr(137, 2) + Fr(69, 2), Fr(11, 2)),  # the last of it pieced: 69 ÷ 2
    ]


def test_one_width_is_compared_the_other_way_too() -> None:
    # 29 × 33 raw: 37 × 41 with the overage; both lie within 42, and 37 is the shorter length.
    answer = panels(width=Fr(57, 2), height=Fr(65, 2))
    assert (answer.found["panels"], answer.found["seams_run"]) == (1, "none")
    assert bought(answer) == 37


def test_a_wide_back_takes_one_length() -> None:
    answer = panels(usable_width=Fr(108))
    assert (answer.found["panels"], bought(answer)) == (1, Fr(137, 2))


def test_further_lengths_are_whole_repeats() -> None:
    # 88 1/2 up to four repeats of 24 is 96: 88 1/2 + 96.
    answer = panels(repeat=Fr(24), seams="down")
    assert bought(answer) == Fr(177, 2) + 96
    assert sorted(piece.along for piece in answer.pieces) == [Fr(177, 2), 96]


def test_washing_narrows_the_cloth_and_lengthens_what_is_bought() -> None:
    # 10 % of 42 leaves 37.8, pitch 37.3: 68 ÷ 37.3 is two panels still; each 88 1/2 ÷ 0.95 in as bought.
    answer = panels(seams="down", prewash_across=Fr(10), prewash_along=Fr(5))
    assert bought(answer) == 2 * Fr(177, 2) / Fr(95, 100)
    # 68 1/2 − 37.3 is 31.2, cut 31 1/4.
    assert [piece.across for piece in answer.pieces] == [Fr(189, 5), Fr(125, 4)]


def test_a_panel_is_cut_as_large_as_it_is_found() -> None:
    # 68 15/16 + 1/2 + 8 = 77 7/16 and 94 3/8 + 8 1/2 = 102 7/8, both within 106: cut 77 1/2 × 102 7/8.
    wide = work(backing, width="68 15/16 in", height="94 3/8 in", usable_width="106 in")
    (piece,) = wide.answer.pieces
    assert (piece.along, piece.across) == (Fr(155, 2), Fr(823, 8))
    assert wide.found["panel_length"] == piece.along
    # Down on 42 in: 102 7/8 each; the last 77 7/16 − 41 1/2 = 35 15/16, cut 36.
    two = work(backing, width="68 15/16 in", height="94 3/8 in")
    assert [(p.across, p.along) for p in two.answer.pieces] == [(42, Fr(823, 8)), (36, Fr(823, 8))]
    ways: Any = two.found["choices"]
    assert ways[0]["last_width"] == 36


def test_a_last_panel_is_never_wider_than_the_cloth() -> None:
    # 33 9/16 + 8 1/2 = 42 1/16 in is all the cloth there is; up to the eighth it would be 42 1/8.
    worked = work(backing, width="33 9/16 in", height="90 in", usable_width="42 1/16 in", seams="down")
    (piece,) = worked.answer.pieces
    assert piece.across == Fr(673, 16)


def test_whole_repeats_stay_whole() -> None:
    # 88 1/2 in washed are 91 23/97 as bought at 3 %; further lengths of 25 in repeats are 100, washed 97.
    answer = panels(repeat=Fr(25), seams="down", prewash_along=Fr(3))
    assert [piece.along for piece in answer.pieces] == [Fr(177, 2), 97]
    odd = panels(repeat=Fr(12), seams="down", prewash_along=Fr(3))
    assert [piece.along for piece in odd.pieces] == [Fr(177, 2), 96 * Fr(97, 100)]  # no repeat of 12 1/2


def test_seams_may_be_told_though_longer() -> None:
    answer = panels(seams="across")
    assert (answer.found["seams_run"], bought(answer)) == ("across", Fr(411, 2))


def test_it_says_what_one_panel_less_would_leave() -> None:
    # 35 1/2 raw and 8 are 43 1/2, over one width of 42; without a second panel 3 1/4 in are left on a side.
    worked = work(backing, width="35 in", height="90 in", seams="down")
    assert any("With 1 of these panels, 3 1/4 in would be left" in said for said in worked.working)


@pytest.mark.parametrize(("overage", "warned"), [("1 1/2 in", True), ("2 in", False), ("4 in", False)])
def test_a_small_overage_is_cautioned(overage: str, warned: bool) -> None:
    worked = work(backing, width="60 in", height="80 in", overage=overage)
    assert any("is little" in said for said in worked.cautions) == warned


def test_a_fabric_says_its_own_width_and_is_on_every_piece() -> None:
    worked = work(backing, width="60 in", height="80 in", fabric="Cloud")
    assert {piece.fabric for piece in worked.answer.pieces} == {"Cloud"}
    assert all(piece.grain == "lengthwise" and not piece.may_turn for piece in worked.answer.pieces)


def test_seams_that_take_all_of_a_panel_cannot() -> None:
    with pytest.raises(Cannot) as caught:
        work(backing, width="60 in", height="80 in", usable_width="2 in", seam="1 in")
    assert caught.value.given == "usable_width"


HALF = "half of the last panel"


def test_a_pieced_last_panel_by_hand() -> None:
    # 95 1/2 × 101 1/2. Across: 101 ÷ 41 1/2 is three panels of 95 1/2, 286 1/2 in, squared 287: 8 yd. The
    # last is 101 1/2 − 2 · 41 1/2 = 18 1/2 wide, twice in 42; halves (95 1/2 + 1/2) ÷ 2 = 48 long. 2 · 95 1/2
    # + 48 = 239, squared 239 1/2, 6.65 yd. Down: 2 · 101 1/2 + 51 = 254, which is 7 1/8.
    said = {"width": "87 in", "height": "93 in"}
    whole = work(backing, **said)
    assert (whole.found["buy_alone"], whole.found["pieced_to_buy"]) == (8 * 36, Fr(27, 4) * 36)
    told = (
        "two halves 18 1/2 in wide lie side by side in 42 in, each (95 1/2 in + 2 × 1/4 in) ÷ 2 makes 48 in"
    )
    assert any(told in each for each in whole.working)
    assert "2 × 95 1/2 in + 48 in makes 239 in, for one more seam." in whole.working
    ways: Any = whole.unrounded["choices"]
    assert [(w["last_panel"], w["seams_run"], w["seams"], w["length_to_buy"]) for w in ways] == [
        ("whole", "down", 2, Fr(609, 2)), ("whole", "across", 2, Fr(573, 2)),
        ("pieced", "down", 3, 254), ("pieced", "across", 3, 239),
    ]  # fmt: skip
    taken = work(backing, **said, last_panel="pieced")
    assert (taken.found["buy_alone"], taken.found["pieced_to_buy"]) == (Fr(27, 4) * 36, None)
    assert [(p.name, p.across, p.along, p.count) for p in taken.answer.pieces] == [
        ("backing panel", 42, Fr(191, 2), 1), ("backing panel", 42, Fr(191, 2), 1),
        (HALF, Fr(37, 2), 48, 2),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "said", [{"repeat": "12 in"}, {"seams": "down", "width": "74 in"}, {"usable_width": "108 in"}]
)
def test_where_nothing_is_saved_no_last_panel_is_pieced(said: dict[str, str]) -> None:
    # A repeat that halves would not match; 82 1/2 − 41 1/2 = 41 in, once in 42; a single panel.
    for last in ("whole", "pieced"):
        worked = work(backing, **{"width": "87 in", "height": "93 in", "last_panel": last, **said})
        assert worked.found["pieced_to_buy"] is None
        assert all(piece.name == "backing panel" for piece in worked.answer.pieces)


@settings(max_examples=60, deadline=None)
@given(
    usable=st.sampled_from([42, 54, 108]), others=st.lists(st.integers(30, 130), min_size=1, max_size=4),
    width=st.integers(20, 120), height=st.integers(20, 120), last=st.sampled_from(["whole", "pieced"]),
    seams=st.sampled_from(["best", "down", "across"]), wash=st.sampled_from(["0 %", "5 %"]),
)  # fmt: skip
def test_other_widths_are_what_each_would_find_itself(
    usable: int, others: list[int], width: int, height: int, last: str, seams: str, wash: str
) -> None:
    said: dict[str, Any] = {
        "width": f"{width} in", "height": f"{height} in", "seams": seams, "last_panel": last,
        "prewash_across": wash, "prewash_along": wash,
    }  # fmt: skip
    widths = "; ".join(f"{each} in" for each in others)
    rows: Any = work(backing, **said, usable_width=f"{usable} in", other_widths=widths).found["others"]
    assert [row["usable_width"] for row in rows] == list(dict.fromkeys((usable, *others)))
    for row in rows:
        itself = work(backing, **said, usable_width=row["usable_width"])
        same = ("buy_alone", "seams_run", "panels")
        assert [row[name] for name in same] == [itself.found[name] for name in same]
        joined = sum(piece.count for piece in itself.answer.pieces) - 1  # a seam between any two
        assert row["seams"] == joined


def test_a_width_that_its_seams_take_up_is_left_out() -> None:
    rows: Any = work(backing, width="60 in", height="80 in", other_widths="1/2 in; 60 in").found["others"]
    assert [row["usable_width"] for row in rows] == [42, 60]


SIZES = st.integers(8, 1100).map(lambda n: Fr(n, 8))
EIGHTHS = st.integers(0, 48).map(lambda n: Fr(n, 8))
SAID = {
    "width": SIZES, "height": SIZES, "overage": EIGHTHS,
    "usable_width": st.integers(8, 240).map(lambda n: Fr(n, 2)),
    "seam": st.sampled_from([Fr(0), Fr(1, 4), Fr(1, 2)]), "repeat": st.sampled_from([Fr(0), Fr(12), Fr(25)]),
    "prewash_along": st.sampled_from([None, Fr(0), Fr(5)]), "prewash_across": st.sampled_from([None, Fr(4)]),
    "seams": st.sampled_from(["best", "down", "across"]), "last_panel": st.sampled_from(["whole", "pieced"]),
}  # fmt: skip


def sewn(answer: Answer, seam: Fr, length: Fr) -> BaseGeometry:
    """The panels as cut, side by side from 0, each laid over its neighbour by the two seams.

    Halves lie end to end in the last one's place, the second over the first by two seams.
    """
    at, laid = Fr(0), []
    for piece in answer.pieces:
        if piece.name == HALF:
            for start in (Fr(0), piece.along - 2 * seam):
                laid.append(box(*map(float, (at, start, at + piece.across, start + piece.along))))
            continue
        for _ in range(piece.count):
            laid.append(box(float(at), 0.0, float(at + piece.across), float(min(piece.along, length))))
            at += piece.across - 2 * seam
    return union_all(laid)


@settings(max_examples=200, deadline=None)
@given(**SAID)
@example(width=Fr(60), height=Fr(60), overage=Fr(4), usable_width=Fr(42), seam=Fr(0), repeat=Fr(12),
         prewash_along=Fr(5), prewash_across=None, seams="across",
         last_panel="pieced")  # fmt: skip
def test_the_panels_cover_the_quilt_and_its_overage(**said: Any) -> None:
    answer = panels(**said)
    raw = [said[side] + 2 * said["seam"] for side in ("width", "height")]
    needed = [side + 2 * said["overage"] for side in raw]
    assert [answer.found["backing_width"], answer.found["backing_height"]] == needed
    ways: Any = answer.found["choices"]
    down = answer.found["panel_length"] == needed[1] and answer.found["seams_run"] != "across"
    span, length = needed if down else needed[::-1]
    assert answer.found["panel_length"] == length
    assert sewn(answer, said["seam"], length).buffer(1e-9).covers(box(0, 0, float(span), float(length)))
    usable = said["usable_width"] * (1 - (said["prewash_across"] or Fr(0)) / 100)
    assert all(piece.across <= usable for piece in answer.pieces)
    halves = sum(piece.count for piece in answer.pieces if piece.name == HALF)
    assert halves in ((0, 2) if said["last_panel"] == "pieced" else (0,))
    count = sum(piece.count for piece in answer.pieces) - halves // 2
    assert count == answer.found["panels"]
    if count > 1:  # one panel less would not reach
        assert (count - 1) * usable - 2 * said["seam"] * (count - 2) < span
    # What the pieces take off the bolt, one beside none but halves, is what is bought, once washed; halves
    # are cut up to the eighth.
    kept = 1 - (said["prewash_along"] or Fr(0)) / 100
    taken = sum(piece.along * (1 if piece.name == HALF else piece.count) for piece in answer.pieces)
    assert 0 <= taken - bought(answer) * kept < (Fr(1, 8) if halves else 1e-99)
    lengths = [way["length_to_buy"] for way in ways if said["last_panel"] in (way["last_panel"], "pieced")]
    if said["seams"] == "best":
        setting = Settings()
        assert setting.buy_up(bought(answer)) == min(setting.buy_up(length) for length in lengths)


@settings(max_examples=100, deadline=None)
@given(**SAID)
def test_the_picture_is_tiled_by_its_panels(**said: Any) -> None:
    answer = panels(**said)
    *drawn, quilt = [shape for shape in answer.picture if isinstance(shape, Rect)]
    whole = box(0, 0, float(answer.found["backing_width"]), float(answer.found["backing_height"]))  # type: ignore[arg-type]  # lengths
    boxes = [box(*map(float, (r.x, r.y, r.x + r.width, r.y + r.height))) for r in drawn]
    assert union_all(boxes).symmetric_difference(whole).area < 1e-6
    assert abs(sum(each.area for each in boxes) - whole.area) < 1e-6
    assert quilt.width == said["width"] + 2 * said["seam"]


@settings(max_examples=40, deadline=None)
@given(**SAID)
def test_the_engine_that_plans_to_cut_takes_the_same_length(**said: Any) -> None:
    answer = panels(**said)
    usable = said["usable_width"] * (1 - (said["prewash_across"] or Fr(0)) / 100)
    kept = 1 - (said["prewash_along"] or Fr(0)) / 100
    parts = [Part(f"{n}", p.across, p.along, p.count, p.may_turn) for n, p in enumerate(answer.pieces)]
    plan = cutting_plan(parts, Stock((), Bolt(usable)))
    assert plan.unplaced == ()
    halved = any(piece.name == HALF for piece in answer.pieces)  # cut up to the eighth
    assert 0 <= plan.length_used - bought(answer) * kept < (Fr(1, 8) if halved else 1e-99)


@settings(max_examples=200, deadline=None)
@given(grows=st.sampled_from(["width", "height", "overage"]), by=st.integers(1, 80), **SAID)
def test_a_larger_quilt_never_takes_less(grows: str, by: int, **said: Any) -> None:
    buy = Settings().buy_up
    more = {**said, grows: said[grows] + Fr(by, 8)}
    assert buy(bought(panels(**more))) >= buy(bought(panels(**said)))


@settings(max_examples=60, deadline=None)
@given(width=SIZES, height=SIZES, overage=EIGHTHS, usable=st.integers(16, 120))
def test_inches_and_centimetres_answer_alike(width: Fr, height: Fr, overage: Fr, usable: int) -> None:
    steps = {"size_step": "1 mm", "cutting_step": "1 mm", "buying_step": "10 cm", "seam": "6 mm"}
    steps["squaring"] = "1 cm"  # its default differs, and it counts in what the shop cuts
    said: dict[str, Any] = {
        "width": width, "height": height, "overage": overage, "usable_width": Fr(usable)
    }  # fmt: skip
    others = {"other_widths": "42 in; 108 in"}
    inches = work(backing, settings=steps, **said, **others)
    metric = typed(settings=steps, units="centimetres", **{k: in_cm(v) for k, v in said.items()}, **others)
    assert inches.found == metric.found


def in_cm(inches: Fr) -> str:
    whole, rest = divmod(inches * Fr(254, 100) * 10**6, 10**6)  # an eighth of an inch is 0.3175 cm
    assert rest.denominator == 1
    return f"{whole}.{rest.numerator:06d} cm"


@settings(max_examples=100, deadline=None)
@given(
    width=st.sampled_from(["1 in", "3 in", "400 in", "9000 in"]), height=st.sampled_from(["1 in", "700 in"]),
    overage=st.sampled_from(["0 in", "30 in"]), usable_width=st.sampled_from(["1 in", "2 in", "118 in"]),
    seam=st.sampled_from(["0 in", "1/2 in", "3 in"]), prewash_across=st.sampled_from(["0 %", "99 %"]),
)  # fmt: skip
def test_within_the_limits_there_is_an_answer_or_a_cannot(**said: str) -> None:
    cannot, answer = None, None
    try:
        answer = typed(**said).answer
    except Cannot as refused:
        cannot = refused
    if cannot is not None:
        assert (cannot.given, bool(cannot.way_out)) == ("usable_width", True)
        return
    assert answer is not None
    assert answer.pieces


def test_the_start_and_the_table_are_sound() -> None:
    start, printed = boltend_starts()
    assert [calculator for _, calculator, _ in start.tabs] == ["measured_top", "backing", "batting"]
    assert printed.tabs == (("Backing", "backing", {"fabric": "Backing"}),)
    (table,) = boltend_tables()
    assert table.problem() is None
    assert all(table.row(name) for name in table.rows)
