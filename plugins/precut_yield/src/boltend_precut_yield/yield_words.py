"""The working and the picture of what one sheet gives: a precut, or a length off a bolt."""

from collections.abc import Iterator
from fractions import Fraction

from boltend.plugin import Line, Rect, Yield, YieldBlock, cut, line

MOST_PIECES = 3600
"""Above this a rectangle of equal pieces is drawn as one."""

Size = tuple[Fraction, Fraction]


def cut_lines(usable: Size, got: Yield, piece: Size) -> list[Line]:
    """How one sheet is cut, what the other ways would give, what is left."""
    across, along = usable
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


def picture(
    usable: Size, got: Yield, *, at: Size = (Fraction(0), Fraction(0)), fill: str = "piece", drawn: int = 0
) -> list[Rect]:
    """The sheet with its corner `at` a place, and in it every piece; `drawn` are the picture's others."""
    x, y = at
    shapes = [Rect(x, y, *usable, "left over")]
    for block in got.blocks():
        across, along = block.piece_across, block.piece_along
        columns, rows = block.columns, block.rows
        if got.pieces + drawn > MOST_PIECES:
            across, along, columns, rows = across * columns, along * rows, 1, 1
        shapes += [
            Rect(x + block.across_from + i * across, y + block.along_from + j * along, across, along, fill)
            for i in range(columns)
            for j in range(rows)
        ]
    return shapes
