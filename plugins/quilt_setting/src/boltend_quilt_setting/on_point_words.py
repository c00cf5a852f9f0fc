"""The working and the cautions of a set on point, in words."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import ROOT2, Line, Number, Settings, cut, finished, length, line
from boltend_quilt_setting.on_point_layout import OnPoint
from boltend_quilt_setting.on_point_parts import (
    Square,
    half_cornerstone_square,
    half_seams,
    long_sash_lengths,
    sash_length,
)
from boltend_quilt_setting.on_point_rows import sewing_order
from boltend_quilt_setting.on_point_seams import finished_seams, raw_seams
from boltend_quilt_setting.raw_size import raw_line


def working(
    layout: OnPoint, setting: Settings, side: Square, corner: Square, oversize: Fraction
) -> list[Line | str]:
    """How the founds came about, with the numbers."""
    whole = layout.block + 2 * setting.seam
    lines: list[Line | str] = [
        line(
            "diagonal of a block = {} × √2 = {} finished",
            finished(layout.block), finished(layout.block * ROOT2),
        ),
        line(
            "each block is trimmed to {} cut, {} from its centre both ways: finished + 2 seams of {}",
            cut(whole), length(whole / 2), length(setting.seam),
        ),
        *_size(layout),
        raw_line(layout.width, layout.height, setting),
        line(
            "blocks = {} × {} + {} × {} inner ones = {}",
            layout.across, layout.down, layout.across - 1, layout.down - 1, layout.blocks,
        ),
        *_side(layout, side, oversize),
        *_corner(layout, corner, oversize),
    ]  # fmt: skip
    if layout.sash:
        lines += _sashing(layout, setting)
    lines += sewing_order(layout)
    words = "seams, each once: raw edge to raw edge {}, finished {}; seams inside blocks are the blocks' own"
    raw, seen = raw_seams(layout, setting.seam), finished_seams(layout)
    return [*lines, line(words, length(raw), length(seen))]


def _size(layout: OnPoint) -> list[Line]:
    lines: list[Line] = []
    if layout.sash:
        words = "from block to block along the edge ({} + {} sash) × √2 = {}"
        lines.append(line(words, finished(layout.block), finished(layout.sash), finished(layout.pitch)))
    if layout.sash or layout.float_:
        lines.append(_edge(layout))
    pitch = finished(layout.pitch)
    over, sign = finished(max(layout.beyond, -layout.beyond)), "−" if layout.beyond < 0 else "+"
    for name, count, total in (
        ("width", layout.across, finished(layout.width)),
        ("height", layout.down, finished(layout.height)),
    ):
        if layout.beyond:
            lines.append(
                line(f"{name} = {{}} × {{}} {sign} 2 × {{}} = {{}} finished", count, pitch, over, total)
            )
        else:
            lines.append(line(f"{name} = {{}} × {{}} = {{}} finished", count, pitch, total))
    return lines


_PLACES = {
    "points": "at the blocks' own points",
    "cornerstone centres": "through the centres of the outer crossings of the sashes",
    "sash all round": "at the outer points of the crossings",
}


def _edge(layout: OnPoint) -> Line:
    place = _PLACES[layout.edge] if layout.sash else _PLACES["points"]
    if layout.beyond == 0:
        return line(f"the edge lies {place}")
    floating, shown = "", []
    if layout.float_:
        floating, shown = "and {} of float outside that, ", [finished(layout.float_)]
    where = "the outer crossings' centres" if layout.sash else "the points"
    if layout.beyond < 0:
        return line(f"the edge lies {place}, {floating}{{}} inside {where}", *shown, finished(-layout.beyond))
    return line(f"the edge lies {place}, {floating}{{}} outside {where}", *shown, finished(layout.beyond))


def _side(layout: OnPoint, side: Square, oversize: Fraction) -> list[Line | str]:
    count = layout.side_triangles
    if not count:
        return ["a single block has corner triangles only"]
    squares = -(-count // 4)
    lines: list[Line | str] = [
        line(
            "side triangles = 2 × {} + 2 × {} = {}, four a square: {} squares, {} to spare",
            layout.across - 1, layout.down - 1, count, squares, 4 * squares - count,
        ),
        line("long side of a side triangle, on the quilt's edge = {} finished", finished(layout.long_edge)),
    ]  # fmt: skip
    reach = layout.block + layout.sashes_out * layout.sash
    words, shown = "1.414 × {}", [finished(reach)]
    return [*lines, *_square("side", words, shown, side, layout, oversize)]


def _corner(layout: OnPoint, corner: Square, oversize: Fraction) -> list[Line | str]:
    lines: list[Line | str] = [
        "corner triangles = 4, two a square: 2 squares",
        line("short side of a corner triangle, on the quilt's edge = {} finished", finished(layout.leg)),
    ]
    words, shown = "{} ÷ 1.414", [finished(layout.block)]
    if layout.sashes_out:
        words += " + 1.414 × {}" if layout.sashes_out > 0 else " − 1.414 × {}"
        shown.append(finished(layout.sash))
    return [*lines, *_square("corner", words, shown, corner, layout, oversize)]


def _square(
    name: str, words: str, shown: Sequence[object], square: Square, layout: OnPoint, oversize: Fraction
) -> list[Line]:
    """By the trade's constants, and the exact least."""
    if layout.float_:
        words, shown = words + " + 2 × {} float", [*shown, finished(layout.float_)]
    total = square.trade_finished + square.trade_seams
    words, shown = words + " + {} seams = {}", [*shown, length(square.trade_seams), cut(total)]
    if oversize:
        words, shown = words + ", with {} oversize", [*shown, length(oversize)]
    exact = square.finished + square.seams
    return [
        line(f"{name} square by the trade's constants = {words}: cut {{}}", *shown, cut(square.size)),
        line(
            f"{name} square, exact least = {{}} + {{}} = {{}}, up to {{}}",
            finished(square.finished), length(square.seams), cut(exact), cut(square.least),
        ),
    ]  # fmt: skip


def _sashing(layout: OnPoint, setting: Settings) -> list[Line]:
    thick = layout.sash + 2 * setting.seam
    whole = layout.block + 2 * setting.seam
    if layout.cornerstones:
        words = "sashes = 4 × {} × {} = {}, each {} × {} cut"
        head = line(words, layout.across, layout.down, layout.sashes, cut(thick), cut(whole))
    else:
        words = "short sashes = {} blocks + {} rows = {}, each {} × {} cut"
        head = line(words, layout.blocks, layout.rows, layout.sashes, cut(thick), cut(whole))
    lines = [head]
    if layout.slanted_sashes:
        words = "{} of them end on the slant at the edge: cut {}, and trimmed there"
        lines.append(line(words, layout.slanted_sashes, cut(sash_length(layout, setting, slanted=True))))
    lines += _cornerstones(layout, setting, thick) if layout.cornerstones else _long(layout, setting)
    if setting.cut_up(thick) != thick:
        words = "sashes {} wide are cut {}, up to the cutting step, and trimmed to {}"
        lines.append(line(words, cut(thick), cut(setting.cut_up(thick)), cut(thick)))
    return lines


def _cornerstones(layout: OnPoint, setting: Settings, thick: Number) -> list[Line]:
    a, d = layout.across, layout.down
    words = "cornerstones inside = 2 × {} × {} − {} − {} = {}"
    lines = [line(words, a, d, a, d, layout.inner_cornerstones)]
    if layout.tip_cornerstones == "whole":
        words = "at the edge 2 × ({} + {}) = {} whole ones: {} in all, {} square cut"
        lines.append(line(words, a, d, layout.tips, layout.cornerstone_count, cut(thick)))
    if layout.tip_cornerstones == "half":
        lines += _half_cornerstones(layout, setting)
    return lines


def _half_cornerstones(layout: OnPoint, setting: Settings) -> list[Line]:
    square = half_cornerstone_square(layout, setting)
    by_half = setting.cut_up(layout.sash + half_seams(setting))
    count = layout.half_cornerstones
    return [
        line(
            "at the edge 2 × ({} + {}) = {} half cornerstones, four a square: {} squares",
            layout.across, layout.down, count, -(-count // 4),
        ),
        line(
            "their square = 1.414 × {} + {} seams = {}: cut {}; exact least {}",
            finished(layout.sash), length(square.trade_seams),
            cut(square.trade_finished + square.trade_seams), cut(square.size), cut(square.least),
        ),
        line(
            "cut twice on the diagonal, for a long side on the straight of grain; squares of {} cut once ({} "
            "of them) would put the bias on the quilt's edge",
            cut(by_half), -(-count // 2),
        ),
    ]  # fmt: skip


def _long(layout: OnPoint, setting: Settings) -> list[Line]:
    lengths = long_sash_lengths(layout, setting)
    longest = max(lengths)
    how = "with what is trimmed on the slant at the edge" if layout.beyond <= 0 else "with 2 seams"
    words = f"long sashes = {{}} rows + 1 = {{}}, the longest {{}} cut ({how}), {{}} together"
    return [line(words, layout.rows, layout.long_sashes, cut(longest), cut(sum(lengths, Fraction(0))))]
