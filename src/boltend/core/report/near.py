"""Sizes beside a picture: exact where their fraction is short, else to the project's step."""

from collections.abc import Callable
from fractions import Fraction

from boltend.core.contract import Settings
from boltend.core.values import Notation, Number, nearest, show_length

_LARGEST_DENOMINATOR = 64


def sizes_as(settings: Settings) -> Callable[[Number], str]:
    """How sizes stand beside a picture: exact where their fraction is short, else ≈ to the project's step."""
    return lambda inches: say_near(inches, settings.notation, settings.size_step)


def say_near(inches: Number, how: Notation, step: Fraction) -> str:
    """`52 1/2 in`, or for what has no short fraction `≈ 38 3/16 in`."""
    text = show_length(inches, how)
    denominator = text.rpartition("/")[2].split(" ")[0] if "/" in text else "1"
    if not text.startswith("≈") and int(denominator) <= _LARGEST_DENOMINATOR:
        return text
    return f"≈ {show_length(nearest(inches, step), how)}"
