"""Opening and saving: paths completed, errors in words; work recovered; a file that somebody else changed."""

import os
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project.recovery import state_folder
from boltend.core.project.saving import ProjectFile

Shell = Any
Golden = Any
SIZES = {"60x20": (60, 20), "80x24": (80, 24), "120x40": (120, 40)}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, project_file: Path) -> Path:
    """Where the person is: two projects, a note, a folder with a third project."""
    here = tmp_path / "here"
    (here / "quilts").mkdir(parents=True)
    (here / "lantern.toml").write_bytes(project_file.read_bytes())
    (here / "lap.toml").write_text("boltend = 1\n[project]\nname = 'Lap'\n", encoding="utf-8")
    (here / "broken.toml").write_text("boltend = 1\nnot toml", encoding="utf-8")
    (here / "notes.txt").write_text("", encoding="utf-8")
    (here / "quilts" / "moth.toml").write_text("boltend = 1\n[project]\nname = 'Moth'\n", encoding="utf-8")
    monkeypatch.chdir(here)
    monkeypatch.setenv("HOME", str(tmp_path))
    return here


# Opening --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
async def test_what_it_looks_like(shell: Shell, golden: Golden, folder: Path, size: str) -> None:
    async with shell(size=SIZES[size]) as it:
        it.view.action_open()
        await it.sees("Open which project file?", "quilts/")
        golden(it, f"open-{size}")


async def test_tab_completes_and_enter_opens(shell: Shell, folder: Path) -> None:
    async with shell(None) as it:
        await it.type("open")
        await it.press("enter")
        await it.sees("Open which project file?", "lantern.toml", "lap.toml", "quilts/")
        assert "notes.txt" not in it.text(), "project files are offered first"
        await it.type("lan")
        await it.press("tab")
        await it.wait(lambda: it.app.focused.value == "lantern.toml")
        await it.press("enter")
        await it.sees("Lantern · lantern.toml · saved", "[Sheet]")


async def test_a_folder_is_gone_into(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_open()
        await it.sees("quilts/")
        await it.type("q")
        await it.press("tab")
        await it.sees("moth.toml", "= ~/here/quilts ")
        await it.press("down", "enter")
        await it.sees("Moth · moth.toml · saved")


async def test_a_folder_that_is_entered_is_listed(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_open()
        await it.sees("quilts/")
        await it.type("quilts")
        await it.press("enter")
        await it.sees("A folder: write or choose a file in it.", "moth.toml")
        assert it.app.focused.value == "quilts/"


async def test_the_persons_own_folder_is_known(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_open()
        await it.type("~/here/quilts/m")
        await it.press("tab")
        await it.wait(lambda: it.app.focused.value == "~/here/quilts/moth.toml")
        await it.press("enter")
        await it.sees("Moth · moth.toml · saved")


async def test_a_mouse_chooses_a_file(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_open()
        await it.sees("lap.toml")
        await it.click_on("lap.toml")
        await it.sees("Lap · lap.toml · saved")


async def test_tab_goes_through_the_list_where_names_agree_no_further(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_open()
        await it.type("l")
        await it.press("tab")
        await it.wait(lambda: it.app.focused.value == "la")
        await it.press("tab")
        await it.wait(lambda: it.app.screen.list.highlighted == 0)
        await it.press("down", "tab")
        await it.wait(lambda: it.app.focused.value == "lap.toml")


async def test_what_is_wrong_is_said_where_another_can_be_named(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_open()
        await it.type("gone.toml")
        await it.press("enter")
        await it.sees("There is no file gone.toml in")
        await it.clear()
        await it.type("no/way.toml")
        await it.sees("There is no folder no.")
        await it.press("enter")
        await it.sees("There is no folder no in")
        await it.clear()
        await it.type("broken.toml")
        await it.press("enter")
        await it.sees("broken.toml:2")
        await it.press("escape")
        await it.sees("Lantern · lantern.toml · saved")


async def test_unsaved_work_is_asked_about_first(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        await it.to("across")
        await it.type("8")
        it.view.action_open()
        await it.sees("has changes that are not saved", "Save and go on")
        await it.press("enter")
        await it.sees("Open which project file?")


# Saving ---------------------------------------------------------------------------------------------


async def test_saving_completes_too_and_says_where(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_save_as()
        await it.sees("Save as which file?")
        await it.clear()
        await it.type("qu")
        await it.press("tab")
        await it.wait(lambda: it.app.focused.value == "quilts/")
        await it.type("new.toml")
        await it.sees("= ~/here/quilts/new.toml")
        await it.press("enter")
        await it.sees("new.toml · saved")
    assert ProjectFile.open(folder / "quilts" / "new.toml").saved.name == "Lantern"


async def test_what_is_wrong_with_a_new_name_is_said_while_it_is_typed(shell: Shell, folder: Path) -> None:
    async with shell() as it:
        it.view.action_save_as()
        await it.sees("Save as which file?")
        await it.clear()
        await it.type("notes.txt/a.toml")
        await it.sees("notes.txt is a file, not a folder.")
        await it.clear()
        await it.type("no/way.toml")
        await it.sees("There is no folder no")
        await it.press("enter")
        await it.sees("There is no folder no in", "another.")
        assert not (folder / "no").exists()


async def test_replacing_asks_and_no_means_another_name(shell: Shell, folder: Path) -> None:
    before = (folder / "lap.toml").read_bytes()
    async with shell() as it:
        it.view.action_save_as()
        await it.sees("Save as which file?")
        await it.clear()
        await it.type("lap.toml")
        await it.press("enter")
        await it.sees("already", "Take another name", "Replace lap.toml")
        await it.press("enter")
        await it.sees("Save as which file?")
        assert (folder / "lap.toml").read_bytes() == before
        await it.clear()
        await it.type("lap.toml")
        await it.press("enter", "down", "enter")
        await it.sees("lap.toml · saved")
    assert ProjectFile.open(folder / "lap.toml").saved.name == "Lantern"
    assert (folder / ".lap.toml.before").read_bytes() == before


# Recovering -----------------------------------------------------------------------------------------


def journals() -> list[Path]:
    return sorted((state_folder() / "recovery").glob("*.journal"))


async def crashed(shell: Shell) -> None:
    """A run that typed 9 patches across and was never saved."""
    async with shell() as it:
        await it.to("across")
        await it.type("9")
        assert it.given("Sheet")["across"] == 9
    assert len(journals()) == 1


async def take_over(it: Any) -> None:
    await it.sees("There is unsaved work of this project.")
    await it.press("enter")
    await it.wait(lambda: it.given("Sheet")["across"] == 9)
    await it.wait(lambda: len(it.app.screen_stack) == 2)


async def test_undo_right_after_a_recovery_says_the_way_back(shell: Shell) -> None:
    await crashed(shell)
    async with shell(size=(120, 40)) as it:
        await take_over(it)
        await it.press("ctrl+z")
        await it.sees("Undone: unsaved work of", "redo brings it back, or it is offered at the next start")
        assert it.given("Sheet")["across"] == 5
        await it.press("ctrl+y")
        await it.wait(lambda: it.given("Sheet")["across"] == 9)
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
    assert journals() == [], "nothing is left to offer"


async def test_undone_recovered_work_outlives_another_edit_and_the_end(
    shell: Shell, project_file: Path
) -> None:
    """Another edit ends the redo; quitting asks nothing, for nothing is changed."""
    await crashed(shell)
    async with shell() as it:
        await take_over(it)
        await it.press("ctrl+z")
        await it.to("size")
        await it.type("7")
        await it.press("ctrl+y")
        await it.sees("There is nothing to redo.")
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
    assert "across = 5" in project_file.read_text(encoding="utf-8")
    async with shell() as it:
        await it.sees("There is unsaved work of this project.", "The file was changed since")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet")["across"] == 9)


async def test_undone_recovered_work_outlives_quitting_at_once(shell: Shell) -> None:
    await crashed(shell)
    async with shell() as it:
        await take_over(it)
        await it.press("ctrl+z")
        await it.wait(lambda: it.given("Sheet")["across"] == 5)
        await it.press("ctrl+q")
        await it.wait(lambda: it.app.return_code == 0, "the end")
    async with shell() as it:
        await take_over(it)


async def test_undone_and_redone_twice_is_offered_once(shell: Shell) -> None:
    await crashed(shell)
    async with shell() as it:
        await take_over(it)
        await it.press("ctrl+z", "ctrl+y", "ctrl+z", "ctrl+y")
        assert it.given("Sheet")["across"] == 9
        assert len(journals()) == 1
    async with shell() as it:
        await take_over(it)
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
    assert journals() == []


async def test_an_edit_after_a_recovery_is_undone_first(shell: Shell) -> None:
    await crashed(shell)
    async with shell() as it:
        await take_over(it)
        await it.to("size")
        await it.type("7")
        await it.press("ctrl+z")
        assert it.given("Sheet") == {"size": "6 in", "across": 9}
        assert len(journals()) == 1
        await it.press("ctrl+z")
        assert it.given("Sheet") == {"size": "6 in", "across": 5}
        assert len(journals()) == 2


# Somebody else --------------------------------------------------------------------------------------


async def test_a_change_by_somebody_else_is_said_when_the_person_is_back(
    shell: Shell, project_file: Path
) -> None:
    async with shell() as it:
        it.app.on_app_focus()
        assert it.view.notice.words == ""
        text = project_file.read_text(encoding="utf-8")
        project_file.write_text(text.replace("across = 5", "across = 9"), encoding="utf-8")
        it.app.on_app_focus()
        await it.sees("lantern.toml was changed by somebody else. ^s takes that in.")
        await it.press("ctrl+s")
        await it.wait(lambda: it.given("Sheet")["across"] == 9)
        await it.sees("54 in finished", "· saved")
        assert "somebody else." not in "".join(it.rows()[2:4])


async def test_two_tabs_of_two_people_are_put_together(shell: Shell, project_file: Path) -> None:
    """By tab and given: one changes a ring, the other the sheet; both are kept, and undo parts them."""
    async with shell() as it:
        await it.to("across")
        await it.type("7")
        text = project_file.read_text(encoding="utf-8")
        project_file.write_text(text.replace('width = "2 in"', 'width = "4 in"'), encoding="utf-8")
        await it.press("ctrl+s")
        await it.wait(lambda: not it.desk.changed)
        assert it.given("Sheet")["across"] == 7
        assert it.given("Frame")["rings"][0]["width"] == "4 in"
        saved = project_file.read_text(encoding="utf-8")
        assert "across = 7" in saved
        assert 'width = "4 in"' in saved
        await it.press("ctrl+z")
        await it.wait(lambda: it.given("Frame")["rings"][0]["width"] == "2 in")
        await it.press("ctrl+y")
        await it.wait(lambda: it.given("Frame")["rings"][0]["width"] == "4 in")


async def test_a_file_that_was_taken_away_is_written_again(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await it.to("across")
        await it.type("7")
        os.unlink(project_file)
        it.app.on_app_focus()
        await it.sees("lantern.toml is not there any more. ^s writes it again.")
        await it.press("ctrl+s")
        await it.wait(project_file.exists)
    assert "across = 7" in project_file.read_text(encoding="utf-8")


async def test_work_without_a_file_can_wait_for_another_day(shell: Shell) -> None:
    async with shell(None) as it:
        await it.type("framed sheet")
        await it.press("enter")
        await it.wait(lambda: it.view.place is not None)
        await it.type("6")
    async with shell(None) as it:
        await it.sees("What do you want to know, or go on with?", "Unsaved work")
        await it.press("escape")
        await it.sees("No tab yet")
    async with shell(None) as it:
        await it.sees("Unsaved work")
        await it.press("enter")
        await it.wait(lambda: it.desk.project.tabs != ())
        assert it.given("Sheet") == {"size": "6"}
