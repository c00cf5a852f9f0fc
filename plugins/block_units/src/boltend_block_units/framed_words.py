"""The working and the cautions of a framed square, in words."""

from fractions import Fraction

from boltend.plugin import Line, Settings, cut, finished, length, line
from boltend_block_units.framed_halved import Halved
from boltend_block_units.framed_rounds import Frame, Laid
from boltend_block_units.words import BIAS, larger, seams_line, size_line


def working(
    frame: Frame, half: Halved | None, squares: int, count: int, spare: Fraction | None, seams: Fraction
) -> list[Line]:
    """How the founds came about, with the numbers."""
    seam = length(frame.seam)
    lines = [size_line("centre", "{} + 2 × {}", (finished(frame.core), seam), frame.centre)]
    for each in frame.rounds:
        lines += _round(each, frame.seam)
    if spare is not None:
        lines.append(
            line("every side and end is cut {} longer, sewn, and trimmed even with the square", length(spare))
        )
    if half is None:
        lines += _whole(frame)
    else:
        lines += _halved(frame, half, squares, count)
    sums = " + ".join("2 × ({} + {})" for _ in frame.rounds)
    values = [cut(size.cut) for each in frame.rounds for size in (each.side, each.end)]
    return [*lines, seams_line(f"{{}} × ({sums})", (squares, *values), seams)]


def _round(each: Laid, seam: Fraction) -> list[Line]:
    words, wide = ("{} + {} oversize", (finished(each.width), length(each.extra))) if each.extra else (
        "{}", (finished(each.width),)
    )  # fmt: skip
    low = each.name[0].lower() + each.name[1:]
    lines = [
        size_line(f"{low}, strip", words + " + 2 × {}", (*wide, length(seam)), each.strip),
        size_line(f"{low}, sides", "as long as the square so far, {} + 2 × {}",
                  (finished(each.before), length(seam)), each.side),
        size_line(f"{low}, ends", "longer by two finished strips, {} + 2 × {}",
                  (cut(each.side.exact), finished(each.width + each.extra)), each.end),
    ]  # fmt: skip
    if not each.extra:
        lines.append(
            line("the square is then {} raw, {} finished", cut(each.after + 2 * seam), finished(each.after))
        )
    return lines


def _whole(frame: Frame) -> list[Line]:
    trim = cut(frame.finished + 2 * frame.seam)
    over = frame.sewn - frame.finished - 2 * frame.seam
    if over:
        return [
            line(
                "as sewn it is {}: trim to {}, half of {} off each side", cut(frame.sewn), trim, length(over)
            )
        ]
    return [
        line("as sewn it is {}: finished + 2 seams of {}, with nothing to trim", trim, length(frame.seam))
    ]


def _halved(frame: Frame, half: Halved, squares: int, count: int) -> list[Line]:
    seam = length(frame.seam)
    values: tuple[object, ...]
    lines = []
    if half.least is None:
        lines.append(line("as sewn it is {}, and is cut so", cut(half.trim)))
        words, values = "{} − {} × (2 + √2)", (cut(half.trim), seam)
        if half.oversize:
            words, values = f"{words} − {{}} oversize", (*values, length(half.oversize))
        lines.append(line(f"a corner's finished legs: {words} makes {{}}", *values, finished(half.block / 2)))
    else:
        words, values = larger("{} ÷ 2", finished(half.block), half.oversize)
        words, values = f"{words} + {{}} × (2 + √2)", (*values, seam)
        lines.append(
            size_line("legs of a corner, half of the block, with their seams", words, values, half.least)
        )
        said = "as sewn it is {}: trim it evenly to {}, which leaves {} of the last round"
        lines.append(line(said, cut(frame.sewn), cut(half.trim), finished(half.left)))
    lines.append(
        line(
            "the block: {} × √2 for the centre on point makes {}",
            finished(half.on_point),
            finished(half.block),
        )
    )
    lines.append(
        line(
            "squares cut once: {} give {} corners, {} more than wanted",
            squares,
            2 * squares,
            2 * squares - count,
        )
    )
    return lines


def cautions(
    frame: Frame, half: Halved | None, block: Fraction | None, setting: Settings
) -> list[Line | str]:
    """Bias, what is not used, and where rounded strips must be trimmed on the way."""
    said: list[Line | str] = []
    if half is not None:
        said.append("The corners' long sides are on the bias and stretch: " + BIAS)
    elif block is not None:
        said.append("The finished size of the block is not used: the square is not halved.")
    if any(each.strip.over for each in frame.rounds) or frame.centre.over:
        words = "Sizes are rounded up to {}: trim to the raw size after the centre and each round."
        said.append(line(words, length(setting.cutting_step)))
    return said
