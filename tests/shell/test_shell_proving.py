"""A long search for a shorter plan: the first plan is in sight meanwhile, and Esc is content with it."""

import threading
from typing import Any

import pytest

import boltend.shell.planning as planning
from boltend.core.report.list_words import BuyRow, BuySheet
from boltend.shell.list_lines import ListSheets

Shell = Any

SHEETS = ListSheets((), (), BuySheet((BuyRow("Red [/x] [bold]", "3/8 yd", "", "$4.50"),), "$4.50", ()))
QUILT = """boltend = 1
[[tab]]
name = "Bag"
calculator = "sew"
[tab.given]
size = "4 in"
many = 10
"""


async def test_a_first_plan_is_shown_at_once_and_esc_is_content_with_it(
    sewing: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A long search goes on below the list; the first Esc ends it, the second leaves the list."""
    ended = threading.Event()

    def searching(pool: Any, snapshot: Any, wanted: Any, tell: Any, hear: Any) -> ListSheets:
        tell(SHEETS)
        hear("Red [/x] [bold]")
        while not wanted.stopped():
            ended.wait(0.01)
        assert not wanted.dropped
        ended.set()
        return SHEETS

    monkeypatch.setattr(planning, "plan_lists", searching)
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.sees("looking for a shorter plan for Red [/x] [bold]", "Total")
        await it.press("escape")
        await it.wait(ended.is_set, "the search ends")
        await it.wait(lambda: it.view._planning is None)
        assert it.view.list_in_sight == "to_buy"
        assert "looking for" not in it.text()
        await it.press("escape")
        assert not it.view.list_in_sight
