"""Any size of window: nothing falls over, and a window that is too small says what it needs."""

from random import Random
from typing import Any

import pytest

from boltend.shell.app import host_bench

Shell = Any


@pytest.mark.parametrize("size", [(60, 20), (50, 14), (40, 10)])
async def test_small_windows_show_the_given_and_its_place(shell: Shell, size: tuple[int, int]) -> None:
    async with shell(size=size) as it:
        await it.sees("Given", "Size")
        lines = it.text().split("\n")
        assert len(lines) <= size[1]
        await it.type("7 in")
        assert it.given("Sheet")["size"].startswith("7 in")


ROWS = """boltend = 1
[[tab]]
name = "Edge"
calculator = "borders"
[tab.given]
top_width = "38 in"
top_height = "48 in"
borders = [{ name = "Inner", width = "4 in" }, { name = "Outer", width = "5 in" }]
"""


@pytest.mark.parametrize("size", [(40, 10), (40, 12), (40, 20), (60, 15), (80, 24), (120, 40)])
async def test_what_is_typed_stands_in_sight_with_its_heads(shell: Shell, size: tuple[int, int]) -> None:
    """Field after field, on and back again, as a person types: the field, and of the first row its head."""
    async with shell(text=ROWS, bench=host_bench, size=size) as it:
        await it.sees("[Edge]")
        form = it.view._form

        def in_sight() -> bool:
            field, seen = it.app.focused, form.scrollable_content_region
            if form not in field.ancestors:
                return True
            heads = field.parent.where(field)[1] if field.place.row == 0 and field.place.column else 0
            # Where the form shows two lines, there is room for the last line of a head only.
            top = field.region.y - min(heads, seen.height - 1)
            return bool(seen.y <= top and field.region.y < seen.bottom)

        for key in ("tab",) * 24 + ("shift+tab",) * 24:
            await it.pilot.press(key)
            await it.wait(
                in_sight, f"{it.app.focused.place if form in it.app.focused.ancestors else ''} in sight"
            )


@pytest.mark.parametrize("size", [(39, 20), (60, 9), (20, 8), (5, 2), (1, 1)])
async def test_a_window_too_small_says_what_it_needs(shell: Shell, size: tuple[int, int]) -> None:
    async with shell(size=size) as it:
        if size[0] >= 20:
            await it.sees("40 × 10")
        await it.pilot.resize_terminal(80, 24)
        await it.sees("Given", "Size")
        await it.type("7 in")
        assert it.given("Sheet")["size"].startswith("7 in")


async def test_resized_wildly_while_working(shell: Shell) -> None:
    chance = Random(20)
    async with shell() as it:
        typed = ""
        for _ in range(40):
            await it.pilot.resize_terminal(chance.randint(1, 140), chance.randint(1, 50))
            key = chance.choice("123456789")
            await it.type(key)
            typed += key
            if chance.random() < 0.3:
                await it.press(chance.choice(["f5", "f8", "f9", "f1", "shift+f3"]), "escape", "escape")
                typed = None or typed
            if it.view.list_in_sight:
                await it.press("escape")
        await it.pilot.resize_terminal(80, 24)
        await it.press("escape", "escape")
        await it.sees("Given", "Size")


@pytest.mark.parametrize("key", ["f1", "f5", "f7", "f9", "ctrl+f", "alt+e", "f2"])
async def test_nothing_opens_over_a_window_too_small(shell: Shell, key: str) -> None:
    async with shell(size=(20, 8)) as it:
        await it.sees("40 × 10")
        before = it.text()
        await it.press(key)
        assert it.text() == before
        await it.pilot.resize_terminal(80, 24)
        await it.sees("F1 Help")
        await it.press("f1")
        await it.sees("as it lies in the sewn quilt")


async def test_no_value_that_was_found_is_cut_off(shell: Shell) -> None:
    text = ROWS.replace("38 in", "52 1/8 in")
    async with shell(text=text, bench=host_bench, size=(40, 30)) as it:
        await it.sees("[Edge]", "To buy")
        rows = [row.rstrip(" ▁▂▃▄▅▆▇█") for row in it.rows()]  # without the scroll bar
        # 52 1/8 in and twice 4 and 5 in.
        at = next(n for n, row in enumerate(rows) if row.startswith("Width with its borders"))
        assert rows[at].split() == ["Width", "with", "its", "borders"]
        assert rows[at + 1].split() == ["70", "1/8", "in", "finished"]
        assert any(row.startswith("Strips") and row.split()[-1].isdigit() for row in rows), "others beside"


async def test_a_linked_size_loses_its_kind_whole_where_there_is_no_room(shell: Shell) -> None:
    text = ROWS.replace('"38 in"', '{ from = "Bed", take = "width" }')
    bed = '[[tab]]\nname = "Bed"\ncalculator = "borders"\n[tab.given]\ntop_width = "44 1/8 in"\n'
    rows = 'top_height = "48 in"\nborders = [{ width = "4 in" }]\n'
    async with shell(text=text + bed + rows, bench=host_bench, size=(40, 12)) as it:
        await it.sees(">52 1/8 in")  # 44 1/8 in and two borders of 4 in
        assert "fini" not in next(row for row in it.rows() if "52 1/8" in row)
        await it.pilot.resize_terminal(80, 24)
        await it.sees(">52 1/8 in finished")
        await it.pilot.resize_terminal(40, 12)
        await it.wait(
            lambda: "fini" not in next(row for row in it.rows() if "52 1/8" in row), "no part of it"
        )


async def test_what_is_told_in_passing_is_whole_without_a_name_of_the_project(shell: Shell) -> None:
    async with shell(text=ROWS, bench=host_bench) as it:
        await it.press("alt+c")
        await it.sees("Sent to the terminal's clipboard: all of “Edge”", "Menu F9", "· saved")
