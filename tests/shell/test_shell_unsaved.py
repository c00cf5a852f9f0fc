"""Unsaved work on the start screen: each by its name, gone on with, thrown away only when asked twice."""

from pathlib import Path
from typing import Any

from boltend.core.project.edits import set_setting

Shell = Any


def names(it: Any) -> list[str]:
    return [tab.name for tab in it.desk.project.tabs]


async def test_a_changed_copy_is_asked_about_and_recovered(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("harbour steps")
        await it.press("enter")
        await it.sees("no file yet")
        it.view.edit(
            lambda p: p.__class__(p.root, {**p.settings, "name": "Mine"}, p.fabrics, p.tabs, p.ladders), "x"
        )
        await it.press("ctrl+q")
        await it.sees("Mine has changes that are not saved.")
    async with shell(None) as it:
        await it.sees("Unsaved work", "Mine", "Enter goes on with it; Del throws it away")
        await it.press("enter")
        await it.wait(lambda: it.desk.project.name == "Mine")
        assert len(names(it)) > 3
        assert len(it.app.screen_stack) == 2, "no start screen over what was just taken over"


async def test_unsaved_works_stand_on_top_each_by_its_name(shell: Shell) -> None:
    for size in ("6", "7"):
        async with shell(None) as it:
            await it.type("framed sheet")
            await it.press("enter")
            await it.wait(lambda: it.view.place is not None)
            await it.type(size)
            it.view.edit(lambda p: set_setting(p, "name", f"Lot {size}"), "naming")  # noqa: B023 - used at once
    async with shell(None) as it:
        await it.sees("Unsaved work", "Lot 7", "Lot 6", ", 2 tabs")
        rows = it.rows()
        at = [
            next(n for n, row in enumerate(rows) if word in row) for word in ("Lot 7", "Lot 6", "Questions")
        ]
        assert at == sorted(at), "the newest first, above all else"
        await it.press("down", "enter")
        await it.sees("Gone on with the work of")
        assert it.desk.project.name == "Lot 6"
        assert it.given("Sheet") == {"size": "6"}
        assert it.desk.changed, "it has no file yet"
        await it.press("alt+home")
        await it.sees("Lot 7")
        assert "  Lot 6  " not in it.text(), "it is the one in sight"
        await it.type("lot 7")
        await it.press("enter")
        await it.sees("Go on without saving")
        await it.press("down", "enter")
        await it.wait(lambda: it.desk.project.name == "Lot 7")
        await it.sees("Gone on with the work of")
    async with shell(None) as it:
        await it.sees("Lot 6", "Lot 7")


async def test_unsaved_work_is_thrown_away_only_when_asked_twice(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("framed sheet")
        await it.press("enter")
        await it.wait(lambda: it.view.place is not None)
        await it.type("6")
    async with shell(None) as it:
        await it.sees("Sheet, Frame", "Del throws it away. Sheet: 6")
        await it.press("delete")
        await it.sees("Throw the unsaved work away?", "tabs: “Sheet”, “Frame”", "cannot be brought back")
        await it.press("enter")
        await it.sees("What do you want to know", "Sheet, Frame")
        await it.press("delete", "down", "enter")
        await it.sees("What do you want to know")
        assert "Unsaved work" not in it.text()
        await it.type("ab")
        await it.press("home", "delete")
        assert it.app.focused.value == "b", "elsewhere the key does what it does in any field"
    async with shell(None) as it:
        await it.sees("What do you want to know")
        assert "Unsaved work" not in it.text()


async def test_a_recent_project_says_that_it_has_unsaved_work(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.to("across")
        await it.type("8")
    async with shell(None) as it:
        await it.sees("Lantern", "unsaved work ·")
        await it.press("enter")
        await it.sees("There is unsaved work of this project.")
