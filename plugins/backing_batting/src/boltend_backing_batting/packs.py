"""Which package of batting covers a size, and what a roll takes."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from boltend.plugin import Cannot, Price
from boltend_backing_batting.battings import BATTINGS

CENTIMETRE = Fraction(50, 127)
"""In inches: batting is asked for by whole inches or whole centimetres."""

Size = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Pack:
    """A package of batting, in inches."""

    name: str
    width: Fraction
    length: Fraction

    @property
    def area(self) -> Fraction:
        """Square inches."""
        return self.width * self.length

    def covers(self, needed: Size) -> bool:
        """Whether it covers the size, either way round."""
        return min(self.width, self.length) >= min(needed) and max(self.width, self.length) >= max(needed)


def pack_of(row: Mapping[str, object]) -> Pack | None:
    """The package that a row of the table is, or None for a kind of batting without a size."""
    width, length = row["width"], row["length"]
    if not isinstance(width, Fraction) or not isinstance(length, Fraction):
        return None
    return Pack(str(row["name"]), width, length)


def price_of(row: Mapping[str, object] | None) -> Price | None:
    """The person's own price in a row of the table; the built-in rows have none."""
    price = row["price"] if row is not None else None
    return price if isinstance(price, Price) else None


@cache
def usual_packs() -> tuple[Pack, ...]:
    """The packages of the built-in table. Kept, for their sizes stand there as text."""
    packs = (pack_of(BATTINGS.row(name)) for name in BATTINGS.rows)
    return tuple(pack for pack in packs if pack is not None)


def covering(needed: Size, batting: Mapping[str, object] | None) -> list[Pack]:
    """The packages that cover a size, the least area first.

    Where the batting that the person chose is a package, that one only: raises `Cannot` if it does not cover.
    """
    own = pack_of(batting) if batting is not None else None
    packs = sorted((p for p in usual_packs() if p.covers(needed)), key=lambda p: (p.area, p.width, p.name))
    if own is None:
        return packs
    if not own.covers(needed):
        way_out = f"Choose {packs[0].name}." if packs else "Take it off a roll, or join two."
        raise Cannot(
            "batting", f"the package “{own.name}” does not cover the quilt either way round.", way_out
        )
    return [own]


def off_the_roll(needed: Size, roll_width: Fraction | None) -> Fraction | None:
    """Inches off a roll, the shorter of the two ways; None where neither side is within the roll."""
    if roll_width is None:
        return None
    return min((needed[1 - side] for side in (0, 1) if needed[side] <= roll_width), default=None)
