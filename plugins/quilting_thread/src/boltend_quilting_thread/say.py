"""Numbers in words: long lengths and rates, exact where they are short, else a decimal behind ≈."""

from fractions import Fraction

from boltend.plugin import Settings, ThreadNumber, length, nearest, yards
from boltend_quilting_thread.amounts import METRE, YARD

_EIGHTH = YARD / 8


def long(inches: Fraction, setting: Settings) -> object:
    """A length of path or thread: in yards (metres), to the hundredth where it is no whole eighth."""
    exact = setting.system == "in" and inches % _EIGHTH == 0
    return yards(inches) if exact else yards_text(inches, setting)


def thin(inches: Fraction, setting: Settings) -> object:
    """A thickness in the project's own system, in which the stitches stand beside it."""
    if setting.system == "in" and inches.denominator > 64:
        return f"{decimal(inches)} in"
    return length(inches)


def yards_text(inches: Fraction, setting: Settings) -> str:
    """A long length in yards (metres) as a text, to the hundredth: for a name, which holds no values."""
    if setting.system == "in":
        return f"{decimal(inches / YARD, 2)} yd"
    return f"{decimal(inches / METRE, 2)} m"


def density(stitches: Fraction, setting: Settings) -> str:
    """Stitches for a length, as the project's own system says it: 10 per in."""
    if setting.system == "in":
        return f"{decimal(stitches)} per in"
    return f"{decimal(stitches * METRE / 100)} per cm"


def decimal(value: Fraction, places: int = 3) -> str:
    """A number as a decimal, behind ≈ where it is longer: 1.5, ≈ 1.333."""
    size: int = 10**places
    rounded = nearest(value, Fraction(1, size))
    whole, part = divmod(int(rounded * size), size)
    text = f"{whole}.{part:0{places}}".rstrip("0").rstrip(".")
    return text if rounded == value else f"≈ {text}"


def number_text(number: ThreadNumber) -> str:
    """A thread number with its convention."""
    return f"{decimal(number.value, 6)} {number.convention}"
