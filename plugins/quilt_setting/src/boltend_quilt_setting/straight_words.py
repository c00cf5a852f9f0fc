"""The working and the cautions of a straight set, in words."""

from fractions import Fraction

from boltend.plugin import Line, Settings, cut, finished, length, line
from boltend_quilt_setting.raw_size import raw_line
from boltend_quilt_setting.straight_layout import Layout
from boltend_quilt_setting.straight_parts import LongSash


def working(layout: Layout, setting: Settings, long: LongSash | None) -> list[Line]:
    """How the founds came about, with the numbers."""
    lines = [
        _side("width", layout.across, layout.block_width, layout.sash_columns, layout),
        _side("height", layout.down, layout.block_height, layout.sash_rows, layout),
        raw_line(layout.width, layout.height, setting),
        line("blocks = {} across × {} down = {}", layout.across, layout.down, layout.across * layout.down),
        _trim(layout, setting),
    ]
    if layout.sash_columns or layout.sash_rows:
        lines += _sashes(layout, setting)
    if long is not None:
        lines += _long(layout, long)
    return lines + _seams(layout, setting)


def _side(name: str, blocks: int, size: Fraction, sashes: int, layout: Layout) -> Line:
    total = finished(blocks * size + sashes * layout.sash)
    if not sashes:
        return line(f"{name} = {{}} × {{}} = {{}} finished", blocks, finished(size), total)
    words = f"{name} = {{}} × {{}} + {{}} × {{}} sash = {{}} finished"
    return line(words, blocks, finished(size), sashes, finished(layout.sash), total)


def _trim(layout: Layout, setting: Settings) -> Line:
    wide, high = layout.block_width + 2 * setting.seam, layout.block_height + 2 * setting.seam
    if wide == high:
        words = "each block is trimmed to {} cut, {} from its centre both ways: finished + 2 seams of {}"
        return line(words, cut(wide), length(wide / 2), length(setting.seam))
    words = "each block is trimmed to {} × {} cut, {} and {} from its centre: finished + 2 seams of {}"
    return line(words, cut(wide), cut(high), length(wide / 2), length(high / 2), length(setting.seam))


def _sashes(layout: Layout, setting: Settings) -> list[Line]:
    over = 2 * setting.seam
    thick = cut(layout.sash + over)
    lines = [
        _count(
            "short sashes in the rows",
            layout.sash_columns,
            layout.down,
            thick,
            cut(layout.block_height + over),
        )
    ]
    if layout.cornerstones:
        lines.append(
            _count(
                "short sashes between rows",
                layout.across,
                layout.sash_rows,
                cut(layout.block_width + over),
                thick,
            )
        )
        lines.append(_count("cornerstones", layout.sash_columns, layout.sash_rows, thick, thick))
    if setting.cut_up(layout.sash + over) != layout.sash + over:
        words = "sashes {} wide are cut {}, up to the cutting step, and trimmed to {}"
        lines.append(line(words, thick, cut(setting.cut_up(layout.sash + over)), thick))
    return lines


def _count(name: str, across: int, down: int, wide: object, high: object) -> Line:
    return line(f"{name} = {{}} × {{}} = {{}}, each {{}} × {{}} cut", across, down, across * down, wide, high)


def _long(layout: Layout, long: LongSash) -> list[Line]:
    count = layout.long_sashes
    words = "{} long sashes lie between rows, run across and win every crossing: {} + 2 seams = {} cut"
    lines = [line(words, count, finished(layout.width), cut(long.length))]
    if long.strips == 1:
        return [*lines, line("a strip of {} holds a long sash: no joins", length(long.strip))]
    words = "joined on the diagonal, which takes {}: {} × {} − {} × {} = {} hold a long sash"
    joins, reach = long.strips - 1, long.strips * long.strip - (long.strips - 1) * long.width
    lines.append(
        line(words, cut(long.width), long.strips, length(long.strip), joins, cut(long.width), length(reach))
    )
    return [*lines, line("joins = {} a sash × {} sashes = {}", joins, count, joins * count)]


def _seams(layout: Layout, setting: Settings) -> list[Line]:
    raw, seen = layout.seams(setting.seam), layout.seams(Fraction(0))
    where = "rows and sash rows" if layout.cornerstone_count else "rows"
    words = f"seams, rows first and then between them: {{}} in each of the {where}, {{}} between them"
    return [
        line(words, layout.joins_in_row, layout.row_seams),
        line(
            "raw edge to raw edge {}, finished {}; seams inside blocks are the blocks' own",
            length(raw),
            length(seen),
        ),
    ]


def cautions(layout: Layout) -> list[Line | str]:
    """What was asked for in vain."""
    said: list[Line | str] = []
    if layout.cornerstones and not layout.cornerstone_count and layout.sash:
        said.append("Cornerstones were asked for, but no two sashes cross here.")
    if layout.sash == 0 and (layout.all_round or layout.cornerstones):
        said.append("Without a sash there are no cornerstones and nothing runs all round.")
    return said
