"""What a set on point asks to be cut: setting triangles from squares, inner blocks, sashes, cornerstones."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import ROOT2, Cannot, Line, Number, Piece, Run, Settings, ceil_div, line
from boltend.plugin import cut as measure
from boltend_quilt_setting.on_point_layout import OnPoint

TRADE_ROOT = Fraction(1414, 1000)
"""The trade's √2. Common practice, no source."""


@dataclass(frozen=True)
class Square:
    """A square that gives triangles, two ways: the trade's constants and the exact least; cut inches.

    `finished` is the triangle's long side (quarters) or short side (halves), `seams` what the seams take, and
    the `trade_` ones are the same by the trade's constants. `least` is finished + seams, up to the step.
    `wanted` is by the constants, never below the exact one, with the oversize; `size` is that, up to the
    step.
    """

    finished: Number
    seams: Number
    trade_finished: Fraction
    trade_seams: Fraction
    least: Fraction
    wanted: Number
    size: Fraction


@dataclass(frozen=True)
class Fabrics:
    """The cloth of each role."""

    setting: str | None = None
    inner: str | None = None
    sash: str | None = None
    cornerstone: str | None = None


def side_square(layout: OnPoint, setting: Settings, oversize: Fraction) -> Square:
    """The square whose quarters are side triangles: long edge + 2s(1 + √2).

    By the trade's constants 1.414 · block + 1 1/4 in without a sash, seams of 1/4 in; with one the block is
    less or more by the sash where the edge is not at the cornerstones' centres. Two floats are added.
    """
    reach = layout.block + layout.sashes_out * layout.sash
    trade = TRADE_ROOT * reach + 2 * layout.float_
    return _square(layout.long_edge, trade, _quarter_seams(setting), setting, oversize)


def corner_square(layout: OnPoint, setting: Settings, oversize: Fraction) -> Square:
    """The square whose halves are corner triangles: leg + s(2 + √2); by constants block/1.414 + 7/8 in."""
    out = TRADE_ROOT * layout.sashes_out * layout.sash + 2 * layout.float_
    trade = layout.block / TRADE_ROOT + out
    return _square(layout.leg, trade, half_seams(setting), setting, oversize)


def half_cornerstone_square(layout: OnPoint, setting: Settings) -> Square:
    """The square whose quarters are half cornerstones: sash · √2 + 2s(1 + √2)."""
    exact, trade = layout.sash * ROOT2, layout.sash * TRADE_ROOT
    return _square(exact, trade, _quarter_seams(setting), setting, Fraction(0))


def _quarter_seams(setting: Settings) -> Number:
    return 2 * setting.seam * (1 + ROOT2)


def half_seams(setting: Settings) -> Number:
    """What the seams take of a square that is cut once on the diagonal."""
    return setting.seam * (2 + ROOT2)


def _square(exact: Number, trade: Fraction, seams: Number, setting: Settings, oversize: Fraction) -> Square:
    up = setting.cut_up
    constant = up(seams)
    wanted = max(trade + constant, exact + seams) + oversize
    return Square(exact, seams, trade, constant, up(exact + seams), wanted, up(wanted))


def sash_length(layout: OnPoint, setting: Settings, *, slanted: bool) -> Number:
    """Cut length of a short sash; `slanted`: with what is trimmed on the slant at the quilt's edge."""
    return layout.block + (_quarter_seams(setting) if slanted else 2 * setting.seam)


def long_sash_lengths(layout: OnPoint, setting: Settings) -> list[Number]:
    """Exact cut lengths of the long sashes, in the order of sewing."""
    # At or inside the outer crossings' centres the edge trims an end on the slant, and nothing is sewn to it.
    over = _quarter_seams(setting) if layout.beyond <= 0 else 2 * setting.seam
    return [layout.long_sash(row) + over for row in range(layout.long_sashes)]


def pieces(
    layout: OnPoint, setting: Settings, side: Square, corner: Square, fabrics: Fabrics
) -> tuple[list[Piece], list[Run]]:
    """The pieces and the runs to cut; of the blocks only the inner ones, where their fabric is named."""
    whole = setting.cut_up(layout.block + 2 * setting.seam)
    raw = [measure(size + 2 * setting.seam) for size in (layout.width, layout.height)]
    later = line("trim the edges of the sewn top straight, to {} × {}", *raw)
    cut = [
        *_triangles("side square", side.size, layout.side_triangles, 4, fabrics.setting, later),
        *_triangles("corner square", corner.size, 4, 2, fabrics.setting, later),
    ]
    if fabrics.inner is not None:
        cut.append(Piece("inner block", whole, whole, layout.inner_blocks, fabrics.inner))
    runs: list[Run] = []
    if layout.sash:
        cut += _sashing(layout, setting, fabrics)
        long_ones, runs = _long_sashes(layout, setting, fabrics.sash)
        cut += long_ones
    return [piece for piece in cut if piece.count], runs


def _triangles(
    name: str, size: Fraction, wanted: int, each: int, fabric: str | None, later: Line | str = ""
) -> list[Piece]:
    squares = ceil_div(wanted, each)
    return [
        Piece(name, size, size, squares, fabric, made_from="quarter" if each == 4 else "half", later=later)
    ]


def _sashing(layout: OnPoint, setting: Settings, fabrics: Fabrics) -> list[Piece]:
    up = setting.cut_up
    thick = up(layout.sash + 2 * setting.seam)
    plain, slanted = (up(sash_length(layout, setting, slanted=slanted)) for slanted in (False, True))
    half = half_cornerstone_square(layout, setting).size
    return [
        Piece("sash", thick, plain, layout.sashes - layout.slanted_sashes, fabrics.sash),
        Piece("sash to the edge", thick, slanted, layout.slanted_sashes, fabrics.sash),
        Piece("cornerstone", thick, thick, layout.cornerstone_count, fabrics.cornerstone),
        *_triangles("square for half cornerstones", half, layout.half_cornerstones, 4, fabrics.cornerstone),
    ]


def _long_sashes(layout: OnPoint, setting: Settings, fabric: str | None) -> tuple[list[Piece], list[Run]]:
    """Long sashes that one strip holds as pieces, the others as one run of strips."""
    own = setting.on(fabric)
    # A cloth that is washed first has shrunk before the strips are cut.
    strip = own.usable_width * (100 - own.prewash_across) / 100
    width = setting.cut_up(layout.sash + 2 * setting.seam)
    lengths = [setting.cut_up(each) for each in long_sash_lengths(layout, setting)]
    short = Counter(each for each in lengths if each <= strip)
    joined = tuple(each for each in lengths if each > strip)
    if joined and strip <= width:
        raise Cannot(
            "sash",
            "A long sash must be joined, and each diagonal join takes more than a strip gives.",
            "Make the sash narrower, use a wider fabric, or set cornerstones, which need no long sash.",
        )
    cut = [Piece("long sash", each, width, count, fabric) for each, count in sorted(short.items())]
    if not joined:
        return cut, []
    counts = sorted(Counter(joined).items())
    wanted = ", ".join("{} of {}" for _ in counts)
    values = [value for each, count in counts for value in (count, measure(each))]
    later = line(f"join the strips of the long sashes to {wanted}", *values)
    return cut, [Run("long sashes", width, joined, fabric=fabric, later=later)]
