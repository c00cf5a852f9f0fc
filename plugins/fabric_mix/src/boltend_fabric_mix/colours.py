"""How far apart two colours are: CIEDE2000, worked out by coloraide.

coloraide is imported where it is used: that costs 90 to 150 ms, which only the worker process has to pay.
"""

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from typing import Any, TypeAlias

from boltend.plugin import nearest

Lab: TypeAlias = tuple[float, float, float]
"""CIE L*, a*, b* under daylight (D65), the white that sRGB is made for."""

FINEST = Fraction(1, 10_000)
"""To this the published pairs agree with one another, so a difference is told no finer."""

_OPPOSITE = 1e-9  # radians: hues no further than this from 180° apart count as exactly opposite
_NUDGE = 1e-7  # radians: far above the noise of a float, far below what a fourth decimal shows


def lab_of(colour: str) -> Lab:
    """The coordinates of a colour `#rrggbb`."""
    from coloraide import Color  # late: 90 to 150 ms, and only the worker needs it

    lightness, a, b = Color(colour).convert("lab-d65").coords(nans=False)
    return lightness, a, b


def ciede2000(one: Lab, other: Lab) -> Fraction:
    """The CIEDE2000 difference of two colours (kL = kC = kH = 1), to the nearest 1/10 000.

    0 for the same colour, 100 from black to white. Source: Sharma, Wu, Dalal, "The CIEDE2000 color-difference
    formula: implementation notes", Color Research and Application 30(1), 2005.
    """
    one, other = _steady(one, other)
    apart: float = _made(one).delta_e(_made(other), method="2000")
    return Fraction(nearest(Fraction(apart), FINEST))


def differences(colours: Sequence[str]) -> list[list[Fraction]]:
    """The difference of every two colours, by their places. Each two different colours are compared once."""
    places: dict[str, int] = {}
    for colour in colours:
        places.setdefault(colour, len(places))
    labs = [lab_of(colour) for colour in places]
    apart = [[Fraction(0)] * len(labs) for _ in labs]
    for i, one in enumerate(labs):
        for j in range(i):
            apart[i][j] = apart[j][i] = ciede2000(labs[j], one)
    at = [places[colour] for colour in colours]
    return [[apart[i][j] for j in at] for i in at]


@lru_cache(maxsize=1024)
def _made(lab: Lab) -> Any:
    """A colour as coloraide holds it; each is compared with many others."""
    from coloraide import Color  # late, as above

    return Color("lab-d65", lab)


def _steady(one: Lab, other: Lab) -> tuple[Lab, Lab]:
    """The same two colours; of two exactly opposite hues the larger is turned back by a hair.

    The formula takes the mean hue of two hues up to 180° apart, and its opposite beyond that, so at exactly
    180° the last bit of a float would choose between two answers (4.8045 and 4.7461 for published pair 14).
    By the formula 180° counts as "up to".
    """
    (_, a, b), (_, c, d) = one, other
    size = (a * a + b * b) ** 0.5 * (c * c + d * d) ** 0.5
    if a * c + b * d >= 0 or abs(a * d - b * c) > _OPPOSITE * size:
        return one, other
    if b < 0 or (b == 0 and a < 0):  # its hue is from 180° up to 360°, so it is the larger
        return _turned_back(one), other
    return one, _turned_back(other)


def _turned_back(lab: Lab) -> Lab:
    lightness, a, b = lab
    return lightness, a + b * _NUDGE, b - a * _NUDGE
