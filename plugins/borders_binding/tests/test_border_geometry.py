"""Borders: figures worked by hand, and their geometry against shapely's."""

from fractions import Fraction
from math import sqrt
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon as Area  # type: ignore[import-untyped]  # shapely ships no type hints
from shapely import unary_union

from boltend.plugin import ROOT2, Answer, Cannot, Polygon, Rect, Settings, Shape
from boltend.testing import Worked, work
from boltend_borders_binding.binding import binding
from boltend_borders_binding.border_rows import Border
from boltend_borders_binding.borders import borders

CORNERS = ("sides first", "ends first", "mitred", "cornerstones")
SIZES = st.integers(8, 960).map(lambda n: Fraction(n, 8))
WIDTHS = st.integers(2, 80).map(lambda n: Fraction(n, 8))
LENGTHS = st.fractions(min_value=-100, max_value=10**9, max_denominator=64)


def border(**cells: Any) -> Border:
    """A border from exact values, at the defaults that a person has."""
    usual: dict[str, Any] = {
        "name": None, "width": Fraction(3), "width_ends": None, "corners": "sides first",
        "grain": "crosswise", "fabric": None, "cornerstone_fabric": None, "spare": Fraction(0),
    }  # fmt: skip
    return Border(**{**usual, **cells})


def bordered(*rows: Border, **givens: Any) -> Answer:
    """A top of 48 in and its borders, unless said."""
    usual: dict[str, Any] = {
        "top_width": Fraction(48), "top_height": Fraction(48), "join": "diagonal", "piecing": "one run",
        "usable_width": Fraction(42), "target_width": None, "target_height": None, "have": None,
        "setting": Settings(),
    }  # fmt: skip
    return borders(**{**usual, **givens}, borders=rows)


def on_48(*rows: dict[str, str], **givens: Any) -> Worked:
    """A top of 48 in square, finished."""
    return work(borders, top_width="48 in", top_height="48 in", borders=list(rows), **givens)


# --- figures without a source: common practice ---


def test_eight_inches_a_side_make_64() -> None:
    # 4 × 12 in is 48 in; common practice, no source
    worked = on_48({"width": "2 in"}, {"width": "6 in", "corners": "ends first"})
    assert (worked.found["width"], worked.found["height"]) == (64, 64)
    # Sewn: 48 1/2 raw, each border brings its 8 1/2 and takes two seams of 1/4: 48 1/2 + 2 · 8 = 64 1/2.
    assert (worked.found["raw_width"], worked.found["raw_height"]) == (Fraction(129, 2), Fraction(129, 2))
    assert any("measures 64 1/2 in × 64 1/2 in cut" in said for said in worked.working)


def test_three_inches_round_48_in_one_run_and_side_by_side() -> None:
    # Common practice, no source: sides 48 1/2, ends 48 + 6 + 1/2; 206 in of 3 1/2 in strips.
    # 6 × 42 − 5 × 3 1/2 = 234 1/2, 5 give 196; each side by itself takes 2, so 8.
    run, each = on_48({"width": "3 in"}), on_48({"width": "3 in"}, piecing="each side")
    assert (run.found["sides_cut"], run.found["ends_cut"]) == (Fraction(97, 2), Fraction(109, 2))
    assert (run.found["strips"], run.unrounded["length_to_buy"]) == (6, 21)
    assert run.found["length_to_buy"] == Fraction(45, 2)  # 5/8 yd holds it
    assert (each.found["strips"], each.unrounded["length_to_buy"]) == (8, 28)


def test_a_five_inch_border_and_its_binding_come_out_of_one_and_five_eighths() -> None:
    # Common practice, no source: 1 5/8 yd is 58 1/2 in; 6 strips of 5 1/2 in and 7 of 2 1/2 in are 50 1/2 in.
    five = on_48({"width": "5 in"})
    bound = work(binding, width="58 in", height="58 in")
    assert (five.found["width"], five.unrounded["length_to_buy"]) == (58, 33)
    assert (bound.found["strips"], bound.unrounded["length_to_buy"]) == (7, Fraction(35, 2))
    assert 33 + Fraction(35, 2) <= Fraction(13, 8) * 36


def test_sides_first_and_ends_first() -> None:
    # The trade's arithmetic, section 6: 66 1/2 × 71 in raw, a border cut 2 in: 71 and 69 1/2.
    top: dict[str, Any] = {"top_width": "66 1/2 in cut", "top_height": "71 in cut"}
    sides = work(borders, **top, borders=[{"width": "2 in cut"}])
    assert (sides.found["sides_cut"], sides.found["ends_cut"]) == (71, Fraction(139, 2))
    ends = work(borders, **top, borders=[{"width": "2 in cut", "corners": "ends first"}])
    assert (ends.found["sides_cut"], ends.found["ends_cut"]) == (74, Fraction(133, 2))


@pytest.mark.parametrize(
    ("top", "least"), [("50 in", 64 + (1 + ROOT2) / 2), ("50 in cut", 63.5 + (1 + sqrt(2)) / 2)]
)
def test_a_mitre_of_50_and_7(top: str, least: Any) -> None:
    # The trade's arithmetic, section 6: 50 finished and 7 make 65.207, 50 raw 64.707.
    rows = [{"width": w, "corners": "mitred"} for w in ("1 in", "2 1/2 in", "3 1/2 in")]
    worked = work(borders, top_width=top, top_height=top, borders=rows)
    exact: Any = worked.unrounded["ends_cut"]
    assert float(exact) == pytest.approx(float(least))
    spare = work(borders, top_width=top, top_height=top, borders=[{**row, "spare": "2 in"} for row in rows])
    assert spare.unrounded["ends_cut"] == exact + 2
    assert any("spare" in caution for caution in worked.cautions)
    assert not any("spare" in caution for caution in spare.cautions)


def test_lengthwise_strips_take_the_longest_and_no_join() -> None:
    worked = on_48({"width": "6 in", "grain": "lengthwise"})
    # four of 6 1/2 in lie across 42 in; the ends are 48 + 12 + 1/2
    assert (worked.unrounded["length_to_buy"], worked.found["strips"]) == (Fraction(121, 2), 4)
    wide = on_48({"width": "12 in", "grain": "lengthwise"})
    # three of 12 1/2 in lie across 42 in, so a second length holds a side: 72 1/2 + 48 1/2
    assert wide.unrounded["length_to_buy"] == 121


def test_cornerstones_are_pieces_of_their_own() -> None:
    worked = on_48({"width": "3 in", "width_ends": "4 in", "corners": "cornerstones", "fabric": "Ash"})
    (piece,) = worked.answer.pieces
    assert (piece.across, piece.along, piece.count) == (Fraction(7, 2), Fraction(9, 2), 4)
    assert piece.fabric == "Ash"
    assert [(run.width, run.wants) for run in worked.answer.runs] == [
        (Fraction(7, 2), (Fraction(97),)),
        (Fraction(9, 2), (Fraction(97),)),
    ]
    # 97 in takes 3 strips of each width: 10 1/2 and 13 1/2 in, and one strip of 4 1/2 in for the cornerstones
    assert worked.unrounded["length_to_buy"] == Fraction(57, 2)


def test_several_fabrics_have_no_total_and_say_why() -> None:
    worked = on_48({"width": "1 in", "fabric": "Ash"}, {"width": "5 in", "fabric": "Elm"})
    assert worked.found["length_to_buy"] is None
    assert worked.cautions == []
    assert "several fabrics" in borders.spec.found("length_to_buy").empty
    rows: Any = worked.found["each"]
    assert [row["length_to_buy"] for row in rows] == [
        9,
        36,
    ]  # 6 × 1 1/2 in and 6 × 5 1/2 in, bought by 4 1/2 in


def test_a_strip_between_cutting_steps_is_cut_wider_and_trimmed() -> None:
    worked = on_48({"width": "3 1/16 in"})
    (run,) = worked.answer.runs
    assert run.width == Fraction(29, 8)
    assert any("trim" in said for said in worked.working)
    assert worked.found["width"] == 48 + Fraction(49, 8)


# --- geometry ---


def area(shape: Shape) -> Area:
    """A drawn shape as shapely's polygon."""
    if isinstance(shape, Rect):
        x, y, w, h = (float(v) for v in (shape.x, shape.y, shape.width, shape.height))
        return Area([(x, y), (x + w, y), (x + w, y + h), (x, y + h)])
    assert isinstance(shape, Polygon)
    return Area([(float(x), float(y)) for x, y in shape.corners])


rows_of_borders = st.lists(
    st.builds(
        lambda corners, width, ends: border(
            corners=corners, width=width, width_ends=None if corners == "mitred" else ends
        ),
        st.sampled_from(CORNERS), WIDTHS, st.none() | WIDTHS,
    ),
    min_size=1, max_size=4,
)  # fmt: skip


@settings(max_examples=60)
@given(width=SIZES, height=SIZES, rows=rows_of_borders)
def test_borders_tile_the_whole_quilt(width: Fraction, height: Fraction, rows: list[Border]) -> None:
    answer = bordered(*rows, top_width=width, top_height=height, usable_width=Fraction(60))
    parts = [area(shape) for shape in answer.picture]
    across, down = (float(answer.found[name]) for name in ("width", "height"))  # type: ignore[arg-type]  # lengths
    whole = Area([(0, 0), (across, 0), (across, down), (0, down)])
    assert sum(part.area for part in parts) == pytest.approx(whole.area)  # none overlaps …
    assert unary_union(parts).symmetric_difference(whole).area == pytest.approx(0, abs=1e-6)  # … and no gap


some_without = st.lists(
    st.builds(
        lambda corners, width, ends: border(corners=corners, width=width, width_ends=ends),
        st.sampled_from(("sides first", "ends first", "cornerstones")), st.just(Fraction(0)) | WIDTHS,
        st.just(Fraction(0)) | WIDTHS,
    ),
    min_size=1, max_size=4,
)  # fmt: skip


@settings(max_examples=60)
@given(width=SIZES, height=SIZES, rows=some_without)
def test_borders_without_sides_or_ends_tile_the_quilt_too(
    width: Fraction, height: Fraction, rows: list[Border]
) -> None:
    answer = bordered(*rows, top_width=width, top_height=height, usable_width=Fraction(60))
    parts = [area(shape) for shape in answer.picture]
    assert all(part.area > 0 for part in parts)
    across, down = (width + 2 * sum(row.width for row in rows), height + 2 * sum(ends(row) for row in rows))
    assert (answer.found["width"], answer.found["height"]) == (across, down)
    whole = Area([(0, 0), (float(across), 0), (float(across), float(down)), (0, float(down))])
    assert sum(part.area for part in parts) == pytest.approx(whole.area)
    assert unary_union(parts).symmetric_difference(whole).area == pytest.approx(0, abs=1e-6)


def ends(row: Border) -> Fraction:
    assert row.width_ends is not None
    return row.width_ends


@settings(max_examples=60)
@given(
    side=SIZES,
    widths=st.lists(WIDTHS, min_size=1, max_size=3),
    seam=st.sampled_from((Fraction(1, 4), Fraction(3, 8))),
)
def test_a_mitred_strip_just_holds_its_finished_piece_and_its_seams(
    side: Fraction, widths: list[Fraction], seam: Fraction
) -> None:
    """Grow the finished trapezoid of the sewn-together strips by a seam: it is as long as the strip."""
    rows = [border(corners="mitred", width=w) for w in widths]
    answer = bordered(*rows, top_width=side, top_height=side, setting=Settings(seam=seam))
    summed, inner = float(sum(widths)), float(side)
    piece = Area([(0, 0), (inner, 0), (inner + summed, summed), (-summed, summed)])
    left, _, right, _ = piece.buffer(float(seam), join_style="mitre", mitre_limit=10).bounds
    for name in ("sides_cut", "ends_cut"):
        exact: Any = answer.found[name]
        assert float(exact) == pytest.approx(right - left)


@settings(max_examples=60)
@given(width=SIZES, height=SIZES, rows=rows_of_borders)
def test_cut_strips_are_the_drawn_ones_and_their_seams(
    width: Fraction, height: Fraction, rows: list[Border]
) -> None:
    """Each drawn side, and half an inch, is the strip of its row; rectangles only."""
    answer = bordered(*rows, top_width=width, top_height=height, usable_width=Fraction(60))
    found: Any = answer.found["each"]
    drawn = {row["name"]: [s for s in answer.picture if s.label == row["name"]] for row in found}  # type: ignore[union-attr]  # no rules or notes here
    for row, given_row in zip(found, rows, strict=True):
        if given_row.corners != "mitred":
            sides, _, ends, _ = drawn[row["name"]]
            assert isinstance(sides, Rect)
            assert isinstance(ends, Rect)
            assert sides.height + Fraction(1, 2) == row["sides_cut"]
            assert ends.width + Fraction(1, 2) == row["ends_cut"]


# --- what must hold ---


@settings(max_examples=100)
@given(
    width=SIZES, height=SIZES, more=SIZES, rows=rows_of_borders,
    grain=st.sampled_from(("crosswise", "lengthwise")), piecing=st.sampled_from(("one run", "each side")),
    join=st.sampled_from(("diagonal", "straight")),
)  # fmt: skip
def test_a_larger_top_never_takes_less(
    width: Fraction, height: Fraction, more: Fraction, rows: list[Border], grain: str, **ways: str
) -> None:
    cut = [border(corners=r.corners, width=r.width, width_ends=r.width_ends, grain=grain) for r in rows]
    small = bordered(*cut, top_width=width, top_height=height, **ways)
    for sizes in ((width + more, height), (width, height + more)):
        large = bordered(*cut, top_width=sizes[0], top_height=sizes[1], **ways)
        for name in ("width", "height", "strips", "length_to_buy"):
            assert large.found[name] >= small.found[name]  # type: ignore[operator]  # numbers here


def bordered_or_not(*rows: Border, **givens: Any) -> Answer | Cannot:
    """Borders, or what they say of themselves. Any other exception is a failure of the test."""
    try:
        return bordered(*rows, **givens)
    except Cannot as cannot:
        return cannot


any_border = st.builds(
    border,
    width=LENGTHS, width_ends=st.none() | LENGTHS, corners=st.sampled_from(CORNERS), spare=LENGTHS,
    grain=st.sampled_from(("crosswise", "lengthwise")), fabric=st.none() | st.sampled_from(("Ash", "Elm")),
    cornerstone_fabric=st.none() | st.just("Elm"),
)  # fmt: skip


@settings(max_examples=200)
@given(
    rows=st.lists(any_border, max_size=3), top_width=LENGTHS, top_height=LENGTHS, usable_width=LENGTHS,
    join=st.sampled_from(("diagonal", "straight")), piecing=st.sampled_from(("one run", "each side")),
    seam=st.fractions(min_value=0, max_value=100, max_denominator=64),
    wash=st.fractions(min_value=-10, max_value=120, max_denominator=8),
)  # fmt: skip
def test_nothing_but_cannot_on_any_borders(
    rows: list[Border], seam: Fraction, wash: Fraction, **givens: Any
) -> None:
    setting = Settings(seam=seam, prewash_across=wash, prewash_along=wash)
    outcome = bordered_or_not(*rows, **givens, setting=setting)
    if isinstance(outcome, Cannot):
        assert outcome.given in {*givens, "borders", "prewash_across", "prewash_along"}
        assert outcome.why
        assert outcome.way_out
    else:
        assert all(run.width > 0 and min(run.wants) > 0 for run in outcome.runs)


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([], "there is none"),
        ([border()] * 51, "more than 50"),
        ([border(width=Fraction(1, 5))], "less than 1/4 in"),
        ([border(width_ends=Fraction(-3))], "less than 1/4 in"),
        ([border(spare=Fraction(-1))], "below zero"),
        ([border(corners="mitred", width_ends=Fraction(4))], "45°"),
        ([border(width=Fraction(42), grain="lengthwise")], "wider than the fabric"),
        ([border(width=Fraction(42), corners="cornerstones")], "wider than the fabric|join takes"),
    ],
)
def test_what_cannot_be_bordered_says_so(rows: list[Border], said: str) -> None:
    with pytest.raises(Cannot, match=said):
        bordered(*rows)
