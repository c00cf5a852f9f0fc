"""A measured top: means worked by hand, and what it warns of."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon  # type: ignore[import-untyped]  # it ships no types

from boltend.plugin import Cannot, Settings
from boltend.testing import work
from boltend_borders_binding.measured_top import measured_top

MEASURES = st.lists(st.integers(8, 1600).map(lambda n: Fraction(n, 16)), min_size=1, max_size=5).map(tuple)


def test_the_mean_less_two_seams() -> None:
    worked = work(
        measured_top, widths=["48 1/4 in", "48 1/2 in", "48 3/4 in"], heights=["60 in", "60 in", "60 1/2 in"]
    )
    # widths: 145 1/2 ÷ 3 = 48 1/2; heights: 180 1/2 ÷ 3 = 60 1/6, less 1/2 in is 59 2/3, to 1/16: 59 11/16
    assert worked.found["width"] == 48
    assert worked.unrounded["height"] == Fraction(179, 3)
    assert worked.found["height"] == Fraction(955, 16)
    assert (worked.found["spread_width"], worked.found["spread_height"]) == (Fraction(1, 2), Fraction(1, 2))
    assert worked.cautions == []  # a spread equal to the ease needs no caution


def test_a_spread_above_the_ease_warns_and_is_not_subtracted() -> None:
    worked = work(measured_top, widths=["48 in", "49 in"], heights=["50 in", "50 in"], ease="3/4 in")
    assert worked.found["width"] == 48
    (caution,) = worked.cautions
    assert "widths differ by 1 in" in caution


def test_one_measurement_will_do_and_says_that_three_are_better() -> None:
    worked = work(measured_top, widths=["48 1/2 in"], heights=["60 1/2 in"])
    assert (worked.found["width"], worked.found["height"]) == (48, 60)
    assert len(worked.cautions) == 2
    said = " ".join(worked.working)
    assert "Mean" not in said, "one is no mean"
    assert "Spread" not in said
    assert "Finished width: 48 1/2 in − 2 × 1/4 in seam makes 48 in." in said


def test_a_finished_size_is_taken_with_its_seams() -> None:
    worked = work(measured_top, widths=["87 finished"], heights=["93 finished"])
    assert (worked.found["width"], worked.found["height"]) == (87, 93)


@pytest.mark.parametrize("widths", [(), (Fraction(0),), (Fraction(-3), Fraction(9)), (Fraction(1, 2),)])
def test_what_is_no_measurement_says_so(widths: tuple[Fraction, ...]) -> None:
    with pytest.raises(Cannot) as told:
        measured_top(widths=widths, heights=(Fraction(60),), ease=Fraction(1, 2), setting=Settings())
    assert told.value.given == "widths"


@given(widths=MEASURES, heights=MEASURES)
def test_the_finished_size_lies_between_the_measurements(
    widths: tuple[Fraction, ...], heights: tuple[Fraction, ...]
) -> None:
    setting = Settings(seam=Fraction(1, 8))
    found = measured_top(widths=widths, heights=heights, ease=Fraction(1, 2), setting=setting).found
    for name, values in (("width", widths), ("height", heights)):
        size = found[name]
        assert isinstance(size, Fraction)
        assert min(values) <= size + Fraction(1, 4) <= max(values)
        assert found[f"spread_{name}"] == max(values) - min(values)


@pytest.mark.outside_check("measured_top", against="geometry")
@given(
    upper=st.integers(80, 900).map(lambda n: Fraction(n, 8)),
    lower=st.integers(80, 900).map(lambda n: Fraction(n, 8)),
    tall=st.integers(10, 100),
)
def test_a_top_that_tapers_measures_its_area_by_its_height(
    upper: Fraction, lower: Fraction, tall: int
) -> None:
    """Measured at both ends and through the middle, a trapezoid's mean width is its area over its height."""
    top = Polygon([(0, 0), (float(upper), 0), (float(lower), tall), (0, tall)])
    across = [
        Fraction(top.intersection(LineString([(-1, y), (200, y)])).length).limit_denominator(16)
        for y in (0, tall / 2, tall)
    ]
    worked = work(
        measured_top,
        widths=[f"{width} in" for width in across],
        heights=[f"{tall} in"],
        ease="200 in",
        settings={"seam": "1/4 in", "size_step": "1/16 in"},
    )
    width = worked.unrounded["width"]
    assert isinstance(width, Fraction)
    assert float(width) + 0.5 == pytest.approx(top.area / tall, abs=1e-9)
