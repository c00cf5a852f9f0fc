"""A printed yardage, held against the plan."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.core.contract import Settings
from boltend.core.values import up

WIDER = 16
"""How many steps of usable width are tried where a printed length is short."""

WIDE = {
    "in": tuple(map(Fraction, (54, 60, 90, 108))),
    "cm": tuple(Fraction(50, 127) * cm for cm in (137, 152, 229, 274)),
}
"""Usable widths of wide cloth, in inches; common practice, no source. They are tried last."""

STEPS = {"in": Fraction(1, 2), "cm": Fraction(50, 127)}
"""Half an inch, or a centimetre (in inches)."""


@dataclass(frozen=True)
class Printed:
    """How a printed length compares: by how much more or less than needed (inches, before the shop's step).

    `would_do` is the least usable width, in whole steps, at which the printed length is enough; None where
    none up to `tried` is. Then `made_for` is the usable width that the pieces were made for, where one of
    them is as wide as the cloth: on another cloth there would be other pieces.
    """

    length: Fraction
    verdict: Literal["enough", "generous", "short"]
    by: Fraction
    would_do: Fraction | None = None
    tried: Fraction | None = None
    made_for: Fraction | None = None


def compare(
    printed: Fraction,
    needed: Fraction,
    settings: Settings,
    enough_at: Callable[[Fraction], bool],
    made_for: Fraction | None = None,
) -> Printed:
    """Compare a printed length with the length needed, both in inches.

    It is *generous* where the shop could sell a whole step less. `enough_at` tells whether it is enough at
    another usable width; it is asked only where the printed length is short. `made_for` as in `Printed`.
    """
    if printed >= needed:
        spare = printed - needed
        return Printed(printed, "generous" if spare >= settings.buying_step else "enough", spare)
    wider = list(_wider(settings))
    would_do = next((width for width in wider if enough_at(width)), None)
    made_for = made_for if would_do is None else None
    return Printed(printed, "short", needed - printed, would_do, wider[-1], made_for)


def _wider(settings: Settings) -> Iterator[Fraction]:
    step = STEPS[settings.system]
    first = up(settings.usable_width, step)
    if first == settings.usable_width:
        first += step
    for n in range(WIDER):
        yield first + n * step
    yield from (wide for wide in WIDE[settings.system] if wide > first + (WIDER - 1) * step)
