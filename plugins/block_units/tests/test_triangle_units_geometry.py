"""Units of triangles, really sewn from what is said to be cut: exact once trimmed, never too small."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from methods import R, half_squares, hourglass
from sewn import alike, centred, covers, shown
from shapely.geometry import Polygon  # type: ignore[import-untyped]  # it ships no types

from boltend.testing import work
from boltend_block_units.half_square import half_square_triangles
from boltend_block_units.half_square_methods import METHODS
from boltend_block_units.parts import hourglass_sewn
from boltend_block_units.quarter_square import quarter_square_triangles

SIZES = st.integers(2, 200).map(lambda n: Fr(n, 8)) | st.integers(4, 300).map(lambda n: Fr(n, 16))
SEAMS = st.sampled_from(("1/4 in", "3/8 in", "3/16 in", "6 mm", "7.5 mm", "1 cm", "1/2 in"))
STEPS = st.sampled_from(("1/8 in", "1/16 in", "1/4 in", "1 mm"))
OVERS = st.sampled_from((Fr(0), Fr(1, 8), Fr(1, 4), Fr(3, 16)))
UNITS = st.sampled_from(("inches", "centimetres"))

GIVENS = st.fixed_dictionaries({"size": SIZES, "over": OVERS, "seam": SEAMS, "step": STEPS, "units": UNITS})


def worked(calculator: Any, given_: dict[str, Any], **more: Any) -> tuple[Any, float, float, float]:
    """The answer, the finished size, the seam and the cutting step in inches."""
    said = {"seam": given_["seam"], "cutting_step": given_["step"]}
    answer = work(
        calculator, finished_size=given_["size"], oversize=given_["over"], settings=said,
        units=given_["units"], **more,
    )  # fmt: skip
    inches = {"in": Fr(1), "mm": Fr(5, 127), "cm": Fr(50, 127)}
    seam, step = (Fr(v.split()[0]) * inches[v.split()[1]] for v in (given_["seam"], given_["step"]))
    return answer, float(given_["size"]), float(seam), float(step)


@pytest.mark.outside_check("half_square_triangles", against="geometry")
@pytest.mark.parametrize("method", METHODS)
@settings(max_examples=60, deadline=None)
@given(given_=GIVENS, count=st.integers(1, 50))
def test_half_square_triangles_come_out_exact(method: str, given_: dict[str, Any], count: int) -> None:
    answer, f, s, step = worked(half_square_triangles, given_, count=count, method=method)
    q, over = float(answer.found["square"]), float(given_["over"])
    unit, middle, turned = half_squares(method, q, s)

    assert covers(unit, centred(f + 2 * s, middle, turned)), "too small to trim"
    finished = centred(f, middle, turned)
    light = shown(unit, "light", finished)
    assert alike(light.union(shown(unit, "dark", finished)), finished)
    # The seam runs from corner to corner: the light half has three of the corners.
    corners = list(finished.exterior.coords)[:4]
    assert any(alike(light, Polygon([c for c in corners if c != gone])) for gone in corners)

    sewn = float(METHODS[method].as_sewn(answer.found["square"], Fr(s)))
    assert covers(unit, centred(sewn - 1e-5, middle, turned))
    assert not covers(unit, centred(sewn + 1e-3, middle, turned)), "larger than its working says"
    assert f + 2 * s + over - 1e-9 <= sewn < f + 2 * s + over + step, "more over than the rounding"


@pytest.mark.outside_check("quarter_square_triangles", against="geometry")
@settings(max_examples=60, deadline=None)
@given(given_=GIVENS)
def test_hourglass_units_come_out_exact(given_: dict[str, Any]) -> None:
    answer, f, s, step = worked(quarter_square_triangles, given_, count=3, method="hourglass two at a time")
    q, over = float(answer.found["square"]), float(given_["over"])
    unit, middle = hourglass(q, s)

    assert covers(unit, centred(f + 2 * s, middle)), "too small to trim"
    finished, (x, y), h = centred(f, middle), middle, f / 2
    corners = [(x - h, y - h), (x + h, y - h), (x + h, y + h), (x - h, y + h)]
    quarters = [Polygon([corners[n - 1], corners[n], middle]) for n in range(4)]
    light = shown(unit, "light", finished)
    assert alike(light, quarters[0].union(quarters[2])) or alike(light, quarters[1].union(quarters[3]))
    assert alike(light.union(shown(unit, "dark", finished)), finished)

    sewn = float(hourglass_sewn(answer.found["square"], Fr(s)))
    assert covers(unit, centred(sewn - 1e-5, middle))
    assert not covers(unit, centred(sewn + 1e-3, middle))
    assert f + 2 * s + over - 1e-9 <= sewn < f + 2 * s + over + step


@settings(max_examples=60, deadline=None)
@given(given_=GIVENS)
def test_a_quarter_of_the_square_holds_the_triangle_and_its_seams(given_: dict[str, Any]) -> None:
    answer, f, s, step = worked(quarter_square_triangles, given_, count=5)
    q, long = float(answer.found["square"]), f + float(given_["over"])
    cut = Polygon([(0, 0), (q, 0), (q / 2, q / 2)])
    # The finished triangle with a seam all round, its mitres long, on the cut one's long edge.
    finished = Polygon([(q / 2 - long / 2, s), (q / 2 + long / 2, s), (q / 2, s + long / 2)])
    raw = finished.buffer(s, join_style="mitre", mitre_limit=10)
    assert raw.difference(cut.buffer(1e-6)).area < 1e-6
    assert q - (long + 2 * s * (1 + R)) < step
    assert answer.found["squares"] * 4 == answer.found["made"] >= 5 > answer.found["made"] - 4


@settings(max_examples=40, deadline=None)
@given(given_=GIVENS, method=st.sampled_from(tuple(METHODS)))
def test_seams_are_what_is_stitched(given_: dict[str, Any], method: str) -> None:
    """Along each stitched line as far as the pair of squares reaches, measured by shapely."""
    from shapely.geometry import LineString, box  # type: ignore[import-untyped]  # it ships no types

    answer, _, s, _ = worked(half_square_triangles, given_, count=8, method=method)
    q, far = float(answer.found["square"]), 1e3
    if method == "four at a time":
        stitched = [LineString([(0, s), (q, s)])] * 4
    else:
        d = R * s
        stitched = [LineString([(-far, -far + k), (far, far + k)]) for k in (d, -d)]
        stitched *= 2 if method == "eight at a time" else 1
    each = sum(line.intersection(box(0, 0, q, q)).length for line in stitched)
    assert float(answer.unrounded["seam_length"]) == pytest.approx(each * answer.found["squares"])


def test_the_numbers_that_the_trade_knows() -> None:
    # f + 7/8 and f + 1 1/4 at 1/4 in, 1 3/8 and 1 7/8 at 3/8 in: common practice, no source.
    for seam, half, quarter in (("1/4 in", Fr(7, 8), Fr(5, 4)), ("3/8 in", Fr(11, 8), Fr(15, 8))):
        said: Any = {"settings": {"seam": seam}, "finished_size": "4 in", "count": 1}
        assert work(half_square_triangles, **said).found["square"] == 4 + half
        assert work(quarter_square_triangles, **said).found["square"] == 4 + quarter


def test_a_metric_unit() -> None:
    found: Any = work(half_square_triangles, units="centimetres", finished_size="10 cm", count=5).found
    # 100 mm + 6 mm × 3.4142 = 120.485 mm, up to 121 mm; trimmed to 112 mm.
    assert found["square"] == Fr(121, 10) * Fr(50, 127)
    assert found["squares"] == 3
    assert found["made"] == 6
    assert abs(found["trim_to"] - Fr(112, 10) * Fr(50, 127)) == 0


@pytest.mark.parametrize(
    ("method", "each"), [("two at a time", 2), ("four at a time", 4), ("eight at a time", 8)]
)
def test_whole_pairs(method: str, each: int) -> None:
    for count in range(1, 20):
        worked_ = work(half_square_triangles, finished_size="3 in", count=count, method=method)
        found: Any = worked_.found
        assert found["made"] == each * found["squares"] >= count > found["made"] - each
        assert [piece.count for piece in worked_.answer.pieces] == [found["squares"]] * 2
        assert {piece.across for piece in worked_.answer.pieces} == {found["square"]}


def test_bias_is_told_where_it_is() -> None:
    four = work(half_square_triangles, finished_size="3 in", count=4, method="four at a time")
    two = work(half_square_triangles, finished_size="3 in", count=4)
    assert any("bias" in line for line in four.cautions)
    assert not any("bias" in line for line in two.cautions)
    assert any(
        "bias" in line for line in work(quarter_square_triangles, finished_size="3 in", count=4).cautions
    )


def test_a_fabric_that_no_piece_is_cut_from_is_told() -> None:
    said = work(quarter_square_triangles, finished_size="3 in", count=4, light_fabric="Chalk")
    assert any("Light fabric is not used" in line for line in said.cautions)
