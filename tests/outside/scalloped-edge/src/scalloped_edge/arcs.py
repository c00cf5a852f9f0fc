"""Arcs of circles in exact numbers: how long one is, and points that lie on it.

A scallop is an arc over its chord, as deep as `depth`. Half the chord h and the depth d give the radius
(h² + d²) / 2d, and the arc is 4·r·arctan(d/h) long. An arctangent is no fraction, so it is held between two
fractions that are a millionth apart or less: Euler's series has only positive terms, and each is less than the
one before by at least x² / (1 + x²), so what is left of it is known, too. (L. Euler, 1755; any table of series.)
"""

from fractions import Fraction

from boltend.plugin import down, up

MILLIONTH = Fraction(1, 10**6)


def arc_between(chord: Fraction, depth: Fraction) -> tuple[Fraction, Fraction]:
    """Two lengths between which that of the arc lies, at most 2 millionths of an inch apart.

    `depth` is from 0 (a straight line, exact) to half the chord (a half circle), all in inches.
    """
    if depth == 0:
        return chord, chord
    half = chord / 2
    radius = (half * half + depth * depth) / (2 * depth)
    low, high = arctan_between(depth / half, MILLIONTH / (8 * radius))
    return down(4 * radius * low, MILLIONTH), up(4 * radius * high, MILLIONTH)


def arctan_between(x: Fraction, apart: Fraction) -> tuple[Fraction, Fraction]:
    """Two fractions that are `apart` or less, with the arctangent of x between them; 0 < x <= 1."""
    shrinks = x * x / (1 + x * x)
    term = total = x / (1 + x * x)
    n = 0
    while term * x * x > apart:
        n += 1
        term *= Fraction(2 * n, 2 * n + 1) * shrinks
        total += term
    return total, total + term * x * x


def points_on(chord: Fraction, depth: Fraction, steps: int) -> list[tuple[Fraction, Fraction]]:
    """Points on the arc from the chord's left end to its right one, exactly on it; y is 0 at the chord.

    With t = tan(angle/2), a point at that angle is at r·2t/(1 + t²) and r·(1 − t²)/(1 + t²): fractions.
    """
    half = chord / 2
    if depth == 0:
        return [(Fraction(0), Fraction(0)), (chord, Fraction(0))]
    radius = (half * half + depth * depth) / (2 * depth)
    ends = depth / half
    points = []
    for step in range(-steps, steps + 1):
        t = ends * step / steps
        x, y = radius * 2 * t / (1 + t * t), radius * (1 - t * t) / (1 + t * t)
        points.append((half + x, y - radius + depth))
    return points
