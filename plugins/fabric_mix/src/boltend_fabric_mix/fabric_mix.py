"""Which fabrics go together in each block."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Fabric,
    Job,
    PlainNumber,
    Rows,
    Settings,
    Text,
    calculator,
    found,
    given,
    row,
)
from boltend_fabric_mix.asked import Asked
from boltend_fabric_mix.cloths import cloths_of
from boltend_fabric_mix.effort import Effort
from boltend_fabric_mix.layout import contrast_line, least_contrast, long_lines, rows
from boltend_fabric_mix.meets import Meets
from boltend_fabric_mix.mix import Mix
from boltend_fabric_mix.picture import picture
from boltend_fabric_mix.reasons import none_go_together, too_few
from boltend_fabric_mix.short import shortage
from boltend_fabric_mix.solve import Solution, Task, solve
from boltend_fabric_mix.way_out import contrast_for_all
from boltend_fabric_mix.words import cautions, working


@row
class Cuts:
    """A fabric and what there is of it."""

    fabric: Fabric = given("Fabric")
    cuts: Count = given(
        "Cuts", least="0", most="1000000", help="Blocks that it is enough for: one cut a block."
    )


@row
class Combination:
    """Fabrics that go together, and in how many blocks."""

    blocks: Count = found("Blocks")
    fabrics: Text = found("Fabrics")
    contrast: PlainNumber = found("Least contrast", down="0.01")


class Found:
    """The blocks that can be made, and which fabrics are in each."""

    blocks_made: Count = found("Blocks made")
    least_contrast: PlainNumber = found(
        "Least contrast in a block", down="0.01", help="CIEDE2000: 0 is the same colour, 100 black and white."
    )
    layout: Rows[Combination] = found("Layout", help="Blocks by the fabrics in them, the most first.")


@calculator("fabric_mix", asks="Which fabrics go together in each block?", found=Found)
def fabric_mix(
    fabrics: Rows[Cuts] = given("Fabrics"),
    per_block: Count = given("Fabrics in a block", default="3", least="2", most="100", help="All different."),
    blocks: Count = given("Blocks", least="1", most="2500"),
    contrast_least: PlainNumber = given(
        "Least contrast",
        default="0",
        least="0",
        most="120",
        step="5",
        help="CIEDE2000 difference between any two fabrics of a block; 0: colours do not count.",
    ),
    *,
    setting: Settings,
    job: Job | None,
) -> Answer:
    """So many different fabrics in each block, no two of them too alike, and every fabric used evenly.

    A cut is enough for one block; colours are those of the project's fabrics. 2 to 100 fabrics a block, up to
    2500 blocks and 400 fabrics. First, as many blocks as are wanted, or else the most there can be. Of such
    mixes the most even one: its most used fabric is used as little as can be, by as few fabrics as can be,
    then the next one, and so on down. Then, without proof, few blocks are alike. Solved by integer programs
    (HiGHS); where it cannot be done, the cautions say what is short. Worked: 4, 4 and 1 cuts, 2 a block, give
    4 blocks. Contrast: CIEDE2000 by coloraide, source: Sharma, Wu, Dalal, "The CIEDE2000 color-difference
    formula", Color Research and Application 30(1), 2005.
    """
    asked = _asked(fabrics, per_block, blocks, contrast_least, setting)

    def tell(mix: Mix) -> None:
        if job is not None:
            job.better(_answer(asked, Solution(mix), why=False), mix.at_most)

    effort = Effort(job.stopped if job is not None else lambda: False)
    solution = solve(asked.task, effort, tell)
    if not solution.mix.made:
        raise none_go_together(asked, solution.mix)
    return _answer(asked, solution)


def _asked(fabrics: Rows[Cuts], size: int, blocks: int, least: Fraction, setting: Settings) -> Asked:
    if not fabrics:
        raise Cannot("fabrics", "no fabrics are given.", "Add a row for each fabric, with its cuts.")
    cloths = cloths_of(fabrics, setting, least)
    if len(cloths.names) < size:
        raise too_few(len(cloths.names), size)
    if least and cloths.apart is not None:
        meets = Meets.by_contrast(cloths.apart, least)
    else:
        meets = Meets.all_of(len(cloths.names))
    return Asked(Task(meets, cloths.cuts, size, blocks), cloths, least)


def _answer(asked: Asked, solution: Solution, *, why: bool = True) -> Answer:
    """The answer; `why` also looks for what is short, not worth its time while the search goes on."""
    mix, cloths = solution.mix, asked.cloths
    short, instead = None, None
    if why and mix.made < asked.task.wanted:
        short = shortage(asked.task, solution, cloths.apart if asked.least else None)
        if asked.least and cloths.apart is not None and mix.proved:
            instead = contrast_for_all(asked.task, cloths.apart, asked.least)
    return Answer(
        found={
            "blocks_made": mix.made,
            "least_contrast": least_contrast(mix, cloths),
            "layout": rows(mix, cloths),
        },
        working=[*working(asked, mix), *contrast_line(mix, cloths), *long_lines(mix, cloths)],
        cautions=cautions(asked, mix, short, instead),
        picture=picture(mix, cloths.names),
    )
