"""Mixes against looking at every mix there is, by definition and without any of the solver's ideas."""

import random
from fractions import Fraction
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given, settings
from mix_lab import NAMES, every_combination, meets_but, mixed, solved, sound, tasks

from boltend_fabric_mix.colours import differences
from boltend_fabric_mix.effort import Effort
from boltend_fabric_mix.even import evened
from boltend_fabric_mix.meets import Meets
from boltend_fabric_mix.search import Search
from boltend_fabric_mix.solve import Task


def brute(task: Task) -> tuple[int, list[int]]:
    """The most blocks, and the uses (from the most) of the most even of these mixes: by looking at every mix.

    Uses are compared as sorted lists, from the front: the definition itself, and not how it is solved.
    """
    blocks = every_combination(task)
    reached = {tuple([0] * len(task.cuts))}
    for made in range(task.wanted):
        following = set()
        for uses in reached:
            for block in blocks:
                if all(uses[i] < task.cuts[i] for i in block):
                    following.add(tuple(use + (i in block) for i, use in enumerate(uses)))
        if not following:
            return made, min(sorted(uses, reverse=True) for uses in reached)
        reached = following
    return task.wanted, min(sorted(uses, reverse=True) for uses in reached)


@settings(max_examples=200, deadline=None)
@given(tasks())
def test_most_blocks_and_most_even(task: Task) -> None:
    mix = solved(task).mix
    uses = sound(task, mix)
    most, even = brute(task)
    assert (mix.made, mix.at_most) == (most, most)
    assert mix.even or not most
    assert uses == even


@settings(max_examples=100, deadline=None)
@given(tasks(fabrics=5))
def test_the_integer_programs_alone_find_the_same(task: Task) -> None:
    """Without families and without filling by greed: all is left to HiGHS."""
    search = Search(task.meets, task.cuts, task.size, task.wanted, Effort(lambda: False))
    most, even = brute(task)
    reached = search.reach(search.block_stage(task.wanted), {})
    assert (-reached.cost, -reached.bound) == (most, most)
    if most:
        best = evened(search, reached.blocks)
        assert best.proved
        uses = [sum(n for block, n in best.blocks.items() if i in block) for i in range(len(task.cuts))]
        assert sorted(uses, reverse=True) == even


@settings(max_examples=100, deadline=None)
@given(tasks(fabrics=5))
def test_combinations_made_as_they_are_needed_find_the_same(task: Task) -> None:
    """As where there are too many combinations to list: the relaxed program asks for them one by one."""
    search = Search(task.meets, task.cuts, task.size, task.wanted, Effort(lambda: False))
    search.every, search.pool = False, {}
    most, even = brute(task)
    reached = search.reach(search.block_stage(task.wanted), {})
    assert -reached.cost <= most <= -reached.bound
    assert set(search.pool) <= set(every_combination(task))
    if reached.cost:
        best = evened(search, reached.blocks)
        uses = [sum(n for block, n in best.blocks.items() if i in block) for i in range(len(task.cuts))]
        if best.proved and -reached.cost == most:
            assert sorted(uses, reverse=True) == even


@pytest.mark.outside_check("fabric_mix", against="brute force")
@pytest.mark.parametrize("seed", range(40))
def test_the_calculator_with_colours(seed: int) -> None:
    chance = random.Random(seed)
    count = chance.randint(3, 6)
    names = NAMES[:count]
    colours = {name: f"#{chance.randrange(1 << 24):06x}" for name in names}
    rows = [(name, chance.randint(1, 4)) for name in names]
    apart = differences([colours[name] for name in names])
    least = chance.choice([15, 30, 45])
    far = [(i, j) for i, j in combinations(range(count), 2) if apart[i][j] < least]
    task = Task(meets_but(count, far), [cuts for _, cuts in rows], 2 + seed % 2, 4)
    most, even = brute(task)
    if not most:
        return
    worked: Any = mixed(rows, colours, per_block=task.size, blocks=4, contrast_least=str(least))
    layout = [(row["blocks"], row["fabrics"].split(", "), row["contrast"]) for row in worked.found["layout"]]
    assert worked.found["blocks_made"] == most == sum(blocks for blocks, _, _ in layout)
    uses = [sum(blocks for blocks, fabrics, _ in layout if name in fabrics) for name in names]
    assert sorted(uses, reverse=True) == even
    for _, fabrics, contrast in layout:
        places = [names.index(name) for name in fabrics]
        true = min(apart[i][j] for i, j in combinations(places, 2))
        assert least <= contrast <= true < contrast + Fraction(1, 100)
    assert worked.found["least_contrast"] == min(contrast for _, _, contrast in layout)


def test_a_family_takes_one_place_in_a_block() -> None:
    """Three greens that may not meet, two others: 2 a block, the greens' cuts are one fabric's in each."""
    task = Task(meets_but(5, [(0, 1), (0, 2), (1, 2)]), [2, 2, 2, 3, 3], 2, 6)
    assert brute(task) == (6, [3, 3, 2, 2, 2])
    assert sound(task, solved(task).mix) == [3, 3, 2, 2, 2]


def test_families_are_told_from_chains() -> None:
    assert meets_but(3, [(0, 1)]).families() == [[0, 1], [2]]
    assert meets_but(3, [(0, 1), (1, 2)]).families() is None
    assert Meets.all_of(2).families() == [[0], [1]]
