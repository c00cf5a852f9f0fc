"""The working, the cautions and the picture of pieces out of what is in hand."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Line, Rect, cut, finished, length, line
from boltend_precut_yield.in_hand_cut import Laid
from boltend_precut_yield.yield_words import Size, cut_lines
from boltend_precut_yield.yield_words import picture as sheet_picture

SHELF = 4
"""How many times as wide as the longest sheet a row of drawn sheets gets, about the shape of a screen."""


def working(laid: Sequence[Laid], size: Size, seam: Fraction, total: int) -> list[Line]:
    """Row by row what lies in it, the sum, and what the pieces finish at."""
    said: list[Line] = []
    for each in laid:
        said += each.cloth.lines()
        if each.layout is None:
            continue
        said += cut_lines(each.cloth.usable, each.layout, size)
        if each.cloth.count > 1:
            counted = each.cloth.count, each.layout.pieces, each.pieces
            said.append(line("{} sheets × {} = {} pieces.", *counted))
    some = [each.pieces for each in laid if each.pieces]
    if len(some) > 1:
        said.append(line(" + ".join(["{}"] * len(some)) + " = {} pieces in all.", *some, total))
    seen = [each - 2 * seam for each in size]
    if min(seen) > 0:
        words = "A piece of {} × {} finishes at {} × {} between seams of {}."
        said.append(line(words, *map(cut, size), *map(finished, seen), length(seam)))
    return said


def cautions(laid: Sequence[Laid], lost: int) -> list[Line]:
    """What gives nothing, what squaring costs, what To buy cannot know."""
    said = [line("No such piece lies in {}.", each.cloth.name) for each in laid if each.layout is None]
    if lost > 0:
        words = "Squaring the ends costs {} {}: where they are square already, set what is lost to 0."
        said.append(line(words, lost, "piece" if lost == 1 else "pieces"))
    named = dict.fromkeys(
        each.cloth.fabric for each in laid if each.cloth.fabric and each.pieces and not each.cloth.counted
    )
    said += [
        line(
            "To cut has the pieces of {}. To buy buys for them, but for what that fabric says is in hand.", f
        )
        for f in named
    ]
    return said


def picture(laid: Sequence[Laid]) -> list[Rect]:
    """One sheet of every row that gives pieces, beside each other; the next row below when one is full."""
    seen = [(each.cloth, each.layout) for each in laid if each.layout is not None]
    tall = max(cloth.usable[1] for cloth, _ in seen)
    gap = max(cloth.usable[0] for cloth, _ in seen) / 12
    drawn = sum(layout.pieces for _, layout in seen)
    shapes: list[Rect] = []
    x = y = below = Fraction(0)
    for cloth, layout in seen:
        across, along = cloth.usable
        if x and x + across > SHELF * tall:
            x, y = Fraction(0), below + gap
        others = drawn - layout.pieces
        shapes += sheet_picture(
            cloth.usable, layout, at=(x, y), fill=cloth.fabric or cloth.name, drawn=others
        )
        x, below = x + across + gap, max(below, y + along)
    return shapes
