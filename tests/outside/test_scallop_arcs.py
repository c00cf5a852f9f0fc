"""The stranger's arcs against shapely: a circle of very many sides, cut off at its chord."""

from fractions import Fraction
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest
from shapely import LineString, Point, box

SOURCE = Path(__file__).parent / "scalloped-edge" / "src" / "scalloped_edge" / "arcs.py"
SIDES = 50_000
"""Of a quarter of the circle: an inscribed polygon of so many falls short by less than a billionth."""


@pytest.fixture(scope="module")
def arcs() -> ModuleType:
    spec = spec_from_file_location("outside_arcs", SOURCE)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("chord", "depth"),
    [("4", "2"), ("6", "9/10"), ("7 3/20", "143/400"), ("1/2", "1/64"), ("40", "20"), ("119/16", "119/64")],
)
def test_an_arc_is_as_long_as_that_of_a_circle_cut_at_its_chord(
    arcs: ModuleType, chord: str, depth: str
) -> None:
    whole, _, part = chord.partition(" ")
    c, d = Fraction(whole) + Fraction(part or 0), Fraction(depth)
    radius = float((c * c / 4 + d * d) / (2 * d))
    centre = Point(0, float(d) - radius)  # y upwards: the chord lies on 0, the arc above it
    above = box(-2 * radius, 0, 2 * radius, 2 * radius)
    ring = centre.buffer(radius, quad_segs=SIDES).exterior
    low, high = arcs.arc_between(c, d)
    assert float(low) - 1e-6 * radius <= ring.intersection(above).length <= float(high) + 1e-6 * radius
    assert high - low <= Fraction(2, 10**6)


def test_the_picture_is_inscribed_in_the_arc(arcs: ModuleType) -> None:
    points = arcs.points_on(Fraction(6), Fraction(3), 200)
    drawn = LineString([(float(x), float(y)) for x, y in points]).length
    low, high = arcs.arc_between(Fraction(6), Fraction(3))
    assert low - Fraction(1, 1000) < drawn < high
