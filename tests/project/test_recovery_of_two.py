"""Two Boltends at the same moment: what one looks at or throws away, another may just have begun."""

from __future__ import annotations

import errno
import os
import sys
from pathlib import Path

import pytest

from boltend.core.project import edits, recovered, recovery
from boltend.core.project.plain import same_plain
from boltend.core.project.recovered import recover
from boltend.core.project.recovery import journal_path
from boltend.core.project.saving import ProjectFile

sys.path.insert(0, str(Path(__file__).parent))  # test modules stand alone under --import-mode=importlib
from journals import begin, crash, offered


def test_throwing_away_spares_what_another_began_in_its_place(path: Path) -> None:
    """Both were offered the same work; the one throws it away and begins anew, then the other throws."""
    file, old = begin(path)
    old.edited(edits.set_setting(file.saved, "copies", 7))
    crash(old)
    first, second = offered(path), offered(path)
    first.discard()
    _, mine = begin(path)
    mine.edited(edits.set_setting(file.saved, "copies", 8))
    assert mine.path == second.journal
    second.discard()
    crash(mine)
    assert offered(path).project.settings["copies"] == 8, "also of one that does not run any more"
    second.discard()
    assert offered(path).project.settings["copies"] == 8


def test_a_journal_that_begins_while_another_looks_is_not_swept_away(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other saw it empty, and it was begun before the other removed it."""
    file, mine = begin(path)
    reads = recovered._unlocked

    def slowly(looked: Path) -> bytes | None:
        if looked != journal_path(path):
            return reads(looked)
        looked.parent.mkdir(parents=True, exist_ok=True)
        looked.touch()
        data = reads(looked)
        mine.edited(edits.set_setting(file.saved, "copies", 8))
        assert mine.path == looked
        return data

    journal_path(path).parent.mkdir(parents=True)
    journal_path(path).touch()
    with monkeypatch.context() as broken:
        broken.setattr(recovered, "_unlocked", slowly)
        assert recover(ProjectFile.open(path)) is None
    crash(mine)
    assert offered(path).project.settings["copies"] == 8


def test_a_journal_begun_anew_by_another_is_not_swept_away(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other looks between the new journal's writing and its taking the old one's place."""
    file, mine = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    two = edits.set_setting(one, "copies", 8)
    mine.edited(one)
    mine.edited(two)  # while `one` is being saved
    file.save(one)
    locks = recovery.lock

    def looked_at(handle: int) -> bool:
        assert recover(ProjectFile.open(path)) is None
        return locks(handle)

    with monkeypatch.context() as between:
        between.setattr(recovery, "lock", looked_at)
        mine.saved(one)
    assert mine.trouble == ""
    crash(mine)
    assert offered(path).project.settings["copies"] == 8


def test_a_journal_that_cannot_be_begun_anew_goes_on_from_what_it_says(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, mine = begin(path)
    one = edits.set_setting(file.saved, "copies", 7)
    two = edits.set_given(one, one.tab("Edge").key, "width", "62 in")
    mine.edited(one)
    mine.edited(two)
    file.save(one)

    def refuses(*_: object) -> None:
        raise OSError(errno.EIO, "no")

    with monkeypatch.context() as broken:
        broken.setattr(os, "replace", refuses)
        mine.saved(one)
    assert mine.trouble
    three = edits.set_setting(one, "copies", 9)  # the width was undone
    mine.edited(three)
    assert mine.trouble == ""
    crash(mine)
    assert same_plain(offered(path).project.to_plain(), three.to_plain())
