"""The map of the tabs in the shell: in sight, walked with the arrows, and a way to every tab."""

from typing import Any

import pytest

from boltend.shell.app import host_bench

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


def chain(count: int) -> str:
    """Borders round borders, each under a long name."""
    text = "boltend = 1\n"
    for n in range(count):
        text += f'[[tab]]\nname = "The borders number {n}"\ncalculator = "borders"\n[tab.given]\n'
        for side in ("width", "height"):
            link = f'{{ from = "The borders number {n - 1}", take = "{side}" }}'
            value = link if n else '"40 in"'
            text += f"top_{side} = {value}\n"
        text += '[[tab.given.borders]]\nwidth = "2 in"\n'
    return text


@pytest.mark.parametrize("width", [40, 50, 60])
async def test_no_page_stops_at_the_tail_of_a_wrapped_line(shell: Shell, width: int) -> None:
    async with shell(text=chain(8), size=(width, 14), bench=host_bench) as it:
        await it.press("shift+f3")
        await it.sees("The borders")
        lines = it.view.pane.lines
        tails = [n for n, line in enumerate(lines.lines) if line.tail]
        assert tails, "some lines are wrapped"
        for _ in range(12):
            await it.press("pagedown")
            assert lines.chosen is not None
            assert lines.chosen not in tails
            assert lines.lines[lines.chosen].leads_to is not None
