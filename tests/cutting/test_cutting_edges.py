"""What is asked at the edges: nothing, too much, too fine, too wide, and stopping."""

from fractions import Fraction
from time import perf_counter

import pytest

from boltend.core.cutting import Bolt, Grid, Part, Plan, Sheet, Stock, at_least, cut_order, plan, plan_pooled

from .geometry import check

F = Fraction
BOLT = Stock(bolt=Bolt(F(42)))
BOUNDED = 8.0
"""Seconds: hostile demands end in bounded time; generous, since machines differ and are shared."""


def squares(side: str, count: int, name: str = "square") -> Part:
    return Part(name, F(side), F(side), count)


def test_nothing_wanted_takes_nothing() -> None:
    for demand in ([], [squares("5", 0)]):
        found = plan(demand, BOLT)
        assert (found.length_used, found.proved, found.sheetplans, found.unplaced) == (0, True, (), ())


def test_no_cloth() -> None:
    found = plan([squares("5", 3)], Stock())
    assert [(each.count, each.why) for each in found.unplaced] == [(3, "there is no cloth")]


@pytest.mark.parametrize(
    ("part", "stock", "why"),
    [
        (Part("wide", F(43), F(50), 2), BOLT, "wider than the cloth in both directions"),
        (Part("fixed", F(43), F(5), 2, False), BOLT, "wider than the cloth, and it may not turn"),
        (squares("43", 2), BOLT, "wider than the cloth"),
        (squares("11", 2), Stock((Sheet("ten", F(10), F(10)),)), "larger than the cloth"),
        (
            Part("long", F(11), F(2), 2),
            Stock((Sheet("ten", F(10), F(10)),)),
            "larger than the cloth in both directions",
        ),
        (squares("6", 3), Stock((Sheet("ten", F(10), F(10), 2),)), "not enough cloth in hand"),
    ],
)
def test_what_cannot_be_cut_is_named_with_its_reason(part: Part, stock: Stock, why: str) -> None:
    found = plan([part, squares("2", 1, "small")], stock)
    assert {each.part.name: each.why for each in found.unplaced} == {part.name: why}
    assert found.cut_counts["small"] == 1


def test_a_long_piece_that_may_not_turn_still_goes_along_the_bolt() -> None:
    found = plan([Part("border", F(13, 2), F(181, 2), 2, False)], BOLT)
    assert (found.length_used, found.proved) == (F(181, 2), True)


def test_equal_sizes_are_cut_together_and_named_apart() -> None:
    demand = [
        squares("5/2", 10, "red"),
        squares("5/2", 6, "blue"),
        Part("flat", F(2), F(5), 3),
        Part("tall", F(5), F(2), 2),
    ]
    found = plan(demand, BOLT)
    assert [kind.label for kind in found.kinds] == ["red + blue", "flat + tall"]
    check(found, demand)
    assert found.cut_counts == {"red + blue": 16, "flat + tall": 5}


def test_in_hand_first_then_the_bolt() -> None:
    stock = Stock((Sheet("ten", F(10), F(10), 2), Bolt(F(42), F(10), "remnant")), Bolt(F(42)))
    found = plan([squares("5", 50)], stock)
    # eight from the two squares, 8 × 2 from the remnant, the other 26 from four strips of 5 in
    assert found.sheets_used == {"ten": 2, "remnant": 1}
    assert (found.length_used, found.unplaced) == (20, ())


def test_enough_in_hand_buys_nothing() -> None:
    found = plan([squares("5", 4)], Stock((Sheet("ten", F(10), F(10), 9),), Bolt(F(42))))
    assert (found.length_used, found.bound, found.proved) == (0, 0, True)
    assert found.sheets_used == {"ten": 1}


def test_both_ways_of_cutting_a_sheet() -> None:
    """Strips of 10 1/2 in along the sheet: three side by side across 18 in would not fit, two along do."""
    found = plan([Part("strip", F(9), F(21), 2, False)], Stock((Sheet("quarter", F(18), F(21), 1),)))
    assert not found.unplaced


def test_the_order_of_cutting() -> None:
    found = plan([squares("5/2", 48)], BOLT)
    steps = cut_order(found, F(1, 2))
    assert [(s.kind, s.count, s.size) for s in steps] == [
        ("take", 1, 0),
        ("square", 1, F(1, 2)),
        ("strip", 3, F(5, 2)),
        ("sub_cut", 16, F(5, 2)),
    ]
    assert steps[-1].pieces == 48


def test_a_grid_is_the_common_divisor() -> None:
    assert Grid.of([F(5, 2), F(15, 4), F(42)]).unit == F(1, 4)
    assert Grid.of([F(10), F(100)]).unit == 10
    assert Grid.of([]).unit == 1


def test_absurdly_fine_sizes_are_rounded_and_it_says_so() -> None:
    demand = [Part("odd", F(5, 2) + F(1, 999_983), F(5, 2), 20), Part("other", F(3) + F(1, 99_991), F(2), 4)]
    found = plan(demand, BOLT)
    assert not found.exact
    assert found.notes == (
        "sizes with too fine a common step: pieces are rounded up and cloth down to 1/64 in",
    )
    assert found.kinds[0].across >= demand[0].across
    metric = [
        Part("odd", F(50, 1) / F(254, 10) + F(1, 10**9), F(100) / F(254, 10), 3),
        Part("b", F(10, 254) * 90, F(10, 254) * 40, 2),
    ]
    assert "0.1 mm" in plan(metric, Stock(bolt=Bolt(F(1100, 254) * 10))).notes[0]


class Watched:
    """A job that stops after so many questions."""

    def __init__(self, patience: int) -> None:
        self.patience = patience
        self.heard: list[tuple[object, object]] = []

    def stopped(self) -> bool:
        self.patience -= 1
        return self.patience < 0

    def better(self, answer: object, bound: object) -> None:
        self.heard.append((answer, bound))


HARD = [Part(f"{n}", F(3 * n + 7, 8), F(5 * n + 9, 8), 7 + n) for n in range(12)]


def test_a_job_hears_at_once_and_may_stop() -> None:
    stopped = Watched(0)
    found = plan(HARD, BOLT, stopped)
    check(found, HARD)
    assert found.stopped
    heard = [answer.length_used for answer, _ in stopped.heard if isinstance(answer, Plan)]
    assert len(heard) == 2
    assert heard[0] >= heard[1] == found.length_used
    patient = Watched(10**9)
    best = plan(HARD, BOLT, patient)
    assert not best.stopped
    assert best.length_used <= found.length_used
    assert best == plan(HARD, BOLT)


def test_pooling_passes_the_wish_to_stop_on() -> None:
    job = Watched(0)
    groups = [HARD[:6], HARD[6:]]
    check(plan_pooled(groups, BOLT, job), HARD)
    assert all(isinstance(answer, Plan) and answer.demand == tuple(HARD) for answer, _ in job.heard)


def test_two_plans_must_be_of_one_stock_and_one_demand() -> None:
    small, big = plan(HARD[:3], BOLT), plan(HARD, BOLT)
    with pytest.raises(ValueError, match="different stock"):
        at_least(small, plan(HARD, Stock(bolt=Bolt(F(40)))))
    with pytest.raises(ValueError, match="fewer of"):
        at_least(big, small)


HOSTILE = {
    "a million of one size": [squares("5/2", 1_000_000)],
    "a million of three sizes": [
        squares("21/8", 1_000_000),
        Part("b", F(3, 2), F(37, 8), 999_999),
        squares("9", 1 << 20, "c"),
    ],
    "400 singles": [Part(f"{n}", F(16 + n % 97, 8), F(24 + (n * 37) % 211, 8), 1) for n in range(400)],
    "tiny pieces": [Part("dust", F(1, 64), F(1, 32), 10**6), squares("40", 2)],
    "near ties": [Part(f"{n}", F(21) - F(n, 64), F(5) + F(n, 64), 9) for n in range(20)],
    "thirty kinds, two thousand pieces": [
        Part(f"{n}", F(6 + (n * 7) % 55, 4), F(6 + (n * 11) % 61, 4), 4 + (n * 13) % 117) for n in range(30)
    ],
}


@pytest.mark.parametrize("name", sorted(HOSTILE))
@pytest.mark.parametrize(
    "stock", [BOLT, Stock((Sheet("quarter", F(18), F(21)), Sheet("wide", F(44), F(44))))]
)
def test_hostile_demands_end_in_bounded_time(name: str, stock: Stock) -> None:
    start = perf_counter()
    found = plan(HOSTILE[name], stock)
    assert perf_counter() - start < BOUNDED
    assert found.unplaced == ()
    assert sum(len(each.strips) for each in found.sheetplans) < 2000


@pytest.mark.parametrize("size", ["0", "-1"])
def test_sizes_are_more_than_nothing(size: str) -> None:
    with pytest.raises(ValueError, match="more than nothing"):
        Part("x", F(size), F(1), 1)
    with pytest.raises(ValueError, match="more than nothing"):
        Sheet("x", F(1), F(size), 1)
    with pytest.raises(ValueError, match="more than nothing"):
        Bolt(F(size))


def test_stock_says_which_bolt_is_which() -> None:
    with pytest.raises(ValueError, match="endless"):
        Stock(bolt=Bolt(F(42), F(10)))
    with pytest.raises(ValueError, match="needs a length"):
        Stock((Bolt(F(42)),))
    with pytest.raises(ValueError, match="0 or more"):
        Part("x", F(1), F(1), -1)
