"""Lengths in the words of a `Cannot`, which is plain text: in the project's system, to its size step."""

from fractions import Fraction

from boltend.plugin import Number, Settings, nearest

_CENTIMETRE = Fraction(50, 127)
_READ = 64
"""A finer fraction of an inch says less than its decimal."""


def say(inches: Number, setting: Settings) -> str:
    """A length of 0 or more as `12 1/2 in` or `31.8 cm`; behind ≈ where that is rounded."""
    shown = nearest(inches, setting.size_step)
    if setting.system == "cm":
        return _decimal(shown / _CENTIMETRE, "cm", about=shown != inches)
    about = "" if shown == inches else "≈ "
    whole, rest = divmod(shown, 1)
    if rest.denominator > _READ:
        return _decimal(shown, "in", about=True)
    if not rest:
        return f"{about}{whole} in"
    return f"{about}{whole} {rest} in" if whole else f"{about}{rest} in"


def size_of(number: Number) -> Number:
    """A number without its sign."""
    return -number if number < 0 else number


def _decimal(value: Fraction, unit: str, *, about: bool) -> str:
    thousandths = round(value * 1000)
    text = f"{thousandths // 1000}.{thousandths % 1000:03d}".rstrip("0").rstrip(".")
    return f"{'≈ ' if about or thousandths != value * 1000 else ''}{text} {unit}"
