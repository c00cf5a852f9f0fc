"""Demands at the edges of what a proof can hold: a clear answer, checked, whatever was asked for.

How long they take and how much memory is printed by `tests/benchmarks/cutting_growth.py`, not timed here.
"""

from fractions import Fraction

import pytest

from boltend.core.cutting import Bolt, Grid, Part, Plan, Proof, Sheet, Stock, check_plan, claim, plan, prove
from boltend.core.cutting.planner import solved
from boltend.core.cutting.proofs import convert
from boltend.core.cutting.proving.bolt import BoltTask, prove_bolt
from boltend.core.cutting.proving.strips import MOST_WIDTHS, Strips, TooFine
from boltend.core.cutting.proving.work import Work
from boltend.core.cutting.task import options

from ..geometry import check
from .hostile import BOLT, DEMANDS, SHEETS, squares

F = Fraction
LITTLE = Proof(10_000_000)


def least_of(found: Plan) -> Fraction:
    return found.bound if found.least is None else found.least


@pytest.mark.parametrize("name", sorted(DEMANDS))
@pytest.mark.parametrize("stock", [BOLT, SHEETS], ids=["bolt", "sheets"])
@pytest.mark.parametrize("stacks", [False, True])
def test_hostile_demands_have_a_clear_answer(name: str, stock: Stock, stacks: bool) -> None:
    demand = DEMANDS[name]
    draft = plan(demand, stock, stacks=stacks, effort=0)
    found = prove(draft, None, LITTLE)
    check_plan(found, demand, stock)
    assert found.bound <= least_of(found) <= found.answer <= draft.answer
    assert found.bound == draft.bound
    assert [(e.part, e.count) for e in found.unplaced] == [(e.part, e.count) for e in draft.unplaced]
    assert claim(found).split(" ")[0] in ("proved", "within", "a")


def test_nothing_wanted() -> None:
    for demand in ([], [squares("5", 0)]):
        for stock in (BOLT, SHEETS, Stock()):
            found = prove(plan(demand, stock))
            assert (found.answer, found.bound, found.sheetplans) == (0, 0, ())


def test_wider_than_the_cloth_is_left_out_and_the_rest_is_proved() -> None:
    demand = [squares("43", 2, "too wide"), Part("fixed", F(44), F(3), 1, False), squares("13", 7)]
    found = prove(plan(demand, BOLT))
    assert [each.part.name for each in found.unplaced] == ["too wide", "fixed"]
    assert found.answer == prove(plan(demand[2:], BOLT)).answer == 39
    assert claim(found).startswith("proved least")
    check(found, demand)


def test_nothing_fits() -> None:
    found = prove(plan([squares("43", 2)], BOLT))
    assert (found.answer, found.cut_counts) == (0, {"square": 0})
    none = prove(plan([squares("45", 2)], SHEETS))
    assert (none.answer, none.cut_counts) == (0, {"square": 0})


def test_a_million_of_one_size_is_proved_by_counting() -> None:
    """16 squares of 2 1/2 in to a strip: 62,500 strips."""
    found = prove(plan([squares("5/2", 1_000_000)], BOLT, stacks=False))
    assert found.answer == least_of(found) == 62_500 * F(5, 2)


def test_two_sizes_a_sixty_fourth_apart_are_two_sizes() -> None:
    """42 in hold two of 21 in, or one of each; two of 21 1/64 in stand above each other. Counted by hand."""
    wide = Part("wide", F(21) + F(1, 64), F(5), 3, False)
    half = Part("half", F(21), F(5) + F(1, 64), 3, False)
    found = prove(plan([wide, half], BOLT, stacks=False))
    check(found, [wide, half])
    # Wide ones lie alone, three strips of 5 in; of the others two lie side by side: two strips.
    assert found.answer == least_of(found) == 3 * F(5) + 2 * (F(5) + F(1, 64))


def test_a_grid_too_fine_for_the_tables_is_not_proved_but_said() -> None:
    """10^7 units across: beyond `MOST_POSITIONS`. The plan stands, and claims no more than its bound."""
    fine = Grid.of([F(42), F(5) + F(1, 238_000), F(4)])
    assert fine.exact
    assert F(42) / fine.unit > 9_000_000
    demand = [Part("fine", F(5) + F(1, 238_000), F(4), 9), squares("3", 14)]
    draft = plan(demand, BOLT)
    found = prove(draft)
    check(found, demand)
    assert (found.answer, found.bound) == (draft.answer, draft.bound)
    assert least_of(found) == draft.bound
    made = convert(tuple(demand), BOLT)
    ways = [[o for o in options(made.sizes, made.run or 1, None, "across") if o.kind == n] for n in range(2)]
    with pytest.raises(TooFine):
        Strips(ways, [9, 14], made.run or 1, True)


def test_sizes_that_had_to_be_rounded_are_given_back_as_they_are() -> None:
    demand = [Part("odd", F(5, 2) + F(1, 999_983), F(5, 2), 20), Part("b", F(3) + F(1, 99_991), F(2), 4)]
    draft = plan(demand, BOLT)
    assert not draft.exact
    assert prove(draft) is draft


def test_more_widths_than_a_program_holds_are_cut_at_one_that_is_said() -> None:
    """A thousand of each of many sizes: stacks give more than `MOST_WIDTHS` widths; the claim says which."""
    demand = [squares(f"{n}/16", 1000, f"{n}") for n in range(23, 60, 3)]
    found = prove(plan(demand, BOLT, effort=0), None, LITTLE)
    assert found.widest is not None
    assert found.widest >= max(part.along for part in demand)
    assert sum(found.answer // part.along for part in demand) > MOST_WIDTHS
    if found.answer == found.least:
        assert "wide" in claim(found)


class Watched:
    """A job that stops after so many questions, and keeps what it hears."""

    def __init__(self, patience: int) -> None:
        self.patience = patience
        self.heard: list[tuple[Fraction, Fraction]] = []

    def stopped(self) -> bool:
        self.patience -= 1
        return self.patience < 0

    def better(self, answer: object, bound: object) -> None:
        assert isinstance(answer, Plan)
        assert isinstance(bound, Fraction)
        self.heard.append((answer.answer, bound))


HARD = [Part(f"{n}", F(3 * n + 7, 8), F(5 * n + 9, 8), 7 + n) for n in range(12)]


@pytest.mark.parametrize("stock", [BOLT, SHEETS], ids=["bolt", "sheets"])
@pytest.mark.parametrize("patience", [0, 1, 5, 40, 400])
def test_a_search_stopped_at_any_time_has_a_whole_plan(stock: Stock, patience: int) -> None:
    draft, job = plan(HARD, stock, effort=0), Watched(patience)
    found = prove(draft, job, LITTLE)
    check_plan(found, HARD, stock)
    assert found.bound <= least_of(found) <= found.answer <= draft.answer
    assert found.stopped or found.answer == found.least or job.patience >= 0
    answers = [answer for answer, _ in job.heard]
    assert answers == sorted(answers, reverse=True)
    assert all(bound <= found.answer for _, bound in job.heard)


def test_work_is_not_overdrawn_by_what_is_counted() -> None:
    """A part that a step leaves goes back; nothing is left over twice."""
    made = convert(tuple(HARD), BOLT)
    start = {None: list(solved(made, False, 0)[0].cut.levels)}
    for units in (0, 1000, 1_000_000, 30_000_000):
        work = Work(units)
        task = BoltTask(made.sizes, made.run or 1, [], False, lambda length: length - 1)
        found = prove_bolt(task, start, 0, work)
        assert work.left <= units
        assert found.length <= sum(level.width * level.times for level in start[None])


def test_sheets_in_hand_that_do_not_suffice_are_said() -> None:
    found = prove(plan([squares("6", 9)], Stock((Sheet("ten", F(10), F(10), 2), Bolt(F(42), F(5), "rest")))))
    assert found.lacking
    assert claim(found).startswith("not enough cloth for every piece")
