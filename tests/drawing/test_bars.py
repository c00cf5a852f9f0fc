"""Bars in cells: as long as the amounts are large, by hand."""

from fractions import Fraction

from boltend.core.drawing.bars import bars


def amounts(*values: int | None) -> list[Fraction | None]:
    return [None if value is None else Fraction(value) for value in values]


def test_each_is_as_long_as_it_is_large() -> None:
    assert bars(amounts(2, 4, 1, 0, None), 4) == ["██", "████", "█", "", ""]
    assert bars(amounts(2, 4, 1, 0, None), 4, ascii=True) == ["##", "####", "#", "", ""]


def test_to_an_eighth_of_a_cell_and_what_is_there_is_seen() -> None:
    assert bars(amounts(8, 7, 4, 1), 1) == ["█", "▉", "▌", "▏"]
    assert bars(amounts(1000, 1), 5) == ["█████", "▏"]
    assert bars(amounts(1000, 1), 5, ascii=True) == ["#####", "#"]


def test_nothing_where_bars_would_tell_nothing() -> None:
    for said in (amounts(), amounts(5), amounts(5, None), amounts(0, 0), amounts(3, 3, None), amounts(-1, 5)):
        assert bars(said, 10) is None
    assert bars(amounts(1, 2), 0) is None
