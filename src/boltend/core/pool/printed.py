"""A printed yardage, held against the plan."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.core.contract import Settings
from boltend.core.values import up

WIDER = 16
"""How many steps of usable width are tried where a printed length is short."""

STEPS = {"in": Fraction(1, 2), "cm": Fraction(50, 127)}
"""Half an inch, or a centimetre (in inches)."""


@dataclass(frozen=True)
class Printed:
    """How a printed length compares: by how much more or less than needed (inches, before the shop's step).

    `would_do` is the least usable width, in whole steps, at which the printed length is enough; None where
    none up to `tried` is.
    """

    length: Fraction
    verdict: Literal["enough", "generous", "short"]
    by: Fraction
    would_do: Fraction | None = None
    tried: Fraction | None = None


def compare(
    printed: Fraction, needed: Fraction, settings: Settings, enough_at: Callable[[Fraction], bool]
) -> Printed:
    """Compare a printed length with the length needed, both in inches.

    It is *generous* where the shop could sell a whole step less. `enough_at` tells whether it is enough at
    another usable width; it is asked only where the printed length is short.
    """
    if printed >= needed:
        spare = printed - needed
        return Printed(printed, "generous" if spare >= settings.buying_step else "enough", spare)
    wider = list(_wider(settings))
    would_do = next((width for width in wider if enough_at(width)), None)
    return Printed(printed, "short", needed - printed, would_do, wider[-1])


def _wider(settings: Settings) -> Iterator[Fraction]:
    step = STEPS[settings.system]
    first = up(settings.usable_width, step)
    if first == settings.usable_width:
        first += step
    for n in range(WIDER):
        yield first + n * step
