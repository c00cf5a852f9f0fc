"""Demands for which a heuristic alone breaks a promise of the engine (found by a seeded search with the code
that keeps it switched off, at the small effort used here): the promise must hold for them too.
"""

from dataclasses import replace
from fractions import Fraction

from boltend.core.cutting import Bolt, Part, Sheet, Stock, at_least, plan

F = Fraction
EFFORT = 8000
Row = tuple[str, str, int, bool]


def parts(*rows: Row) -> list[Part]:
    return [Part(f"part {n}", F(x), F(y), count, turn) for n, (x, y, count, turn) in enumerate(rows)]


def bolt(width: str) -> Stock:
    return Stock(bolt=Bolt(F(width)))


def test_a_part_added_never_shortens_it() -> None:
    fewer = parts(("15/2", "5", 6, False), ("2", "12", 6, True), ("4", "11", 4, False), ("14", "8", 4, True))
    more = [*fewer, Part("one more", F(2), F(13, 2), 1, False)]
    small, big = plan(fewer, bolt("38"), effort=EFFORT), plan(more, bolt("38"), effort=EFFORT)
    assert small.length_used > big.length_used  # else this demand shows nothing any more: find another
    joined = at_least(small, big)
    assert joined.length_used <= big.length_used
    assert joined.unplaced == ()
    assert joined.cut_counts == {f"part {n}": part.count for n, part in enumerate(fewer)}


def test_stacks_start_from_simple_strips() -> None:
    demand = parts(
        ("10", "18", 5, True), ("14", "23/2", 1, False), ("27/2", "33/2", 6, True), ("3/2", "15", 3, True)
    )
    simple = plan(demand, bolt("34"), stacks=False, effort=EFFORT)
    assert plan(demand, bolt("34"), effort=EFFORT).length_used <= simple.length_used


def test_twice_the_pieces_take_at_most_twice_the_sheets() -> None:
    demand = parts(
        ("9/2", "14", 7, True),
        ("17/2", "7", 5, True),
        ("19/2", "1", 2, False),
        ("23/2", "3/2", 8, False),
        ("15/2", "4", 5, False),
    )
    stock = Stock((Sheet("sheet", F(25, 2), F(20)),))
    twice = [replace(part, count=2 * part.count) for part in demand]
    assert plan(twice, stock, effort=EFFORT).answer <= 2 * plan(demand, stock, effort=EFFORT).answer


def test_a_remnant_in_hand_never_makes_the_bolt_longer() -> None:
    demand = parts(
        ("13", "29/2", 2, True),
        ("37/2", "14", 6, True),
        ("16", "21/2", 2, True),
        ("3/2", "25/2", 3, True),
        ("16", "14", 8, True),
    )
    hand = Stock((Sheet("remnant", F(2), F(27, 2), 1),), Bolt(F(79, 2)))
    without = plan(demand, bolt("79/2"), effort=EFFORT)
    assert plan(demand, hand, effort=EFFORT).length_used <= without.length_used
