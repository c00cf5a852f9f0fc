"""Flying geese, really sewn from what is said to be cut: exact once trimmed, never too small."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from methods import geese_of_four, geese_of_triangles, geese_with_corners
from sewn import Point, Work, alike, covers, shown
from shapely.geometry import Polygon, box  # type: ignore[import-untyped]  # it ships no types

from boltend.testing import Worked, work
from boltend_block_units.geese import flying_geese

WIDTHS = st.integers(4, 200).map(lambda n: Fr(n, 8)) | st.integers(8, 300).map(lambda n: Fr(n, 16))
SEAMS = st.sampled_from((Fr(1, 4), Fr(3, 8), Fr(3, 16), Fr(30, 127), Fr(75, 254), Fr(1, 2), Fr(5, 32)))
STEPS = st.sampled_from((Fr(1, 8), Fr(1, 16), Fr(1, 4), Fr(5, 127)))
OVERS = st.sampled_from((Fr(0), Fr(1, 8), Fr(1, 4), Fr(1, 32)))
METHODS = ("four at a time", "sewn corners", "loose triangles")
INCH = "{} in"


def worked(
    width: Fr, over: Fr, seam: Fr, step: Fr, method: str, count: int = 5, units: str = "inches"
) -> Worked:
    return work(
        flying_geese, finished_width=width, oversize=over, method=method, count=count, units=units,
        settings={"seam": INCH.format(seam), "cutting_step": INCH.format(step)},
    )  # fmt: skip


def sewn(method: str, found: Any, s: float) -> tuple[Work, Point]:
    """One goose, and its point."""
    small = float(found["small_square"])
    if method == "sewn corners":
        return geese_with_corners(float(found["rectangle_width"]), float(found["rectangle_height"]), small)
    large = float(found["large_square"])
    return (geese_of_four if method == "four at a time" else geese_of_triangles)(large, small, s)


def raw(point: Point, w: float, h: float, s: float) -> Polygon:
    """The trimmed unit: its point a seam below the upper edge."""
    x, y = point
    return box(x - w / 2 - s, y - h - s, x + w / 2 + s, y + s)


@pytest.mark.outside_check("flying_geese", against="geometry")
@pytest.mark.parametrize("method", METHODS)
@settings(max_examples=100, deadline=None)
@given(width=WIDTHS, over=OVERS, seam=SEAMS, step=STEPS, units=st.sampled_from(("inches", "centimetres")))
def test_geese_come_out_exact(method: str, width: Fr, over: Fr, seam: Fr, step: Fr, units: str) -> None:
    answer = worked(width, over, seam, step, method, units=units)
    w, h, s, o = float(width), float(width / 2), float(seam), float(over)
    goose, (x, y) = sewn(method, answer.found, s)

    assert covers(goose, raw((x, y), w, h, s)), "too small to trim"
    assert covers(goose, raw((x, y), w + 2 * o, h + o, s)), "not as much oversize as was asked for"
    finished = box(x - w / 2, y - h, x + w / 2, y)
    assert alike(shown(goose, "middle", finished), Polygon([(x - w / 2, y - h), (x + w / 2, y - h), (x, y)]))
    assert alike(shown(goose, "wing", finished).union(shown(goose, "middle", finished)), finished)


@pytest.mark.parametrize("method", METHODS)
@settings(max_examples=60, deadline=None)
@given(width=WIDTHS, over=OVERS, seam=SEAMS, step=STEPS)
def test_there_is_room_for_what_the_working_says_and_no_more(
    method: str, width: Fr, over: Fr, seam: Fr, step: Fr
) -> None:
    from boltend.plugin import Settings
    from boltend_block_units.geese_methods import METHODS as WAYS

    found = worked(width, over, seam, step, method).found
    room = WAYS[method](width, over, 1, Settings(seam=seam, cutting_step=step)).room
    wide, high, s = float(room[0]), float(room[1]), float(seam)
    goose, (x, y) = sewn(method, found, s)

    def trimmed(width_: float, height: float) -> Polygon:
        return box(x - width_ / 2, y + s - height, x + width_ / 2, y + s)

    hair = 1e-4
    assert covers(goose, trimmed(wide - hair, high - hair))
    assert not covers(goose, trimmed(wide + hair, high - hair))
    assert not covers(goose, trimmed(wide - hair, high + hair))
    # What there is beyond the need is rounding, of which the width has its own and that of the height twice.
    assert 0 <= high - float(width / 2 + 2 * seam + over) + 1e-9 < float(step)
    assert 0 <= wide - float(width + 2 * seam + 2 * over) + 1e-9 < 2 * float(step)


@settings(max_examples=80, deadline=None)
@given(width=WIDTHS, over=OVERS, seam=SEAMS, step=STEPS)
def test_the_seams_of_loose_triangles_are_what_is_stitched(width: Fr, over: Fr, seam: Fr, step: Fr) -> None:
    """Both seams of a goose as far as its layers reach, measured by shapely on the pieces as they are cut."""
    answer = worked(width, over, seam, step, "loose triangles", count=3)
    tape: list[float] = []
    large, small = (float(answer.found[key]) for key in ("large_square", "small_square"))  # type: ignore[arg-type]  # lengths
    geese_of_triangles(large, small, float(seam), tape)
    assert len(tape) == 2
    assert float(answer.unrounded["seam_length"]) == pytest.approx(3 * sum(tape), abs=1e-5)  # type: ignore[arg-type]  # a length


def test_the_seams_of_four_geese_of_four_inches() -> None:
    # Large 5 1/4, small 2 7/8: a wing's leg, and 2 5/8 + 1/4, the same. The second wing is stitched over
    # 2 7/8 · √2 − 1/2 = 3.566; the first from the middle's base, 5 1/4 ÷ √2 less 1/4: 3.462. Four: 28.11.
    answer = worked(Fr(4), Fr(0), Fr(1, 4), Fr(1, 8), "loose triangles", count=4)
    assert float(answer.unrounded["seam_length"]) == pytest.approx(4 * (3.5659 + 3.4623), abs=1e-3)  # type: ignore[arg-type]  # a length
    seams = "4 × (2 × (2 7/8 in × √2 − 2 × 1/4 in) − 1/4 in × (√2 − 1))"
    assert any(seams in line for line in answer.working)


@pytest.mark.parametrize("method", METHODS)
@settings(max_examples=60, deadline=None)
@given(count=st.integers(1, 200))
def test_enough_of_every_piece(method: str, count: int) -> None:
    answer = worked(Fr(4), Fr(0), Fr(1, 4), Fr(1, 8), method, count)
    found: Any = answer.found
    each = 4 if method == "four at a time" else 1
    assert count <= found["made"] < count + each
    middles = found["rectangles"] + 4 * found["large_squares"]
    wings = found["small_squares"] * (1 if method == "sewn corners" else 2)
    assert middles >= found["made"]
    assert wings >= 2 * found["made"]
    assert middles - 3 <= found["made"]
    assert sum(piece.count for piece in answer.answer.pieces) == (
        found["rectangles"] + found["large_squares"] + found["small_squares"]
    )


def test_what_is_cut_on_the_diagonal_says_so() -> None:
    loose = {p.name: p.made_from for p in worked(Fr(4), Fr(0), Fr(1, 4), Fr(1, 8), METHODS[2]).answer.pieces}
    assert loose == {"large square": "quarter", "small square": "half"}
    four = {p.made_from for p in worked(Fr(4), Fr(0), Fr(1, 4), Fr(1, 8), METHODS[0]).answer.pieces}
    assert four == {"whole"}  # sewn first, then cut


def test_wings_follow_a_large_square_that_is_rounded() -> None:
    """Where h + s(2 + √2) alone would leave the wings below the seam above the point."""
    found: Any = worked(Fr(4), Fr(0), Fr(5, 32), Fr(1, 16), METHODS[0]).found
    # 4 + 5/16 × 2.4142 = 4.7544, up to 4 13/16; half of it and a seam: 2 9/16 exactly.
    assert found["large_square"] == Fr(77, 16)
    assert found["small_square"] == Fr(41, 16)
    goose, point = geese_of_four(77 / 16, 41 / 16, 5 / 32)
    assert covers(goose, raw(point, 4, 2, 5 / 32))


@settings(max_examples=40, deadline=None)
@given(width=WIDTHS, seam=SEAMS, step=STEPS)
def test_the_picture_is_the_finished_goose(width: Fr, seam: Fr, step: Fr) -> None:
    for method in METHODS:
        shapes = worked(width, Fr(0), seam, step, method).answer.picture[:3]
        parts = [Polygon([(float(x), float(y)) for x, y in shape.corners]) for shape in shapes]  # type: ignore[union-attr]  # polygons
        assert alike(parts[0].union(parts[1]).union(parts[2]), box(0, 0, float(width), float(width / 2)))
        assert sum(part.area for part in parts) == pytest.approx(float(width * width / 2))
