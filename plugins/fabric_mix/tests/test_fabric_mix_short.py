"""What is said to be short is true of every block, and only the pairs are told that it takes."""

from fractions import Fraction
from itertools import combinations
from typing import Any

from hypothesis import assume, given, settings
from mix_lab import apart_of, every_combination, mixed, solved, tasks

from boltend_fabric_mix.short import Short, shortage
from boltend_fabric_mix.solve import Task

LEAST = Fraction(20)


def points_of(short: Short, block: tuple[int, ...]) -> int:
    return sum(short.points.get(i, 0) for i in block)


def without(task: Task, pairs: set[tuple[int, int]]) -> list[tuple[int, ...]]:
    """Every combination in which only these pairs may not meet."""
    whole = combinations(range(len(task.cuts)), task.size)
    return [block for block in whole if not pairs & set(combinations(block, 2))]


@settings(max_examples=200, deadline=None)
@given(tasks(fabrics=8, most_cuts=6, most_blocks=30))
def test_the_reason_holds_for_every_block_and_gives_the_number(task: Task) -> None:
    solution = solved(task)
    assume(0 < solution.mix.made < task.wanted)
    short = shortage(task, solution, apart_of(task, LEAST))
    assert short is not None
    every = [points_of(short, block) for block in every_combination(task)]
    assert min(every) == short.need
    assert short.held == sum(task.cuts[i] * n for i, n in short.points.items())
    assert short.blocks == short.held // short.need
    assert short.blocks >= solution.mix.made, "a reason that forbids what was made"


@settings(max_examples=200, deadline=None)
@given(tasks(fabrics=7, most_cuts=6, most_blocks=30))
def test_the_pairs_are_enough_and_each_is_needed(task: Task) -> None:
    solution = solved(task)
    assume(0 < solution.mix.made < task.wanted)
    short = shortage(task, solution, apart_of(task, LEAST))
    assert short is not None
    assert short.pairs is not None
    pairs = set(short.pairs)
    assert pairs <= set(task.meets.apart())
    assert min(points_of(short, block) for block in without(task, pairs)) == short.need
    for pair in pairs:
        assert min(points_of(short, block) for block in without(task, pairs - {pair})) < short.need


def test_only_so_many_and_who_may_not_meet() -> None:
    rows = [("Slate", 20), ("Moss", 20), ("Chalk", 6), ("Rust", 5)]
    colours = {"Slate": "#5a6672", "Moss": "#5a6670", "Chalk": "#f2efe6", "Rust": "#a3471f"}
    worked: Any = mixed(rows, colours, per_block=3, blocks=11, contrast_least="20")
    assert worked.found["blocks_made"] == 5
    said = " ".join(worked.cautions)
    assert "Only 5 of 11 blocks: no more can be made." in said
    assert "Every block takes Rust, and there are 5 such cuts in all: enough for 5 blocks." in said
    assert "these may not meet: Slate and Moss (" in said
    assert "For 11 blocks there would have to be at least 6 more of these cuts." in said


def test_a_lower_contrast_that_would_do_is_told_and_does() -> None:
    rows = [("Slate", 9), ("Moss", 9), ("Chalk", 9), ("Rust", 4)]
    colours = {"Slate": "#5a6672", "Moss": "#5d6b4a", "Chalk": "#f2efe6", "Rust": "#a3471f"}
    worked: Any = mixed(rows, colours, per_block=3, blocks=9, contrast_least="30")
    assert worked.found["blocks_made"] == 4
    (said,) = (each for each in worked.cautions if each.startswith("With a least contrast of "))
    instead = said.split()[5]
    assert said == f"With a least contrast of {instead} all 9 blocks can be made."
    enough: Any = mixed(rows, colours, per_block=3, blocks=9, contrast_least=instead)
    assert enough.found["blocks_made"] == 9
    above = str(float(instead) + 0.02)
    assert mixed(rows, colours, per_block=3, blocks=9, contrast_least=above).found["blocks_made"] == 4


def test_too_few_others_are_named() -> None:
    worked: Any = mixed([("Slate", 30), ("Moss", 4), ("Chalk", 5)], per_block=3, blocks=6)
    assert worked.found["blocks_made"] == 4
    said = " ".join(worked.cautions)
    assert "Every block takes Moss, and there are 4 such cuts in all: enough for 4 blocks." in said
    assert "a block has 3 different fabrics, and beside these there are only Slate and Chalk." in said
