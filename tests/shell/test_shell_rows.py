"""Rows as they are filled: where the cursor goes, and what a row without a name is called."""

from typing import Any

from boltend.core.asking.spots import called
from boltend.shell.app import host_bench
from boltend.shell.looks import Place

Shell = Any

BORDERS = """boltend = 1
[[tab]]
name = "Borders"
calculator = "borders"
[tab.given]
top_width = "40 in"
top_height = "50 in"
"""


async def test_a_new_row_begins_where_it_must_be_filled(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("rings", 1, "name")
        it.view.action_add_row()
        await it.wait(lambda: it.view.place == Place("rings", 2, "width"), "the width of the new row")
        await it.type("5")
        assert it.given("Frame")["rings"][2] == {"width": "5"}
        await it.to("rings", 0, "corner")
        it.view.action_row_down()
        await it.wait(lambda: it.view.place == Place("rings", 1, "corner"), "a row moved keeps the column")


async def test_right_and_left_lead_from_cell_to_cell(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("rings", 1, "name")  # it is empty
        await it.press("right")
        assert it.view.place == Place("rings", 1, "width")
        await it.press("right")  # all of it was chosen; now the cursor is at its end
        assert it.view.place == Place("rings", 1, "width")
        await it.press("right")
        assert it.view.place == Place("rings", 1, "corner")
        await it.to("rings", 1, "width")
        await it.press("home", "left")
        assert it.view.place == Place("rings", 1, "name")
        await it.press("left")
        assert it.view.place == Place("rings", 0, "corner")
        await it.to("cut")
        await it.press("right", "left")
        assert it.view.place == Place("cut"), "a given of its own is no cell"


async def test_a_number_for_a_name_is_asked_about_while_the_row_lacks_it(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        it.view.action_add_row()
        await it.wait(lambda: it.view.place == Place("rings", 2, "width"), "the new row")
        await it.press("left")
        await it.type("5 in")
        await it.sees("! Name: “5 in” is only a number: is that the width?")
        await it.type("ner")
        await it.wait(lambda: "only a number" not in it.text(), "a name")
        await it.clear()
        await it.type("5")
        await it.sees("“5” is only a number")
        await it.to("rings", 2, "width")
        await it.type("3")
        await it.to("rings", 2, "name")
        assert "only a number" not in it.text(), "with its width it may be called so"


async def test_a_border_without_a_name_is_called_by_its_number(shell: Shell) -> None:
    rows = '[[tab.given.borders]]\nwidth = "2 in"\n[[tab.given.borders]]\nname = "Outer"\nwidth = "5 in"\n'
    async with shell(text=BORDERS + rows, bench=host_bench) as it:
        await it.to("borders", 0, "name")
        await it.sees("Border 1", "Outer")
        assert it.desk.book is not None
        cells = it.desk.book.prepared(it.view.current).states["borders"].cells
        assert [called(row, n) for n, row in enumerate(cells)] == ["Border 1", "Outer"]
        await it.press("ctrl+f")
        await it.type("border 1 fabric")
        await it.sees("Borders: Border 1 · Fabric")
        await it.press("enter")
        await it.wait(lambda: it.view.place == Place("borders", 0, "fabric"), "the empty cell that was found")


async def test_the_line_below_a_row_says_the_keys_of_its_signs(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("rings", 1, "name")
        await it.sees("Name: any words · Alt+Del removes the row · ^o adds a row")
        await it.press("alt+delete")
        await it.wait(lambda: len(it.given("Frame")["rings"]) == 1)
