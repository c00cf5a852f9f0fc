"""Characters for lines, by which ways they leave a cell, and for dots within one."""

from boltend.core.drawing.fit import Grain

_BOX = (
    " ╴╸╷┐┑╻┒┓╶─╾┌┬┭┎┰┱╺╼━┍┮┯┏┲┳"
    "╵┘┙│┤┥╽┧┪└┴┵├┼┽┟╁╅┕┶┷┝┾┿┢╆╈"
    "╹┚┛╿┦┩┃┨┫┖┸┹┞╀╃┠╂╉┗┺┻┡╄╇┣╊╋"
)  # by up, right, down, left in base 3: 0 no arm, 1 a light one, 2 a heavy one

BRAILLE, ASCII = Grain(2, 4), Grain(1, 2)
"""Dots of a cell; in both they lie as far apart across as down."""

HIDDEN = {False: ("╌", "┊"), True: ("-", ":")}
"""A line under what lies over it, across and down."""


def box(up: int, right: int, down: int, left: int, *, ascii: bool) -> str:  # noqa: A002 - as in `draw`
    """The character with these arms: 0 none, 1 light, 2 heavy, 3 heavy and in ASCII doubled (`=`)."""
    if not ascii:
        return _BOX[27 * min(up, 2) + 9 * min(right, 2) + 3 * min(down, 2) + min(left, 2)]
    if not (up or down):
        return "=" if right > 2 or left > 2 else "-"
    return "|" if not (right or left) else "+"


def _braille(code: int) -> str:
    a, b, c, d = code & 3, code >> 2 & 3, code >> 4 & 3, code >> 6
    left = (a & 1) | (b & 1) << 1 | (c & 1) << 2 | (d & 1) << 6
    return chr(0x2800 | left | (a & 2) << 2 | (b & 2) << 3 | (c & 2) << 4 | (d & 2) << 6)


DOTS = {BRAILLE: tuple(map(_braille, range(256))), ASCII: (" ", "'", ".", ":")}
"""By the dots of a cell as bits: the upper row lowest, and in a row the left one."""
