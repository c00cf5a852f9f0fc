"""Lengths looked at only to tell whether they might be measurements of one side."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltend.core.values import Notation
from boltend.core.values.lengths import inches_of, nearly_alike

IN = Notation()
lengths = st.fractions(min_value=Fraction(1, 8), max_value=200, max_denominator=16)


@pytest.mark.parametrize(
    ("text", "inches"),
    [("60 1/4", "241/4"), ("1 yd", "36"), ("25.4 mm", "1"), ("12 12", "0"), ("blue", "0"), ("", "0")],
)
def test_inches_of_what_is_no_length_are_none(text: str, inches: str) -> None:
    assert inches_of(text, IN) == Fraction(inches)


@given(st.lists(lengths, min_size=1, max_size=6))
def test_nearly_alike_is_each_within_a_quarter_of_each(sides: list[Fraction]) -> None:
    assert nearly_alike(sides) == all(a <= b + b / 4 for a in sides for b in sides)


def test_none_are_not_alike() -> None:
    assert not nearly_alike([])
