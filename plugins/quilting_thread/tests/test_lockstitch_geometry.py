"""The stitch, the ruler and the bobbin, each simulated with floats and without our formulas."""

from collections.abc import Iterator
from fractions import Fraction as Fr
from itertools import pairwise
from math import dist, pi, sqrt
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.plugin import ThreadNumber, tex
from boltend.testing import work
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.lockstitch import READING, SAMPLE, by_thickness, by_unpicking
from boltend_quilting_thread.piecing import piecing_thread

THICKNESS = st.integers(0, 160).map(lambda n: Fr(n, 1000))
DENSITY = st.integers(4, 20)


def needle_thread(stitches: int, each: float, thick: float) -> Iterator[tuple[float, float]]:
    """The needle's thread point by point: along the top, down to the middle of the layers, and up again."""
    for number in range(stitches):
        at = number * each
        yield (at, thick / 2)
        yield (at + each, thick / 2)
        yield (at + each, 0.0)  # the lock: the bobbin's thread comes up to it from below
    yield (stitches * each, thick / 2)


def bobbin_thread(stitches: int, each: float, thick: float) -> Iterator[tuple[float, float]]:
    """The bobbin's thread: the needle's, seen from below."""
    for x, y in needle_thread(stitches, each, thick):
        yield (x, -y)


def walked(points: Iterator[tuple[float, float]]) -> float:
    return sum(dist(a, b) for a, b in pairwise(points))


@settings(max_examples=150, deadline=None)
@given(THICKNESS, DENSITY, st.integers(1, 300))
def test_the_thread_of_a_seam_is_what_its_stitches_walk(thick: Fr, per_inch: int, inches: int) -> None:
    worked = work(
        piecing_thread,
        seam_length=f"{inches} in",
        thickness=thick,
        stitches_per_inch=str(per_inch),
        waste="0 %",
    )
    found: Any = worked.unrounded
    stitches, each = inches * per_inch, 1 / per_inch
    # Every stitch but the last goes up again in the next one's first hole: the walk has the last one's too.
    assert float(found["top_thread"]) == pytest.approx(walked(needle_thread(stitches, each, float(thick))))
    assert float(found["bobbin_thread"]) == pytest.approx(walked(bobbin_thread(stitches, each, float(thick))))
    for name, times in (("low", 0.5), ("high", 1.5)):
        pressed = walked(needle_thread(stitches, each, float(thick) * times))
        assert float(found[f"top_thread_{name}"]) == pytest.approx(pressed)


@settings(max_examples=100, deadline=None)
@given(st.integers(48, 400), st.floats(-1, 1), st.floats(-1, 1))
def test_the_range_of_an_unpicked_thread_is_what_the_ruler_leaves_open(
    n: int, seam: float, thread: float
) -> None:
    """Whatever the true lengths were, read wrong by a sixteenth at most: the true rate is in the range."""
    read_seam, read_thread = float(SAMPLE), float(SAMPLE) * n / 48
    true = (read_thread + thread * float(READING)) / (read_seam + seam * float(READING))
    take = by_unpicking(Fr(n, 48))
    assert take.low <= take.mid <= take.high
    assert float(take.low) - 1e-9 <= max(true, 1.0) <= float(take.high) + 1e-9


def test_that_range_is_reached_at_both_ends() -> None:
    take = by_unpicking(Fr(3, 2))
    assert take.low == Fr(71, 16) / Fr(49, 16)  # 4 7/16 in out of 3 1/16 in
    assert take.high == Fr(73, 16) / Fr(47, 16)
    assert by_unpicking(Fr(1)).low == 1


def test_unpicking_is_narrower_than_the_thickness() -> None:
    """In a sandwich, where half an inch of thread goes through the layers on every inch of seam."""
    unpicked, reckoned = by_unpicking(Fr(3, 2)), by_thickness(Fr(1, 20), Fr(10))
    assert unpicked.mid == reckoned.mid
    assert 4 * (unpicked.high - unpicked.low) < reckoned.high - reckoned.low


def wound(diameter: float, width: float, thread: float) -> float:
    """Millimetres of thread wound turn by turn: core 7 mm, flanges 0.7 mm, to 95 % of the diameter."""
    turns = (width - 2 * 0.7) / thread
    length, radius = 0.0, 3.5 + thread / 2
    while radius + thread / 2 <= 0.95 * diameter / 2:
        length += turns * 2 * pi * radius
        radius += thread
    return length


def millimetres(name: str, column: str) -> float:
    value: Any = BOBBINS.row(name)[column]
    return float(value) * 25.4


@pytest.mark.parametrize("name", ["class 15", "M"])
def test_what_a_class_holds_beside_class_l_by_winding_turns(name: str) -> None:
    thread = 0.01  # fine, so that the last layer does not matter
    ours = millimetres(name, "holds") / millimetres("L", "holds")
    turned = wound(millimetres(name, "diameter"), millimetres(name, "width"), thread) / wound(
        millimetres("L", "diameter"), millimetres("L", "width"), thread
    )
    assert ours == pytest.approx(turned, rel=0.01)


@settings(max_examples=60, deadline=None)
@given(st.integers(12, 100), st.integers(12, 100))
def test_a_bobbin_holds_threads_by_the_inverse_of_their_mass(one: int, other: int) -> None:
    """A thread twice as heavy is √2 as thick: so many fewer turns, so many fewer layers."""
    masses = [float(tex(ThreadNumber(Fr(n), "Ne 2 ply"))) for n in (one, other)]
    lengths = [wound(20.3, 8.9, 0.01 * sqrt(mass)) for mass in masses]
    assert lengths[0] / lengths[1] == pytest.approx(masses[1] / masses[0], rel=0.03)


def test_the_thread_assumed_on_a_bobbin_fits_its_room() -> None:
    """130 yd of it, in the winding of class L: between loosely wound and as dense as the fibre itself."""
    grams = 130 * 0.9144 * float(tex(BOBBINS.row("L")["number"])) / 1000  # type: ignore[arg-type]  # its kind
    room = pi * ((0.95 * 20.3 / 2) ** 2 - 3.5**2) * (8.9 - 1.4) / 1000
    assert grams == pytest.approx(1.7, abs=0.05)
    assert room == pytest.approx(1.9, abs=0.05)
    assert 0.7 < grams / room < 1.38  # g/cm³; polyester itself is 1.38 (from memory)


def test_stitches_to_the_centimetre() -> None:
    worked = work(piecing_thread, seam_length="10 in", thickness="1/40 in", stitches_per_inch="4 per cm")
    assert worked.unrounded["top_thread"] == 10 * (1 + Fr(254, 25) / 40) * Fr(11, 10)
