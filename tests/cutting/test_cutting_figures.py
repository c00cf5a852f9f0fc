"""The demands written out in `cutting.md`, against the figures measured there (see `demands.py`)."""

from fractions import Fraction

import pytest

from boltend.core.cutting import Bolt, Sheet, Stock, plan

from .demands import BOLT, SHEETS, parts
from .geometry import check

TOLERANCE = Fraction(1002, 1000)
SHOWN = Fraction(1, 2000)  # the table shows area bounds to three places
UNPROVED = Fraction(104, 100)  # a heuristic against the least with stacks; a proving solver comes later


@pytest.mark.parametrize("name", sorted(BOLT))
def test_simple_strips_off_the_bolt(name: str) -> None:
    pieces, area, level, _ = BOLT[name]
    found = plan(parts(pieces), Stock(bolt=Bolt(Fraction(42))), stacks=False)
    assert Fraction(area) - SHOWN <= found.bound <= found.length_used <= Fraction(level) * TOLERANCE
    assert all(stack.high == 1 for each in found.sheetplans for s in each.strips for stack in s.stacks)


@pytest.mark.parametrize("name", sorted(BOLT))
def test_stacks_off_the_bolt(name: str) -> None:
    pieces, _, level, least = BOLT[name]
    found = plan(parts(pieces), Stock(bolt=Bolt(Fraction(42))))
    assert found.bound <= Fraction(least)
    assert (
        Fraction(least) <= found.length_used <= min(Fraction(level) * TOLERANCE, Fraction(least) * UNPROVED)
    )


@pytest.mark.parametrize("name", sorted(SHEETS))
@pytest.mark.parametrize("stacks", [False, True])
def test_sheets(name: str, stacks: bool) -> None:
    pieces, (across, along), area, least, level = SHEETS[name]
    sheet = Sheet("sheet", Fraction(across), Fraction(along))
    found = plan(parts(pieces), Stock((sheet,)), stacks=stacks)
    assert area <= found.bound <= found.answer <= level
    assert stacks or found.answer >= least


@pytest.mark.parametrize("name", ["Q02", "Q11", "Q18", "Q20"])
def test_each_rectangle_of_a_whole_quilt(name: str) -> None:
    demand = parts(BOLT[name][0])
    check(plan(demand, Stock(bolt=Bolt(Fraction(42)))), demand)


def test_lengthwise_borders_make_a_long_strip_with_stacks_beside_it() -> None:
    """Handbook section 11 and `cutting.md`: two stages waste it (147.5 in), stacks save a sixth and more."""
    found = plan(parts(BOLT["Q11"][0]), Stock(bolt=Bolt(Fraction(42))))
    longest = found.sheetplans[0].strips[0]
    assert longest.width == Fraction(181, 2)
    assert any(stack.high > 5 for stack in longest.stacks)
    assert found.length_used <= Fraction(122)
