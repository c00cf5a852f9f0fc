"""The sewing order of a set on point: which diagonal row holds what."""

from boltend.plugin import Line, line
from boltend_quilt_setting.on_point_layout import OnPoint

MOST_NUMBERS = 9
"""Longer lists of counts are shown by their beginning and their end."""


def sewing_order(layout: OnPoint) -> list[Line | str]:
    """Row by row, rows of the same kind together, from the top left corner on."""
    lines: list[Line | str] = [
        line(
            "diagonal rows = {} + {} − 1 = {}, each up to the right:", layout.across, layout.down, layout.rows
        )
    ]
    lines += [_group(layout, first, last) for first, last in _groups(layout)]
    if layout.inner_blocks:
        lines.append(
            "in each row the blocks counted along the edges and the inner ones take turns, never an inner "
            "one at an end"
        )
    if layout.sash:
        lines += _sash_rows(layout)
    lines.append(
        "then row is joined to row, and the corner triangles come last: top right and bottom left, then the "
        "others"
    )
    return lines


def _groups(layout: OnPoint) -> list[tuple[int, int]]:
    """First and last row of each run of rows that end alike; the rows of two corners stand alone."""
    alone = sorted({layout.across, layout.down})
    groups, first = [], 1
    for row in alone:
        if first < row:
            groups.append((first, row - 1))
        groups.append((row, row))
        first = row + 1
    if first <= layout.rows:
        groups.append((first, layout.rows))
    return groups


def _group(layout: OnPoint, first: int, last: int) -> Line:
    counts = [layout.row_blocks(row) for row in range(first, last + 1)]
    blocks = _list(counts) + (" block" if counts == [1] else " blocks")
    ends = _ends(layout, first)
    if first == last:
        return line(f"row {{}}: {blocks}; {ends}", first)
    return line(f"rows {{}} to {{}}: {blocks}; {ends}", first, last)


def _ends(layout: OnPoint, row: int) -> str:
    """What is sewn to the ends of a row: bottom left belongs to row `down`, top right to row `across`."""
    left, right = row == layout.down, row == layout.across
    if left and right:
        return "a corner triangle at each end, sewn on last"
    if left:
        return "a corner triangle at its lower left end, sewn on last, a side triangle at the other"
    if right:
        return "a corner triangle at its upper right end, sewn on last, a side triangle at the other"
    return "a side triangle at each end"


def _sash_rows(layout: OnPoint) -> list[Line | str]:
    counts = _list([layout.row_sashes(row) for row in range(layout.rows + 1)])
    lines: list[Line | str] = ["a sash stands between two blocks of a row and at both of the row's ends"]
    if layout.cornerstones:
        at_ends = {"none": "", "half": ", a half one at each end", "whole": ", one at each end too"}
        lines.append(
            f"a sash row lies before, between and after the rows: {counts} sashes, a cornerstone between two "
            f"of them{at_ends[layout.tip_cornerstones]}"
        )
    else:
        lines.append(f"a long sash lies before, between and after the rows, past this many blocks: {counts}")
    return [*lines, *_over_both(layout)]


def _over_both(layout: OnPoint) -> list[Line | str]:
    """Outside the outer crossings' centres a side triangle is sewn to its row and to a sash row's end.

    Along the top and the left that is the sash row before, along the right and the bottom the one after; a
    row that ends left and right (or at the top and the bottom) has one of each, and no order of straight
    seams.
    """
    if layout.beyond <= 0 or not layout.side_triangles:
        return []
    words = (
        "a side triangle is sewn to its row and the end of one sash row, which is joined to the row first: "
        "the sash row before it at upper right ends before row {} and at lower left ends before row {}, "
        "behind those rows the one after it"
    )
    lines: list[Line | str] = [line(words, layout.across, layout.down)]
    low, high = sorted((layout.across, layout.down))
    if high - low == 2:
        lines.append(line("row {} needs one of each: sew one of them with a partial seam", low + 1))
    elif high - low > 2:
        words = "rows {} to {} need one of each: sew one of them with a partial seam"
        lines.append(line(words, low + 1, high - 1))
    return lines


def _list(counts: list[int]) -> str:
    if len(counts) <= MOST_NUMBERS:
        return ", ".join(map(str, counts))
    return f"{', '.join(map(str, counts[:4]))} … {', '.join(map(str, counts[-3:]))}"
