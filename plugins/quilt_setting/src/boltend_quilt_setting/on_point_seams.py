"""The seams of a set on point: how long they are together, finished and raw edge to raw edge.

The order of sewing, which the seams depend on: blocks and short sashes are joined to rows, and so are sashes
and cornerstones; a side triangle goes to either end of a block row; rows are joined one after another; the
corner triangles come last, top right and bottom left before the other two.
"""

from fractions import Fraction

from boltend.plugin import ROOT2, Number
from boltend_quilt_setting.on_point_layout import OnPoint


def finished_seams(layout: OnPoint) -> Number:
    """Length of all seams as they show in the finished top, each once: what a ditch follows; inches.

    Block 9, 3 × 4, no sash: 4·3·4 sides of 9 in, 432 in.
    """
    sides = 4 * layout.across * layout.down * layout.block
    floating = layout.tips * max(Fraction(0), layout.clear) * ROOT2  # one seam from every point to the edge
    if not layout.sash:
        return sides + floating
    return 2 * sides + _inner_crossings(layout) + layout.tips * _tip(layout) + floating


def _inner_crossings(layout: OnPoint) -> Fraction:
    # Round a cornerstone four sides of it; where a long sash runs through, only the two along it.
    places = 2 * layout.across * layout.down - layout.across - layout.down
    return places * (4 if layout.cornerstones else 2) * layout.sash


def _tip(layout: OnPoint) -> Number:
    """What lies round one outer crossing, less what the edge takes off the two sashes that end there."""
    slant = ROOT2 * layout.beyond
    kept = max(Fraction(0), layout.sash + min(Fraction(0), slant))
    inside = (2 if layout.cornerstones else 1) * kept
    outside = 2 * min(layout.sash, max(Fraction(0), slant))
    return inside + outside + 2 * min(Fraction(0), slant)


def raw_seams(layout: OnPoint, seam: Fraction) -> Number:
    """The same from raw edge to raw edge: every straight seam runs one allowance on at both its ends.

    Seams that end at the quilt's edge on the slant are counted alike; what they run on there is trimmed off.
    """
    return finished_seams(layout) + 2 * seam * _seams(layout)


def _seams(layout: OnPoint) -> int:
    """How many straight seams are sewn."""
    own = layout.side_triangles + 4
    if not layout.sash:
        return own + (layout.blocks - layout.rows) + (layout.rows - 1)
    in_rows = 2 * layout.blocks
    if layout.cornerstones:
        # Each sash row has a cornerstone between two sashes, and at its ends where the edge leaves room.
        ends = layout.tips if layout.tip_cornerstones != "none" else 0
        in_rows += 4 * layout.across * layout.down - layout.tips + ends
    return own + in_rows + 2 * layout.rows
