"""The working and the picture of what one precut gives."""

from collections.abc import Iterator
from fractions import Fraction

from boltend.plugin import Line, Rect, Yield, YieldBlock, cut, line
from boltend_precut_yield.precut_sheet import PrecutSheet

MOST_PIECES = 3600
"""Above this a rectangle of equal pieces is drawn as one."""

Size = tuple[Fraction, Fraction]


def cut_lines(sheet: PrecutSheet, got: Yield, piece: Size) -> list[Line]:
    """How one precut is cut, what the other ways would give, what is left."""
    across, along = sheet.usable
    by_area = across * along // (piece[0] * piece[1])
    lines = [
        line(
            "{} × {} = {} pieces of {} × {} lie in {} × {}.",
            *(block.columns, block.rows, block.columns * block.rows),
            *(cut(block.piece_across), cut(block.piece_along), cut(block.across), cut(block.along)),
        )
        for block in got.blocks()
    ]
    lines.append(
        line(
            "{} pieces by cuts from edge to edge; {} if all lie alike; no more than {} by area.",
            *(got.pieces, got.one_way, by_area),
        )
    )
    if not got.proved:
        lines.append(line("So many small pieces are cut by a good plan; a few more may be possible."))
    lines += [line("Left over of each: {} × {}.", cut(w), cut(h)) for w, h in left_over(got)]
    return lines


def left_over(got: Yield) -> list[Size]:
    """The rectangles that stay whole, the largest first."""
    rests = [(rest.across, rest.along) for rest in got.rests()]
    for block in got.blocks():
        rests += _beside(block)
    return sorted((r for r in rests if min(r) > 0), key=lambda r: (-r[0] * r[1], r))


def _beside(block: YieldBlock) -> Iterator[Size]:
    """What a block of equal pieces leaves at its two far sides, cut so that the larger stays whole."""
    right = block.across - block.columns * block.piece_across
    below = block.along - block.rows * block.piece_along
    if right * block.along >= below * block.across:
        yield right, block.along
        yield block.across - right, below
    else:
        yield block.across, below
        yield right, block.along - below


def picture(sheet: PrecutSheet, got: Yield) -> list[Rect]:
    """The precut, and in it every piece."""
    shapes = [Rect(Fraction(0), Fraction(0), *sheet.usable, "left over")]
    for block in got.blocks():
        across, along = block.piece_across, block.piece_along
        columns, rows = block.columns, block.rows
        if got.pieces > MOST_PIECES:
            across, along, columns, rows = across * columns, along * rows, 1, 1
        shapes += [
            Rect(block.across_from + i * across, block.along_from + j * along, across, along, "piece")
            for i in range(columns)
            for j in range(rows)
        ]
    return shapes
