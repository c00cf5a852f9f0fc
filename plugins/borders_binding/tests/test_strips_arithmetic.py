"""Strips, joins and bias squares against brute force and hand figures."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.plugin import ROOT2, Cannot
from boltend_borders_binding.bias import area_length, square_by_area, square_by_turns, turns_length
from boltend_borders_binding.strips import join_loss, joined, side_by_side, strips_for

INCH = Fraction(1)
QUARTER = Fraction(1, 4)
eighths = st.integers(1, 800).map(lambda n: Fraction(n, 8))


@settings(max_examples=200)
@given(length=st.integers(1, 8000).map(lambda n: Fraction(n, 8)), usable=eighths, join=eighths)
def test_strips_are_the_fewest_that_cover(length: Fraction, usable: Fraction, join: Fraction) -> None:
    if join >= usable:
        if length > usable:
            with pytest.raises(Cannot):
                strips_for(length, usable, join)
        else:
            assert strips_for(length, usable, join) == 1
        return
    fewest, made = 1, usable
    while made < length:  # sew one more strip on
        fewest, made = fewest + 1, made + usable - join
    assert strips_for(length, usable, join) == fewest
    assert joined(fewest, usable, join) == made


def test_a_diagonal_join_takes_the_strip_s_width_and_a_straight_one_two_seams() -> None:
    assert join_loss("diagonal", Fraction(5, 2), QUARTER) == Fraction(5, 2)
    assert join_loss("straight", Fraction(5, 2), QUARTER) == Fraction(1, 2)


@settings(max_examples=60)
@given(
    strips=st.lists(st.tuples(st.integers(1, 60), st.integers(1, 12)), min_size=1, max_size=4),
    usable=st.integers(12, 42),
)
def test_lengthwise_strips_take_the_least_length(strips: list[tuple[int, int]], usable: int) -> None:
    exact = [(Fraction(length), Fraction(width)) for length, width in strips]
    assert side_by_side(exact, Fraction(usable)) == brute_force(strips, usable)


def brute_force(strips: list[tuple[int, int]], usable: int) -> int:
    """Every way to deal the strips out over as many lengths of cloth as there are strips."""
    best = sum(length for length, _ in strips)
    for code in range(len(strips) ** len(strips)):
        heaps: dict[int, list[tuple[int, int]]] = {}
        for strip in strips:
            code, heap = divmod(code, len(strips))
            heaps.setdefault(heap, []).append(strip)
        if all(sum(width for _, width in heap) <= usable for heap in heaps.values()):
            best = min(best, sum(max(length for length, _ in heap) for heap in heaps.values()))
    return best


@settings(max_examples=60)
@given(length=eighths, strip=st.integers(4, 32).map(lambda n: Fraction(n, 8)))
def test_the_bias_square_is_the_least_whole_inch(length: Fraction, strip: Fraction) -> None:
    by_turns = next(q for q in range(1, 400) if turns_length(Fraction(q), strip, QUARTER) >= length)
    assert square_by_turns(length, strip, QUARTER, INCH) == by_turns
    by_area = next(q for q in range(1, 400) if q * q >= length * strip)
    assert square_by_area(length, strip, INCH) == by_area
    less_a_tenth = next(q for q in range(1, 400) if q * q * 9 >= length * strip * 10)
    assert square_by_area(length, strip, INCH, Fraction(1, 10)) == less_a_tenth


def test_known_bias_squares() -> None:
    # The trade's arithmetic, section 7: 340 in of 2 1/2 in has a root of 30 and takes 32 by whole turns.
    assert square_by_turns(Fraction(340), Fraction(5, 2), QUARTER, INCH) == 32
    assert square_by_area(Fraction(340), Fraction(5, 2), INCH) == 30  # √850 is 29.2
    # 32 ÷ (√2 × 2 1/2) is 9.05 whole turns, each √2 × 31
    assert turns_length(Fraction(32), Fraction(5, 2), QUARTER) == 9 * 31 * ROOT2
    assert area_length(Fraction(20), Fraction(2)) == 200
    assert turns_length(INCH, INCH, QUARTER) == 0  # all seam
