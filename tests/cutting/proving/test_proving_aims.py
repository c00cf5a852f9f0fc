"""What is proved when cloth is bought in steps, or when only a limit matters; and what is said of it."""

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from boltend.core.cutting import (
    AtMost,
    Bolt,
    Part,
    Plan,
    Proof,
    Sheet,
    Standing,
    Steps,
    Stock,
    amount_text,
    claim,
    claim_of,
    plan,
    prove,
    standing_of,
)

from ..demands import BOLT, parts
from . import tiny
from .oracle import least_length

F = Fraction
BATCHES = range(4)
EACH = 12
EIGHTH = F(9, 2)
"""An eighth of a yard in inches."""


def inches(amount: Fraction) -> str:
    return amount_text("length", amount)


@pytest.mark.parametrize("batch", BATCHES)
@pytest.mark.parametrize("stacks", [False, True])
def test_a_purchase_proved_least_is_the_least_by_brute_force(batch: int, stacks: bool) -> None:
    chance = Random(f"steps {batch}")
    for _ in range(EACH):
        run = chance.randint(6, 18)
        wants = tiny.wants(chance, run, copies=6)
        steps = Steps(
            chance.choice([F(1), F(2), F(9, 4), F(7)]),
            chance.choice([F(0), F(1, 2)]),
            chance.choice([F(1), F(19, 20)]),
        )
        draft = plan(tiny.parts(wants), tiny.bolt(run), stacks=stacks, effort=0)
        found = prove(draft, None, Proof(aim=steps))
        least = least_length(wants, run, stacks) * tiny.UNIT
        assert found.bound <= least <= found.answer
        assert found.least is None or found.least <= least
        assert steps.bought(found.answer) == steps.bought(least), (run, wants, steps)
        standing = standing_of(found)
        assert standing.kind in ("least", "buys least")
        assert standing.amount == {"least": least, "buys least": steps.bought(least)}[standing.kind]
        assert standing.of in ("any", "stacks" if stacks else "simple")


@pytest.mark.parametrize("batch", BATCHES)
@pytest.mark.parametrize("stacks", [False, True])
def test_whether_a_length_suffices_is_told_as_brute_force_tells_it(batch: int, stacks: bool) -> None:
    chance = Random(f"at most {batch}")
    for _ in range(EACH):
        run = chance.randint(6, 18)
        wants = tiny.wants(chance, run, copies=6)
        draft = plan(tiny.parts(wants), tiny.bolt(run), stacks=stacks, effort=0)
        least = least_length(wants, run, stacks) * tiny.UNIT
        length = max(F(0), least + chance.choice([-2, -1, 0, 0, 1]) * tiny.UNIT)
        found = prove(draft, None, Proof(aim=AtMost(length)))
        certain = found.bound if found.least is None else found.least
        assert certain <= least <= found.answer
        assert found.answer <= length if least <= length else certain > length, (run, wants, length)


@pytest.mark.parametrize("step", ["1/4", "1", "9/2", "9"])
def test_a_coarser_step_needs_no_more_proof(step: str) -> None:
    """These are proved to the last unit, so at every step too."""
    steps = Steps(F(step), squaring=F(1, 2))
    for name in ("Q05", "Q07", "Q11"):
        demand, stock = parts(BOLT[name][0]), Stock(bolt=Bolt(F(42)))
        exact = prove(plan(demand, stock, stacks=False))
        found = prove(plan(demand, stock, stacks=False), None, Proof(aim=steps))
        assert steps.bought(found.answer) == steps.bought(exact.answer)
        assert standing_of(found).kind in ("least", "buys least")


@pytest.mark.parametrize("cut", [F(0), F(1, 64), F(9, 2), F(35, 8), F(100, 3), F(120)])
@pytest.mark.parametrize(
    "steps", [Steps(EIGHTH), Steps(EIGHTH, F(1)), Steps(F(10), F(1, 2), F(19, 20)), Steps(F(1, 7))]
)
def test_shorter_is_the_greatest_length_that_buys_a_step_less(cut: Fraction, steps: Steps) -> None:
    bought = steps.bought(cut)
    assert bought % steps.step == 0
    if not cut:
        assert (bought, steps.shorter(cut)) == (0, -1)
        return
    assert bought * steps.kept >= cut + steps.squaring > (bought - steps.step) * steps.kept
    shorter = steps.shorter(cut)
    assert shorter < cut
    assert steps.bought(shorter) <= bought - steps.step or shorter == 0
    assert steps.bought(shorter + F(1, 10**6)) == bought or shorter == 0


SQUARES = [Part("square", F(13), F(13), 7), Part("small", F(9), F(17, 2), 5)]


def simple_and_stacked() -> tuple[Plan, Plan]:
    stock = Stock(bolt=Bolt(F(42)))
    return (
        prove(plan(SQUARES, stock, stacks=False)),
        prove(plan(SQUARES, stock)),
    )


def test_what_is_said_of_a_plan_proved_least() -> None:
    simple, stacked = simple_and_stacked()
    assert claim(simple) == "proved least for plans of simple strips"
    assert claim(stacked) == "proved least for plans of strips with equal pieces above each other"
    capped = replace(stacked, widest=F(49, 2))
    assert (
        claim(capped)
        == "proved least for plans of strips with equal pieces above each other up to 24 1/2 in wide"
    )
    panel = prove(plan([Part("panel", F(22), F(30), 4, False)], Stock(bolt=Bolt(F(42)))))
    assert claim(panel) == "proved least: no way of cutting from edge to edge takes less than 120 in"


def test_what_is_said_of_a_plan_that_buys_least() -> None:
    stock = Stock(bolt=Bolt(F(42)))
    yard = Steps(F(36))
    loose = replace(plan(SQUARES, stock, effort=0), steps=yard)
    assert loose.bound < loose.answer
    assert claim(loose) == "proved least to buy: no way of cutting from edge to edge buys less than 72 in"
    of_strips = replace(loose, steps=Steps(F(1)), least=loose.answer - F(1, 4))
    bought = Steps(F(1)).bought(loose.answer)
    assert (
        claim(of_strips)
        == "proved least to buy: no plan of strips with equal pieces above each other buys less than "
        f"{bought} in"
    )
    capped = replace(of_strips, widest=F(24), stacks=False)
    assert (
        claim(capped)
        == f"proved least to buy: no plan of simple strips up to 24 in wide buys less than {bought} in"
    )
    one_off = replace(of_strips, least=loose.answer - 2)
    assert claim(one_off) == "within 2 in of the least for plans of strips with equal pieces above each other"


def test_what_is_said_of_a_plan_not_proved() -> None:
    found = plan(SQUARES, Stock(bolt=Bolt(F(42))), effort=0)
    assert claim(found) == f"a good plan; the least possible is at least {inches(found.bound)}"
    near = replace(found, least=found.answer - F(5, 8))
    assert claim(near) == "within 5/8 in of the least for plans of strips with equal pieces above each other"
    short = prove(plan(SQUARES, Stock((Sheet("ten", F(14), F(14), 3),))))
    assert short.lacking
    assert (
        claim(short)
        == f"not enough cloth for every piece; all of them would take at least {short.bound} sheets"
    )


def test_a_buyer_sees_yards_and_a_cutter_inches() -> None:
    def yards(amount: Fraction) -> str:
        return f"{amount / 36} yd"

    standing = Standing("buys least", "simple", F(45), F(24))
    said = claim_of(standing, inches, yards)
    assert said == "proved least to buy: no plan of simple strips up to 24 in wide buys less than 5/4 yd"
    assert claim_of(Standing("least", "any", F(45)), inches, yards).endswith("takes less than 45 in")
    assert claim_of(Standing("within", "stacks", F(9)), inches, yards).startswith(
        "within 1/4 yd of the least"
    )


def test_sheets_and_areas_are_said_as_such() -> None:
    demand = [Part("a", F(7), F(5), 23), Part("b", F(4), F(9), 11)]
    one = prove(plan(demand, Stock((Sheet("quarter", F(18), F(21)),))))
    assert claim(one) in (
        "proved least for plans of strips with equal pieces above each other",
        f"proved least: no way of cutting from edge to edge takes less than {one.answer} sheets",
    )
    two = prove(plan(demand, Stock((Sheet("quarter", F(18), F(21), 4), Sheet("ten", F(10), F(10))))))
    assert (two.goal, two.least is None) == ("area", False)
    assert claim(two).startswith(("proved least for plans of strips", "within "))
    assert amount_text("area", F(377, 2)) == "188.5 sq in"
    assert amount_text("sheets", F(1)) == "1 sheet"
