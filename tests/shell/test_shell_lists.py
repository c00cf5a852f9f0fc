"""To cut and To buy in the shell: in sight, planned in the background, scrolled, left again."""

import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from rich.cells import cell_len
from sewn_quilt import QUILT

import boltend.shell.planning as planning
from boltend.core.report.list_words import BuyRow, BuySheet, CutSheet
from boltend.shell.list_lines import ListSheets, buy_lines, cut_lines

Shell = Any
Golden = Any
SIZES = {"80x24": (80, 24), "120x40": (120, 40)}


class Gate:
    """Holds every plan back until the test lets it go; counts them."""

    def __init__(self) -> None:
        self.open = threading.Event()
        self.begun = 0
        self.done = 0
        self.ended = threading.Event()
        self.pools: set[int] = set()

    def plan(self, pool: Any, snapshot: Any, wanted: Any, *rest: Any, real: Callable[..., Any]) -> Any:
        self.begun += 1
        self.pools.add(id(pool))
        assert threading.current_thread() is not threading.main_thread(), "planned on the screen's thread"
        while not self.open.wait(0.01):
            if wanted.stopped():
                break
        self.done += 1
        self.ended.set()
        return real(pool, snapshot, wanted, *rest)


@pytest.fixture
def gate(monkeypatch: pytest.MonkeyPatch) -> Iterator[Gate]:
    held = Gate()
    real = planning.plan_lists
    monkeypatch.setattr(planning, "plan_lists", partial(held.plan, real=real))
    yield held
    held.open.set()


SHEETS = ListSheets(
    cut=(
        CutSheet(
            title="Red [/x] [bold]",
            facts=("Usable width 42 in.", "A one-way print: no piece is turned."),
            steps=(
                "Take the 3/8 yd that you buy. Square its end: 1/2 in is lost.",
                "Cut 2 strips 4 1/2 in wide from selvage to selvage. From one of them: 2 of 4 1/2 in × "
                "4 1/2 in (square), and what is left of it is put by for later.",
            ),
            pieces=("4 1/2 in × 4 1/2 in: 20 × square for “Bag [/x]”",),
            leftovers=("42 in × 4 in, at the end of the bought length",),
            notes=("A good plan.",),
        ),
        CutSheet("\u202eright\u0007 to left שלום", ("It cannot be planned.",), (), (), (), ()),
    ),
    cut_notes=("For 2 copies of the quilt.",),
    buy=BuySheet(
        rows=(
            BuyRow("Red [/x] [bold]", "3/8 yd", "$12.00 per yard", "$4.50", ("9 1/2 in needed [/x]",)),
            BuyRow("\u202eright\u0007 to left שלום", "1 pack", "$30.00", "$30.00"),
            BuyRow("A fabric with a name that is longer than its column is wide", "1/8 yd", "", ""),
        ),
        total="$34.50",
        notes=("For 2 copies of the quilt.", "“Perhaps” is aside, so it is not in the lists."),
    ),
)
"""Written here, so that the golden screens change only when the shell does."""


@pytest.mark.parametrize("size", list(SIZES))
async def test_screens(sewing: Shell, golden: Golden, size: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names with markup, control characters and another direction stand there as text."""
    monkeypatch.setattr(planning, "plan_lists", lambda *_: SHEETS)
    async with sewing(text=QUILT, size=SIZES[size]) as it:
        await it.press("f5")
        await it.sees("Red [/x] [bold]", "Take")
        golden(it, f"to-cut-{size}")
        await it.press("f8")
        await it.sees("Total")
        golden(it, f"to-buy-{size}")


@pytest.mark.parametrize("width", [32, 40, 60, 80])
def test_what_it_costs_is_seen_however_narrow_it_is(width: int) -> None:
    """The price of a yard goes below before the cost goes out of sight."""
    rows = ["".join(text for text, _ in line.parts) for line in buy_lines(SHEETS, width)]
    assert any(row.rstrip().endswith("$4.50") for row in rows)
    assert any("$12.00 per yard" in row for row in rows)
    assert max(map(cell_len, rows)) < width


async def test_the_lists_are_those_of_the_project(sewing: Shell) -> None:
    """By the real pool: amounts to buy worked out by hand below, prices and copies as the file says."""
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        # 3 buttons for each of 2 copies, at $0.50; 8 squares of 4 1/2 in, 4 out of each of 10 in: 1 pack.
        await it.sees("Buttons", "6 pieces", "$3.00", "1 pack", "$30.00", "For 2 copies of the quilt.")
        text = it.text()
        assert "<U+202E>Strap<U+0007>" in text
        assert "Not whole: “Later”" in text
        await it.press("pagedown")
        await it.sees("“Perhaps” is aside")
        await it.press("f5")
        await it.sees("Cut 2 strips 2 in wide")
        await it.press("pagedown", "pagedown")  # below the pictures
        await it.sees("20 × square for “Bag [/x]”")  # 10, twice


async def test_there_and_back_by_key(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f6")
        await it.press("f8")
        await it.sees("[To buy F8]", "Total", "Esc or F8 goes back to “Lining”")
        assert "Given ·" not in it.text()
        await it.press("f5")
        await it.sees("[To cut F5]", "Take")
        await it.press("f5")
        await it.sees("[Lining]", "Given ·")
        assert it.view.place.given == "size", "the form has the focus again"
        await it.press("f8", "escape")
        await it.sees("[Lining]", "Given ·")
        await it.press("f8", "f6")
        await it.sees("[<U+202E>Strap<U+0007>", "Given ·")


async def test_there_and_back_by_mouse(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.click_on("To buy F8")
        await it.sees("[To buy F8]", "Total")
        await it.click_on("To cut F5")
        await it.sees("[To cut F5]", "Take")
        await it.click_on("To cut F5")
        await it.sees("[To cut F5]")
        await it.click_on("Lining")
        await it.sees("[Lining]", "Given ·")
        it.view.bar.focus()
        for _ in range(3):
            it.view.bar.action_step(1)
            await it.pilot.pause()
        await it.sees("[! Later]")
        it.view.bar.action_step(1)
        await it.sees("[Map]")
        it.view.bar.action_step(1)
        await it.sees("[To cut F5]")
        it.view.bar.action_step(1)
        await it.sees("[To buy F8]")


async def test_from_the_menu(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f9")
        await it.type("shopping")
        await it.press("enter")
        await it.sees("[To buy F8]", "Total")
        await it.press("ctrl+p")
        await it.type("cutting list")
        await it.press("enter")
        await it.sees("[To cut F5]")


async def test_what_is_done_to_a_tab_is_out_of_reach_in_a_list(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.sees("Total")
        before = it.desk.project
        await it.press("shift+f2", "shift+f8", "f2", "shift+f7", "alt+right", "ctrl+o", "f4")
        assert it.desk.project is before
        assert len(it.app.screen_stack) == 2
        assert "F2 Rename" not in it.rows()[-1]
        assert "F4 Link" not in it.rows()[-1]
        await it.press("f9")
        await it.type("remove")
        await it.sees("Nothing fits.")
        await it.press("escape", "f5", "f5")
        await it.sees("F2 Rename")


async def test_typing_goes_on_while_it_is_planned(sewing: Shell, gate: Gate) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.wait(lambda: gate.begun == 1, "the first plan")
        await it.sees("To buy · working it out …")
        await it.press("escape")
        await it.to("many")
        await it.clear()
        await it.type("90")
        assert it.given("Bag [/x]")["many"] == 90
        await it.sees("Squares", "90")
        assert not gate.open.is_set(), "nothing was waited for"
        await it.wait(lambda: gate.done == 1, "the plan that nobody wants to end")
        await it.press("f8")
        await it.wait(lambda: gate.begun == 2, "the plan of what is there now")
        assert "Total" not in it.text(), "what was stopped is not shown"
        gate.open.set()
        await it.sees("Total", "Red [/x] [bold]")
        assert "working" not in it.text()
        assert it.view._sheets.cut[0].pieces[0].startswith("4 1/2 in × 4 1/2 in: 180 ×"), "two copies of 90"


async def test_an_edit_below_makes_a_running_plan_stale(sewing: Shell, gate: Gate) -> None:
    async with sewing(text=QUILT) as it:
        await it.to("buttons")
        await it.type("0")  # 30
        await it.press("f8")
        await it.wait(lambda: gate.begun == 1)
        await it.press("ctrl+z")
        await it.sees("[To buy F8]")
        await it.wait(lambda: gate.begun == 2, "planned anew")
        gate.open.set()
        await it.sees("6 pieces")
        assert gate.done == 2
        assert "60 pieces" not in it.text()


async def test_planned_anew_only_when_something_changed(sewing: Shell, gate: Gate) -> None:
    gate.open.set()
    async with sewing(text=QUILT) as it:
        await it.to("many")
        await it.type("1")
        assert gate.begun == 0, "nobody looks at a list"
        await it.press("f8")
        await it.sees("Total")
        await it.press("f5")
        await it.sees("Take")
        await it.press("escape", "f6", "f8")
        await it.sees("Total")
        await it.press("f9", "escape")
        await it.pilot.resize_terminal(100, 30)
        await it.sees("Total")
        assert gate.begun == 1
        await it.press("ctrl+z")
        await it.wait(lambda: gate.begun == 2, "planned anew")
        await it.wait(lambda: it.view._planning is None)
        assert len(gate.pools) == 1, "one pool, whose plans are remembered"
        await it.press("shift+f5")
        await it.sees("Fabrics of")
        await it.press("enter", "down")
        await it.clear()
        await it.type("20 per yard")
        assert gate.begun == 2, "below a dialog nobody sees the list"
        await it.press("escape")
        await it.wait(lambda: gate.begun == 3, "planned anew")
        await it.sees("$20.00 per yard")


async def test_what_comes_from_the_worker_is_planned_in(sewing: Shell) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "S"\ncalculator = "slow"\n[[tab]]\nname = "P"\ncalculator = "sew"\n'
    text += '[tab.given]\nsize = "2 in"\nmany = { from = "S", take = "twice" }\n'
    async with sewing(text=text) as it:
        await it.press("f5")
        await it.sees("Nothing to cut as the project stands.", "Not whole: “P” is not worked out")
        it.bench.finish()
        await it.sees("P (fabric not named)", "8 × square for “P”")
        assert "Not whole" not in it.text()


async def test_a_fault_while_planning_is_told_and_harms_nothing(
    sewing: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("cut by [/x] nothing")

    monkeypatch.setattr(planning, "plan_lists", broken)
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.sees("The lists could not be made: ZeroDivisionError: cut by [/x] nothing")
        await it.press("escape")
        await it.to("many")
        await it.type("12")
        assert it.given("Bag [/x]")["many"] == 12


async def test_a_long_list_scrolls(sewing: Shell) -> None:
    tabs = "".join(
        f'[[tab]]\nname = "Tab {n}"\ncalculator = "sew"\n[tab.given]\nsize = "{n} in"\nmany = 3\n'
        for n in range(2, 22)
    )
    async with sewing(text="boltend = 1\n" + tabs) as it:
        await it.press("f5")
        await it.sees("Tab 2 (fabric not named)")
        lines = it.view.pane.lines
        await it.press("down", "down", "down")
        await it.sees(">Tab 3")
        at = lines.scroll_offset.y
        assert 0 < at < 24, "and no line between was never in sight"
        await it.press("pagedown")
        await it.wait(lambda: lines.scroll_offset.y > at + 12, "a page further")
        await it.press("end")
        await it.sees("Rotary cutters and irons hurt")
        await it.press("home")
        await it.sees("Tab 2 (fabric not named)")
        lines.post_message(wheel(lines))
        await it.wait(lambda: 0 < lines.scroll_offset.y == lines.scroll_target_y, "the wheel")
        at = lines.scroll_offset.y
        await it.pilot.resize_terminal(70, 30)
        await it.wait(lambda: max(map(len, it.rows())) <= 70, "the narrower list")
        await it.wait(lambda: lines.scroll_offset.y == at, "the same place")


def wheel(widget: Any) -> Any:
    from textual import events

    return events.MouseScrollDown(widget, 5, 5, 0, 1, 0, False, False, False, 5, 5, None)


async def test_lines_fit_whatever_width(sewing: Shell) -> None:
    from rich.cells import cell_len

    from boltend.shell.list_lines import buy_lines, cut_lines

    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.wait(lambda: it.view._sheets is not None)
        for width in (30, 60, 80, 200):
            for lines in (cut_lines, buy_lines):
                for line in lines(it.view._sheets, width):
                    text = "".join(part for part, _ in line.parts)
                    assert cell_len(text) <= width or width < 60, text


async def test_quitting_while_it_is_planned(sewing: Shell, gate: Gate) -> None:
    async with sewing(text=QUILT) as it:
        await it.press("f8")
        await it.wait(lambda: gate.begun == 1)
        await it.press("ctrl+q")
        await it.wait(lambda: it.app.return_code == 0)
    assert gate.ended.wait(10), "the thread was told, and ended"
    assert not gate.open.is_set()


async def test_saving_from_a_list_stays_there(sewing: Shell, project_file: Path) -> None:
    async with sewing(text=QUILT) as it:
        await it.to("many")
        await it.type("11")
        await it.press("f8")
        await it.sees("Total")
        await it.press("ctrl+s")
        await it.sees("Saved in lantern.toml.", "[To buy F8]", "Total")
        assert "many = 11" in project_file.read_text(encoding="utf-8")


def test_what_is_done_first_leads_nowhere_and_moves_no_fabric() -> None:
    """To buy has a row for each fabric, none for the trimming: the first fabric leads to the first row."""
    trimming = CutSheet("Before anything is cut", (), ("trim",), (), (), (), of_fabric=False)
    for first in ((), (trimming,)):
        sheets = replace(SHEETS, cut=(*first, *SHEETS.cut))
        leads = [line.leads_to for line in cut_lines(sheets, 80) if line.leads_to is not None]
        assert leads == list(range(len(SHEETS.cut)))
