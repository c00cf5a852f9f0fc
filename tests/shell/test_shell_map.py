"""The map of the tabs in the shell: in sight, walked with the arrows, and a way to every tab."""

from typing import Any

import pytest

Shell = Any
Golden = Any
SIZES = {"80x24": (80, 24), "120x40": (120, 40)}

QUILT = """boltend = 1
[project]
name = "Mapped [/x]"
[[tab]]
name = "S [/x]"
calculator = "slow"
[[tab]]
name = "P"
calculator = "sew"
[tab.given]
size = "2 in"
many = { from = "S [/x]", take = "twice" }
[[tab]]
name = "Gone"
calculator = "gone_away"
[[tab]]
name = "\\u202eright\\u0007 to left"
calculator = "sew"
[tab.given]
size = "3 in"
many = { from = "P", take = "no such" }
"""


@pytest.mark.parametrize("size", list(SIZES))
async def test_screens(sewing: Shell, golden: Golden, size: str) -> None:
    async with sewing(text=QUILT, size=SIZES[size]) as it:
        await it.press("shift+f3")
        await it.sees("4 tabs", "WAITING", "CANNOT")
        golden(it, f"map-{size}")


async def test_enter_goes_to_the_tab_and_the_map_follows_the_project(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("shift+f3")
        await it.sees("→ P: ")
        await it.press("down", "enter")  # the first line is the first tab, the next the tab that it feeds
        await it.wait(lambda: it.view.tab is not None and it.view.tab.name == "P")
        assert not it.view.list_in_sight
        await it.press("shift+f3")
        it.bench.finish()
        await it.sees("How many = 8", "To cut and To buy")
        await it.press("escape")
        assert it.view.tab.name == "P"
