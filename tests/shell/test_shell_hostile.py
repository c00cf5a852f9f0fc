"""Projects that nobody would write, in the shell: it opens, keys do what they do, and it quits."""

from typing import Any

from boltend.shell.form import MOST_ROWS
from boltend.shell.rows_block import RowsBlock

Shell = Any


async def test_ten_thousand_rows_are_not_ten_thousand_fields(shell: Shell) -> None:
    rows = ", ".join(['{ width = "1 in" }'] * 10_000)
    tab = '[[tab]]\nname = "F"\ncalculator = "frame"\n[tab.given]\nwidth = "9 in"\n'
    text = f"boltend = 1\n{tab}rings = [{rows}]\n"
    async with shell(text=text) as it:
        (block,) = it.view._form.query(RowsBlock)
        assert len(block.lines) == MOST_ROWS
        await it.sees("Width")
        await it.to("width")
        await it.clear()
        await it.type("8 in")
        assert it.given("F")["width"] == "8 in"
        assert len(it.given("F")["rings"]) == 10_000
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
