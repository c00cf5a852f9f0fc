"""Exact numbers and their directed rounding.

Every rounding is done on an exact number, so none ever turns on a hair of floating point. Floats are refused.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from boltend.core.values.surd import ROOT2, Number, Surd

__all__ = ["ROOT2", "Number", "Surd", "ceil_div", "decimal_text", "down", "floor_div", "nearest", "up"]


def floor_div(a: Number, b: Number) -> int:
    """Return the largest whole number n with ``n·b <= a``; b must be above 0."""
    if type(a) is Fraction and type(b) is Fraction and b.numerator > 0:  # nearly every call
        return a.numerator * b.denominator // (a.denominator * b.numerator)
    n, d = _positive(b, "the divisor")
    if isinstance(a, int | Fraction) and d:
        return int(a.numerator * d // (a.denominator * n))
    return floor(_number(a) / b)


def ceil_div(a: Number, b: Number) -> int:
    """Return the least whole number n with ``n·b >= a``; b must be above 0."""
    if type(a) is Fraction and type(b) is Fraction and b.numerator > 0:  # nearly every call
        return -(-a.numerator * b.denominator // (a.denominator * b.numerator))
    n, d = _positive(b, "the divisor")
    if isinstance(a, int | Fraction) and d:
        return -int(-a.numerator * d // (a.denominator * n))
    return ceil(_number(a) / b)


def up(x: Number, step: int | Fraction) -> Fraction:
    """Return the least multiple of `step` that is not below `x`: for what must cover."""
    return _times(ceil_div(x, _step(step)), step)


def down(x: Number, step: int | Fraction) -> Fraction:
    """Return the largest multiple of `step` that is not above `x`: for what must fit."""
    return _times(floor_div(x, _step(step)), step)


def nearest(x: Number, step: int | Fraction) -> Fraction:
    """Return the multiple of `step` nearest to `x`; a tie goes away from zero."""
    size = -x if _number(x) < 0 else x
    n = floor_div(2 * size + _step(step), 2 * step)
    return _times(-n if x < 0 else n, step)


def decimal_text(x: Number, places: int) -> str:
    """Return `x` as decimal text with `places` digits after the point; ties round away from zero.

    ``decimal_text(50 + 14 + (1 + ROOT2) / 2, 3)`` is ``"65.207"``.
    """
    scaled = int(nearest(x * 10**places, 1))
    digits = str(abs(scaled)).rjust(places + 1, "0")
    sign = "-" if scaled < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else f"{sign}{digits}"


def _times(n: int, step: int | Fraction) -> Fraction:
    return Fraction(n * step.numerator, step.denominator)  # half the time of Fraction's own product


def _number(x: Number) -> Number:
    if isinstance(x, int | Fraction | Surd):
        return x
    raise TypeError(f"rounding takes exact numbers (Fraction, Surd, int), not {type(x).__name__}")


def _step(step: int | Fraction) -> int | Fraction:
    if not isinstance(step, int | Fraction):
        raise TypeError(f"a step is a Fraction or a whole number, not {type(step).__name__}")
    if step <= 0:
        raise ValueError(f"a step must be above 0, not {step}")
    return step


def _positive(b: Number, what: str) -> tuple[int, int]:
    """Numerator and denominator of `b`, or (0, 0) where it has a root."""
    if _number(b) <= 0:
        raise ValueError(f"{what} must be above 0, not {b}")
    return (b.numerator, b.denominator) if isinstance(b, int | Fraction) else (0, 0)
