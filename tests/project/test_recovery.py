"""Unsaved work comes back after a crash: edits, drafts, torn records, two Boltends at once, a full disk."""

from __future__ import annotations

import errno
import fcntl
import os
import shutil
import sys
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project import edits, edits_fabrics, recovery
from boltend.core.project.journal_text import frame, unframe
from boltend.core.project.plain import same_plain
from boltend.core.project.recovered import Draft, recover, recoveries
from boltend.core.project.recovery import journal_path, state_folder
from boltend.core.project.saving import ProjectFile

sys.path.insert(0, str(Path(__file__).parent))  # test modules stand alone under --import-mode=importlib
from journals import begin, crash, offered
from quilts import HARBOUR
from text_helpers import applied


def test_every_kind_of_edit_comes_back_with_comments_still_saved_right(path: Path) -> None:
    file, journal = begin(path)
    project = file.saved
    edge = project.tab("Edge").key
    for step in (
        lambda p: edits.set_given(p, edge, "width", "61 in"),
        lambda p: edits.rename_tab(p, edge, "Rim"),
        lambda p: edits.move_tab(p, edge, 0),
        lambda p: edits.duplicate_tab(p, p.tab("Lantern blocks").key),
        lambda p: edits.set_setting(p, "copies", 2),
        lambda p: edits.remove_tab(p, p.tab("Top as sewn").key),
        lambda p: edits_fabrics.add_fabric(p, "Green"),
        lambda p: edits_fabrics.remove_ladder(p, p.ladders[0].key),
    ):
        project = step(project)
        journal.edited(project)
    crash(journal)
    opened = ProjectFile.open(path)
    found = recover(opened)
    assert found is not None
    assert same_plain(found.project.to_plain(), project.to_plain())
    assert not found.file_changed
    # The keys fit the open file: the text is edited in place, comments and all, also in the copy.
    text = applied(opened.document, opened.saved, found.project)
    assert text.count('block_width = "12 in"  # finished') == 2
    assert "# last but one" in text
    assert text == file.document.apply(file.saved, project).text


def test_drafts_come_back_and_go_when_taken_back(path: Path) -> None:
    file, journal = begin(path)
    edge, top = file.saved.tab("Edge").key, file.saved.tab("Top as sewn").key
    journal.draft(edge, "width", "61 1/")
    journal.draft(edge, "width", "61 1/2 i")
    journal.draft(top, "widths", "48 in;")
    journal.draft(top, "widths", None)
    crash(journal)
    opened = ProjectFile.open(path)
    found = recover(opened)
    assert found is not None
    assert found.drafts == (Draft("Edge", "width", "61 1/2 i", opened.saved.tab("Edge").key),)
    assert same_plain(found.project.to_plain(), opened.saved.to_plain())


def test_saving_empties_the_journal_but_keeps_what_came_after(path: Path) -> None:
    file, journal = begin(path)
    edge = file.saved.tab("Edge").key
    one = edits.set_given(file.saved, edge, "width", "61 in")
    journal.edited(one)
    file.save(one)
    journal.saved(one)
    assert recover(ProjectFile.open(path)) is None
    two = edits.set_given(one, edge, "width", "62 in")
    three = edits.set_given(two, edge, "width", "63 in")
    journal.edited(two)
    journal.edited(three)  # typed on while `two` was being saved
    journal.draft(edge, "tail", "9 i")
    file.save(two)
    journal.saved(two)
    four = edits.set_setting(three, "copies", 3)
    journal.edited(four)
    crash(journal)
    found = offered(path)
    assert same_plain(found.project.to_plain(), four.to_plain())
    assert [draft.text for draft in found.drafts] == ["9 i"]
    assert not found.file_changed


def test_a_kill_between_saving_and_emptying_offers_nothing(path: Path) -> None:
    file, journal = begin(path)
    one = edits.set_given(file.saved, file.saved.tab("Edge").key, "width", "61 in")
    journal.edited(one)
    file.save(one)
    crash(journal)
    assert recover(ProjectFile.open(path)) is None
    assert list((state_folder() / "recovery").iterdir()) == []


def test_a_file_changed_since_is_said_so(path: Path) -> None:
    file, journal = begin(path)
    one = edits.set_given(file.saved, file.saved.tab("Edge").key, "width", "61 in")
    journal.edited(one)
    journal.draft(file.saved.tab("Edge").key, "tail", "9")
    crash(journal)
    path.write_text(HARBOUR.replace("across = 4", "across = 5"))
    opened = ProjectFile.open(path)
    found = recover(opened)
    assert found is not None
    assert found.file_changed
    assert found.project.tab("Edge").key == opened.saved.tab("Edge").key
    assert found.drafts[0].tab_key == opened.saved.tab("Edge").key
    assert same_plain(found.project.to_plain(), one.to_plain())


def test_every_torn_end_gives_the_state_before_it(path: Path) -> None:
    file, journal = begin(path)
    project, states, ends = file.saved, [file.saved.to_plain()], [0]
    for number in range(6):
        project = edits.set_given(project, project.tab("Edge").key, "width", f"{number} in")
        journal.edited(project)
        states.append(project.to_plain())
        assert journal.path is not None
        ends.append(journal.path.stat().st_size)
    crash(journal)
    where = journal_path(path)
    whole = where.read_bytes()
    for cut in range(0, len(whole) + 1, 7):
        where.write_bytes(whole[:cut])
        found = recover(ProjectFile.open(path))
        last = max(i for i, end in enumerate(ends) if end <= cut)
        assert same_plain(found.project.to_plain() if found else states[0], states[last])


def test_damage_in_the_middle_stops_the_reading(path: Path) -> None:
    record = frame({"a": [1, 2]})
    damaged = record.replace(b"1", b"7") if b"[1," in record else b""
    assert [r for r, _ in unframe(record + record)] == [{"a": [1, 2]}] * 2
    broken = record[:-5] + b"9" + record[-4:]
    assert damaged != record
    assert list(unframe(broken + record)) == []


@pytest.mark.parametrize("odd", [{"version": 2}, {"plain": 3}, {"ids": {}}, {"base": None, "ids": []}])
def test_a_journal_of_another_boltend_is_left_as_it_is(path: Path, odd: dict[str, Any]) -> None:
    """Whole, but of a form that is not ours: neither read nor thrown away, and the work goes on beside it."""
    file, journal = begin(path)
    journal.edited(edits.set_setting(file.saved, "copies", 7))
    assert journal.path is not None
    crash(journal)
    first, *rest = [record for record, _ in unframe(journal.path.read_bytes())]
    journal.path.write_bytes(b"".join(map(frame, [{**first, **odd}, *rest])))
    theirs = journal.path.read_bytes()
    assert recover(ProjectFile.open(path)) is None
    assert journal.path.read_bytes() == theirs
    again, ours = begin(path)
    ours.edited(edits.set_setting(again.saved, "copies", 8))
    crash(ours)
    assert offered(path).project.settings["copies"] == 8
    assert journal.path.read_bytes() == theirs


def test_two_running_boltends_do_not_mix(path: Path) -> None:
    first_file, first = begin(path)
    second_file, second = begin(path)
    one = edits.set_given(first_file.saved, first_file.saved.tab("Edge").key, "width", "61 in")
    two = edits.set_given(second_file.saved, second_file.saved.tab("Edge").key, "width", "62 in")
    first.edited(one)
    second.edited(two)
    assert first.path != second.path
    assert recover(ProjectFile.open(path)) is None  # both are alive
    crash(first)
    assert same_plain(offered(path).project.to_plain(), one.to_plain())
    crash(second)
    newest = offered(path)
    assert same_plain(newest.project.to_plain(), two.to_plain())
    newest.discard()
    assert same_plain(offered(path).project.to_plain(), one.to_plain())


def test_unsaved_work_that_was_not_taken_over_is_not_overwritten(path: Path) -> None:
    file, journal = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    journal.edited(one)
    crash(journal)
    again, later = begin(path)
    later.edited(edits.set_setting(again.saved, "copies", 8))
    later.close(keep=False)
    assert same_plain(offered(path).project.to_plain(), one.to_plain())


def test_sixty_unfinished_works_are_all_kept_and_the_next_one_too(path: Path) -> None:
    for number in range(60):
        file, journal = begin(path)
        journal.begin()
        assert journal.trouble == "", "told before anything is typed"
        wanted = edits.set_setting(file.saved, "copies", number + 2)
        journal.edited(wanted)
        assert journal.holds(wanted)
        crash(journal)
    works = recoveries(ProjectFile.open(path))
    assert [work.project.settings["copies"] for work in works] == list(range(61, 1, -1)), "the newest first"
    for work in works[::2]:
        work.discard()
    _, journal = begin(path)
    journal.edited(edits.set_setting(file.saved, "copies", 99))
    assert journal.trouble == ""
    assert len(recoveries(ProjectFile.open(path))) == 30


def test_a_journal_does_not_say_that_it_holds_what_it_could_not_write(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, journal = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    two = edits.set_setting(one, "copies", 8)
    journal.edited(one)
    assert journal.holds(one)
    with monkeypatch.context() as patch:
        patch.setattr(recovery, "write_all", _no_room)
        journal.edited(two)
        assert not journal.holds(two)
    assert journal.holds(two), "there is room again, and it was asked"
    crash(journal)
    assert offered(path).project.settings["copies"] == 8


def _no_room(*_: object) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def test_a_journal_that_was_removed_from_under_us_is_written_again(path: Path) -> None:
    file, journal = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    journal.edited(one)
    shutil.rmtree(state_folder())
    assert journal.holds(one)
    crash(journal)
    assert offered(path).project.settings["copies"] == 7


def test_a_disk_without_locks_is_told_before_anything_is_typed(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_locks(*_: object) -> None:
        raise OSError(errno.EOPNOTSUPP, "Operation not supported")

    _, journal = begin(path)
    monkeypatch.setattr(fcntl, "flock", no_locks)
    journal.begin()
    assert "Operation not supported" in journal.trouble
    assert len(list((state_folder() / "recovery").iterdir())) <= 1, "and tried once"


def test_a_full_disk_is_told_and_the_journal_stays_readable(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, journal = begin(path)
    edge = file.saved.tab("Edge").key
    one = edits.set_given(file.saved, edge, "width", "61 in")
    two = edits.set_given(one, edge, "width", "62 in")
    three = edits.set_setting(two, "copies", 3)
    journal.edited(one)
    real = os.write

    def half(handle: int, data: Any) -> None:
        real(handle, bytes(data[: len(data) // 2]))
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(recovery, "write_all", half)
        journal.edited(two)
    assert "No space left" in journal.trouble
    journal.edited(three)  # room again: this record carries the missed edit too
    assert journal.trouble == ""
    crash(journal)
    assert same_plain(offered(path).project.to_plain(), three.to_plain())


def test_a_state_folder_that_cannot_be_made_does_not_stop_the_work(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = path.parent / "blocked"
    blocked.write_text("a file, no folder")
    monkeypatch.setenv("BOLTEND_STATE", str(blocked))
    file, journal = begin(path)
    journal.edited(edits.set_setting(file.saved, "copies", 7))
    assert journal.trouble
    assert recover(file) is None


def test_private_and_gone_when_all_is_saved(path: Path) -> None:
    file, journal = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    journal.edited(one)
    assert journal.path is not None
    assert journal.path.stat().st_mode & 0o077 == 0
    file.save(one)
    journal.saved(one)
    journal.close()
    assert not journal.path.exists()


def test_saving_under_another_name_takes_the_journal_along(path: Path) -> None:
    file, journal = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    journal.edited(one)
    file.save_as(path.parent / "other.toml", one)
    journal.saved(one)
    journal.edited(edits.set_setting(one, "copies", 8))
    crash(journal)
    assert recover(ProjectFile.open(path)) is None
    assert offered(path.parent / "other.toml").project.settings["copies"] == 8


def test_dates_and_odd_numbers_survive(path: Path) -> None:
    path.write_text("boltend = 1\nday = 2026-11-25\nat = 07:32:00\nnone = nan\nbig = 1e400\n" + HARBOUR[-1:])
    file, journal = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    journal.edited(one)
    crash(journal)
    assert same_plain(offered(path).project.to_plain(), one.to_plain())


def test_the_platforms_own_folder_is_the_default(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("BOLTEND_STATE", raising=False)
    assert "boltend" in str(state_folder())
