"""Tabs added, renamed, duplicated, moved, removed, put aside; the bar; what runs in the worker."""

from pathlib import Path
from typing import Any

from boltend.shell.actions import ACTIONS
from boltend.shell.doing_tabs import carried
from boltend.shell.project_screen import ProjectScreen

Shell = Any


def names(it: Any) -> list[str]:
    return [tab.name for tab in it.desk.project.tabs]


async def test_a_tab_is_added_by_what_it_answers(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f7")
        await it.sees("What do you want to know?", "How large is a sheet of patches?")
        await it.type("rings make")
        await it.press("enter")
        await it.sees("[! Frame 2]", "Added “Frame 2”. F2 gives it a name of yours.")
        assert names(it) == ["Sheet", "Frame 2", "Frame"]
        await it.sees("Linked: Width to “Sheet”;", "Shift+F4 unlinks.")
        assert it.given("Frame 2") == {"width": {"from": "Sheet", "take": "width"}}
        await it.press("f2")
        await it.clear()
        await it.type("sheet")
        await it.sees("There is a tab called")
        await it.press("enter")
        assert names(it) == ["Sheet", "Frame 2", "Frame"], "refused while the name is taken"
        await it.clear()
        await it.type("My ring")
        await it.press("enter")
        await it.sees("[! My ring]")
        assert names(it) == ["Sheet", "My ring", "Frame"]


async def test_what_is_typed_at_once_belongs_to_the_first_given_of_a_tab_just_added(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f7")
        await it.type("sheet of patches")
        await it.press("enter")
        await it.sees("Added “Patch”.")
        await it.type("20")
        assert it.given("Patch") == {"size": "20"}
        await it.press("ctrl+z", "ctrl+z")
        assert names(it) == ["Sheet", "Frame"], "the typing, then the tab"


async def test_a_question_brings_all_its_tabs_under_free_names(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f7")
        await it.type("from the start")
        await it.press("enter")
        await it.wait(lambda: len(names(it)) == 4)
        assert names(it) == ["Sheet", "Frame", "Sheet 2", "Frame 2"]
        assert it.given("Frame 2") == {"width": {"from": "Sheet 2", "take": "width"}}
        await it.press("ctrl+z")
        assert names(it) == ["Sheet", "Frame"]


async def test_renaming_carries_into_links(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f2")
        await it.sees("Rename the tab")
        await it.clear()
        await it.type("Lantern [/x] ½")
        await it.press("enter")
        await it.sees("[Lantern [/x] ½]")
        assert it.given("Frame")["width"] == {"from": "Lantern [/x] ½", "take": "width"}
        assert it.state("Frame") == "worked out"
        await it.press("f6")
        await it.sees("from “Lantern [/x] ½” · Width")


async def test_duplicate_and_move(shell: Shell) -> None:
    async with shell() as it:
        await it.press("shift+f7")
        assert names(it) == ["Sheet", "Sheet 2", "Frame"]
        assert it.view.tab.name == "Sheet 2"
        assert it.given("Sheet 2") == it.given("Sheet")
        await it.press("alt+right")
        assert names(it) == ["Sheet", "Frame", "Sheet 2"]
        await it.press("alt+right", "alt+left", "alt+left", "alt+left")
        assert names(it) == ["Sheet 2", "Sheet", "Frame"]
        await it.sees("[Sheet 2] Sheet  Frame")


async def test_removing_tells_the_links_and_undo_brings_all_back(shell: Shell) -> None:
    async with shell() as it:
        await it.press("shift+f2")
        await it.sees("Remove “Sheet”?", "“Frame” · width from Width")
        await it.press("enter")
        assert names(it) == ["Sheet", "Frame"], "the first offer keeps it"
        await it.press("shift+f2")
        await it.sees("Remove “Sheet”?")
        await it.press("down", "enter")
        await it.wait(lambda: names(it) == ["Frame"])
        await it.sees("[… Frame]", "WAITING")
        await it.press("ctrl+z")
        assert names(it) == ["Sheet", "Frame"]
        assert it.state("Frame") == "worked out"
        await it.press("f6", "shift+f2")
        assert names(it) == ["Sheet"], "nobody takes from it: no question"
        await it.press("shift+f2")
        await it.sees("No tab yet. F7 adds one")
        await it.press("f2", "f4", "f3", "shift+f2", "f6", "alt+left", "ctrl+o", "f1", "escape")
        await it.press("ctrl+z")
        await it.sees("[Sheet]")


async def test_aside_and_done(shell: Shell) -> None:
    async with shell() as it:
        await it.press("shift+f8")
        assert it.desk.project.tab("Sheet").aside
        await it.sees("[Sheet (aside)]", "Aside: a what-if")
        await it.press("shift+f8", "shift+f9")
        assert it.desk.project.tab("Sheet").done
        await it.sees("[Sheet (done)]", "Done: already sewn")
        await it.press("shift+f9")
        assert "done" not in it.desk.project.tab("Sheet").data


async def test_tabs_by_key_and_by_mouse(shell: Shell) -> None:
    async with shell() as it:
        await it.press("ctrl+pagedown")
        assert it.view.tab.name == "Frame"
        await it.press("f6")
        assert it.view.tab.name == "Sheet", "round the end"
        await it.press("shift+f6")
        assert it.view.tab.name == "Frame"
        await it.pilot.click(offset=(3, 1))
        await it.wait(lambda: it.view.tab.name == "Sheet")
        it.view.bar.focus()
        await it.press("right")
        await it.wait(lambda: it.view.tab.name == "Frame")
        await it.click_on("+ Add")
        await it.sees("What do you want to know?")
        await it.press("escape")


async def test_the_bar_scrolls_to_the_tab_in_sight(shell: Shell, project_file: Path) -> None:
    tabs = "".join(f'[[tab]]\nname = "Number {n}"\ncalculator = "patch"\n' for n in range(40))
    async with shell(text="boltend = 1\n" + tabs) as it:
        assert "›! + Add " in it.rows()[1], "the sign is no mark of the last tab in sight"
        for _ in range(3):
            await it.press("shift+f6")
        await it.sees("[! Number 37]")
        assert it.rows()[1].startswith("!‹")
        assert "+ Add " in it.rows()[1]
        await it.press("f6", "f6", "f6")
        await it.sees("[! Number 0]")
        assert "‹" not in it.rows()[1]


async def test_everything_is_in_the_menu(shell: Shell) -> None:
    for action in ACTIONS:
        assert callable(getattr(ProjectScreen, f"action_{action.name}")), action.name
    async with shell() as it:
        await it.click_on("Menu F9")
        await it.sees("What to do")
        offered = {hit.words for hit in it.app.screen.hits}
        assert {a.words for a in ACTIONS if a.name != "menu" and not a.in_ladders} <= offered
        await it.type("duplic")
        await it.press("enter")
        await it.wait(lambda: names(it) == ["Sheet", "Sheet 2", "Frame"])


async def test_every_key_is_bound_once_and_can_be_bound_anew(shell: Shell) -> None:
    keys = [key for action in ACTIONS for key in action.keys]
    assert len(keys) == len(set(keys))
    async with shell() as it:
        it.app.set_keymap({"duplicate_tab": "f12"})
        await it.press("shift+f7")
        assert len(names(it)) == 2
        await it.press("f12")
        assert len(names(it)) == 3


async def test_help_says_the_keys_and_the_notation(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await it.press("f1")
        await it.sees("Size of a patch", "One side", "At least 1/2 in", "12-1/2", "12½")
        await it.press("escape")
        await it.sees("[Sheet]")
        assert len(it.app.screen_stack) == 2


SLOW = 'boltend = 1\n[[tab]]\nname = "S"\ncalculator = "slow"\n[[tab]]\nname = "P"\ncalculator = "patch"\n[tab.given]\nsize = "2 in"\nacross = { from = "S", take = "twice" }\n'  # noqa: E501 - a file


async def test_an_outcome_from_the_worker_arrives_later(shell: Shell) -> None:
    async with shell(text=SLOW) as it:
        assert it.state("S") == "working"
        await it.sees("[~ S]", "… P", "WORKING IT OUT")
        it.bench.finish()
        await it.sees("[S]", "Twice", "8")
        assert it.state("P") == "worked out"


async def test_a_newer_edit_drops_the_older_run(shell: Shell) -> None:
    async with shell(text=SLOW) as it:
        await it.to("many")
        await it.type("6")
        assert len(it.bench.waiting) == 1
        it.bench.finish()
        await it.sees("12")
        assert it.desk.book.result("S").found["twice"] == 12


async def test_a_run_is_stopped_and_worked_anew(shell: Shell) -> None:
    async with shell(text=SLOW) as it:
        await it.press("escape")
        assert len(it.bench.stopped) == 1
        await it.sees("[! S]", "stopped before it had an answer")
        await it.press("ctrl+r")
        await it.sees("[~ S]")
        it.bench.finish()
        await it.sees("[S]")


def test_the_links_of_a_question_follow_its_tabs_new_names_also_within_rows() -> None:
    link = {"from": "Widths", "take": "border_1_sides"}
    given = [{"name": "inner", "width": link}, {"name": "outer"}]
    assert carried(given, {"Widths": "Widths 2"}) == [
        {"name": "inner", "width": {"from": "Widths 2", "take": "border_1_sides"}},
        {"name": "outer"},
    ]
    assert carried(link, {"Top": "Top 2"}) == link
    assert carried("12 in", {"Top": "Top 2"}) == "12 in"
