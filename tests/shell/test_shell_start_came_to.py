"""What a question comes to is said once it is taken; what it still needs has the cursor, also a tab on."""

from typing import Any

from boltend.shell.app import host_bench
from boltend.shell.looks import Place

Shell = Any


async def test_a_question_that_is_worked_out_says_its_quilt_and_where_to_go(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks of 9 in, borders 2 in and 4 in, binding")
        await it.press("enter")
        # 5 × 6 blocks of 9 in, and 2 + 4 in round them: 57 × 66; with its seam of 1/4 in on each side, which
        # the binding covers, 57 1/2 × 66 1/2.
        await it.sees("Quilt: 57 1/2 × 66 1/2 in with binding on · F6 next tab, F8 what to buy")
        at = [row.strip().startswith("Quilt: ") for row in it.rows()].index(True)
        assert it.rows()[at + 1].strip().startswith("Shift+F5: "), "the tip comes after the answer"
        await it.press("f8")
        await it.sees("Finished size, with its binding on: 57 1/2 in × 66 1/2 in")


async def test_while_something_is_wanting_no_quilt_is_said(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks, two borders")
        await it.press("enter")
        await it.sees("From your question: Blocks in hand 30.")
        assert "Quilt: " not in it.text()


async def test_what_is_wanting_a_tab_on_has_the_cursor(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("queen bed 60 x 80, drop 13")
        await it.press("enter")
        await it.sees("Drop at each side 13")
        assert it.view.tab.calculator == "grid_for_size"
        assert it.view.place == Place("block_width")


async def test_one_price_for_all_that_have_none_is_one_step(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks of 9 in, borders 2 in and 4 in, binding")
        await it.press("enter")
        await it.sees("Quilt: ")
        await it.press("f8")
        await it.sees(">Inner border")
        await it.press("enter")
        await it.sees(">No price yet: Enter asks what it is a yard")
        await it.press("enter")
        await it.sees("Price of Inner border, a yard")
        await it.type("12")
        await it.press("enter")
        await it.sees("Only Inner border", "The same for all 3 that have no price")
        await it.sees("also Outer border, Binding")
        await it.press("down", "enter")
        # 1/2 yd, 1 yd and 1/2 yd at $12.
        await it.sees("$12.00 per yard", "Total", "$24.00")
        prices = {row.name: row.data.get("price") for row in it.desk.project.fabrics}
        assert prices == {"Inner border": "12", "Outer border": "12", "Binding": "12"}
        await it.press("ctrl+z")
        assert not any("price" in row.data for row in it.desk.project.fabrics), "one step"


async def test_one_price_may_also_be_for_one(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks of 9 in, borders 2 in and 4 in, binding")
        await it.press("enter", "f8")
        await it.sees(">Inner border")
        await it.press("enter", "enter")
        await it.sees("Price of Inner border, a yard")
        await it.type("12")
        await it.press("enter")
        await it.sees("Only Inner border")
        await it.press("enter")
        await it.sees("$6.00")
        assert [r.name for r in it.desk.project.fabrics if "price" in r.data] == ["Inner border"]
