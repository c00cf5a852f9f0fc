"""How many strips a length takes, and how strips lie on the cloth."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations
from typing import Literal

from boltend.plugin import Cannot, ceil_div

Join = Literal["diagonal", "straight"]


def join_loss(join: Join, strip_width: Fraction, seam: Fraction) -> Fraction:
    """Inches of a strip that one join takes: its cut width (diagonal) or two seams (straight).

    A diagonal join lays two ends square across each other, so each gives up half of its cut width.
    Source: common practice, no source. A 2 1/2 in strip: 2 1/2 in diagonal, 1/2 in straight.
    """
    return strip_width if join == "diagonal" else 2 * seam


def strips_for(length: Fraction, usable: Fraction, join: Fraction) -> int:
    """The least n with ``n·usable − (n − 1)·join >= length``; all inches.

    Raises `Cannot` where a join takes all that a further strip brings. 254 in at 42 with joins of 5: 7.
    """
    if length <= usable:
        return 1
    if join >= usable:
        raise Cannot(
            "usable_width",
            "a join takes as much as a further strip brings.",
            "Choose straight joins, a narrower strip or a wider fabric.",
        )
    return ceil_div(length - join, usable - join)


def joined(strips: int, usable: Fraction, join: Fraction) -> Fraction:
    """Inches that a number of strips make, sewn into one."""
    return strips * usable - (strips - 1) * join


def side_by_side(strips: Sequence[tuple[Fraction, Fraction]], usable: Fraction) -> Fraction:
    """The least length of cloth that holds a few lengthwise strips, none joined; all inches.

    `strips` are (length, width), each no wider than `usable`. Strips lie side by side in one length of the
    cloth as long as the longest of them; further lengths follow. All ways are tried, so keep them few (four
    sides: fifteen ways). Two of 87 and two of 67 in, 6 1/4 in wide, on 42 in: 87 in.
    """
    if not strips:
        return Fraction(0)
    first, *rest = sorted(strips, reverse=True)
    best = first[0] + side_by_side(rest, usable)
    for number in range(1, len(rest) + 1):
        for beside in combinations(range(len(rest)), number):
            if first[1] + sum(rest[i][1] for i in beside) <= usable:
                left = [s for i, s in enumerate(rest) if i not in beside]
                best = min(best, first[0] + side_by_side(left, usable))
    return best
