"""Exact numbers with a square root of two: what a diagonal is.

Squares set on point and triangles cut from squares need no other root, so `a + b√2` with exact `a` and `b`
carries every length of the trade until its one rounding.
"""

from __future__ import annotations

from fractions import Fraction
from functools import total_ordering
from math import isqrt, lcm
from typing import TypeAlias

_FLOAT_BITS = 64  # more than the 53 bits of a float, so that its one rounding is right


@total_ordering
class Surd:
    """The exact number ``a + b·√2``.

    Arithmetic with int, Fraction and Surd is exact; a result without a root is a plain Fraction. Floats are
    refused (TypeError), since they would end the exactness unseen.
    """

    __slots__ = ("a", "b")

    a: Fraction
    b: Fraction

    def __init__(self, a: int | Fraction, b: int | Fraction) -> None:
        object.__setattr__(self, "a", _exact(a))
        object.__setattr__(self, "b", _exact(b))

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"a Surd does not change ({name})")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"a Surd does not change ({name})")

    def __reduce__(self) -> tuple[type[Surd], tuple[Fraction, Fraction]]:
        return (Surd, (self.a, self.b))  # without it, unpickling would set attributes one by one

    def __repr__(self) -> str:
        return f"Surd({self.a}, {self.b})"

    def __add__(self, other: Number) -> Fraction | Surd:
        pair = _pair(other)
        return NotImplemented if pair is None else _collapsed(self.a + pair[0], self.b + pair[1])

    __radd__ = __add__

    def __sub__(self, other: Number) -> Fraction | Surd:
        pair = _pair(other)
        return NotImplemented if pair is None else _collapsed(self.a - pair[0], self.b - pair[1])

    def __rsub__(self, other: Number) -> Fraction | Surd:
        pair = _pair(other)
        return NotImplemented if pair is None else _collapsed(pair[0] - self.a, pair[1] - self.b)

    def __mul__(self, other: Number) -> Fraction | Surd:
        pair = _pair(other)
        if pair is None:
            return NotImplemented
        c, d = pair
        return _collapsed(self.a * c + 2 * self.b * d, self.a * d + self.b * c)

    __rmul__ = __mul__

    def __truediv__(self, other: Number) -> Fraction | Surd:
        pair = _pair(other)
        return NotImplemented if pair is None else _divided((self.a, self.b), pair)

    def __rtruediv__(self, other: Number) -> Fraction | Surd:
        pair = _pair(other)
        return NotImplemented if pair is None else _divided(pair, (self.a, self.b))

    def __neg__(self) -> Surd:
        return Surd(-self.a, -self.b)

    def __pos__(self) -> Surd:
        return self

    def __abs__(self) -> Surd:
        return -self if _sign(self.a, self.b) < 0 else self

    def __bool__(self) -> bool:
        return bool(self.a) or bool(self.b)

    def __eq__(self, other: object) -> bool:
        pair = _pair(other)
        return NotImplemented if pair is None else (self.a, self.b) == pair

    def __lt__(self, other: Number) -> bool:
        pair = _pair(other)
        return NotImplemented if pair is None else _sign(self.a - pair[0], self.b - pair[1]) < 0

    def __hash__(self) -> int:
        return hash((self.a, self.b)) if self.b else hash(self.a)

    def __floor__(self) -> int:
        q = lcm(self.a.denominator, self.b.denominator)
        p = self.a.numerator * (q // self.a.denominator)
        r = self.b.numerator * (q // self.b.denominator)
        root = isqrt(2 * r * r)  # |r|·√2 is no whole number unless r is 0, so its ceiling is root + 1
        return (p + root if r >= 0 else p - root - 1) // q

    def __ceil__(self) -> int:
        return -((-self).__floor__())

    def __float__(self) -> float:
        if not self.b:
            return float(self.a)
        bits = _FLOAT_BITS
        while True:
            scaled = Surd(self.a * (1 << bits), self.b * (1 << bits)).__floor__()
            if abs(scaled) >= 1 << _FLOAT_BITS:
                return float(Fraction(scaled, 1 << bits))
            bits *= 2  # a small number, or a and b·√2 nearly cancel: look further down


Number: TypeAlias = int | Fraction | Surd
"""An exact number. Calculators give Fraction or Surd; a plain int is accepted everywhere."""


def _exact(value: int | Fraction) -> Fraction:
    if type(value) is Fraction:
        return value
    if isinstance(value, int | Fraction):
        return Fraction(value)
    raise TypeError(f"a Surd is made of whole numbers and Fractions, not {type(value).__name__}")


def _pair(value: object) -> tuple[Fraction, Fraction] | None:
    if isinstance(value, Surd):
        return value.a, value.b
    if isinstance(value, int | Fraction):
        return Fraction(value), Fraction(0)
    return None


def _collapsed(a: Fraction, b: Fraction) -> Fraction | Surd:
    return Surd(a, b) if b else a


def _sign(a: Fraction, b: Fraction) -> int:
    """The sign of a + b√2, by comparing squares: exact."""
    if (a >= 0) == (b >= 0) or not a or not b:
        return (a > 0 or b > 0) - (a < 0 or b < 0)
    larger_is_a = a * a > 2 * b * b
    return 1 if (a > 0) == larger_is_a else -1


def _divided(top: tuple[Fraction, Fraction], bottom: tuple[Fraction, Fraction]) -> Fraction | Surd:
    (a, b), (c, d) = top, bottom
    norm = c * c - 2 * d * d  # zero only where the divisor is, since √2 is no fraction
    if not norm:
        raise ZeroDivisionError("division of an exact number by zero")
    return _collapsed((a * c - 2 * b * d) / norm, (b * c - a * d) / norm)


ROOT2 = Surd(0, 1)
"""The diagonal of a square of side 1."""
