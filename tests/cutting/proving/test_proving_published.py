"""Published instances (`boltend_shared.cutting`, sources in its `README.md`) against the proving solver.

The quick ones; `tests/benchmarks/cutting_table.py` goes through all of them.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from math import ceil

import pytest

from boltend.core.cutting import Plan, Proof, plan, prove
from boltend.core.cutting.proving.sheets import FoundSheets
from boltend_shared.cutting import FILES, Instance, instances, source_of

from ..geometry import check
from .published import Knapsack, least_cost, named, parts, stock

SLOW_KNAPSACKS = {
    f"{name} {first}"
    for first, names in {
        "Horizontal": (
            "alvarez2002/ATP30 alvarez2002/ATP32 alvarez2002/ATP34 alvarez2002/ATP36 alvarez2002/ATP40 "
            "alvarez2002/ATP42 alvarez2002/ATP44 cung2000/CHL7 cung2000/Hchl2 cung2000/Hchl4s "
            "cung2000/Hchl7s hifi1997a/2s hifi1997a/A4"
        ),
        "Vertical": (
            "alvarez2002/ATP30 alvarez2002/ATP38 alvarez2002/ATP40 alvarez2002/ATP44 alvarez2002/ATP46 "
            "alvarez2002/ATP48 cung2000/CHL7 cung2000/Hchl2 fayard1998/CW2 hifi1997a/2s"
        ),
    }.items()
    for name in names.split()
}
"""More than a third of a second each; the first ATP44 takes minutes."""

SOME = Proof(30_000_000)
KNAPSACKS = [each.name for each in instances("knapsack_two_stage") if each.name not in SLOW_KNAPSACKS]


def test_every_file_reads_and_says_where_it_is_from() -> None:
    counts = {file: len(instances(file)) for file in FILES}
    assert counts == {
        "cintra2008_vsbp_2nho": 12,
        "class_2bp_50": 50,
        "hopper_turton_C": 21,
        "knapsack_two_stage": 58,
    }
    assert all("github.com/" in source_of(file) for file in FILES)
    assert {each.name for each in instances("knapsack_two_stage")} >= SLOW_KNAPSACKS
    with pytest.raises(ValueError, match="no file of instances is named 'gcut'"):
        instances("gcut")


def test_the_hopper_turton_sets_have_the_area_that_their_optimum_says() -> None:
    """Zero waste by construction; but for C7_3, of which the readme tells."""
    for each in instances("hopper_turton_C"):
        assert ceil(Fraction(each.area, each.bins[0].width)) == each.published["optimal_height"]


@pytest.mark.parametrize("name", KNAPSACKS)
def test_the_pricing_program_finds_the_published_knapsack(name: str) -> None:
    found = named("knapsack_two_stage", name)
    knapsack = Knapsack(found)
    optimum = found.published["optimum"]
    assert knapsack.most() == (optimum, optimum)
    assert knapsack.bound(knapsack.whole) >= optimum


def holds(found: Instance, answer: FoundSheets) -> Counter[int]:
    """Check every strip and sheet by adding up; give the pieces that come of it."""
    got: Counter[int] = Counter()
    for place, cut in answer.cuts:
        assert cut.direction == "across"
        assert sum(level.width * level.times for level in cut.levels) <= (found.bins[place].height or 0)
        for level in cut.levels:
            assert sum(column.beside * column.times for column in level.columns) <= found.bins[place].width
            for column in level.columns:
                item = found.items[column.kind]
                assert (column.beside, column.above, column.high) == (item.width, item.height, 1)
                assert column.above <= level.width
                got[column.kind] += column.times * level.times * cut.copies
    return got


@pytest.mark.parametrize("name", ["gcut1d", "gcut2d", "gcut5d", "gcut7d"])
def test_sheets_of_several_sizes_against_the_published_bounds(name: str) -> None:
    found = named("cintra2008_vsbp_2nho", name)
    answer, unit = least_cost(found, 500_000_000)
    lower, best = found.published["lower_bound"], found.published["best_known"]
    assert abs(answer.bound * unit - lower) <= lower / 10_000
    assert answer.bound * unit <= best
    assert lower <= answer.cost * unit <= best * Fraction(1002, 1000)
    assert answer.cost * unit == sum(found.bins[place].cost * cut.copies for place, cut in answer.cuts)
    assert holds(found, answer) == {n: item.copies for n, item in enumerate(found.items)}


def decreasing_levels(sizes: Sequence[tuple[int, int, bool]], run: int) -> list[int]:
    """Give the heights of first-fit-decreasing levels, written here: the lower side up where it may turn."""
    lying = []
    for width, height, may_turn in sizes:
        if may_turn and (width > run or (height <= run and height > width)):
            width, height = height, width
        lying.append((height, width))
    levels: list[tuple[int, int]] = []  # height, room
    for height, width in sorted(lying, reverse=True):
        for place, (top, room) in enumerate(levels):
            if width <= room:
                levels[place] = (top, room - width)
                break
        else:
            levels.append((height, run - width))
    return [height for height, _ in levels]


def first_fit(heights: Sequence[int], depth: int) -> int:
    """Count the sheets that levels take, first fit."""
    rooms: list[int] = []
    for height in heights:
        place = next((n for n, room in enumerate(rooms) if height <= room), None)
        if place is None:
            rooms.append(depth - height)
        else:
            rooms[place] -= height
    return len(rooms)


def flat(found: Instance, may_turn: bool) -> list[tuple[int, int, bool]]:
    return [(item.width, item.height, may_turn) for item in found.items for _ in range(item.copies)]


def both(found: Instance, may_turn: bool) -> tuple[Plan, Plan]:
    """Simple strips and stacks."""
    simple, stacked = (
        prove(plan(parts(found, may_turn), stock(found), stacks=stacks, effort=0), None, SOME)
        for stacks in (False, True)
    )
    return simple, stacked


def least_of(found: Plan) -> Fraction:
    return found.bound if found.least is None else found.least


@pytest.mark.parametrize("name", ["C1_1", "C1_2", "C1_3", "C2_1", "C3_2"])
def test_a_free_packing_is_never_longer_than_our_plans(name: str) -> None:
    """The published height is the least of free packings. Our plans are packings: none is shorter, and the
    bound for any way of cutting is no greater. A plan of levels made here bounds what is proved of strips.
    """
    found = named("hopper_turton_C", name)
    optimum = found.published["optimal_height"]
    levels = sum(decreasing_levels(flat(found, True), found.bins[0].width))
    simple, stacked = both(found, True)
    for each in (simple, stacked):
        assert each.bound <= optimum <= each.answer
        assert each.bound <= least_of(each) <= min(each.answer, levels)
        check(each, parts(found, True))
    assert least_of(stacked) <= simple.answer
    assert stacked.answer <= simple.answer or least_of(stacked) < stacked.answer  # where work ran out


@pytest.mark.parametrize("name", [f"Class_{n:02}.2bp_20_1" for n in range(1, 11)])
@pytest.mark.parametrize("may_turn", [False, True])
def test_sheets_of_one_size_against_what_is_known_of_free_packings(name: str, may_turn: bool) -> None:
    """The best known free packing exists: the bound for any way of cutting is no greater. Where it is proved,
    by its area, no plan of ours takes fewer sheets. (With three stages of mixed stacks, as published, fewer
    may do than with ours; nothing published bounds ours from above.)
    """
    found = named("class_2bp_50", name)
    best, proved = found.published["best_known"], found.published["optimal_proven"]
    free = "rotation" if may_turn else "oriented"
    width, depth = found.bins[0].width, found.bins[0].height or 0
    levels = first_fit(decreasing_levels(flat(found, may_turn), width), depth)
    simple, stacked = both(found, may_turn)
    for each in (simple, stacked):
        assert each.bound <= best[free]
        assert each.answer >= (best[free] if proved[free] else found.published["area_bound"])
        assert each.bound <= least_of(each) <= min(each.answer, levels)
        check(each, parts(found, may_turn))
    assert least_of(stacked) <= simple.answer
