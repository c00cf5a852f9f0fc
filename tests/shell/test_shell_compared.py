"""What a backing takes at other usable widths stands where its yardage does, and in To buy."""

from typing import Any

from boltend.shell.app import host_bench

Shell = Any


async def test_the_compared_widths_stand_below_the_yardage(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("backing for 87 by 93 top, 42 and 108")
        await it.press("enter")
        await it.sees("From your question")
        while it.view.tab.calculator != "backing":
            await it.press("f6")
        # 95 1/2 x 101 1/2 in of cloth: at 42 in three panels across of 95 1/2 in, 287 in with the squaring;
        # at 108 in one panel of 95 1/2 in along it, 96 in (by hand).
        await it.sees("To buy, this tab alone", "8 yd", "width 108 in", "2 3/4 yd")
        rows = it.rows()
        at = next(n for n, row in enumerate(rows) if "To buy, this tab alone" in row)
        assert rows[at + 1].split() == ["width", "108", "in", "2", "3/4", "yd"]
        await it.press("f8")
        await it.sees("at 108 in: 2 3/4 yd")


async def test_widths_that_nobody_asked_for_are_not_named_in_to_buy(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("backing for 87 by 93 top")
        await it.press("enter", "f8")
        await it.sees("Backing", "8 yd")
        assert "at 108 in" not in it.text()


async def test_a_link_says_what_it_takes_by_its_label(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("thirty blocks of 9 in, borders 2 in and 4 in, binding")
        await it.press("enter", "f6")
        # In the file it stays "top_width"; where there is no room the label is cut, never the tab's name.
        await it.sees("from “Blocks” · Width with", "from “Blocks” · Height with")
        assert "top_width" not in it.text()
        assert it.given("Borders")["top_width"] == {"from": "Blocks", "take": "top_width"}


async def test_the_size_without_a_border_stands_with_its_blocks(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("queen bed 60 x 80, drop 13, 9 in blocks, cover")
        await it.press("enter", "f6")
        # 86 × 93 in is wanted: 10 × 11 blocks of 9 in are 90 × 99 in.
        await it.sees("[Blocks]", "110 blocks, 10 × 11")
        await it.press("alt+r")  # what was found gets more of the screen
        await it.sees("Height without a border")
        rows = it.rows()
        at = next(n for n, row in enumerate(rows) if row.lstrip().startswith("Without a border"))
        assert [row.split()[:6] for row in rows[at + 1 : at + 3]] == [
            ["Width", "without", "a", "border", "90", "in"],
            ["Height", "without", "a", "border", "99", "in"],
        ]
