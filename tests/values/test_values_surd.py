"""Surds against 60-digit decimals and identities; directed rounding against plain integer arithmetic."""

from __future__ import annotations

import pickle
from decimal import Decimal, localcontext
from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from boltend.core.values import (
    ROOT2,
    Number,
    Surd,
    ceil_div,
    decimal_text,
    down,
    floor_div,
    nearest,
    up,
)

parts = st.fractions(min_value=-500, max_value=500, max_denominator=400)
surds = st.builds(Surd, parts, parts)
steps = st.fractions(min_value=Fraction(1, 64), max_value=36, max_denominator=64).filter(bool)
numbers: st.SearchStrategy[Number] = st.one_of(parts, surds, st.integers(-400, 400))


def as_decimal(x: Number) -> Decimal:
    """The number to 60 digits, by the decimal module's own square root."""
    with localcontext() as context:
        context.prec = 60
        if isinstance(x, Surd):
            return as_decimal(x.a) + as_decimal(x.b) * Decimal(2).sqrt()
        x = Fraction(x)
        return Decimal(x.numerator) / Decimal(x.denominator)


def close(x: Number, wanted: Decimal) -> bool:
    return abs(as_decimal(x) - wanted) < Decimal("1e-45") * (1 + abs(wanted))


@given(surds, numbers)
def test_sums_products_and_quotients_agree_with_decimals(x: Surd, y: Number) -> None:
    with localcontext() as context:
        context.prec = 60
        assert close(x + y, as_decimal(x) + as_decimal(y))
        assert close(x - y, as_decimal(x) - as_decimal(y))
        assert close(y - x, as_decimal(y) - as_decimal(x))
        assert close(x * y, as_decimal(x) * as_decimal(y))
        assert close(-x, -as_decimal(x))
        assert close(abs(x), abs(as_decimal(x)))


@given(surds, numbers)
def test_division_undoes_multiplication(x: Surd, y: Number) -> None:
    assume(y != 0)
    assert x / y * y == x
    if x:
        assert y / x * x == y


@given(surds, numbers)
def test_order_agrees_with_decimals(x: Surd, y: Number) -> None:
    dx, dy = as_decimal(x), as_decimal(y)
    assume(x == y or abs(dx - dy) > Decimal("1e-50"))
    same = x == y
    assert (x < y) is (not same and dx < dy)
    assert (x >= y) is (same or dx > dy)
    assert (y < x) is (not same and dy < dx)


@given(surds)
def test_floor_ceil_and_float_agree_with_decimals(x: Surd) -> None:
    d = as_decimal(x)
    assert floor(x) == floor(d)
    assert ceil(x) == ceil(d)
    assert float(x) == float(d)


def test_what_has_no_root_is_a_plain_fraction() -> None:
    assert type(ROOT2 * ROOT2) is Fraction
    assert ROOT2 * ROOT2 == 2
    assert type(ROOT2 - ROOT2) is Fraction
    assert (1 + ROOT2) * (ROOT2 - 1) == 1
    assert 2 / ROOT2 == ROOT2
    assert (3 + 2 * ROOT2) == (1 + ROOT2) * (1 + ROOT2)


def test_equal_numbers_have_equal_hashes() -> None:
    assert Surd(Fraction(3, 2), 0) == Fraction(3, 2)
    assert hash(Surd(Fraction(3, 2), 0)) == hash(Fraction(3, 2))
    assert len({ROOT2, Surd(0, 1), 2 / ROOT2}) == 1
    assert not Surd(0, 0)
    assert ROOT2


def test_near_misses_of_the_root_are_told_apart() -> None:
    # convergents of √2 lie alternately below and above it: p² − 2q² = ∓1
    p, q = 1, 1
    for turn in range(60):
        assert (Fraction(p, q) < ROOT2) is (turn % 2 == 0)
        assert (Fraction(p, q) < ROOT2) is (turn % 2 == 0)
        p, q = p + 2 * q, p + q


def test_a_nearly_cancelled_surd_has_the_right_float() -> None:
    x: Number = ROOT2 - 1
    for _ in range(40):
        x = x * (ROOT2 - 1)
    with localcontext() as context:
        context.prec = 90
        assert float(x) == pytest.approx(float((Decimal(2).sqrt() - 1) ** 41), rel=1e-15)


@pytest.mark.parametrize("bad", [1.5, "1", None, Decimal(1)])
def test_inexact_and_foreign_numbers_are_refused(bad: object) -> None:
    with pytest.raises(TypeError):
        ROOT2 + bad  # type: ignore[operator]  # what is tested
    with pytest.raises(TypeError):
        Surd(bad, 1)  # type: ignore[arg-type]  # what is tested
    with pytest.raises(TypeError):
        up(bad, Fraction(1, 8))  # type: ignore[arg-type]  # what is tested


def test_a_surd_never_changes_and_survives_the_way_to_a_worker() -> None:
    with pytest.raises(AttributeError):
        ROOT2.a = Fraction(5)
    with pytest.raises(AttributeError):
        del ROOT2.b
    assert pickle.loads(pickle.dumps(Surd(Fraction(1, 3), 2))) == Surd(Fraction(1, 3), 2)
    with pytest.raises(ZeroDivisionError):
        _ = ROOT2 / 0


@given(parts, steps)
def test_rounding_of_fractions_agrees_with_integers(x: Fraction, step: Fraction) -> None:
    common = x.denominator * step.denominator
    a, b = int(x * common), int(step * common)
    assert up(x, step) * common == (a + b - 1) // b * b
    assert down(x, step) * common == a // b * b
    n = (2 * abs(a) + b) // (2 * b) * b
    assert nearest(x, step) * common == (n if a >= 0 else -n)
    assert floor_div(x, step) == a // b
    assert ceil_div(x, step) == -(-a // b)


@given(numbers, steps)
def test_rounding_lies_where_it_must(x: Number, step: Fraction) -> None:
    above, below, near = up(x, step), down(x, step), nearest(x, step)
    for rounded in (above, below, near):
        assert (rounded / step).denominator == 1
    assert above - step < x <= above
    assert below <= x < below + step
    assert abs(near - x) * 2 <= step


@given(st.fractions(min_value=1, max_value=500, max_denominator=64), surds)
def test_whole_times_in_a_length_may_have_a_root(length: Fraction, divisor: Surd) -> None:
    assume(divisor > Fraction(1, 10))
    n = floor_div(length, divisor)
    assert n * divisor <= length < (n + 1) * divisor
    m = ceil_div(length, divisor)
    assert (m - 1) * divisor < length <= m * divisor


def test_a_hair_is_neither_bought_nor_missing() -> None:
    eighth = Fraction(1, 8)
    assert up(Fraction(5, 8) * 36, eighth * 36) == Fraction(45, 2)
    assert up(Fraction(45, 2) + Fraction(1, 10**30), eighth * 36) == 27
    assert down(Fraction(45, 2) - Fraction(1, 10**30), eighth * 36) == 18


def test_ties_go_away_from_zero() -> None:
    step = Fraction(1, 16)
    assert nearest(Fraction(1, 32), step) == step
    assert nearest(Fraction(-1, 32), step) == -step
    assert nearest(Fraction(1, 32) - Fraction(1, 10**20), step) == 0


@pytest.mark.parametrize("step", [0, Fraction(-1, 8)])
def test_a_step_is_above_nothing(step: int | Fraction) -> None:
    for rounding in (up, down, nearest):
        with pytest.raises(ValueError, match="above 0"):
            rounding(1, step)


def test_the_mitre_of_the_handbook() -> None:
    # handbook section 6: 50 in finished and a border of 7 in: 65.207 in; 50 in raw: 64.707 in
    seams = 2 * Fraction(1, 4) * (1 + ROOT2)
    assert decimal_text(50 + 14 + seams, 3) == "65.207"
    assert decimal_text(Fraction(99, 2) + 14 + seams, 3) == "64.707"


@given(parts, st.integers(0, 8))
def test_decimal_text_of_a_fraction(x: Fraction, places: int) -> None:
    text = decimal_text(x, places)
    assert len(text.partition(".")[2]) == places
    assert abs(Fraction(text) - x) * 2 * 10**places <= 1


def test_decimal_text_has_no_minus_nothing() -> None:
    assert decimal_text(Fraction(-1, 1000), 2) == "0.00"
    assert decimal_text(Fraction(-1, 3), 2) == "-0.33"
    assert decimal_text(Fraction(1, 8), 2) == "0.13"
    assert decimal_text(7, 0) == "7"
    assert decimal_text(ROOT2, 30) == "1.414213562373095048801688724210"
