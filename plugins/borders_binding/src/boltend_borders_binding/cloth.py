"""A fabric as it is when it is cut: of its own usable width, and washed where the settings say so."""

from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.plugin import Cannot, Line, Settings, length, line, percent, yards

MOST_INCHES = 10**7
"""No length in Boltend is longer, once it is rounded as it is shown: 158 miles."""


@dataclass(frozen=True, slots=True)
class Cloth:
    """A fabric ready to cut: inches of usable width, and the part of its length that washing leaves.

    `squaring`: inches that are lost once, to square its end.
    """

    usable: Fraction
    kept: Fraction = Fraction(1)
    working: tuple[Line, ...] = ()
    squaring: Fraction = Fraction(0)

    def bought(self, needed: Fraction) -> Fraction:
        """Inches off the bolt that are `needed` inches once washed."""
        return needed / self.kept

    def alone(self, bought: Fraction) -> Fraction:
        """Inches off the bolt with its end squared once, where nothing else is cut from it."""
        return bought + self.squaring / self.kept if bought else Fraction(0)

    def alone_line(self, bought: Fraction, setting: Settings) -> Line:
        """Why To buy has more than the strips take."""
        said = (
            "To buy, this tab alone: {} + {} to square the end makes {}, so the shop cuts {}. To buy takes "
            "all tabs of a fabric together, squares it once, and uses what is in hand."
        )
        whole = self.alone(bought)
        return line(said, length(bought), length(whole - bought), length(whole), yards(setting.buy_up(whole)))


def cloth(fabric: str | None, usable_width: Fraction, setting: Settings) -> Cloth:
    """The cloth of one fabric: what the tab says of its width, or else what the fabric says of its own.

    Shrinkage divides: 94 in at 5 % needs 98.95. Raises `Cannot` where nothing is left to cut.
    """
    own = replace(setting, usable_width=usable_width).on(fabric)
    if own.usable_width <= 0:
        raise Cannot("usable_width", "it is not above zero.", "Give the width between the selvages.")
    across, along = 1 - own.prewash_across / 100, 1 - own.prewash_along / 100
    for name, kept in (("prewash_across", across), ("prewash_along", along)):
        if kept <= 0:
            raise Cannot(name, "washing would leave nothing.", "Give a loss below 100 %.")
    usable = own.usable_width * across
    said = "Washing first takes {} of the width ({} leaves {}) and {} of the length."
    shown = percent(own.prewash_across), length(own.usable_width), length(usable), percent(own.prewash_along)
    return Cloth(usable, along, () if across == along == 1 else (line(said, *shown),), own.squaring)
