"""A mix of fabrics from what is given: asked, solved, and put in words."""

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from boltend.plugin import Answer, Cannot, Job, Settings
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

if TYPE_CHECKING:
    from boltend_fabric_mix.fabric_mix import Cuts


def mixed(
    fabrics: "Sequence[Cuts]",
    per_block: int,
    blocks: int,
    contrast_least: Fraction,
    setting: Settings,
    job: Job | None,
) -> Answer:
    """The mix that `fabric_mix` describes. Raises Cannot."""
    asked = _asked(fabrics, per_block, blocks, contrast_least, setting)

    def tell(mix: Mix) -> None:
        if job is not None:
            job.better(_answer(asked, Solution(mix), why=False), mix.at_most)

    effort = Effort(job.stopped if job is not None else lambda: False)
    solution = solve(asked.task, effort, tell)
    if not solution.mix.made:
        raise none_go_together(asked, solution.mix)
    return _answer(asked, solution)


def _asked(fabrics: "Sequence[Cuts]", size: int, blocks: int, least: Fraction, setting: Settings) -> Asked:
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
