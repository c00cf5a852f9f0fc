"""The most pieces of one size out of one sheet, against a search of every cut."""

from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.cutting import Block, Part, Sheet, Split, Stock, guillotine, plan, stacks_of, yield_of

from .geometry import Box, any_overlap, cuttable


def every_cut(piece: tuple[int, int, bool], across: int, along: int) -> int:
    """Try each whole-number cut of each rectangle."""
    a, b, may_turn = piece

    @cache
    def most(x: int, y: int) -> int:
        one = (a <= x and b <= y) or (may_turn and b <= x and a <= y)
        best = int(one)
        for cut in range(1, x // 2 + 1):
            best = max(best, most(cut, y) + most(x - cut, y))
        for cut in range(1, y // 2 + 1):
            best = max(best, most(x, cut) + most(x, y - cut))
        return best

    return most(across, along)


def rectangles(found: tuple[Block, ...]) -> list[Box]:
    boxes = []
    for block in found:
        for column in range(block.columns):
            for row in range(block.rows):
                x = block.across_from + column * block.piece_across
                y = block.along_from + row * block.piece_along
                boxes.append((x, y, x + block.piece_across, y + block.piece_along))
    return boxes


def cut_apart(node: Split | Block, across: Fraction, along: Fraction) -> None:
    """Follow the cuts: each divides exactly what is there."""
    if isinstance(node, Block):
        assert (node.across, node.along) == (across, along)
        return
    if node.cut_at == "across":
        assert 0 < node.at < across
        cut_apart(node.first, node.at, along)
        cut_apart(node.second, across - node.at, along)
    else:
        assert 0 < node.at < along
        cut_apart(node.first, across, node.at)
        cut_apart(node.second, across, along - node.at)


small = st.integers(1, 9)
sides = st.integers(1, 24)


@settings(max_examples=200, deadline=None)
@given(
    small,
    small,
    st.booleans(),
    sides,
    sides,
    st.sampled_from([Fraction(1), Fraction(1, 8), Fraction(5, 127)]),
)
def test_the_most_that_straight_cuts_give(
    a: int, b: int, may_turn: bool, across: int, along: int, step: Fraction
) -> None:
    found = yield_of((a * step, b * step, may_turn), (across * step, along * step))
    assert found.proved
    assert found.pieces == every_cut((a, b, may_turn), across, along)
    assert found.pieces >= found.one_way
    boxes = rectangles(found.blocks())
    assert len(boxes) == found.pieces
    assert all(x >= 0 and y >= 0 and r <= across * step and f <= along * step for x, y, r, f in boxes)
    assert not any_overlap(boxes)
    assert cuttable(boxes)
    cut_apart(found.layout, across * step, along * step)


@settings(max_examples=100, deadline=None)
@given(small, small, st.booleans(), sides, sides)
def test_a_plan_never_beats_it(a: int, b: int, may_turn: bool, across: int, along: int) -> None:
    part = (Fraction(a), Fraction(b), may_turn)
    sheet = (Fraction(across), Fraction(along))
    most = yield_of(part, sheet).pieces
    demand = [Part("piece", *part[:2], most + 1, may_turn)]
    found = plan(demand, Stock((Sheet("sheet", *sheet, 1),)))
    assert sum(found.cut_counts.values()) <= most


@settings(max_examples=60, deadline=None)
@given(small, small, sides, sides)
def test_beyond_its_cap_it_still_gives_what_strips_with_stacks_give(
    a: int, b: int, across: int, along: int
) -> None:
    exact = yield_of((Fraction(a), Fraction(b), True), (Fraction(across), Fraction(along)))
    kept = guillotine.MOST_WORK
    guillotine.MOST_WORK = 0
    try:
        capped = yield_of((Fraction(a), Fraction(b), True), (Fraction(across), Fraction(along)))
    finally:
        guillotine.MOST_WORK = kept
    assert capped.pieces <= exact.pieces
    assert not capped.proved or capped.pieces == exact.pieces
    assert len(rectangles(capped.blocks())) == capped.pieces
    assert not any_overlap(rectangles(capped.blocks()))
    cut_apart(capped.layout, Fraction(across), Fraction(along))
    part = Part("piece", Fraction(a), Fraction(b), exact.pieces + 1)
    planned = plan([part], Stock((Sheet("sheet", Fraction(across), Fraction(along), 1),)))
    assert sum(planned.cut_counts.values()) <= capped.pieces


@pytest.mark.parametrize(
    ("piece", "sheet", "pieces", "one_way"),
    [
        # handbook.md section 11: "a 10 in square gives four of 5 in"; "one way 2, guillotine 3"
        (("5", "5", True), ("10", "10"), 4, 4),
        (("3.5", "6.5", True), ("10", "10"), 3, 2),
        (("3.5", "6.5", False), ("10", "10"), 2, 2),
        (("11", "2", True), ("10", "10"), 0, 0),
        # counted by hand: 2 1/2 in strips of 42 in give 16 squares, 2 in to spare
        (("2.5", "2.5", True), ("42", "2.5"), 16, 16),
    ],
)
def test_known_yields(
    piece: tuple[str, str, bool], sheet: tuple[str, str], pieces: int, one_way: int
) -> None:
    found = yield_of(
        (Fraction(piece[0]), Fraction(piece[1]), piece[2]), (Fraction(sheet[0]), Fraction(sheet[1]))
    )
    assert (found.pieces, found.one_way) == (pieces, one_way)


def test_the_yield_proves_the_number_of_sheets() -> None:
    """By area a 10 in square might hold four (three squares); from edge to edge it holds three (four)."""
    demand = [Part("piece", Fraction(7, 2), Fraction(13, 2), 12)]
    found = plan(demand, Stock((Sheet("ten", Fraction(10), Fraction(10)),)))
    assert (found.answer, found.bound, found.proved) == (4, 4, True)


def test_sixteen_layers_are_two_stacks_of_eight() -> None:
    """Common practice, no source."""
    assert [stacks_of(layers, 8) for layers in (0, 1, 8, 9, 16, 17)] == [0, 1, 1, 2, 2, 3]


def test_nothing_measures_nothing() -> None:
    with pytest.raises(ValueError, match="more than nothing"):
        yield_of((Fraction(0), Fraction(1), True), (Fraction(10), Fraction(10)))
    with pytest.raises(ValueError, match="stacks of at most 0"):
        stacks_of(8, 0)
