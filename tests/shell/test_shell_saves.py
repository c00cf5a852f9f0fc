"""Saving on a disk that does not answer: keys do, nothing is said to be saved, and nothing is lost.

The disk stands still until the test lets it go on, so that nothing here depends on how fast anything is.
"""

import os
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project.recovered import recover
from boltend.core.project.recovery import Journal
from boltend.core.project.saving import ProjectFile

Shell = Any


class Disk:
    """A disk whose flushes (each save has some) wait while it `stands`; `begun` counts them."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.goes = threading.Event()
        self.goes.set()
        self.begun = 0
        self.refuses: OSError | None = None
        self._flush = os.fsync
        monkeypatch.setattr(os, "fsync", self._slowly)

    def _slowly(self, handle: int) -> None:
        self.begun += 1
        assert self.goes.wait(60)
        if self.refuses is not None:
            raise self.refuses
        self._flush(handle)

    def stands(self) -> None:
        self.goes.clear()


@pytest.fixture
def disk(monkeypatch: pytest.MonkeyPatch) -> Iterator[Disk]:
    made = Disk(monkeypatch)
    yield made
    made.goes.set()


async def press(it: Any, *keys: str) -> None:
    """Keys, without waiting for a save that is on its way."""
    await it.pilot.press(*keys)
    await it.pilot.pause()


async def saving(it: Any, disk: Disk) -> None:
    """Type 7 across and ask for a save, which hangs."""
    await it.to("across")
    await it.press("backspace", "7")
    disk.stands()
    before = disk.begun
    await press(it, "ctrl+s")
    await it.wait(lambda: disk.begun > before, "the save at the disk")


async def test_keys_are_answered_while_the_disk_stands(shell: Shell, project_file: Path, disk: Disk) -> None:
    before = project_file.read_text(encoding="utf-8")
    async with shell() as it:
        await saving(it, disk)
        await press(it, "1")
        assert it.given("Sheet")["across"] == 71
        await press(it, "f6")
        await it.sees("[Frame]")
        await press(it, "f5")
        await press(it, "escape")
        await it.sees("· saving", "lantern.toml")
        assert project_file.read_text(encoding="utf-8") == before
        assert it.desk.changed
        disk.goes.set()
        await it.sees("Saved in lantern.toml.", "· changed")
        assert "across = 7\n" in project_file.read_text(encoding="utf-8")
        await it.press("ctrl+s")
        await it.sees("· saved")
        assert not it.desk.changed
    assert "across = 71\n" in project_file.read_text(encoding="utf-8")
    assert recover(ProjectFile.open(project_file)) is None


async def test_the_field_keeps_its_cursor_when_a_save_ends(shell: Shell, disk: Disk) -> None:
    async with shell() as it:
        await saving(it, disk)
        await press(it, "1", "2", "left")
        field = it.app.focused
        disk.goes.set()
        await it.written()
        await it.sees("Saved in lantern.toml.")
        assert it.app.focused is field
        await it.type("3")
        assert it.given("Sheet")["across"] == 7132


async def test_what_was_typed_meanwhile_is_in_the_journal(
    shell: Shell, project_file: Path, disk: Disk
) -> None:
    """While the disk stands and after the save, whenever the process is killed."""
    async with shell() as it:
        await saving(it, disk)
        await press(it, "1")
        assert b"71" in _journal(it)
        disk.goes.set()
        await it.written()
        await it.wait(lambda: b"71" in _journal(it))
    found = recover(ProjectFile.open(project_file))
    assert found is not None
    assert found.project.tab("Sheet").given["across"] == 71
    assert not found.file_changed


def _journal(it: Any) -> bytes:
    path = it.desk.journal.path
    assert path is not None
    return bytes(path.read_bytes())


async def test_saves_asked_for_meanwhile_become_one(shell: Shell, project_file: Path, disk: Disk) -> None:
    async with shell() as it:
        await saving(it, disk)
        for key in ("1", "ctrl+s", "2", "ctrl+s", "3", "ctrl+s"):
            await press(it, key)
        disk.goes.set()
        await it.wait(lambda: it.view._writes is None and not it.desk.changed, "both saves")
        assert disk.begun == 4, "two saves, each with a flush of the file and one of its folder"
    assert "across = 7123\n" in project_file.read_text(encoding="utf-8")
    assert "across = 7\n" in (project_file.parent / ".lantern.toml.before").read_text(encoding="utf-8")


async def test_quitting_waits_for_the_save(shell: Shell, project_file: Path, disk: Disk) -> None:
    async with shell() as it:
        await saving(it, disk)
        await press(it, "ctrl+q")
        await it.sees("· saving")
        assert it.app.return_code is None
        disk.goes.set()
        await it.wait(lambda: it.app.return_code == 0, "the end")
    assert "across = 7\n" in project_file.read_text(encoding="utf-8")


async def test_quitting_asks_about_what_was_typed_during_the_save(shell: Shell, disk: Disk) -> None:
    async with shell() as it:
        await saving(it, disk)
        await press(it, "1", "ctrl+q")
        disk.goes.set()
        await it.sees("has changes that are not saved.", "Save and quit")
        assert it.app.return_code is None


async def test_save_and_quit_saves_what_was_typed_since(shell: Shell, project_file: Path, disk: Disk) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7", "ctrl+q")
        await it.sees("Save and quit")
        disk.stands()
        await press(it, "enter")
        await it.wait(lambda: disk.begun)
        await it.wait(lambda: it.app.focused is not None and len(it.app.screen_stack) == 2)
        await press(it, "1")
        assert it.given("Sheet")["across"] == 71
        disk.goes.set()
        await it.wait(lambda: it.app.return_code == 0, "the end")
    assert "across = 71\n" in project_file.read_text(encoding="utf-8")


async def test_quitting_says_what_it_waits_for(shell: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    """The journal's disk stands: keys go nowhere any more, and a second Ctrl+Q changes nothing."""
    goes, closes = threading.Event(), Journal.close

    def slowly(journal: Journal, keep: bool = True) -> None:
        assert goes.wait(60)
        closes(journal, keep)

    monkeypatch.setattr(Journal, "close", slowly)
    async with shell() as it:
        await it.to("across")
        await press(it, "ctrl+q")
        await it.sees("lantern.toml is still being written. Boltend ends when that is done.")
        await press(it, "9", "ctrl+q")
        assert it.given("Sheet")["across"] == 5
        assert it.app.return_code is None
        goes.set()
        await it.wait(lambda: it.app.return_code == 0, "the end")


async def test_a_save_that_fails_late_says_so_and_loses_nothing(
    shell: Shell, project_file: Path, disk: Disk
) -> None:
    async with shell() as it:
        await saving(it, disk)
        await press(it, "1")
        disk.refuses = OSError(28, "No space left on device")
        disk.goes.set()
        await it.sees("NOT SAVED", "whole and as it was", "kept for the next start", "· changed")
        assert it.given("Sheet")["across"] == 71
        disk.refuses = None
        await it.press("ctrl+s")
        await it.sees("· saved")
    assert "across = 71\n" in project_file.read_text(encoding="utf-8")


async def test_what_others_changed_comes_in_beside_what_was_typed_meanwhile(
    shell: Shell, project_file: Path, disk: Disk
) -> None:
    async with shell() as it:
        text = project_file.read_text(encoding="utf-8")
        project_file.write_text(text.replace('size = "6 in"', 'size = "8 in"'), encoding="utf-8")
        await saving(it, disk)
        await press(it, "1")
        disk.goes.set()
        await it.sees("What somebody else changed in the file was taken in.")
        assert it.given("Sheet") == {"size": "8 in", "across": 71}
        assert it.desk.changed
        await it.to("size")
        assert it.app.focused.value == "8 in"


async def test_the_same_place_typed_since_stays_and_is_said(
    shell: Shell, project_file: Path, disk: Disk
) -> None:
    async with shell(size=(200, 40)) as it:
        text = project_file.read_text(encoding="utf-8")
        project_file.write_text(text.replace('size = "6 in"', 'size = "8 in"'), encoding="utf-8")
        await saving(it, disk)
        await it.to("size")
        await press(it, "end", "ctrl+u", "9")
        disk.goes.set()
        await it.sees("yours stays, not saved yet")
        assert it.given("Sheet") == {"size": "9", "across": 7}


@pytest.mark.parametrize("typed", [False, True])
async def test_a_late_question_takes_no_key_that_was_meant_for_something_else(
    shell: Shell, project_file: Path, monkeypatch: pytest.MonkeyPatch, typed: bool
) -> None:
    """Enter, on its way while the question comes, would keep mine and lose theirs."""
    reads, goes = ProjectFile.save, threading.Event()

    def slowly(*call: Any) -> Any:
        assert goes.wait(60)
        return reads(*call)

    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "7")
        text = project_file.read_text(encoding="utf-8").replace("across = 5", "across = 9")
        project_file.write_text(text, encoding="utf-8")
        monkeypatch.setattr(ProjectFile, "save", slowly)
        await press(it, "ctrl+s", *["end"] * typed)
        goes.set()
        await it.sees("was changed")
        assert ("Keep mine" in it.text()) is not typed
        if typed:
            await it.sees("NOT SAVED", "asks which of them to keep")
            await press(it, "ctrl+s")
            await it.sees("Keep mine in these places")
        assert project_file.read_text(encoding="utf-8") == text


async def test_a_look_at_the_file_keeps_no_key_waiting(
    shell: Shell, project_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    looks, goes = ProjectFile.changed_on_disk, threading.Event()

    def slowly(file: ProjectFile) -> bool:
        assert goes.wait(60)
        return looks(file)

    monkeypatch.setattr(ProjectFile, "changed_on_disk", slowly)
    async with shell() as it:
        project_file.write_text(project_file.read_text(encoding="utf-8") + "\n# more\n", encoding="utf-8")
        it.app.on_app_focus()
        await it.to("across")
        await it.press("backspace", "7")
        assert it.given("Sheet")["across"] == 7
        goes.set()
        await it.sees("lantern.toml was changed by somebody else.")


async def test_a_journal_on_a_slow_disk_keeps_no_key_waiting(
    shell: Shell, project_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Keys are answered; once the disk goes on, the last state stands in the journal, and trouble is told."""
    notes, goes, noted = Journal.edited, threading.Event(), []

    def slowly(journal: Journal, project: Any) -> None:
        assert goes.wait(60)
        noted.append(project)
        notes(journal, project)

    async with shell() as it:
        await it.to("across")
        monkeypatch.setattr(Journal, "edited", slowly)
        await it.press("backspace", "7", "1", "2", "3")
        assert it.given("Sheet")["across"] == 7123
        goes.set()
        await it.wait(lambda: it.desk.journal.path is not None and b"7123" in _journal(it))
        assert len(noted) <= 2, "what was overtaken is not written"
        monkeypatch.setattr(os, "write", _full)
        await it.press("4")
        await it.sees("Unsaved work is not kept for a crash just now")
    assert project_file.read_text(encoding="utf-8").count("across = 5") == 1


def _full(*_: object) -> int:
    raise OSError(28, "No space left on device")


async def test_a_plan_is_written_beside_the_screen(
    shell: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a disk that stands still keys are answered, saves too; it is said to be written when it is."""
    goes, plan = threading.Event(), tmp_path / "plan.txt"

    def slowly(path: Path, data: bytes) -> None:
        assert goes.wait(60)
        path.write_bytes(data)

    monkeypatch.setattr("boltend.shell.doing_copies.put_whole", slowly)
    async with shell(size=(160, 30)) as it:
        it.view.hand_over(plan, b"the plan")
        await it.to("across")
        await it.press("backspace", "7", "ctrl+s")
        await it.wait(lambda: not it.desk.changed, "the save")
        assert "Written to" not in it.text()
        goes.set()
        await it.sees("Written to")
    assert plan.read_bytes() == b"the plan"
