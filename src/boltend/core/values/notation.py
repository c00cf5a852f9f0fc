"""How a project reads and shows its values."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

System = Literal["in", "cm"]
"""The working system of a project: inches or centimetres."""


class Notation(NamedTuple):
    """How one project reads and shows values.

    Args:
        system: the working system, ``"in"`` or ``"cm"``.
        seam: the seam allowance in inches, exact; it turns finished into cut and back.
        currency: three-letter code of the project's currency.
    """

    system: System = "in"
    seam: Fraction = Fraction(1, 4)
    currency: str = "USD"

    def __hash__(self) -> int:
        # Limits and defaults are kept by notation: the hash of a Fraction would take longer than all else.
        return hash((self.system, self.currency))
