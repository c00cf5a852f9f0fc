"""What every plan must be, whatever is asked for: looked at from outside, rectangle by rectangle."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from boltend.core.cutting import Bolt, Part, Plan, Sheet, Stock, at_least, cut_order, plan, plan_pooled

from .geometry import check
from .strategies import bolts, demands, sheets, stocks

EFFORT = 8000
usual = settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@usual
@given(demands(), stocks, st.booleans())
def test_cut_inside_apart_and_edge_to_edge(demand: list[Part], stock: Stock, stacks: bool) -> None:
    check(plan(demand, stock, stacks=stacks, effort=EFFORT), demand)


@usual
@given(demands(), stocks)
def test_the_same_demand_gives_the_same_plan(demand: list[Part], stock: Stock) -> None:
    assert plan(demand, stock, effort=EFFORT) == plan(demand, stock, effort=EFFORT)


@usual
@given(demands(), bolts)
def test_twice_the_pieces_never_more_than_twice_the_length(demand: list[Part], stock: Stock) -> None:
    twice = [replace(part, count=2 * part.count) for part in demand]
    once = plan(demand, stock, effort=EFFORT).length_used
    assert plan(twice, stock, effort=EFFORT).length_used <= 2 * once


@usual
@given(demands(), sheets())
def test_twice_the_pieces_never_more_than_twice_the_sheets(demand: list[Part], stock: Stock) -> None:
    first = stock.sheets[0]
    assert isinstance(first, Sheet)
    stock = Stock((replace(first, count=None),))
    twice = [replace(part, count=2 * part.count) for part in demand]
    once = plan(demand, stock, effort=EFFORT).answer
    assert plan(twice, stock, effort=EFFORT).answer <= 2 * once


@usual
@given(demands(), bolts)
def test_stacks_never_make_it_longer(demand: list[Part], stock: Stock) -> None:
    simple = plan(demand, stock, stacks=False, effort=EFFORT)
    assert plan(demand, stock, stacks=True, effort=EFFORT).length_used <= simple.length_used


@usual
@given(st.lists(demands(most=3), min_size=2, max_size=3), bolts)
def test_pooled_never_more_than_separate(groups: list[list[Part]], stock: Stock) -> None:
    groups = [[replace(part, name=f"{n} {part.name}") for part in group] for n, group in enumerate(groups)]
    pooled = plan_pooled(groups, stock, effort=EFFORT)
    check(pooled, [part for group in groups for part in group])
    apart = sum((plan(group, stock, effort=EFFORT).length_used for group in groups), Fraction(0))
    assert pooled.length_used <= apart


@usual
@given(st.lists(demands(most=3), min_size=2, max_size=3), stocks)
def test_pooled_from_any_stock_is_a_plan(groups: list[list[Part]], stock: Stock) -> None:
    groups = [[replace(part, name=f"{n} {part.name}") for part in group] for n, group in enumerate(groups)]
    check(plan_pooled(groups, stock, effort=EFFORT), [part for group in groups for part in group])


def scaled(stock: Stock, by: Fraction) -> Stock:
    items: list[Sheet | Bolt] = []
    for item in stock.sheets:
        if isinstance(item, Sheet):
            items.append(replace(item, across=item.across * by, along=item.along * by))
        else:
            items.append(replace(item, width=item.width * by, length=(item.length or Fraction(0)) * by))
    bolt = stock.bolt and replace(stock.bolt, width=stock.bolt.width * by)
    return Stock(tuple(items), bolt)


@usual
@given(demands(), stocks, st.sampled_from([Fraction(100, 254), Fraction(254, 100), Fraction(7, 3)]))
def test_the_same_at_equal_steps_in_centimetres(demand: list[Part], stock: Stock, by: Fraction) -> None:
    """A unit is only a name: every rectangle of the plan grows by the same factor."""
    other = [replace(part, across=part.across * by, along=part.along * by) for part in demand]
    first = plan(demand, stock, effort=EFFORT)
    second = plan(other, scaled(stock, by), effort=EFFORT)
    assert second.length_used == first.length_used * by
    assert second.bound == first.bound * {"length": by, "area": by * by, "sheets": 1}[first.goal]
    grown = [
        (name, number, p.part, p.across_from * by, p.along_from * by, p.across * by, p.along * by)
        for name, number, p in first.placements()
    ]
    assert grown == [
        (name, number, p.part, p.across_from, p.along_from, p.across, p.along)
        for name, number, p in second.placements()
    ]


@usual
@given(demands(), demands(most=2), stocks)
def test_more_pieces_never_take_less_cloth(demand: list[Part], more: list[Part], stock: Stock) -> None:
    added = [*demand, *(replace(part, name=f"more {part.name}") for part in more)]
    small, big = plan(demand, stock, effort=EFFORT), plan(added, stock, effort=EFFORT)
    joined = at_least(small, big)
    check(joined, demand)
    if not big.unplaced:
        assert joined.answer <= big.answer
    assert missing(joined) <= missing(small)


def missing(found: Plan) -> Fraction:
    lost = (each.count * each.part.across * each.part.along for each in found.unplaced)
    return sum(lost, Fraction(0))


@usual
@given(demands(), demands(most=3), st.integers(20, 44).map(Fraction))
def test_cloth_in_hand_never_makes_the_bolt_longer(
    demand: list[Part], remnants: list[Part], width: Fraction
) -> None:
    bolt = Bolt(width)
    hand = tuple(Sheet(f"remnant {n}", part.across, part.along, 1) for n, part in enumerate(remnants))
    fits = [part for part in demand if part.across <= width]
    without = plan(fits, Stock(bolt=bolt), effort=EFFORT)
    assert plan(fits, Stock(hand, bolt), effort=EFFORT).length_used <= without.length_used


@usual
@given(demands(), stocks)
def test_the_leftovers_and_the_pieces_are_the_cloth(demand: list[Part], stock: Stock) -> None:
    found = plan(demand, stock, effort=EFFORT)
    cloth = sum(
        (each.across * (each.length_used if each.along is None else each.along) * each.copies)
        for each in found.sheetplans
    )
    rest = sum(left.across * left.along * left.count for left in found.leftovers)
    trimmed = cloth - found.used_area - rest
    assert trimmed == 0


@usual
@given(demands(), stocks)
def test_the_order_of_cutting_gives_every_piece(demand: list[Part], stock: Stock) -> None:
    found = plan(demand, stock, effort=EFFORT)
    steps = cut_order(found, Fraction(1, 2))
    given_by: dict[str, int] = {}
    for step in steps:
        given_by[step.part] = given_by.get(step.part, 0) + step.pieces
    given_by.pop("", None)
    assert given_by == {label: count for label, count in found.cut_counts.items() if count}
    squared = [step for step in steps if step.kind == "square"]
    assert len(squared) == (1 if found.length_used else 0)
