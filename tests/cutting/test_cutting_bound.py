"""The bound: every share function is feasible, and no plan of a free kind goes below it."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.cutting import Bolt, Part, Sheet, Stock, claim, plan
from boltend.core.cutting.bound import shares


@settings(max_examples=200, deadline=None)
@given(st.integers(2, 60), st.data())
def test_what_fits_side_by_side_has_shares_of_at_most_one(whole: int, data: st.DataObject) -> None:
    sizes: list[int] = []
    while sum(sizes) < whole and len(sizes) < 12:
        size = data.draw(st.integers(1, whole))
        if sum(sizes) + size > whole:
            break
        sizes.append(size)
    limits = data.draw(st.lists(st.integers(1, whole), max_size=5))
    for share, all_of_it in shares(whole, [*sizes, *limits]):
        assert sum(map(share, sizes)) <= all_of_it
        assert all(0 <= share(size) <= all_of_it for size in range(1, whole + 1))


@settings(max_examples=100, deadline=None)
@given(st.data())
def test_a_sheet_cut_up_at_random_is_never_bounded_above_itself(data: st.DataObject) -> None:
    """Cut whole sheets (or a length of bolt) up from edge to edge: what comes of it must fit it again."""
    across, along = data.draw(st.integers(2, 24)), data.draw(st.integers(2, 24))
    sheets = data.draw(st.integers(1, 3))
    rectangles = [(across, along)] * sheets
    for _ in range(data.draw(st.integers(0, 12))):
        x, y = rectangles.pop(0)
        if x > 1 and (y == 1 or data.draw(st.booleans())):
            cut = data.draw(st.integers(1, x - 1))
            rectangles += [(cut, y), (x - cut, y)]
        elif y > 1:
            cut = data.draw(st.integers(1, y - 1))
            rectangles += [(x, cut), (x, y - cut)]
        else:
            rectangles.append((x, y))
    kept = data.draw(st.lists(st.sampled_from(rectangles), max_size=3)) and rectangles[: len(rectangles) // 2]
    for pieces in (rectangles, kept or rectangles):
        demand = [
            Part(f"{n}", Fraction(x), Fraction(y), 1, data.draw(st.booleans()))
            for n, (x, y) in enumerate(pieces)
        ]
        cloth = Sheet("sheet", Fraction(across), Fraction(along))
        assert plan(demand, Stock((cloth,)), effort=2000).bound <= sheets
        bolt = Stock(bolt=Bolt(Fraction(across)))
        assert plan(demand, bolt, effort=2000).bound <= along * sheets
        hand = Stock((Sheet("sheet", Fraction(across), Fraction(along), 1),), Bolt(Fraction(across)))
        assert plan(demand, hand, effort=2000).bound <= along * (sheets - 1)


def test_pieces_wider_than_half_the_cloth_lie_one_above_the_other() -> None:
    demand = [Part("panel", Fraction(22), Fraction(30), 4, False)]
    found = plan(demand, Stock(bolt=Bolt(Fraction(42))))
    assert (found.bound, found.length_used, found.proved) == (120, 120, True)
    assert claim(found) == "proved least: no way of cutting from edge to edge takes less than 120 in"


def test_a_plan_above_its_bound_claims_no_more() -> None:
    demand = [Part("a", Fraction(13), Fraction(13), 7), Part("b", Fraction(9), Fraction(17, 2), 5)]
    found = plan(demand, Stock(bolt=Bolt(Fraction(42))))
    assert found.bound < found.length_used
    assert not found.proved
    assert claim(found).startswith("a good plan; the least possible is at least ")
