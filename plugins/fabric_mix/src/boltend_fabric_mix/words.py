"""The working and the cautions of a mix, in words."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Line, line
from boltend_fabric_mix.asked import Asked
from boltend_fabric_mix.mix import Mix, uses_of
from boltend_fabric_mix.names import contrast, counted, pairs_said
from boltend_fabric_mix.reasons import short_lines
from boltend_fabric_mix.short import Short
from boltend_fabric_mix.solve import Task

MOST_USES = 12
"""Numbers of uses that one line tells, from the most."""

_PRINTS = "The contrast is between the one colour that is noted for each fabric; lay prints side by side."


def working(asked: Asked, mix: Mix) -> list[Line]:
    """How the mix came about: who may meet, what there is, what is made of it, how even it is."""
    task, names = asked.task, asked.cloths.names
    uses = uses_of(mix.blocks, len(names))
    lines = [*_meeting(asked), *_cuts(task), line("Made: {} of {}.", mix.made, counted(task.wanted, "block"))]
    lines += _even(mix, uses)
    lines += [
        line("{}: in {}, of {} left {}.", name, counted(use, "block"), counted(has, "cut"), has - use)
        for name, use, has in zip(names, uses, task.cuts, strict=True)
    ]
    return lines


def _meeting(asked: Asked) -> list[Line]:
    apart = asked.cloths.apart
    if not asked.least or apart is None:
        return [line("Any two different fabrics may meet in a block.")]
    pairs = sorted(asked.task.meets.apart(), key=lambda pair: (apart[pair[0]][pair[1]], pair))
    count = len(asked.cloths.names)
    lines = [
        line("Contrast is the CIEDE2000 difference of two colours: 0 is the same, 100 black and white."),
        line(
            "Of {} pairs of fabrics {} differ by at least {} and may meet in a block.",
            count * (count - 1) // 2, count * (count - 1) // 2 - len(pairs), asked.least,
        ),
    ]  # fmt: skip
    if pairs:
        lines.append(line("May not meet: {}.", pairs_said(pairs, asked.cloths.names, apart)))
    return lines


def _cuts(task: Task) -> list[Line]:
    use = sum(min(each, task.wanted) for each in task.cuts)
    blocks = counted(task.wanted, "block")
    return [
        line("{} × {} different fabrics take {} cuts.", blocks, task.size, task.wanted * task.size),
        line("There are {} that can be used: of each fabric at most one a block.", use),
    ]


def _even(mix: Mix, uses: Sequence[int]) -> list[Line]:
    counts = sorted(Counter(uses).items(), reverse=True)[:MOST_USES]
    said = [f"{counted(number, 'fabric')} in {counted(use, 'block')}" for use, number in counts]
    lines = [line("Used: {}.", ", ".join(said))]
    if mix.even:
        lines.append(
            line(
                "No mix of {} is more even: the most used fabric is used as little as can be, by as few "
                "fabrics as can be, then the next one, and so on down.",
                counted(mix.made, "block"),
            )
        )
    return lines


def cautions(asked: Asked, mix: Mix, short: Short | None, instead: Fraction | None) -> list[Line]:
    """What is short, what is not proved, what a contrast is good for; `instead` is one that would do."""
    lines = list(asked.cloths.notes)
    if mix.made < asked.task.wanted:
        lines += short_lines(asked, mix, short)
        if instead is not None:
            said = "With a least contrast of {} all {} can be made."
            lines.append(line(said, contrast(instead), counted(asked.task.wanted, "block")))
    if not mix.even:
        lines.append(
            line("That the fabrics are used as evenly as can be is not proved: the search ended first.")
        )
    if asked.least:
        lines.append(line(_PRINTS))
    return lines
