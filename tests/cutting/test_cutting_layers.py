"""A wide strip that is nothing but layers is several narrow ones: the same pieces in the same places."""

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction as Fr

from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.cutting import Bolt, Part, Plan, Sheet, Stock, Strip, check_plan, cut_order, plan
from boltend.core.cutting.task import Column, Level, merged, unstacked

Box = tuple[int, int, int, int, int]


def strips(found: Plan) -> tuple[Strip, ...]:
    (each,) = found.sheetplans
    return each.strips


def off_the_bolt(*parts: Part) -> Plan:
    stock = Stock((), Bolt(Fr(42)))
    found = plan(parts, stock)
    check_plan(found, parts, stock)
    return found


def test_seven_whole_strips_are_not_one_of_seven_layers() -> None:
    # Each takes the whole 42 in: seven of 4 1/2 are 31 1/2 in, however they are cut.
    found = off_the_bolt(Part("sky", Fr(42), Fr(9, 2), 7))
    assert found.length_used == Fr(63, 2)
    (strip,) = strips(found)
    assert (strip.width, strip.times) == (Fr(9, 2), 7)
    assert [(stack.high, stack.times) for stack in strip.stacks] == [(1, 1)]
    assert "trim" not in [step.kind for step in cut_order(found)]


def test_squares_in_two_rows_are_two_strips() -> None:
    # Six of 6 7/8 are 41 1/4 of the 42 in; twelve are two rows.
    found = off_the_bolt(Part("dark square", Fr(55, 8), Fr(55, 8), 12))
    (strip,) = strips(found)
    assert (strip.width, strip.times, strip.stacks[0].times, strip.stacks[0].high) == (Fr(55, 8), 2, 6, 1)
    assert found.length_used == Fr(55, 4)
    assert "trim" not in [step.kind for step in cut_order(found)]


def test_sheets_in_hand_are_cut_so_too() -> None:
    # 10 × 10 in, nine of 3 × 3 in a sheet and one row beside: three strips of 3 in, three each.
    parts = [Part("a", Fr(3), Fr(3), 9)]
    found = plan(parts, Stock((Sheet("square", Fr(10), Fr(10), 4),)))
    (strip,) = strips(found)
    assert (strip.width, strip.times, strip.stacks[0].times, strip.stacks[0].high) == (3, 3, 3, 1)


def level(width: int, *columns: tuple[int, int, int, int], times: int = 1) -> Level:
    """Columns as (kind, above, high, how many side by side), each 3 of the run."""
    return Level(width, tuple(Column(k, False, 3, above, high, n) for k, above, high, n in columns), times)


def test_layers_by_hand() -> None:
    # Two kinds of five layers each: five strips.
    assert unstacked([level(20, (0, 4, 5, 2), (1, 4, 5, 1), times=2)]) == [
        level(4, (0, 4, 1, 2), (1, 4, 1, 1), times=10)
    ]
    # Of four and six layers: two strips of two and three.
    of_four_and_six = level(24, (0, 6, 4, 1), (1, 4, 6, 1))
    assert unstacked([of_four_and_six]) == [level(12, (0, 6, 2, 1), (1, 4, 3, 1), times=2)]
    # What becomes alike is put together.
    assert unstacked([level(8, (0, 4, 2, 1)), level(4, (0, 4, 1, 1), times=3)]) == [
        level(4, (0, 4, 1, 1), times=5)
    ]


def test_what_is_no_pile_of_layers_stays() -> None:
    for kept in (
        level(9, (0, 4, 2, 1)),  # an edge is left over the stacks
        level(8, (0, 4, 2, 1), (1, 8, 1, 1)),  # a piece goes through both layers
        level(8, (0, 4, 2, 1), (1, 3, 2, 1)),  # one stack leaves an edge
        level(12, (0, 4, 3, 1), (1, 6, 2, 1)),  # three against two
        level(4, (0, 4, 1, 3)),
    ):
        assert unstacked([kept]) == merged([kept])
    assert unstacked([]) == []


def boxes(levels: Iterable[Level]) -> Counter[Box]:
    """Every piece where it lies: kind, run and width from the near corner, its size."""
    found: Counter[Box] = Counter()
    offset = 0
    for each in levels:
        for _ in range(each.times):
            run = 0
            for column in each.columns:
                for _ in range(column.times):
                    for layer in range(column.high):
                        at = offset + layer * column.above
                        found[column.kind, run, at, column.beside, column.above] += 1
                    run += column.beside
            offset += each.width
    return found


@settings(max_examples=200)
@given(
    columns=st.lists(st.tuples(st.integers(0, 3), st.integers(1, 4), st.integers(1, 6), st.integers(1, 3)),
                     min_size=1, max_size=3, unique_by=lambda c: c[0]),
    more=st.integers(0, 1), times=st.integers(1, 3), fill=st.booleans(),
)  # fmt: skip
def test_the_same_pieces_in_the_same_places(
    columns: list[tuple[int, int, int, int]], more: int, times: int, fill: bool
) -> None:
    if fill:  # every stack as high as the first one, where its pieces divide that
        whole = columns[0][1] * columns[0][2]
        columns = [
            (k, above, whole // above, n) if whole % above == 0 else (k, whole, 1, n)
            for k, above, _, n in columns
        ]
    wide = max(above * high for _, above, high, _ in columns) + more
    (tidied,) = unstacked([level(2 * wide + 1, *columns)])  # never full: it tidies the columns, no more
    before = [Level(wide, tidied.columns, times)]
    after = unstacked(before)
    assert sum(each.width * each.times for each in after) == wide * times
    trims = [sum(c.times * c.high * e.times for e in levels for c in e.columns if c.high > 1)
             for levels in (before, after)]  # fmt: skip
    assert trims[1] <= trims[0]
    # A layer may order its columns anew, so that they are looked at column by column.
    for number, column in enumerate(tidied.columns):
        alone = Level(wide, (column,), times)
        layered = [e._replace(columns=(c,)) for e in after for c in e.columns if c.kind == column.kind]
        assert boxes(layered) == boxes([alone]), number
