"""Lengths of cloth sewn side by side to cover a size: how many, how long, how much to buy."""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from boltend.plugin import Cannot, Settings, ceil_div, up

MOST_INCHES = 10**7
"""No length in Boltend is longer, once it is rounded as it is shown."""

Way = Literal["down", "across"]
"""How the panels lie, and the seams between them run: down the quilt or across it."""


@dataclass(frozen=True, slots=True)
class Cloth:
    """A backing fabric: usable width once washed, the part of its length that washing leaves, and its repeat.

    All in inches; `seam` is the seam between two panels. The repeat is that of the cloth as it is bought.
    """

    usable: Fraction
    kept: Fraction
    seam: Fraction
    repeat: Fraction


@dataclass(frozen=True, slots=True)
class Layout:
    """`panels` of `length` side by side over `span`, in inches once washed; `first` and `further` as bought.

    All panels but the last are as wide as the cloth; the last is `last` wide, as much as is still needed,
    whole or in two halves that are cut side by side, each `half` long, and joined end to end.
    `last_bought` is what it takes.
    """

    way: Way
    span: Fraction
    length: Fraction
    panels: int
    last: Fraction
    first: Fraction
    further: Fraction
    last_bought: Fraction
    half: Fraction | None = None

    @property
    def bought(self) -> Fraction:
        """Inches off the bolt."""
        if self.panels == 1:
            return self.first
        return self.first + (self.panels - 2) * self.further + self.last_bought

    @property
    def seams(self) -> int:
        """Seams between panels, and between the halves of the last one."""
        return self.panels - 1 + (self.half is not None)


def layout(way: Way, needed: tuple[Fraction, Fraction], cloth: Cloth, setting: Settings) -> Layout:
    """Panels that cover `needed` (across, down; inches) one way.

    ``n = ceil((needed − 2 s) / (U − 2 s))``; each length after the first is rounded up to a whole repeat, so
    that the print can be matched. Raises `Cannot` where a seam takes all that a panel brings, or where, up to
    the shop's step, it is longer than any length may be.
    """
    span, length = needed if way == "down" else needed[::-1]
    pitch = cloth.usable - 2 * cloth.seam
    panels = 1
    if span > cloth.usable:
        if pitch <= 0:
            raise Cannot(
                "usable_width", "the seams take all of a panel.", "Take a wider fabric or a narrower seam."
            )
        panels = ceil_div(span - 2 * cloth.seam, pitch)
    first = length / cloth.kept
    further = up(first, cloth.repeat) if cloth.repeat else first
    last = span - (panels - 1) * pitch
    found = Layout(way, span, length, panels, last, first, further, further)
    check_most(setting.buy_up(found.bought))
    return found


def halved(whole: Layout, cloth: Cloth, setting: Settings) -> Layout | None:
    """The same with its last panel in two halves, ``(length + 2 s) / 2`` each, joined end to end.

    Only where they lie side by side in the width; not with a repeat, which halves would not match.
    """
    if whole.panels == 1 or cloth.repeat or 2 * setting.cut_up(whole.last) > cloth.usable:
        return None
    half = whole.length / 2 + cloth.seam
    return replace(whole, half=half, last_bought=half / cloth.kept)


def check_most(bought: Fraction) -> None:
    """Raise `Cannot` where so many inches to buy, up to the shop's step, are more than any length may be."""
    if bought > MOST_INCHES:
        raise Cannot(
            "usable_width",
            "up to the shop's step it takes more than 10 000 000 in of cloth, 158 miles.",
            "Take a wider fabric, or look at the size, the overage and the repeat again.",
        )
