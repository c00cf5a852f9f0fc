"""Unsaved work on the start screen: each by its name, gone on with, thrown away only when asked twice."""

import errno
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project import recovery
from boltend.core.project.edits import set_setting
from boltend.shell.desk import Desk, ago_words

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
        await it.press("enter")  # nothing was changed since: nothing is asked
        await it.wait(lambda: it.desk.project.name == "Lot 7")
        await it.sees("Gone on with the work of")
        it.view.edit(lambda p: set_setting(p, "name", "Lot 8"), "naming")
        await it.press("alt+home")
        await it.type("lot 6")
        await it.press("enter")
        await it.sees("Lot 8 has changes that are not saved.", "Go on without saving")
        await it.press("down", "enter")
        await it.wait(lambda: it.desk.project.name == "Lot 6")
        await it.press("ctrl+q")
        await it.wait(lambda: it.app.return_code == 0, "nothing is asked at the end either")
    async with shell(None) as it:
        await it.sees("Lot 6", "Lot 8")


async def test_of_many_unsaved_works_the_newest_stand_there_and_a_line_for_the_others(shell: Shell) -> None:
    for number in range(7):
        desk = Desk.open(None)
        desk.edit(set_setting(desk.project, "name", f"Lot {number}"), "naming")
        desk.close().result(30)
    async with shell(None) as it:
        await it.sees("Lot 6", "Lot 5", "Lot 4", "just now", "… and 4 more")
        assert "Lot 3" not in it.text()
        await it.type("lot 0")
        await it.sees("Lot 0")
        await it.press("ctrl+u")
        await it.sees("… and 4 more")
        await it.press("down", "down", "down", "enter")
        await it.sees("Lot 6", "Lot 3", "Lot 0")
        assert "more" not in it.text()
        await it.press("enter")
        await it.wait(lambda: it.desk.project.name == "Lot 3")


@pytest.mark.parametrize(
    ("before", "said"),
    [
        ({"seconds": 59}, "just now"),
        ({"minutes": 59}, "59 min ago"),
        ({"hours": 23, "minutes": 59}, "23 h ago"),
        ({"hours": 25}, "yesterday"),
        ({"days": 7}, "7 days ago"),
        ({"days": 8}, "-"),
    ],
)
def test_how_old_it_is(before: dict[str, float], said: str) -> None:
    words = ago_words(datetime.now(UTC) - timedelta(**before) - timedelta(seconds=0.5))
    assert said in words


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


def _no_room(*_: object) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


async def test_leaving_promises_nothing_that_does_not_hold(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with shell(None) as it:
        await it.type("framed sheet")
        await it.press("enter")
        await it.wait(lambda: it.view.place is not None)
        with monkeypatch.context() as full:
            full.setattr(recovery, "write_all", _no_room)
            await it.type("6")
            await it.press("ctrl+q")
            await it.sees("has changes that are not saved", "No space left on device", "Save and quit")
            assert "offered again" not in it.text()
            assert "Quit without saving" not in it.text()
            await it.press("escape", "alt+home")
            await it.type("an empty project")
            await it.press("enter")
            await it.sees("No space left on device", "Save and go on", "Go on and throw the changes away")
            assert "offered again" not in it.text()
            await it.press("escape")
        await it.press("ctrl+q")
        await it.sees("Quit without saving", "it is offered again at the next start")
        with monkeypatch.context() as full:
            full.setattr(recovery, "write_all", _no_room)
            it.view.edit(lambda p: set_setting(p, "name", "Late"), "naming")
            await it.press("down", "enter")
            await it.sees("No space left on device")
            assert it.app.is_running, "asked again, for it does not hold any more"
            assert "offered again" not in it.text()


async def test_what_cannot_be_kept_is_told_before_anything_is_typed(
    shell: Shell, project_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "blocked").write_text("a file, no folder", encoding="utf-8")
    monkeypatch.setenv("BOLTEND_STATE", str(tmp_path / "blocked"))
    async with shell(project_file) as it:
        await it.sees("Unsaved work is not kept for a crash just now", "saved")
        assert not it.desk.changed


async def test_another_project_may_begin_without_what_is_in_sight(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("framed sheet")
        await it.press("enter")
        await it.wait(lambda: it.view.place is not None)
        await it.type("6")
        await it.press("alt+home")
        await it.type("an empty project")
        await it.press("enter")
        await it.sees("Go on and throw the changes away")
        await it.press("down", "down", "down", "enter")
        await it.wait(lambda: not it.desk.project.tabs)
    async with shell(None) as it:
        await it.sees("What do you want to know")
        assert "Unsaved work" not in it.text()


async def test_unsaved_work_never_stands_where_a_question_is_asked(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("framed sheet of 6 in")
        await it.press("enter")
        await it.wait(lambda: it.view.place is not None)
        await it.type("6")
    async with shell(None) as it:
        await it.type("framed sheet, frame 2")
        await it.sees("unsaved work")
        assert it.app.screen.chosen.words == "A framed sheet, from the start?"
        assert it.app.screen.in_sight[-1].kind == "unsaved work"


async def test_undo_does_not_empty_a_quilt_that_was_gone_on_with(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("framed sheet")
        await it.press("enter")
        await it.wait(lambda: it.view.place is not None)
        await it.type("6")
    async with shell(None) as it:
        await it.press("enter")
        await it.sees("Gone on with the work of")
        await it.press("ctrl+z")
        await it.sees("nothing to undo")
        assert it.given("Sheet") == {"size": "6"}
        await it.type("7")
        await it.press("ctrl+z")
        assert it.given("Sheet") == {"size": "6"}, "only what was typed since"
