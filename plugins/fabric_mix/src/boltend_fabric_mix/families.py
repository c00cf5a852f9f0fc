"""Fabrics in families: the exact answer without a search.

A family's members may not meet each other, and may meet everybody else; a fabric that may meet all others is
a family of its own. So a block takes at most one member of a family, and any such choice is a block.
"""

from collections.abc import Sequence


def most_blocks(cuts: Sequence[int], families: Sequence[Sequence[int]], size: int, wanted: int) -> int:
    """The most blocks, up to those wanted.

    b blocks can be made exactly where the families have b · size cuts among them, counting at most b a family
    (McNaughton's rule: laid end to end and folded into rows of b, no family lies in a block twice). That is
    so for every number up to the greatest, so halving finds it.
    """
    held = [sum(cuts[i] for i in family) for family in families]
    low, high = 0, wanted
    while low < high:
        middle = (low + high + 1) // 2
        if sum(min(each, middle) for each in held) >= middle * size:
            low = middle
        else:
            high = middle - 1
    return low


def even_uses(cuts: Sequence[int], families: Sequence[Sequence[int]], size: int, blocks: int) -> list[int]:
    """The most even uses that make so many blocks, which must be possible.

    Every fabric is filled alike, step by step, and stops at its cuts, or when its family is in every block.
    Sums of these limits make a polymatroid, on which filling the least one first is exact (Federgruen and
    Groenevelt, "The greedy procedure for resource allocation problems", Operations Research, 1986). What does
    not fill a whole step goes to the fabrics that come first.
    """
    uses = [0] * len(cuts)
    room = [blocks] * len(families)
    open_ = {i: f for f, family in enumerate(families) for i in sorted(family) if cuts[i]}
    left = size * blocks
    while left and open_:
        members = [0] * len(families)
        for family in open_.values():
            members[family] += 1
        step = min(
            left // len(open_),
            min(cuts[i] - uses[i] for i in open_),
            min(room[f] // members[f] for f in set(open_.values())),
        )
        for i, family in sorted(open_.items()):
            more = min(step or 1, left, room[family])
            uses[i] += more
            room[family] -= more
            left -= more
        open_ = {i: f for i, f in open_.items() if uses[i] < cuts[i] and room[f]}
    return uses
