"""Runs as strips, held against sewing them: joins taken off, lengths added up."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltend.core.contract import Run
from boltend.core.pool.strips import Room, StripCut, cut_run

from .kit import usual

eighths = st.integers(8, 8 * 8).map(lambda n: Fraction(n, 8))
wants = st.lists(st.integers(8, 8 * 400).map(lambda n: Fraction(n, 8)), min_size=1, max_size=4)
widths = st.integers(8 * 18, 8 * 45).map(lambda n: Fraction(n, 8))
joins = st.sampled_from(["diagonal", "straight"])
SEAM = Fraction(1, 4)


def loss(run: Run) -> Fraction:
    return run.width if run.join == "diagonal" else 2 * SEAM


def sewn(lengths: list[Fraction], each: Fraction) -> Fraction:
    """The length of strips sewn end to end, one join after the other."""
    total = lengths[0]
    for further in lengths[1:]:
        total = total + further - each
    return total


@usual
@given(eighths, wants, widths, joins)
def test_crosswise_strips_reach_each_length_and_one_fewer_does_not(
    width: Fraction, lengths: list[Fraction], usable: Fraction, join: str
) -> None:
    strips, count = 0, 0
    for want in lengths:
        run = Run("r", width, (want,), join=join)  # type: ignore[arg-type]  # one of the two
        cut = cut_run(run, Room(usable, None, Fraction(1, 8)), SEAM)
        found = [each.across for each in cut.strips for _ in range(each.count)]
        assert {each.along for each in cut.strips} == {width}
        assert max(found) <= usable
        assert sewn(found, loss(run)) >= want
        if len(found) > 1:
            assert sewn([usable] * (len(found) - 1), loss(run)) < want
            # The last strip is no longer than it must be, to the step.
            assert sewn(found, loss(run)) - Fraction(1, 8) < want
            assert sorted(found)[1:] == [usable] * (len(found) - 1)
        assert cut.joins == len(found) - 1
        strips, count = strips + len(found), count + cut.joins
    together = cut_run(Run("r", width, tuple(lengths), join=join), Room(usable, None, Fraction(1, 8)), SEAM)  # type: ignore[arg-type]  # one of the two
    assert (together.count, together.joins) == (strips, count)


@usual
@given(eighths, wants, widths, joins)
def test_lengthwise_strips_are_equal_fit_side_by_side_and_are_as_short_as_can_be(
    width: Fraction, lengths: list[Fraction], usable: Fraction, join: str
) -> None:
    for want in lengths:
        run = Run("r", width, (want,), join=join, grain="lengthwise")  # type: ignore[arg-type]  # one of the two
        cut = cut_run(run, Room(usable, None, Fraction(1, 8)), SEAM)
        (strip,) = cut.strips
        assert strip.across == width
        assert strip.count * width <= usable
        assert sewn([strip.along] * strip.count, loss(run)) >= want
        if strip.count > 1:
            assert (strip.count + 1) * width > usable
            assert sewn([strip.along - Fraction(1, 8)] * strip.count, loss(run)) < want


@usual
@given(eighths, wants, widths, st.sampled_from(["crosswise", "lengthwise", "bias", "any"]))
def test_without_joins_each_length_comes_in_one_piece(
    width: Fraction, lengths: list[Fraction], usable: Fraction, grain: str
) -> None:
    cut = cut_run(Run("r", width, tuple(lengths), "none", grain), Room(usable), SEAM)  # type: ignore[arg-type]  # a grain
    along = grain == "lengthwise"
    assert sorted(
        length for s in cut.strips for length in [s.along if along else s.across] * s.count
    ) == sorted(lengths)
    assert cut.joins == 0
    assert not cut.trouble


def test_by_hand() -> None:
    # 8 × 42 − 7 × 2 1/2 = 318 1/2 for 289; so the last strip may be 29 1/2 shorter: 12 1/2 in.
    binding = Run("binding", Fraction(5, 2), (Fraction(289),))
    cut = cut_run(binding, Room(Fraction(42)), SEAM)
    assert cut.strips == (
        StripCut(Fraction(42), Fraction(5, 2), 7),
        StripCut(Fraction(25, 2), Fraction(5, 2), 1),
    )
    assert cut.joins == 7
    # Straight joins lose half an inch: 7 × 42 − 6 × 1/2 = 291 for 289.
    straight = cut_run(Run("binding", Fraction(5, 2), (Fraction(289),), "straight"), Room(Fraction(42)), SEAM)
    assert straight.strips == (
        StripCut(Fraction(42), Fraction(5, 2), 6),
        StripCut(Fraction(40), Fraction(5, 2), 1),
    )
    # Just as long as the cloth is wide: one strip, no join.
    assert cut_run(Run("r", Fraction(2), (Fraction(42),)), Room(Fraction(42)), SEAM).strips == (
        StripCut(Fraction(42), Fraction(2), 1),
    )


def test_a_strip_that_is_measured_is_cut_to_the_step() -> None:
    # Washed by 3 %, 42 in leaves 40.74 in: the last strip would be 100 − 2 × 38.24 = 23.52 in.
    cut = cut_run(Run("r", Fraction(5, 2), (Fraction(100),)), Room(Fraction(4074, 100)), SEAM)
    assert [s.across for s in cut.strips] == [Fraction(4074, 100), Fraction(189, 8)]


def test_strips_of_a_precut_are_as_long_as_it_is() -> None:
    room = Room(Fraction(21), Fraction(18))
    # 2 × 21 − 2 = 40.
    assert cut_run(Run("r", Fraction(2), (Fraction(40),)), room, SEAM).strips == (
        StripCut(Fraction(21), Fraction(2), 2),
    )
    along = cut_run(Run("r", Fraction(2), (Fraction(50),), grain="lengthwise"), room, SEAM)
    assert max(s.along for s in along.strips) == 18
    assert sewn([s.along for s in along.strips for _ in range(s.count)], Fraction(2)) == 50


def test_joins_that_take_all_that_a_strip_brings_are_told() -> None:
    cut = cut_run(Run("r", Fraction(43), (Fraction(50),)), Room(Fraction(42)), SEAM)
    assert not cut.strips
    assert "join takes as much as a further strip brings" in cut.trouble


@pytest.mark.parametrize("want", ["1/8", "5/2", "21/8"])
def test_lengthwise_a_join_may_gain_nothing(want: str) -> None:
    cut = cut_run(Run("r", Fraction(5, 2), (Fraction(want),), grain="lengthwise"), Room(Fraction(42)), SEAM)
    assert cut.joins == cut.count - 1
    assert sewn([cut.strips[0].along] * cut.count, Fraction(5, 2)) >= Fraction(want)
