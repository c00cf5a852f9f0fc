"""Within the ladders: arrows, pages and clicks choose a value; what is out of reach there says so."""

from typing import Any

import pytest
from ladder_projects import BAGS, KEPT

Shell = Any

VALUES = ", ".join(map(str, range(1, 41)))
LONG = f"""{BAGS}[[ladder]]
name = "Long"
tab = "Sheet [/x]"
given = "across"
values = [{VALUES}]
"""


async def opened(it: Any) -> None:
    await it.press("alt+a")
    await it.wait(lambda: it.view._climbs is not None and it.view._climbing is None, "all rungs")


async def test_a_value_is_chosen_across_and_put_in(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.press("down", "right", "right", "right", "right")
        assert it.view._ladder_chosen() == (0, 3), "the last stays the last"
        await it.sees("! >   32 in")
        await it.press("down", "down")
        await it.sees(">   $7.50")
        await it.press("enter")
        await it.sees("Put 8 into Across")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet [/x]")["across"] == 8)
        await it.sees("*8")
        await it.press("left")
        assert it.view._ladder_chosen() == (0, 2)


async def test_a_cell_by_mouse(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.click_on("$7.50")
        await it.sees("Put 8 into Across")
        await it.press("escape")
        await it.click_on("Bag: Squares")  # a name leads nowhere
        await it.pilot.pause()
        assert len(it.app.screen_stack) == 2


async def test_pages_and_arrows_go_on_from_what_is_in_sight(sewing: Shell) -> None:
    async with sewing(text=LONG) as it:
        await opened(it)
        lines = it.view.pane.lines
        await it.press("pagedown")
        assert lines.scroll_offset.y > 0
        assert lines.scroll_offset.y <= lines.chosen < lines.scroll_offset.y + lines.size.height
        before = lines.chosen
        await it.press("down")
        assert lines.chosen == before + 1
        lines.scroll_to(y=0, animate=False, immediate=True)  # as a mouse wheel does
        await it.press("down")
        assert lines.chosen == 0, "the first in sight, and no leap"
        await it.press("end")
        assert lines.scroll_offset.y == lines.max_scroll_y
        await it.press("home")
        assert (lines.scroll_offset.y, lines.chosen) == (0, 0)
        await it.press("pageup")
        assert lines.chosen == 0


async def test_down_scrolls_through_what_leads_nowhere_to_the_end(sewing: Shell) -> None:
    async with sewing(text=LONG) as it:
        await opened(it)
        lines = it.view.pane.lines
        await it.press("end")
        lines.scroll_to(y=lines.max_scroll_y - 2, animate=False, immediate=True)
        await it.press(*("down",) * 30)
        assert lines.scroll_offset.y == lines.max_scroll_y


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("alt+v", "No tab draws the whole quilt yet."),
        ("alt+w", "Work backwards from a tab, or from To buy"),
        ("f2", "F2 is for a tab: Esc goes back to it"),
    ],
)
async def test_what_is_out_of_reach_here_says_so(sewing: Shell, key: str, words: str) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.press(key)
        await it.sees(words)
        assert it.view.list_in_sight == "ladders"
        await it.press("escape")
        assert not it.view.list_in_sight, "at once, as was said"


async def test_help_says_what_the_keys_do_here(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.press("f1")
        await it.sees("Alt+P puts the value into the given")
        await it.press("f1")
        await it.sees("[Ladders]", "How many")


async def test_the_line_of_keys_begins_with_the_ladders_own(sewing: Shell) -> None:
    async with sewing(text=KEPT, size=(60, 24)) as it:
        await opened(it)
        assert it.rows()[-1] == "Alt+P Put Alt+O Edit Alt+X Remove F9 Menu F1 Help ^z Undo"


async def test_what_the_total_leaves_out_stands_beside_it(sewing: Shell) -> None:
    """Without a price of the cloth the total counts the buttons alone."""
    text = KEPT.replace('price = "12 per yard"\n', "")
    async with sewing(text=text) as it:
        await opened(it)
        await it.sees(
            "Not in the total", "1 price", "2 tabs", "4, 5, 8: not in the total: Red [/x] [bold] (no price)"
        )
        rows = it.rows()
        total = next(n for n, row in enumerate(rows) if row.startswith("  Total "))
        assert rows[total + 1].startswith("  Not in the total"), "right below it"
        assert rows[total].count("+") == 3
