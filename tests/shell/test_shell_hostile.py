"""Projects that nobody would write, in the shell: it opens, keys do what they do, and it quits."""

import os
import time
from pathlib import Path
from typing import Any

import pytest
from textual import events

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


async def test_what_is_typed_while_a_slow_disk_takes_a_save_is_not_lost(
    shell: Shell, project_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each flush takes a quarter of a second: the keys of that time are done after it, in their order."""
    fast, flushed = os.fsync, []

    def slow(handle: int) -> None:
        time.sleep(0.25)
        flushed.append(fast(handle))

    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7")
        monkeypatch.setattr(os, "fsync", slow)
        for key in ("ctrl+s", "1", "2", "backspace", "3"):
            it.app.post_message(events.Key(key, key if len(key) == 1 else None))
        await it.wait(lambda: it.given("Sheet")["across"] == 713, "what was typed meanwhile")
        assert flushed
        assert "across = 7\n" in project_file.read_text(encoding="utf-8")
        assert it.desk.changed
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
    assert "across = 713" in project_file.read_text(encoding="utf-8")
