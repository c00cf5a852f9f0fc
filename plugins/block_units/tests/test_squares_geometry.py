"""Squares in squares and framed squares, really sewn; whole, and halved round a centre on point."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from methods import R, in_a_square
from sewn import Line, Patch, alike, centred, covers, sew, shown, square
from shapely.geometry import Polygon, box  # type: ignore[import-untyped]  # it ships no types

from boltend.plugin import Cannot
from boltend.testing import Worked, work
from boltend_block_units.framed import framed_square
from boltend_block_units.square_in_square import square_in_square

SIZES = st.integers(4, 200).map(lambda n: Fr(n, 8)) | st.integers(8, 300).map(lambda n: Fr(n, 16))
SEAMS = st.sampled_from((Fr(1, 4), Fr(3, 8), Fr(3, 16), Fr(30, 127), Fr(75, 254), Fr(1, 2)))
STEPS = st.sampled_from((Fr(1, 8), Fr(1, 16), Fr(1, 4), Fr(5, 127)))
OVERS = st.sampled_from((Fr(0), Fr(1, 8), Fr(1, 4)))
UNITS = st.sampled_from(("inches", "centimetres"))
WIDTHS = st.lists(st.integers(1, 32).map(lambda n: Fr(n, 8)), min_size=1, max_size=5)


def said(seam: Fr, step: Fr) -> dict[str, str]:
    return {"seam": f"{seam} in", "cutting_step": f"{step} in"}


@pytest.mark.outside_check("square_in_square", against="geometry")
@pytest.mark.parametrize("method", ["from the whole", "from the centre"])
@settings(max_examples=80, deadline=None)
@given(size=SIZES, over=OVERS, seam=SEAMS, step=STEPS, units=UNITS)
def test_a_square_in_a_square_comes_out_exact(
    method: str, size: Fr, over: Fr, seam: Fr, step: Fr, units: str
) -> None:
    answer = work(square_in_square, finished_size=size, oversize=over, method=method, count=1, units=units,
                  settings=said(seam, step))  # fmt: skip
    found: Any = answer.found
    whole = float(size) * (1 if method == "from the whole" else R)
    s = float(seam)
    unit, middle = in_a_square(float(found["centre_square"]), float(found["corner_square"]), s)

    assert covers(unit, centred(whole + 2 * s, middle, 45)), "too small to trim"
    assert covers(unit, centred(whole + 2 * s + float(over), middle, 45)), "not as much oversize as asked for"
    centre, finished = centred(whole / R, middle), centred(whole, middle, 45)
    assert shown(unit, "centre", finished).buffer(1e-6).covers(centre), "the centre does not reach its points"
    assert found["centre_square"] - (whole / R + 2 * s) < float(step) + 1e-9
    # Never more over than both roundings: the corner's, and that of the centre by √2.
    most = whole + 2 * s + float(over) + float(step) * (1 + 1 / R)
    assert not covers(unit, centred(most + 1e-3, middle, 45))


@pytest.mark.parametrize("method", ["from the whole", "from the centre"])
@settings(max_examples=60, deadline=None)
@given(size=SIZES, over=OVERS, seam=SEAMS | st.just(Fr(1, 16)), step=STEPS)
def test_the_seams_are_what_is_stitched(method: str, size: Fr, over: Fr, seam: Fr, step: Fr) -> None:
    """Each seam as far as both layers reach, measured by shapely on the pieces as they are cut."""
    answer = work(square_in_square, finished_size=size, oversize=over, method=method, count=3,
                  settings=said(seam, step))  # fmt: skip
    tape: list[float] = []
    centre, corner = (float(answer.found[key]) for key in ("centre_square", "corner_square"))  # type: ignore[arg-type]  # lengths
    in_a_square(centre, corner, float(seam), tape)
    assert len(tape) == 4
    assert float(answer.unrounded["seam_length"]) == pytest.approx(3 * sum(tape), abs=1e-5)  # type: ignore[arg-type]  # a length


def test_the_seams_of_corners_narrower_than_their_centre() -> None:
    # 1 1/4 in with a seam of 1/16, to the quarter: the centre is 1.009, cut 1 1/4; the corners 0.838, cut 1:
    # √2 − 1/8 = 1.289 a seam down. With 1 in: centre 0.832, cut 1; corners 0.713, cut 3/4: 0.936.
    wide = work(square_in_square, finished_size="1 1/4 in", count=1, settings=said(Fr(1, 16), Fr(1, 4)))
    assert float(wide.unrounded["seam_length"]) == pytest.approx(2 * 1.25 + 2 * (R - 0.125))  # type: ignore[arg-type]  # a length
    assert any("1 × (2 × 1 1/4 in + 2 × (1 in × √2 − 2 × 1/16 in))" in line for line in wide.working)
    narrow = work(square_in_square, finished_size="1 in", count=1, settings=said(Fr(1, 16), Fr(1, 4)))
    assert float(narrow.unrounded["seam_length"]) == pytest.approx(4 * (0.75 * R - 0.125))  # type: ignore[arg-type]  # a length
    assert any("1 × 4 × (3/4 in × √2 − 2 × 1/16 in)" in line for line in narrow.working)


def test_the_points_are_where_the_working_says() -> None:
    """f = 5: the centre is 4.0355 and cut 4 1/8 in, so its points lie 0.063 in past the finished edge."""
    answer = work(square_in_square, finished_size="5 in", count=1)
    assert answer.found["centre_square"] == Fr(33, 8)
    unit, (x, y) = in_a_square(4.125, float(answer.found["corner_square"]), 0.25)  # type: ignore[arg-type]  # a Fraction
    centre = shown(unit, "centre", centred(20, (x, y)))
    past = (centre.bounds[2] - centre.bounds[0]) / R - 2.5
    assert past == pytest.approx((4.125 - 0.5) / R - 2.5)
    (line,) = [line for line in answer.working if "past the finished edge" in line]
    assert f"{past:.3f}" in line
    # 4.0355, up to the sixteenths of a ruler
    assert any("trim the centre to 4 1/16 in" in line for line in answer.cautions)


def test_a_centre_of_six_has_corners_of_five_and_an_eighth() -> None:
    found: Any = work(square_in_square, finished_size="6 in", count=2, method="from the centre").found
    assert (found["centre_square"], found["corner_square"]) == (Fr(13, 2), Fr(41, 8))
    assert (found["centre_squares"], found["corner_squares"], found["made"]) == (2, 4, 2)
    assert found["trim_to"] == 9  # 6 × 1.41421 + 1/2 = 8.985


def test_a_metric_square_in_a_square() -> None:
    found: Any = work(square_in_square, finished_size="20 cm", count=1, units="centimetres").found
    mm = Fr(5, 127)
    # 141.42 + 12 = 153.42 up to 154 mm; 100 + 6 × 3.4142 = 120.49 up to 121 mm
    assert (found["centre_square"], found["corner_square"]) == (154 * mm, 121 * mm)


def frame(answer: Worked, s: float) -> list[Patch]:
    """Sew the framed square from its exact cuts; a side or end that is shorter than its edge fails."""
    unrounded: Any = answer.unrounded
    side = float(unrounded["centre_square"])
    done, low, high = square("centre", side), 0.0, side
    for each in unrounded["each"]:
        strip, sides, ends = (float(each[key]) for key in ("strip_width", "sides_cut", "ends_cut"))
        assert sides == pytest.approx(high - low), "a side is not as long as the square so far"
        left = [Patch(box(low, low, low + strip, low + sides), each["name"])]
        right = [Patch(box(high - strip, low, high, low + sides), each["name"])]
        done = sew(done, left, Line((low, high), (low, low)).aside(s))
        done = sew(done, right, Line((high, low), (high, high)).aside(s))
        wide = (low - (strip - 2 * s), high + strip - 2 * s)
        assert ends == pytest.approx(wide[1] - wide[0]), "an end does not go from edge to edge"
        below = [Patch(box(wide[0], low, wide[0] + ends, low + strip), each["name"])]
        above = [Patch(box(wide[0], high - strip, wide[0] + ends, high), each["name"])]
        done = sew(done, below, Line((wide[0], low), (wide[1], low)).aside(s))
        done = sew(done, above, Line((wide[1], high), (wide[0], high)).aside(s))
        low, high = wide
    return done


def framed(centre: Fr, widths: list[Fr], seam: Fr, step: Fr = Fr(1, 8), **more: Any) -> Worked:
    return work(framed_square, centre=centre, rounds=[{"width": w} for w in widths],
                settings=said(seam, step), **{"count": 3, **more})  # fmt: skip


@pytest.mark.outside_check("framed_square", against="geometry")
@settings(max_examples=80, deadline=None)
@given(centre=SIZES, widths=WIDTHS, over=OVERS, seam=SEAMS, step=STEPS, units=UNITS)
def test_a_framed_square_comes_out_exact(
    centre: Fr, widths: list[Fr], over: Fr, seam: Fr, step: Fr, units: str
) -> None:
    answer = framed(centre, widths, seam, step, oversize=over, units=units)
    found, exact, s = answer.found, answer.unrounded, float(seam)
    done = frame(answer, s)
    side, core = float(centre + 2 * sum(widths)), float(centre)
    m = (core + 2 * s) / 2
    assert exact["trim_to"] == centre + 2 * sum(widths) + 2 * seam

    sewn = centred(side + float(over) + 2 * s, (m, m))
    assert covers(done, sewn)
    assert not covers(done, centred(side + float(over) + 2 * s + 1e-3, (m, m)))
    assert alike(shown(done, "centre", sewn), centred(core, (m, m)))
    inner = core
    for each, width in zip(found["each"], widths, strict=True):  # type: ignore[call-overload]  # rows
        ring = centred(inner + 2 * float(width), (m, m)).difference(centred(inner, (m, m)))
        assert alike(shown(done, each["name"], centred(side, (m, m))), ring)
        inner += 2 * float(width)


@settings(max_examples=60, deadline=None)
@given(centre=SIZES, widths=WIDTHS, seam=SEAMS, step=STEPS)
def test_what_is_cut_covers_what_is_sewn(centre: Fr, widths: list[Fr], seam: Fr, step: Fr) -> None:
    for method in ("cut to size", "trimmed as sewn"):
        answer = framed(centre, widths, seam, step, method=method)
        exact: Any = answer.unrounded
        pieces = {p.name: (p.along, p.across, p.count) for p in answer.answer.pieces}
        runs = {r.name: r for r in answer.answer.runs}
        for each in exact["each"]:
            lengths = sorted((each["sides_cut"], each["ends_cut"]))
            if method == "cut to size":
                cuts = [pieces[f"{each['name']}, {end}"] for end in ("side", "end")]
                assert all(strip >= each["strip_width"] and count == 6 for strip, _, count in cuts)
                longs = [long for _, long, _ in cuts]
            else:
                run = runs[each["name"]]
                assert run.width >= each["strip_width"]
                assert len(run.wants) == 12
                longs = [long - Fr(1, 2) for long in sorted(set(run.wants))]
                assert run.join == "none"
            assert all(0 <= long - want < step for long, want in zip(longs, lengths, strict=True))


@settings(max_examples=60, deadline=None)
@given(block=SIZES, over=OVERS, seam=SEAMS, step=STEPS, extra=st.integers(0, 6))
def test_halved_squares_are_the_corners_of_the_block(
    block: Fr, over: Fr, seam: Fr, step: Fr, extra: int
) -> None:
    s, b = float(seam), float(block)
    least = Fr(b / 2 + s * (2 + R)) + over
    core = max(Fr(1, 4), Fr(int(least * 8) + 2, 8) - 4 * seam)  # with rounds of two seams: as wide as must be
    widths = [2 * seam + Fr(extra, 8) + step]
    answer = framed(
        core, widths, seam, step, method="halved into corners", finished_size=block, oversize=over
    )
    found: Any = answer.found
    trim = float(answer.unrounded["trim_to"])  # type: ignore[arg-type]  # a Fraction
    assert trim <= float(core + 2 * sum(widths) + 2 * seam), "larger than it is sewn"
    # Centre on point with its exact seams, and the halves of squares trimmed to that.
    unit, middle = in_a_square(b / R + 2 * s, trim, s)
    assert covers(unit, centred(b + 2 * s + float(over), middle, 45)), "the corners are too small"
    assert not covers(unit, centred(b + 2 * s + float(over + step) + 1e-3, middle, 45))
    assert float(answer.unrounded["centre_on_point"]) == pytest.approx(b / R)  # type: ignore[arg-type]  # a Surd
    assert (found["made"], found["centre_squares"]) == (4, 2)  # three corners are wanted


@settings(max_examples=60, deadline=None)
@given(centre=SIZES, widths=WIDTHS, seam=SEAMS)
def test_halved_without_a_block_makes_the_largest(centre: Fr, widths: list[Fr], seam: Fr) -> None:
    answer = framed(centre, widths, seam, method="halved into corners")
    exact: Any = answer.unrounded
    s, block = float(seam), float(exact["block"])
    assert exact["trim_to"] == centre + 2 * sum(widths) + 2 * seam
    unit, middle = in_a_square(float(exact["centre_on_point"]) + 2 * s, float(exact["trim_to"]), s)
    assert covers(unit, centred(block + 2 * s - 1e-5, middle, 45))
    assert not covers(unit, centred(block + 2 * s + 1e-3, middle, 45))


def test_a_block_of_twelve_takes_squares_of_six_and_seven_eighths() -> None:
    answer = framed(Fr(4), [Fr(5, 4)], Fr(1, 4), method="halved into corners", finished_size="12 in", count=4)
    found: Any = answer.found
    assert found["trim_to"] == Fr(55, 8)
    assert float(answer.unrounded["centre_on_point"]) == pytest.approx(8.485, abs=5e-4)  # type: ignore[arg-type]  # a Surd
    assert (found["made"], found["centre_squares"]) == (4, 2)


def test_a_square_too_small_for_its_block_says_by_how_much() -> None:
    with pytest.raises(Cannot) as refused:
        framed(Fr(4), [Fr(1)], Fr(1, 4), method="halved into corners", finished_size="12 in")
    assert refused.value.given == "rounds"
    assert "0.375 in" in refused.value.why  # 6 7/8 less 6 1/2
    assert "0.1875 in" in refused.value.way_out
    wider = framed(Fr(4), [Fr(1) + Fr(3, 16)], Fr(1, 4), method="halved into corners", finished_size="12 in")
    assert wider.found["trim_to"] == Fr(55, 8)


def test_a_round_that_trimming_would_take_is_refused() -> None:
    with pytest.raises(Cannot) as refused:
        framed(Fr(8), [Fr(1, 2)], Fr(1, 4), method="halved into corners", finished_size="12 in")
    assert "whole last round" in refused.value.why


def test_a_centre_of_four_and_strips_of_one() -> None:
    """Sides 4 1/2 and ends 6 1/2 in, cut: common practice, no source."""
    (row,) = framed(Fr(4), [Fr(1)], Fr(1, 4)).found["each"]  # type: ignore[misc]  # rows
    assert (row["strip_width"], row["sides_cut"], row["ends_cut"], row["sides"]) == (
        Fr(3, 2), Fr(9, 2), Fr(13, 2), 6,
    )  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(centre=SIZES, widths=WIDTHS)
def test_the_picture_tiles_the_finished_square(centre: Fr, widths: list[Fr]) -> None:
    shapes = framed(centre, widths, Fr(1, 4)).answer.picture
    parts = [box(*map(float, (r.x, r.y, r.x + r.width, r.y + r.height))) for r in shapes]  # type: ignore[union-attr]  # all are Rect
    side = float(centre + 2 * sum(widths))
    assert sum(part.area for part in parts) == pytest.approx(side * side)
    whole: Any = Polygon()
    for part in parts:
        whole = whole.union(part.buffer(1e-7))
    assert alike(whole, box(0, 0, side, side))
