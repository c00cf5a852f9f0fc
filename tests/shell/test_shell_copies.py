"""Copy and export: what is in sight to the clipboard, the whole plan into a file."""

from pathlib import Path
from typing import Any

import pytest
from ladder_projects import KEPT

from boltend.shell.app import host_bench

Shell = Any

QUILT = """boltend = 1
[[tab]]
name = "Bag [/x]"
calculator = "sew"
[tab.given]
size = "2 in"
many = 8
"""


async def test_a_tab_and_a_list_are_copied_as_they_are_seen(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("alt+c")
        assert "Bag [/x]" in it.app.clipboard
        assert "2 in" in it.app.clipboard
        await it.sees("clipboard: all of “Bag [/x]”")
        await it.press("f5")
        await it.sees("8 × square for “Bag [/x]”")
        await it.press("alt+c")
        assert "8 × square for “Bag [/x]”" in it.app.clipboard


@pytest.mark.parametrize(("ending", "form"), [(".txt", "text"), (".md", "markdown"), (".json", "json")])
async def test_the_plan_is_written_as_print_writes_it(
    sewing: Shell, tmp_path: Path, ending: str, form: str
) -> None:
    path = tmp_path / f"plan{ending}"
    async with sewing(text=QUILT) as it:
        await it.press("alt+e")
        await it.sees("Write the plan to which file?")
        await it.clear()
        await it.type(str(path))
        await it.press("enter")
        await it.wait(path.exists)
        await it.sees("Written to")
    written = path.read_text(encoding="utf-8")
    assert "Bag" in written
    assert {"text": "8 × square for “Bag [/x]”", "markdown": "8 × square", "json": '"count": 8'}[
        form
    ] in written


@pytest.mark.parametrize("looked_at", [True, False])
async def test_a_plan_in_text_has_the_ladders_that_were_looked_at(
    sewing: Shell, tmp_path: Path, looked_at: bool
) -> None:
    path = tmp_path / "plan.txt"
    async with sewing(text=KEPT) as it:
        if looked_at:
            await it.press("alt+a")
            await it.wait(lambda: it.view._climbs is not None and it.view._climbing is None)
            await it.press("escape")
        await it.press("alt+e")
        await it.sees("Write the plan to which file?")
        await it.clear()
        await it.type(str(path))
        await it.press("enter")
        await it.sees("Written to")
    written = path.read_text(encoding="utf-8")
    assert "\nLadders\n=======\n" in written
    assert ("16 in" in written.partition("\nLadders\n")[2]) == looked_at
    assert ("Not worked out here: “How many [/x]”" in written) != looked_at


async def test_the_plan_is_set_for_paper(sewing: Shell, tmp_path: Path) -> None:
    async with sewing(text=QUILT) as it:
        for ending, begins in ((".pdf", b"%PDF-"), (".html", b"<!DOCTYPE html>")):
            path = tmp_path / f"plan{ending}"
            await it.press("alt+e")
            await it.sees("Write the plan to which file?")
            await it.clear()
            await it.type(str(path))
            await it.press("enter")
            await it.wait(path.exists, "the file")
            await it.sees("Written to")
            assert path.read_bytes().startswith(begins)
        assert "Bag [/x]" in path.read_text(encoding="utf-8")


async def test_a_page_for_the_customer_has_no_working(sewing: Shell, tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    async with sewing(text=QUILT) as it:
        it.view.action_customer()
        await it.sees("Write the customer's page to which file?", "-customer.pdf")
        await it.clear()
        await it.type(str(tmp_path / "page.txt"))
        await it.sees("Let the name end in .pdf, .html.")
        await it.clear()
        await it.type(str(path))
        await it.press("enter")
        await it.wait(path.exists, "the file")
    page = path.read_text(encoding="utf-8")
    assert "To buy" in page
    assert "To cut" not in page


async def test_wrong_names_are_told_and_a_file_there_is_asked_about(sewing: Shell, tmp_path: Path) -> None:
    path = tmp_path / "plan.txt"
    path.write_text("mine")
    async with sewing(text=QUILT) as it:
        await it.press("alt+e")
        for text, said in (
            ("", "Write a file name"),
            (str(tmp_path), "folder. Write a file name behind it."),
            (str(tmp_path / "no" / "plan.txt"), "There is no folder"),
            (str(tmp_path / "plan.doc"), "Let the name end in"),
        ):
            await it.clear()
            await it.type(text)
            await it.sees(said)
        await it.clear()
        await it.type(str(path))
        await it.press("enter")
        await it.sees("There is a file")
        await it.press("enter")  # the first offer leaves it
        assert path.read_text() == "mine"
        await it.press("alt+e")
        await it.clear()
        await it.type(str(path))
        await it.press("enter", "down", "enter")
        await it.wait(lambda: path.read_text(encoding="utf-8") != "mine")


async def test_a_place_that_cannot_be_written_is_told(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("alt+e")
        await it.clear()
        await it.type("/proc/plan.txt")
        await it.press("enter")
        await it.sees("Not written")


async def test_the_plan_and_the_customers_page_name_each_other(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("alt+e")
        await it.sees("Write the plan to which file?", "A page for the customer instead", "Alt+I")
        await it.press("escape", "alt+i")
        await it.sees("Write the customer's page to which file?", "The whole plan instead", "Alt+E")


async def test_a_found_that_is_chosen_is_copied_alone_and_said(shell: Shell) -> None:
    async with shell() as it:
        await it.press("alt+r")
        await it.sees("Alt+C copies one")
        await it.press("alt+c")
        assert it.app.clipboard == "30 in finished"
        await it.sees("Sent to the terminal's clipboard: 30 in finished")
        await it.press("down", "down", "alt+c")
        assert it.app.clipboard == "15"
        it.view.action_copy_tab()
        assert "Found\n" in it.app.clipboard
        await it.sees("Sent to the terminal's clipboard: all of “Sheet”")
        await it.press("alt+r", "alt+c")
        assert "Found\n" in it.app.clipboard, "at a given all of the tab"


async def test_a_table_that_was_found_is_copied_as_its_rows(shell: Shell) -> None:
    text = """boltend = 1
[[tab]]
name = "Borders"
calculator = "borders"
[tab.given]
top_width = "40 in"
top_height = "50 in"
[[tab.given.borders]]
width = "2 in"
"""
    async with shell(text=text, bench=host_bench) as it:
        await it.press("alt+r")
        for _ in range(20):
            if it.view.results.picked_found == "each":
                break
            await it.press("down")
        await it.press("alt+c")
        head, row = it.app.clipboard.split("\n")
        assert head.split("\t")[:3] == ["Border", "Sides", "Ends"]
        # 50 in and two seams of 1/4 in; 40 in, two borders of 2 in and two seams.
        assert row.split("\t")[:3] == ["Border 1", "50 1/2 in cut", "44 1/2 in cut"]
        await it.sees("Sent to the terminal's clipboard: Each border, 1 row")
        it.view.action_copy_tab()
        assert "Borders, from the inside out  1 row, below" in it.app.clipboard
