"""What a straight set asks to be cut: short sashes, long ones, cornerstones."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import Cannot, Piece, Run, Settings, ceil_div, line
from boltend.plugin import cut as show
from boltend_quilt_setting.straight_layout import Layout


@dataclass(frozen=True)
class LongSash:
    """One long sash and the strips that it is sewn from; inches.

    `length` is its exact cut length, `width` that of the strips, up to the cutting step, and `strip` how
    long a crosswise strip is.
    """

    length: Fraction
    width: Fraction
    strip: Fraction
    strips: int


def long_sash(layout: Layout, setting: Settings, fabric: str | None) -> LongSash:
    """How one long sash is made from crosswise strips that are joined on the diagonal.

    A diagonal join takes the strip's own cut width, so n strips reach n·U − (n−1)·width. The least n is
    also the fewest joins, since a strip left over from one sash can only add a join to the next.
    """
    own = setting.on(fabric)
    length, width = layout.width + 2 * setting.seam, setting.cut_up(layout.sash + 2 * setting.seam)
    wanted = setting.cut_up(length)
    # A cloth that is washed first has shrunk before the strips are cut.
    strip = own.usable_width * (100 - own.prewash_across) / 100
    if strip >= wanted:
        return LongSash(length, width, strip, 1)
    gain = strip - width
    if gain <= 0:
        raise Cannot(
            "sash",
            "A long sash must be joined, and each diagonal join takes more than a strip gives.",
            "Make the sash narrower, use a wider fabric, or set cornerstones, which need no long sash.",
        )
    return LongSash(length, width, strip, ceil_div(wanted - width, gain))


def pieces(
    layout: Layout, setting: Settings, long: LongSash | None, fabric: str | None, corner_fabric: str | None
) -> tuple[list[Piece], list[Run]]:
    """The pieces and the runs to cut, sizes rounded up to the cutting step; the blocks are not among them."""
    up, over = setting.cut_up, 2 * setting.seam
    thick = up(layout.sash + over)
    wide, high = up(layout.block_width + over), up(layout.block_height + over)
    cut = [
        Piece("sash in the rows", thick, high, layout.sashes_down, fabric),
        Piece("sash between rows", wide, thick, layout.sashes_across, fabric),
        Piece("cornerstone", thick, thick, layout.cornerstone_count, corner_fabric),
    ]
    runs = []
    if long is not None and long.strips == 1:
        cut.append(Piece("long sash", up(long.length), thick, layout.long_sashes, fabric))
    elif long is not None:
        wants = (up(long.length),) * layout.long_sashes
        later = line("join the strips of the long sashes to {} of {}", len(wants), show(wants[0]))
        runs.append(Run("long sash", thick, wants, fabric=fabric, later=later))
    return [piece for piece in cut if piece.count], runs
