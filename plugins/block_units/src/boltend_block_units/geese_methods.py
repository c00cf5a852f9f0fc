"""The three ways to make flying geese, as exact arithmetic. All lengths in inches.

A goose that is made `o` oversize is `o` higher and 2·o wider, so that it stays twice as wide as high and its
point a seam below the edge. Where one cut is rounded up, another may have to follow it: the point of a goose
rises by half of what its middle is wider, and the wings must reach as high.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import ROOT2, Piece, Settings, line
from boltend.plugin import cut as cut_size
from boltend_block_units.parts import Exact, Size, chord, half_square, quarter_square, sets_for, sized


@dataclass(frozen=True, slots=True)
class Gaggle:
    """What is cut for `made` geese of a finished `width`, by one method.

    `large`, `rectangle` (width, height): the middles; `small`: the wings. `room` is the width and height
    that a goose can be trimmed from, its point a seam below the upper edge; `seams` all seams, raw edge to
    raw edge.
    """

    method: str
    width: Fraction
    oversize: Fraction
    seam: Fraction
    made: int
    large: Size | None
    large_count: int
    rectangle: tuple[Size, Size] | None
    small: Size
    small_count: int
    room: tuple[Exact, Exact]
    seams: Exact

    @property
    def height(self) -> Fraction:
        """The finished height: half the width."""
        return self.width / 2

    def pieces(self, middles: str | None, wings: str | None) -> list[Piece]:
        """What goes to To cut."""
        loose, small = self.method == "loose triangles", self.small.cut
        trim = self.width + 2 * self.seam, self.height + 2 * self.seam
        later = "" if self.room == trim else line("trim each goose to {} × {}", *map(cut_size, trim))
        cut = [Piece("small square", small, small, self.small_count, wings, later=later,
                     made_from="half" if loose else "whole")]  # fmt: skip
        if self.large:
            side = self.large.cut
            cut.insert(0, Piece("large square", side, side, self.large_count, middles, later=later,
                                made_from="quarter" if loose else "whole"))  # fmt: skip
        if self.rectangle:
            wide, high = self.rectangle
            cut.insert(0, Piece("rectangle", wide.cut, high.cut, self.made, middles, later=later))
        return cut


def four_at_a_time(width: Fraction, oversize: Fraction, count: int, setting: Settings) -> Gaggle:
    """One large square and four small ones give four geese.

    The small squares lie on opposite corners of the large one, sewn on both sides of its diagonal and cut on
    it; then one on the third corner of each half, sewn and cut alike.
    """
    seam, sets = setting.seam, sets_for(count, 4)
    large = sized(quarter_square(width + 2 * oversize, seam), setting)
    # Half of the large square + a seam is h + s(2 + √2) while it is exact; rounded, the point lies higher.
    small = sized(large.cut / 2 + seam, setting)
    each = 2 * chord(large.cut, seam) + 4 * chord(small.cut, seam)
    # The two seams meet √2 seams below the middle of the large square; the trim is a seam above that point.
    room = (large.cut - 2 * seam * ROOT2, large.cut / 2 + seam - seam * ROOT2)
    return Gaggle(
        "four at a time",
        width,
        oversize,
        seam,
        4 * sets,
        large,
        sets,
        None,
        small,
        4 * sets,
        room,
        sets * each,
    )


def sewn_corners(width: Fraction, oversize: Fraction, count: int, setting: Settings) -> Gaggle:
    """A rectangle, and two squares sewn on it corner to corner, trimmed and folded out."""
    seam = setting.seam
    wide = sized(width + 2 * oversize + 2 * seam, setting)
    # The point rises with the rounded width; the rectangle and its corners must reach a seam above it.
    high = sized(wide.cut / 2 + seam, setting)
    room = (wide.cut, wide.cut / 2 + seam)
    return Gaggle(
        "sewn corners", width, oversize, seam, count, None, 0, (wide, high), high, 2 * count, room,
        2 * count * high.cut * ROOT2,
    )  # fmt: skip


def loose_triangles(width: Fraction, oversize: Fraction, count: int, setting: Settings) -> Gaggle:
    """Middles from squares cut twice, wings from squares cut once; two wings a goose."""
    seam = setting.seam
    large = sized(quarter_square(width + 2 * oversize, seam), setting)
    small = sized(half_square(width / 2 + oversize, seam), setting)
    room = (2 * (small.cut - ROOT2 * seam) - 2 * seam, large.cut / 2 - seam * ROOT2 + seam)
    reach = loose_reach(large.cut, small.cut, seam)
    # The first wing ends where the middle's other side is cut: at its point, square to the seam.
    each = 2 * chord(reach, seam) - seam * (ROOT2 - 1)
    return Gaggle(
        "loose triangles", width, oversize, seam, count, large, sets_for(count, 4), None, small, count, room,
        count * each,
    )  # fmt: skip


def loose_reach(large: Fraction, small: Fraction, seam: Fraction) -> Fraction:
    """The leg of a wing as far as it lies on its middle; inches.

    A wing's upper edge lies a seam above the point: half of the large square and a seam above the base.
    """
    return min(small, large / 2 + seam)


METHODS: Mapping[str, Callable[[Fraction, Fraction, int, Settings], Gaggle]] = {
    "four at a time": four_at_a_time,
    "sewn corners": sewn_corners,
    "loose triangles": loose_triangles,
}
"""By the name that a person chooses."""
