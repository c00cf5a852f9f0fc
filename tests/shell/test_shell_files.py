"""Saving, leaving, recovering: nothing typed is lost."""

import os
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.saving import ProjectFile
from boltend.shell.desk import Desk

Shell = Any


async def test_saving_keeps_comments_and_says_so(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7")
        await it.sees("changed")
        await it.press("ctrl+s")
        await it.sees("· saved", "Saved in lantern.toml.")
        text = project_file.read_text(encoding="utf-8")
        assert "across = 7" in text
        assert "# The quilt that every test begins with." in text
        assert not it.desk.changed


async def test_what_others_changed_is_taken_in(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7")
        text = project_file.read_text(encoding="utf-8")
        project_file.write_text(text.replace('size = "6 in"', 'size = "8 in"'), encoding="utf-8")
        await it.press("ctrl+s")
        await it.sees("56 in finished")
        assert it.given("Sheet") == {"size": "8 in", "across": 7}
        assert "across = 7" in project_file.read_text(encoding="utf-8")


@pytest.mark.parametrize(("downs", "across"), [(0, 7), (1, 9)])
async def test_the_same_place_changed_by_two_is_asked(
    shell: Shell, project_file: Path, downs: int, across: int
) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7")
        text = project_file.read_text(encoding="utf-8")
        project_file.write_text(text.replace("across = 5", "across = 9"), encoding="utf-8")
        await it.press("ctrl+s")
        await it.sees("was changed by somebody else", "here 7, there 9", "Save mine as another file")
        assert "across = 9" in project_file.read_text(encoding="utf-8")
        await it.press(*["down"] * downs, "enter")
        await it.wait(lambda: not it.desk.changed)
        assert f"across = {across}" in project_file.read_text(encoding="utf-8")
        assert it.given("Sheet")["across"] == across
        await it.to("across")
        assert it.app.focused.value == str(across)


async def test_a_conflict_can_be_saved_elsewhere_or_left(
    shell: Shell, project_file: Path, tmp_path: Path
) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7")
        text = project_file.read_text(encoding="utf-8").replace("across = 5", "across = 9")
        project_file.write_text(text, encoding="utf-8")
        await it.press("ctrl+s")
        await it.sees("was changed by somebody else")
        await it.press("escape")
        assert it.desk.changed
        await it.press("ctrl+s")
        await it.sees("was changed by somebody else")
        await it.press("down", "down", "enter")
        await it.sees("Save as which file?")
        await it.clear()
        await it.type(str(tmp_path / "mine.toml"))
        await it.press("enter")
        await it.wait(lambda: (tmp_path / "mine.toml").exists())
        await it.sees("mine.toml · saved")
        assert project_file.read_text(encoding="utf-8") == text


async def test_a_save_that_fails_stays_in_sight(
    shell: Shell, project_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7")

        def full(*_: object) -> None:
            raise OSError(28, "No space left on device")

        with monkeypatch.context() as broken:
            broken.setattr(os, "replace", full)
            await it.press("ctrl+s")
        await it.sees("NOT SAVED", "whole and as it was", "kept for the next start", "changed")
        assert "across = 5" in project_file.read_text(encoding="utf-8")
        await it.type("1")
        await it.sees("NOT SAVED")
        await it.press("ctrl+s")
        await it.sees("saved")
        assert "NOT SAVED" not in it.text()


async def test_a_project_without_a_file_asks_for_its_path(shell: Shell, tmp_path: Path) -> None:
    async with shell(None) as it:
        await it.sees("What do you want to know, or go on with?")
        await it.press("escape")
        await it.sees("A project without a name", "no file yet", "No tab yet. F7 adds one")
        await it.press("f7", "enter")
        await it.sees("[! Patch]")
        await it.type("4")
        await it.press("ctrl+s")
        await it.sees("Save as which file?")
        await it.clear()
        await it.type(str(tmp_path / "no" / "such.toml"))
        await it.sees("There is no folder")
        await it.clear()
        await it.type(str(tmp_path / "first.toml"))
        await it.press("enter")
        await it.sees("first.toml · saved")
        await it.type("2")
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
    assert ProjectFile.open(tmp_path / "first.toml").saved.tab("Patch").given == {"size": "42"}


async def test_another_file_is_not_replaced_unasked(shell: Shell, project_file: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.toml"
    other.write_text("boltend = 1\n", encoding="utf-8")
    async with shell() as it:
        it.view.action_save_as()
        await it.sees("Save as which file?")
        await it.clear()
        await it.type(str(other))
        await it.press("enter")
        await it.sees("already", "Take another name")
        assert other.read_text(encoding="utf-8") == "boltend = 1\n"
        await it.press("down", "enter")
        await it.sees("other.toml · saved")
    assert [t.name for t in ProjectFile.open(other).saved.tabs] == ["Sheet", "Frame"]


async def test_a_path_that_is_not_there_is_offered(shell: Shell, tmp_path: Path) -> None:
    path = tmp_path / "fresh.toml"
    async with shell(path) as it:
        await it.sees("There is no file", "Make a new project there", "Quit")
        await it.press("enter")
        await it.sees("No tab yet")
        assert not path.exists()
        await it.press("f7", "enter")
        await it.sees("[! Patch]")
        await it.press("ctrl+s")
        await it.wait(path.exists, "the file")
    async with shell(tmp_path / "no.toml") as it:
        await it.sees("Make a new project there")
        await it.press("down", "enter")
        await it.wait(lambda: it.app.return_code is not None, "the end")


async def test_leaving_with_changes_asks(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.press("ctrl+q")
        await it.wait(lambda: it.app.return_code == 0, "the end: nothing was changed")
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "8", "ctrl+q")
        await it.sees("has changes that are not saved", "Save and quit", "Stay")
        await it.press("down", "down", "enter")
        await it.wait(lambda: len(it.app.screen_stack) == 2)
        assert it.app.return_code is None
        await it.press("ctrl+q", "enter")
        await it.wait(lambda: it.app.return_code == 0, "the end")
    assert "across = 8" in project_file.read_text(encoding="utf-8")


async def test_unsaved_work_is_offered_at_the_next_start(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.to("size")
        await it.clear()
        await it.type("9 1/")  # not even valid
        await it.press("ctrl+q")
        await it.sees("Quit without saving")
        await it.press("down", "enter")
        await it.wait(lambda: it.app.return_code == 0, "the end")
    assert 'size = "6 in"' in project_file.read_text(encoding="utf-8")
    async with shell() as it:
        await it.sees("There is unsaved work of this project.", "It was last changed")
        await it.press("down", "enter")  # later
        await it.wait(lambda: len(it.app.screen_stack) == 2)
        assert it.given("Sheet")["size"] == "6 in"
    async with shell() as it:
        await it.sees("There is unsaved work of this project.")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet")["size"] == "9 1/")
        await it.sees("[! Sheet]", "9 1/", "changed")
        await it.press("ctrl+z")
        assert it.given("Sheet")["size"] == "6 in"
        await it.press("ctrl+y", "ctrl+s")
        await it.wait(lambda: not it.desk.changed)
    async with shell() as it:
        await it.sees("9 1/")
        assert len(it.app.screen_stack) == 2, "nothing is left to offer"


async def test_unsaved_work_can_be_thrown_away(shell: Shell) -> None:
    async with shell() as it:
        await it.to("across")
        await it.type("1")
    async with shell() as it:
        await it.sees("There is unsaved work")
        await it.press("down", "down", "enter")
        await it.wait(lambda: len(it.app.screen_stack) == 2)
        assert it.given("Sheet")["across"] == 5
    async with shell() as it:
        await it.sees("[Sheet]")
        assert len(it.app.screen_stack) == 2


async def test_a_project_without_a_file_is_recovered_too(shell: Shell) -> None:
    async with shell(None) as it:
        await it.press("escape", "f7", "enter")
        await it.sees("[! Patch]")
        await it.wait(lambda: it.view.place is not None)
        await it.type("4 1")
    async with shell(None) as it:
        await it.sees("Unsaved work", "1 tab")
        await it.press("enter")
        await it.wait(lambda: it.desk.project.tabs != ())
        assert it.given("Patch") == {"size": "4 1"}


async def test_problems_of_the_file_are_shown(shell: Shell) -> None:
    text = 'boltend = 1\n[project]\nname = "L"\nseam = 3.5\n'
    text += '[[tab]]\nname = "S"\ncalculator = "patch"\naside = 3\n'
    async with shell(text=text) as it:
        await it.sees("lantern.toml:4", "lantern.toml:8", "Write aside = true")
        await it.press("escape")
        await it.sees("[! S]")
        it.view.action_problems()
        await it.sees("lantern.toml:8")


async def test_a_bad_tab_leaves_the_others_alone(shell: Shell) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "G"\ncalculator = "ghost"\n[tab.given]\nx = 1\n[[tab]]\nname = "S"\ncalculator = "patch"\n[tab.given]\nsize = "6 in"\nacross = 3\n'  # noqa: E501 - a file
    async with shell(text=text) as it:
        await it.sees("[! G]", "no plugin brings a calculator 'ghost'")
        await it.press("f6")
        await it.sees("18 in finished")


async def test_the_project_is_named(shell: Shell) -> None:
    async with shell() as it:
        it.view.action_name_project()
        await it.sees("The project's name")
        await it.clear()
        await it.type("[b]Night")
        await it.press("enter")
        await it.sees("[b]Night · lantern.toml · changed")
        assert it.desk.project.name == "[b]Night"


def test_a_file_that_cannot_be_read_raises_before_anything_is_shown(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text("this is not toml", encoding="utf-8")
    with pytest.raises(ProjectUnreadable):
        Desk.open(str(path))


async def test_changes_can_be_thrown_away_at_quitting(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "8", "ctrl+q")
        await it.sees("Quit and throw the changes away")
        await it.press("down", "down", "down", "enter")
        await it.wait(lambda: it.app.return_code == 0, "the end")
    assert "across = 8" not in project_file.read_text(encoding="utf-8")
    async with shell() as it:
        await it.sees("Given")
        assert len(it.app.screen_stack) == 2, "nothing is left to offer"
