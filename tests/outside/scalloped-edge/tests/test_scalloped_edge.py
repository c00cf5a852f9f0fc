"""Arcs against a plain numeric integration, cutting by hand, the door, the whole contract."""

from collections.abc import Mapping
from fractions import Fraction
from math import cos, isclose, pi, sqrt
from typing import Any

import pytest
from boltend.plugin import Cannot
from boltend.testing import Worked, check, load, work
from hypothesis import given
from hypothesis import strategies as st

from scalloped_edge import FORMS, scalloped_edge
from scalloped_edge.arcs import arc_between, points_on

SIZES = st.fractions(min_value="1/4", max_value=40, max_denominator=64)
SHARES = st.fractions(min_value="1/100", max_value=1, max_denominator=100)


def integrated(chord: float, depth: float, strips: int = 2000) -> float:
    """The arc by Simpson's rule over √(1 + y′²), with x = c·cos so that a half circle's steep ends do no harm."""
    radius = (chord * chord / 4 + depth * depth) / (2 * depth)
    edge = chord / 2 / radius  # the sine of the half angle

    def slope(k: int) -> float:
        angle = pi * k / strips
        x = edge * cos(angle)  # in radii, from the middle
        under = max(0.0, 1 - x * x)
        turn = sqrt(max(0.0, 1 - cos(angle) ** 2)) * edge
        return radius * (turn / sqrt(under) if under else 1.0)

    weights = [1, *(4 if k % 2 else 2 for k in range(1, strips)), 1]
    return sum(w * slope(k) for k, w in enumerate(weights)) * pi / strips / 3


@given(SIZES, SHARES)
def test_an_arc_lies_between_its_bounds(chord: Fraction, share: Fraction) -> None:
    low, high = arc_between(chord, share * chord / 2)
    assert 0 <= high - low <= Fraction(2, 10**6)
    measured = integrated(float(chord), float(share * chord / 2))
    assert float(low) - 1e-5 <= measured <= float(high) + 1e-5


def test_a_half_circle_is_half_of_pi_times_its_width() -> None:
    low, high = arc_between(Fraction(4), Fraction(2))
    assert low < 2 * pi < high
    assert isclose(integrated(4, 2), 2 * pi, rel_tol=1e-9)  # the oracle itself


def test_a_straight_edge_is_exact() -> None:
    assert arc_between(Fraction(61, 8), Fraction(0)) == (Fraction(61, 8), Fraction(61, 8))


@given(SIZES, SHARES)
def test_every_point_of_the_picture_is_on_the_circle(chord: Fraction, share: Fraction) -> None:
    depth = share * chord / 2
    radius = (chord * chord / 4 + depth * depth) / (2 * depth)
    points = points_on(chord, depth, 4)
    assert points[0] == (Fraction(0), Fraction(0))
    assert points[-1] == (chord, Fraction(0))
    assert points[4] == (chord / 2, depth)
    assert {(x - chord / 2) ** 2 + (y + radius - depth) ** 2 for x, y in points} == {radius**2}


def test_half_circles_round_a_quilt_by_hand() -> None:
    sides = [
        {"name": "ends", "length": "60 in", "times": 2, "scallops": 10, "form": "half circle"},
        {"name": "sides", "length": "72 in", "times": 2, "scallops": 12, "form": "half circle"},
    ]
    worked = work(scalloped_edge, edges=sides, fabric="Slate", tables=[FORMS])
    # 44 half circles of 6 in: 44 · 3π = 414.69 in; with 10 in tail 424.69 in
    assert worked.found["edge_length"] == 415
    assert worked.found["binding_length"] == 425
    # 42·√2 = 59.40 in a strip, a join takes √2/2 = 0.71: 8 strips make 470.2 in, 7 make 411.5
    assert worked.found["strips"] == 8
    # along the selvage 42 + 8 · 2·√2 = 64.627 in: 1.795 yd, so 1 7/8 yd; the piece up to 1/8 in
    assert worked.found["length_to_buy"] == Fraction(15, 8) * 36
    (piece,) = worked.answer.pieces
    assert (piece.across, piece.along) == (Fraction(42), Fraction(259, 4))
    assert piece.fabric == "Slate"
    assert worked.found["share"] == 58  # π/2 = 1.5708, up to a whole percent


def test_continuous_bias_in_whole_turns() -> None:
    edges = [{"length": "60 in", "times": 4, "scallops": 0}]
    worked = work(scalloped_edge, edges=edges, method="continuous", strip_width="2 1/2 in", tables=[FORMS])
    # 250 in of 2 1/2 in: 28 in give 7 turns of √2 · 27 = 267.3 in; 27 in give 7 of √2 · 26 = 257.4; 26 in 7 of
    # √2 · 25 = 247.5, too little
    assert worked.found["edge_length"] == 240
    assert worked.found["square"] == 27
    assert worked.found["strips"] is None


def test_a_depth_of_ones_own_speaks_before_the_form() -> None:
    edges = [{"length": "40 in", "scallops": 5, "form": "half circle", "depth": "1 in"}]
    (each,) = work(scalloped_edge, edges=edges, tables=[FORMS]).found["each"]
    assert each["deep"] == 1


def test_deeper_than_a_half_circle() -> None:
    with pytest.raises(Cannot, match="deeper than half circles"):
        work(scalloped_edge, edges=[{"length": "40 in", "scallops": 20, "depth": "2 in"}], tables=[FORMS])


def test_prewashing_shrinks_the_fabric_first() -> None:
    edges = [{"length": "60 in", "times": 4, "scallops": 0}]
    washed = work(scalloped_edge, edges=edges, tables=[FORMS], settings={"prewash_along": "5 %"})
    plain = work(scalloped_edge, edges=edges, tables=[FORMS])
    assert washed.unrounded["length_to_buy"] == plain.unrounded["length_to_buy"] / Fraction("0.95")


def test_the_door() -> None:
    assert list(load("scalloped-edge")) == ["scalloped_edge"]


def cloth_holds(raw: Mapping[str, object], worked: Worked) -> None:
    """The fabric to buy has at least the area of the binding."""
    found: Any = worked.found
    (piece,) = worked.answer.pieces
    width = Fraction(2) if "strip_width" not in raw else None
    if width is not None:
        assert piece.across * piece.along >= width * found["binding_length"] - width


def test_the_contract() -> None:
    check(
        scalloped_edge,
        edges=[{"length": "60 in", "scallops": 10, "times": 2}],
        tables=[FORMS],
        own_metric=("square", "length_to_buy"),
        covers=cloth_holds,
        examples=20,  # each works out several arcs
    )
