"""Lines of working and cautions that the units share."""

from fractions import Fraction

from boltend.plugin import Line, cut, length, line
from boltend_block_units.parts import Exact, Size

BIAS = "press, do not pull, and handle them little."
"""What every caution about bias edges ends with; common practice, no source."""


def size_line(name: str, words: str, values: tuple[object, ...], size: Size) -> Line:
    """How a cutting size came about: the sum in words, exact, rounded up, and by how much."""
    if not size.over:
        return line(f"{name}: {words} makes {{}}", *values, cut(size.cut))
    said = f"{name}: {words} makes {{}}; cut {{}}, {{}} over"
    return line(said, *values, cut(size.exact), cut(size.cut), length(size.over))


def larger(words: str, value: object, oversize: Fraction, times: int = 1) -> tuple[str, tuple[object, ...]]:
    """A finished size and what it is made oversize, for the sum in words."""
    if not oversize:
        return words, (value,)
    if times == 1:
        return f"{words} + {{}} oversize", (value, length(oversize))
    return f"{words} + {times} × {{}} oversize", (value, length(oversize))


def trim_line(sewn: Exact, trim: Exact, seam: Fraction) -> Line:
    """What a square unit measures as sewn, what it is trimmed to, and how much that takes."""
    if sewn == trim:
        return line(
            "as sewn it is {}: finished + 2 seams of {}, with nothing to trim", cut(trim), length(seam)
        )
    said = "trim to {}: finished + 2 seams of {}; as sewn it is {}, {} to spare"
    return line(said, cut(trim), length(seam), cut(sewn), length(sewn - trim))


def trim_later(sewn: Exact, trim: Exact) -> Line | str:
    """What is left to do with units that are sewn larger than they are used."""
    return "" if sewn == trim else line("trim each sewn unit to {} × {}", cut(trim), cut(trim))


def made_line(what: str, sets: int, each: int, count: int) -> Line:
    """How many units come out of whole sets."""
    made = sets * each
    if made == count:
        return line(f"{what}: {{}} × {{}} = {{}} units", sets, each, made)
    return line(f"{what}: {{}} × {{}} = {{}} units, {{}} more than wanted", sets, each, made, made - count)


def seams_line(words: str, values: tuple[object, ...], total: Exact) -> Line:
    """The seams of all units, raw edge to raw edge."""
    return line(f"seams, raw edge to raw edge: {words} makes {{}}", *values, length(total))


def unused(setting_aside: dict[str, str | None], method: str) -> list[Line]:
    """A caution for each fabric that was given and is not cut by this method; by its label."""
    return [
        line("{} is not used: {} has no such piece.", label, method)
        for label, fabric in setting_aside.items()
        if fabric is not None
    ]
