"""The ways of laying a backing's panels on one cloth, and which of them is bought."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from boltend.plugin import Cannot, Settings
from boltend_backing_batting.panels import Cloth, Layout, check_most, halved, layout

Asked = Literal["best", "down", "across"]


@dataclass(frozen=True, slots=True)
class Ways:
    """Down the quilt and across it with whole panels, and with the last one in halves, on one cloth."""

    cloth: Cloth
    whole: tuple[Layout, Layout]
    halved: tuple[Layout, ...]
    setting: Settings

    def chosen(self, asked: Asked, *, may_piece: bool) -> Layout:
        """What is bought: least after the shop's step, then of fewer panels and seams, then down."""
        saving = self.saving(asked) if may_piece else []
        return saving[0] if saving else min(_asked(self.whole, asked), key=self._rank)

    def saving(self, asked: Asked) -> list[Layout]:
        """The ways with their last panel in halves for which the shop cuts less than for whole panels."""
        least = self.buy(self.chosen(asked, may_piece=False))
        return sorted((p for p in _asked(self.halved, asked) if self.buy(p) < least), key=self._rank)

    def at(self, widths: Sequence[Fraction], left: Fraction) -> Iterator[tuple[Fraction, "Ways"]]:
        """The same on cloths of other usable widths, of which washing leaves this share.

        A width that its seams take up, or that asks for more than any length may be, is left out.
        """
        down, across = self.whole
        for width in dict.fromkeys(widths):
            try:
                ways = ways_of(
                    (down.span, across.span), replace(self.cloth, usable=width * left), self.setting
                )
                check_most(max(map(ways.buy, ways.whole)))
            except Cannot:
                continue
            yield width, ways

    def alone(self, each: Layout) -> Fraction:
        """What a way takes with the end of the cloth squared once; inches as bought."""
        return each.bought + self.setting.squaring / self.cloth.kept

    def buy(self, each: Layout) -> Fraction:
        """What the shop cuts for it alone."""
        return self.setting.buy_up(self.alone(each))

    def _rank(self, each: Layout) -> tuple[Fraction, Fraction, int]:
        # By the length before squaring first, and by both: so neither ever shrinks as a quilt grows.
        return self.setting.buy_up(each.bought), self.buy(each), each.panels + each.seams


def ways_of(needed: tuple[Fraction, Fraction], cloth: Cloth, setting: Settings) -> Ways:
    """Both ways of covering `needed` (across, down; inches). Raises `Cannot` as `layout` does."""
    whole = layout("down", needed, cloth, setting), layout("across", needed, cloth, setting)
    halves = (halved(each, cloth, setting) for each in whole)
    return Ways(cloth, whole, tuple(each for each in halves if each is not None), setting)


def _asked(ways: Sequence[Layout], asked: Asked) -> list[Layout]:
    return [each for each in ways if asked in ("best", each.way)]
