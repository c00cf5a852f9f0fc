"""Quilting lines really drawn: laid as long lines over the quilt, clipped and measured by shapely."""

from collections.abc import Iterator
from fractions import Fraction as Fr
from itertools import pairwise
from math import ceil, cos, hypot, pi, sin
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, box
from shapely.affinity import rotate

from boltend.plugin import Rect, Rule
from boltend.testing import Worked, work
from boltend_quilting_thread.paths import Quilting
from boltend_quilting_thread.picture import MOST_LINES, picture
from boltend_quilting_thread.quilting import quilting_thread

SIDES = st.integers(8, 960).map(lambda n: Fr(n, 8))
SPACINGS = st.integers(2, 64).map(lambda n: Fr(n, 8))
PHASES = st.integers(0, 99).map(lambda n: n / 100)
HAIR = 1e-6


def path(width: Fr, height: Fr, pattern: str, spacing: Fr) -> float:
    worked = work(
        quilting_thread, width=width, height=height, pattern=pattern, spacing=spacing, thickness="1/16 in"
    )
    value: Any = worked.unrounded["path"]
    return float(value)


def drawn(width: Fr, height: Fr, spacing: Fr, degrees: float, phase: float) -> float:
    """Inches within the quilt of lines that far apart, at an angle, the first `phase` of a spacing off."""
    w, h, g = float(width), float(height), float(spacing)
    reach = hypot(w, h)
    count = ceil(reach / g) + 1
    offsets = ((n + phase) * g for n in range(-count, count + 1))
    across, along = (-sin(degrees * pi / 180), cos(degrees * pi / 180)), degrees * pi / 180
    lines = [
        LineString(
            [
                (w / 2 + t * across[0] - reach * cos(along), h / 2 + t * across[1] - reach * sin(along)),
                (w / 2 + t * across[0] + reach * cos(along), h / 2 + t * across[1] + reach * sin(along)),
            ]
        )
        for t in offsets
    ]
    return float(MultiLineString(lines).intersection(box(0, 0, w, h)).length)


@pytest.mark.outside_check("quilting_thread", against="geometry")
@settings(max_examples=200, deadline=None)
@given(SIDES, SIDES, SPACINGS, PHASES, PHASES)
def test_a_diagonal_grid_is_off_by_a_spacing_at_most(w: Fr, h: Fr, g: Fr, one: float, other: float) -> None:
    lines = drawn(w, h, g, 45, one) + drawn(w, h, g, -45, other)
    assert abs(lines - path(w, h, "diagonal grid", g)) <= float(g) + HAIR


@settings(max_examples=150, deadline=None)
@given(SIDES, SIDES, SPACINGS, PHASES)
def test_each_set_of_a_diagonal_grid_is_off_by_half_a_spacing(w: Fr, h: Fr, g: Fr, phase: float) -> None:
    assert abs(drawn(w, h, g, 45, phase) - float(w * h / g)) <= float(g) / 2 + HAIR


def test_that_bound_is_reached() -> None:
    # Two corners midway between lines, the other two on a line: both lines are g long, 2 g in all, where the
    # area, g/√2 by 3 g/√2, promises 1 1/2 g.
    g = Fr(10)
    short = g * Fr(70710678, 10**8)
    assert drawn(short, 3 * short, g, 45, 0.5) == pytest.approx(20)
    assert float(short * 3 * short / g) == pytest.approx(15)


@settings(max_examples=150, deadline=None)
@given(SIDES, SIDES, SPACINGS, PHASES, PHASES)
def test_straight_lines_are_off_by_less_than_a_line(w: Fr, h: Fr, g: Fr, one: float, other: float) -> None:
    # A line just on the edge counts for shapely: as many as fit, at both edges.
    down, across = drawn(w, h, g, 90, one), drawn(w, h, g, 0, other)
    assert abs(down - path(w, h, "parallel lines", g)) <= float(h) + HAIR
    assert abs(down + across - path(w, h, "square grid", g)) <= float(w + h) + HAIR


def rules(quilting: Quilting) -> Iterator[LineString]:
    """The lines of our own picture."""
    for shape in picture(quilting):
        if isinstance(shape, Rule):
            yield LineString([(float(shape.x1), float(shape.y1)), (float(shape.x2), float(shape.y2))])


@settings(max_examples=150, deadline=None)
@given(SIDES, SIDES, SPACINGS, st.sampled_from(["parallel lines", "square grid", "diagonal grid"]))
def test_the_picture_draws_the_path(w: Fr, h: Fr, g: Fr, pattern: Any) -> None:
    quilting = Quilting(w, h, pattern, g, None, None, Fr(0))
    lines = list(rules(quilting))
    if not picture(quilting):
        assert quilting.sets * (w + h) / g > MOST_LINES
        return
    quilt = box(0, 0, float(w), float(h))
    assert all(quilt.buffer(HAIR).covers(one) for one in lines)
    assert all(one.boundary.distance(quilt.boundary) < HAIR for one in lines)  # from edge to edge
    # The first line lies half a spacing in, which halves what the edges of straight lines cost.
    edge = {"parallel lines": h / 2, "square grid": (w + h) / 2, "diagonal grid": g}[pattern]
    total = sum(one.length for one in lines)
    assert abs(total - path(w, h, pattern, g)) <= float(edge) + 1e-3


@pytest.mark.parametrize(
    ("pattern", "sets"), [("parallel lines", 1), ("square grid", 2), ("diagonal grid", 2)]
)
def test_lines_of_a_set_lie_a_spacing_apart(pattern: Any, sets: int) -> None:
    quilting = Quilting(Fr(40), Fr(30), pattern, Fr(3), None, None, Fr(0))
    lines = list(rules(quilting))
    found = 0
    for degrees in (0, 45, 90, 135):
        level = [rotate(one, -degrees, origin=(0, 0)) for one in lines]
        heights = sorted(y for one in level for y in [one.bounds[1]] if one.bounds[3] - one.bounds[1] < HAIR)
        if heights:
            found += 1
            gaps = [b - a for a, b in pairwise(heights)]
            assert gaps == pytest.approx([3] * len(gaps), abs=1e-4)
    assert found == sets


def test_a_picture_is_of_straight_lines_only() -> None:
    worked = [
        quilted(pattern="meander", spacing="2 in"),
        quilted(pattern="in the ditch", ditch_length="300 in", spacing="2 in"),
        quilted(pattern="parallel lines", spacing="2 in", path="60 yd"),
        quilted(pattern="parallel lines", spacing="1/16 in"),
    ]
    assert [w.answer.picture for w in worked] == [[], [], [], []]
    first, *_ = quilted(pattern="parallel lines", spacing="2 in").answer.picture
    assert first == Rect(Fr(0), Fr(0), Fr(60), Fr(72), fill="top")


def quilted(**said: Any) -> Worked:
    return work(quilting_thread, width="60 in", height="72 in", thickness="1/16 in", **said)


def test_no_line_is_drawn_on_the_edge_itself() -> None:
    quilting = Quilting(Fr(40), Fr(30), "parallel lines", Fr(16), None, None, Fr(0))
    assert [shape.x1 for shape in picture(quilting) if isinstance(shape, Rule)] == [8, 24]  # and not 40
