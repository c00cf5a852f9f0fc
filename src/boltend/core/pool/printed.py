"""A printed yardage, held against the plan."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

WIDER = 8
"""How many inches more of usable width are tried where a printed length is short."""
STEP = Fraction(1, 2)


@dataclass(frozen=True)
class Printed:
    """How a printed length compares: by how much more or less than needed (inches, before the shop's step).

    `would_do` is the least usable width, by half inches, at which the printed length is enough; None where
    none up to 8 in wider is.
    """

    length: Fraction
    verdict: Literal["enough", "generous", "short"]
    by: Fraction
    would_do: Fraction | None = None


def compare(
    printed: Fraction,
    needed: Fraction,
    step: Fraction,
    width: Fraction,
    need_at: Callable[[Fraction], Fraction],
) -> Printed:
    """Compare a printed length with the length needed, both in inches.

    It is *generous* where the shop could sell a whole step less. `need_at` gives the length needed at
    another usable width.
    """
    if printed >= needed:
        verdict: Literal["enough", "generous"] = "generous" if printed - needed >= step else "enough"
        return Printed(printed, verdict, printed - needed)
    wider = (width + n * STEP for n in range(1, int(WIDER / STEP) + 1))
    would_do = next((at for at in wider if need_at(at) <= printed), None)
    return Printed(printed, "short", needed - printed, would_do)
