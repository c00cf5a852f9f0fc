"""What the tests of mixes share: mixes to try, and the same worked out by looking at every one."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import combinations
from types import MappingProxyType

from hypothesis import strategies as st

from boltend.core.flow import Workbook
from boltend.core.project.edits import add_tab
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.testing import Worked
from boltend.testing.worked import HereOnly, worked_of
from boltend_fabric_mix.effort import Effort
from boltend_fabric_mix.fabric_mix import fabric_mix
from boltend_fabric_mix.meets import Block, Meets
from boltend_fabric_mix.mix import Mix
from boltend_fabric_mix.solve import Solution, Task, solve

NAMES = ("Slate", "Moss", "Chalk", "Rust", "Navy", "Fern", "Ash", "Plum", "Sky")


def meets_but(count: int, apart: Iterable[tuple[int, int]]) -> Meets:
    """Everybody may meet everybody, but for these pairs."""
    near = list(Meets.all_of(count).near)
    for i, j in apart:
        near[i] &= ~(1 << j)
        near[j] &= ~(1 << i)
    return Meets(tuple(near))


def solved(task: Task) -> Solution:
    """The solution, with all the effort that a calculation may take."""
    return solve(task, Effort(lambda: False), lambda mix: None)


@st.composite
def tasks(draw: st.DrawFn, fabrics: int = 6, most_cuts: int = 4, most_blocks: int = 5) -> Task:
    """Small tasks, from everybody may meet to hardly anybody may."""
    count = draw(st.integers(2, fabrics))
    size = draw(st.integers(2, min(3, count)))
    pairs = list(combinations(range(count), 2))
    apart = draw(st.sets(st.sampled_from(pairs), max_size=draw(st.sampled_from([0, 2, len(pairs)]))))
    cuts = draw(st.lists(st.integers(1, most_cuts), min_size=count, max_size=count))
    return Task(meets_but(count, apart), cuts, size, draw(st.integers(1, most_blocks)))


def every_combination(task: Task) -> list[Block]:
    """Every combination of fabrics that may meet, by looking at all."""
    whole = combinations(range(len(task.cuts)), task.size)
    return [block for block in whole if all(task.meets.may(i, j) for i, j in combinations(block, 2))]


def sound(task: Task, mix: Mix) -> list[int]:
    """That it is a mix at all; how often each fabric is used, from the most."""
    uses = [0] * len(task.cuts)
    for block, count in mix.blocks.items():
        assert count > 0
        assert len(set(block)) == len(block) == task.size
        assert all(task.meets.may(i, j) for i, j in combinations(block, 2))
        for i in block:
            uses[i] += count
    assert all(use <= cuts for use, cuts in zip(uses, task.cuts, strict=True))
    assert mix.made <= mix.at_most <= task.wanted
    return sorted(uses, reverse=True)


def apart_of(task: Task, least: Fraction) -> list[list[Fraction]]:
    """Contrasts, all different, of which those of the same pairs reach this least contrast."""
    places = range(len(task.cuts))
    apart = [[Fraction(0)] * len(places) for _ in places]
    for number, (i, j) in enumerate(combinations(places, 2), 1):
        apart[i][j] = apart[j][i] = least + number if task.meets.may(i, j) else least * number / 100
    return apart


def mixed(
    rows: Sequence[tuple[str, int]],
    colours: Mapping[str, str] = MappingProxyType({}),
    units: str = "inches",
    **givens: object,
) -> Worked:
    """The calculator, through a project whose fabrics have colours. Raises as `boltend.testing.work` does."""
    project = Project(settings={"units": units})
    for name in dict.fromkeys(name for name, _ in rows):
        project = add_fabric(project, name, {"colour": colours[name]} if name in colours else None)
    raw = {"fabrics": [{"fabric": name, "cuts": cuts} for name, cuts in rows], **givens}
    project = add_tab(project, "It", "fabric_mix", raw)
    return worked_of(Workbook(HereOnly([fabric_mix], []), project).result("It"), fabric_mix.spec)
