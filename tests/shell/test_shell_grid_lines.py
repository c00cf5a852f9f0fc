"""Rows that were found stand side by side, whole, at any width."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from boltend.core.report.tab_sheet import Grid
from boltend.shell.grid_lines import grid_lines

CHOICES = Grid(
    "Choices",
    ("Across", "Border, sides", "Over, width"),
    (("6", "4 in finished", "2 in"), ("5", "8 1/2 in finished", "2 in"), ("7", "0 in finished", "3 in")),
)


def text(grid: Grid, width: int) -> list[str]:
    return ["".join(part for part, _ in line).rstrip() for line in grid_lines(grid, width)]


def test_a_table_with_the_kind_in_its_head_and_a_number_to_pick_by() -> None:
    assert text(CHOICES, 40) == [
        "           Border,",
        "           sides,    Over,",
        "   Across  finished  width",
        "1. 6       4 in      2 in",
        "2. 5       8 1/2 in  2 in",
        "3. 7       0 in      3 in",
    ]


def test_where_it_does_not_fit_each_row_is_a_column_and_as_many_stand_side_by_side_as_fit() -> None:
    heads = ("Aa", "Bb", "Cc", "Dd", "Ee", "Ff")
    grid = Grid("g", heads, tuple(tuple(f"{row} in" for _ in heads) for row in (1, 2, 3, 4)))
    assert text(grid, 20) == [
        "    1.    2.    3.",
        *(f"{head}  1 in  2 in  3 in" for head in heads),
        "",
        "    4.",
        *(f"{head}  4 in" for head in heads),
    ]


def test_a_kind_that_not_all_have_stays_where_it_is() -> None:
    grid = Grid("g", ("Size",), (("4 in finished",), ("–",)))
    assert text(grid, 40) == ["   Size", "1. 4 in finished", "2. –"]


cells = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=30)


@given(
    st.integers(1, 6).flatmap(lambda n: st.lists(st.tuples(*[cells] * n), min_size=2, max_size=8)),
    st.integers(20, 90),
)
def test_no_line_is_wider_than_there_is_room(rows: list[tuple[str, ...]], width: int) -> None:
    grid = Grid("g", rows[0], tuple(rows[1:]))
    assert all(cell_len(line) <= width for line in text(grid, width))


@pytest.mark.parametrize("width", [30, 50, 80])
def test_every_cell_is_there(width: int) -> None:
    said = " ".join(text(CHOICES, width))
    for cell in ("6", "8 1/2 in", "2 in", "3 in", "7", "finished"):
        assert cell in said
