"""`check_plan` finds what is wrong: each plan here is spoilt in one way."""

from dataclasses import replace
from fractions import Fraction

import pytest

from boltend.core.cutting import Bolt, Part, Plan, PlanError, Sheet, Stack, Stock, Strip, check_plan, plan

DEMAND = [
    Part("log", Fraction(3, 2), Fraction(13, 2), 10),
    Part("arrow", Fraction(5, 2), Fraction(4), 6, may_turn=False),
]
STOCK = Stock((Sheet("quarter", Fraction(18), Fraction(21), 2),))


def good() -> Plan:
    return plan(DEMAND, STOCK)


def with_strip(found: Plan, strip: Strip) -> Plan:
    sheet = found.sheetplans[0]
    return replace(
        found, sheetplans=(replace(sheet, strips=(strip, *sheet.strips[1:])), *found.sheetplans[1:])
    )


def first(found: Plan) -> Strip:
    return found.sheetplans[0].strips[0]


def with_stack(found: Plan, stack: Stack) -> Plan:
    strip = first(found)
    return with_strip(found, replace(strip, stacks=(stack, *strip.stacks[1:])))


def narrower(found: Plan) -> Plan:
    return with_strip(found, replace(first(found), width=first(found).width - Fraction(1, 8)))


def fuller(found: Plan) -> Plan:
    return with_stack(found, replace(first(found).stacks[0], times=40))


def deeper(found: Plan) -> Plan:
    return with_strip(found, replace(first(found), times=40))


def turned(found: Plan) -> Plan:
    for number, strip in enumerate(found.sheetplans[0].strips):
        for place, stack in enumerate(strip.stacks):
            if stack.part == "arrow":
                other = replace(stack, across=stack.along, along=stack.across, turned=True, times=1, high=1)
                stacks = (*strip.stacks[:place], other, *strip.stacks[place + 1 :])
                strips = list(found.sheetplans[0].strips)
                strips[number] = Strip(Fraction(13, 2), stacks)
                return replace(found, sheetplans=(replace(found.sheetplans[0], strips=tuple(strips)),))
    raise AssertionError("no arrow in the plan")


def other_size(found: Plan) -> Plan:
    stack = first(found).stacks[0]
    return with_stack(found, replace(stack, across=stack.across - Fraction(1, 8)))


def lost(found: Plan) -> Plan:
    return with_strip(found, replace(first(found), stacks=()))


def stranger(found: Plan) -> Plan:
    return with_stack(found, replace(first(found).stacks[0], part="flag"))


def more_sheets(found: Plan) -> Plan:
    return replace(found, sheetplans=(replace(found.sheetplans[0], copies=3),))


def larger_sheet(found: Plan) -> Plan:
    return replace(found, sheetplans=(replace(found.sheetplans[0], across=Fraction(19)),))


def boast(found: Plan) -> Plan:
    return replace(found, bound=found.answer + 1)


def overclaim(found: Plan) -> Plan:
    return replace(found, bound=found.answer - 1, proved=True)


def other_cloth(found: Plan) -> Plan:
    sheet = found.sheetplans[0]
    return replace(found, sheetplans=(replace(sheet, item=Sheet("x", Fraction(50), Fraction(50))),))


@pytest.mark.parametrize(
    ("spoil", "why"),
    [
        (narrower, "stands out of its strip"),
        (fuller, "of the strip"),
        (deeper, "the strips need"),
        (turned, "may not turn"),
        (other_size, "not its size"),
        (lost, "wanted"),
        (stranger, "nobody asked"),
        (more_sheets, "of which there are 2"),
        (larger_sheet, "own size"),
        (boast, "above the answer"),
        (overclaim, "called proved"),
        (other_cloth, "not the cloth"),
    ],
)
def test_a_spoilt_plan_is_found_out(spoil: object, why: str) -> None:
    found = good()
    check_plan(found, DEMAND, STOCK)
    assert callable(spoil)
    with pytest.raises(PlanError, match=why):
        check_plan(spoil(found), DEMAND, STOCK)


def test_another_demand_is_not_the_plans() -> None:
    with pytest.raises(PlanError, match="wanted"):
        check_plan(good(), [replace(DEMAND[0], count=11), DEMAND[1]], STOCK)
    with pytest.raises(PlanError, match="in no kind"):
        check_plan(good(), DEMAND[:1], STOCK)


def test_another_stock_is_not_the_plans() -> None:
    with pytest.raises(PlanError, match="not the cloth"):
        check_plan(good(), DEMAND, Stock((Sheet("quarter", Fraction(18), Fraction(20), 2),)))
    with pytest.raises(PlanError, match="no such cloth"):
        check_plan(good(), DEMAND, Stock(bolt=Bolt(Fraction(42))))
