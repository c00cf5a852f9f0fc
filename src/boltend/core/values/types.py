"""Values that need more than a number: money, rates and thread numbers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

Per = Literal["yard", "metre"]
"""The lengths that cloth is priced by."""


@dataclass(frozen=True, slots=True)
class Price:
    """An amount of money, flat (`per` is None) or for a yard or a metre of cloth."""

    amount: Fraction
    currency: str
    per: Per | None = None


@dataclass(frozen=True, slots=True)
class Rate:
    """So much for each of something: stitches ``per in``, turns ``per min``, thread ``in per in``."""

    value: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class ThreadNumber:
    """A thread's number and the convention it is counted by, such as ``Ne`` or ``tex``."""

    value: Fraction
    convention: str


Value: TypeAlias = Fraction | int | bool | str | Price | Rate | ThreadNumber | tuple[Fraction, ...]
"""What a value of any kind is inside: see `boltend.core.values.kinds` for which is which."""
