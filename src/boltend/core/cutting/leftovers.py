"""What stays whole beside the pieces, named with its size."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from boltend.core.cutting.plans import Leftover, Sheetplan, Stack, Strip


def leftovers_of(sheetplans: Sequence[Sheetplan]) -> tuple[Leftover, ...]:
    """List the rectangles left over, the largest first; an end is left as wide as its strip, then what is
    left above stacks of one height, then the rest of a sheet as one piece. The bolt's own rest is none.
    """
    counts: dict[tuple[str, Fraction, Fraction], int] = {}
    for each in sheetplans:
        for run, width, times in _rests(each):
            across, along = (run, width) if each.direction == "across" else (width, run)
            if across > 0 and along > 0:
                key = (each.name, across, along)
                counts[key] = counts.get(key, 0) + times * each.copies
    found = [Leftover(across, along, count, name) for (name, across, along), count in counts.items()]
    return tuple(sorted(found, key=lambda left: (-left.across * left.along, -left.along, left.name)))


def _rests(each: Sheetplan) -> Iterator[tuple[Fraction, Fraction, int]]:
    """Yield (size along the run, size over the strip's width, how many) of one copy."""
    run, depth = (each.across, each.along) if each.direction == "across" else (each.along, each.across)
    if run is None:
        raise ValueError(f"{each.name}: an endless bolt is cut across")
    for strip in each.strips:
        for size, width in _in_strip(strip, run, each.direction == "across"):
            yield size, width, strip.times
    if depth is not None:
        yield run, depth - each.length_used, 1


def _in_strip(strip: Strip, run: Fraction, across: bool) -> Iterator[tuple[Fraction, Fraction]]:
    def beside(stack: Stack) -> Fraction:
        return (stack.across if across else stack.along) * stack.times

    def gap(stack: Stack) -> Fraction:
        return strip.width - (stack.along if across else stack.across) * stack.high

    for above, stacks in groupby(strip.stacks, key=gap):
        yield sum((beside(stack) for stack in stacks), Fraction(0)), above
    yield run - sum((beside(stack) for stack in strip.stacks), Fraction(0)), strip.width
