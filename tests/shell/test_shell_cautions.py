"""What stands far below is told above: cautions and choices, in the head of what was found."""

from functools import partial
from typing import Any

import pytest

from boltend.shell.app import host_bench

Shell = Any

TO_FIT = """boltend = 1
[[tab]]
name = "How many"
calculator = "grid_for_size"
[tab.given]
target_width = "60 in"
target_height = "80 in"
block_width = "9 in"
"""


@pytest.mark.parametrize("size", [(80, 24), (40, 20), (120, 40)])
async def test_a_caution_is_told_in_the_head_and_a_key_leads_to_it(
    shell: Shell, size: tuple[int, int]
) -> None:
    async with shell(size=size) as it:
        await it.sees("Found · 1 caution: Alt+K")
        field = it.app.focused
        await it.press("alt+k")
        await it.sees("Cautions", "Keep your fingers")
        await it.press("escape")
        await it.wait(lambda: it.app.focused is field, "the field again")


async def test_a_tab_without_one_says_nothing_of_it_and_the_key_tells(shell: Shell) -> None:
    async with shell(size=(100, 24)) as it:
        await it.press("f6")
        await it.sees("[Frame]", "Framed width")
        assert "caution" not in it.text()
        await it.press("alt+k")
        await it.sees("This tab has no caution.")


async def test_choices_are_counted_where_they_are_seen_at_once(shell: Shell) -> None:
    many = partial(shell, text=TO_FIT, bench=host_bench)
    async with many() as it:
        await it.sees("Blocks across")
        found = it.desk.book.result("How many").found["choices"]
        assert len(found) > 1, "take other sizes here"
        await it.sees(f"{len(found)} choices below")
        await it.to("pick")
        await it.focus_in_sight()
        row = next(row for row in it.rows() if "Pick" in row)
        assert row.split()[1:5] == [">1", "of", str(len(found)), "·"], row
