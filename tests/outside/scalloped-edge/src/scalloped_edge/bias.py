"""Bias cut for a length of binding: single strips at 45 degrees, or one continuous strip from a square."""

from fractions import Fraction
from typing import NamedTuple

from boltend.plugin import (
    ROOT2,
    Cannot,
    Line,
    Number,
    Piece,
    Settings,
    ceil_div,
    cut,
    floor_div,
    length,
    line,
)

CENTIMETRE = Fraction(50, 127)


class Cloth(NamedTuple):
    """A fabric once it is washed: its usable width, and the share of its length that is left."""

    usable: Fraction
    kept: Fraction


class Bias(NamedTuple):
    """What to cut: strips or a square, the fabric to buy, and how it came about."""

    strips: int | None
    square: Fraction | None
    to_buy: Number
    piece: Piece
    working: tuple[Line, ...]
    caution: Line


def cloth_of(setting: Settings) -> Cloth:
    """Prewashing shrinks first: a percentage across, and one along."""
    across, along = 1 - setting.prewash_across / 100, 1 - setting.prewash_along / 100
    if across <= 0 or along <= 0:
        raise Cannot("method", "prewashing leaves no fabric.", "Take less for the prewash loss.")
    return Cloth(setting.usable_width * across, along)


def single_strips(wanted: Fraction, strip: Fraction, fabric: str | None, setting: Settings) -> Bias:
    """Strips at 45 degrees from selvage to selvage, each usable width × √2 long.

    Their ends lie on the grain, so a seam takes the seam allowance × √2 from each of two ends. Along the
    selvage a strip takes its width × √2, and the slanting ends one width of the fabric more.
    """
    cloth = cloth_of(setting)
    each, join = cloth.usable * ROOT2, 2 * setting.seam * ROOT2
    if join >= each:
        raise Cannot("method", "the seams take more than a strip is long.", "Take a smaller seam.")
    strips = max(1, ceil_div(wanted - join, each - join))
    along = cloth.usable + strips * strip * ROOT2
    working = (
        line("A strip from selvage to selvage: {} × √2 makes {}; a join takes 2 × {} seam × √2, {}.",
             length(cloth.usable), length(each), length(setting.seam), length(join)),
        line("{} strips make {}, for the {} wanted.", strips, length(strips * each - (strips - 1) * join),
             length(wanted)),
        line("Along the selvage: {} for the slant and {} × {} × √2 makes {}.", length(cloth.usable), strips,
             cut(strip), length(along)),
    )  # fmt: skip
    return Bias(
        strips, None, along / cloth.kept, _piece(cloth.usable, setting.cut_up(along), fabric), working,
        line("No square: the bias is cut in single strips."),
    )  # fmt: skip


def continuous(wanted: Fraction, strip: Fraction, fabric: str | None, setting: Settings) -> Bias:
    """One strip from a square, in whole turns; the least square by whole inches (metric: centimetres).

    Whole turns of strip × √2, each √2 × (side − 4 seams) long. Common practice, no source.
    """
    cloth = cloth_of(setting)
    step = Fraction(1) if setting.system == "in" else CENTIMETRE
    side = step * (floor_div(4 * setting.seam, step) + 1)
    while _turned(side, strip, setting.seam) < wanted:
        side += step
        if side > cloth.usable:
            way_out = "Take single strips, a narrower binding, or make two squares of half the length each."
            raise Cannot("method", "the square for it is wider than the fabric.", way_out)
    turns = floor_div(side, ROOT2 * strip)
    working = line(
        "A square of {}: {} whole turns of √2 × ({} − 4 × {} seam) make {}, for the {} wanted.", length(side),
        turns, length(side), length(setting.seam), length(_turned(side, strip, setting.seam)), length(wanted),
    )  # fmt: skip
    caution = line("No strips are counted: the bias comes off a square in one.")
    return Bias(None, side, side / cloth.kept, _piece(side, side, fabric), (working,), caution)


def _turned(side: Fraction, strip: Fraction, seam: Fraction) -> Number:
    return floor_div(side, ROOT2 * strip) * ROOT2 * (side - 4 * seam)


def _piece(across: Fraction, along: Fraction, fabric: str | None) -> Piece:
    return Piece("for bias binding", across, along, 1, fabric, grain="lengthwise", may_turn=False)
