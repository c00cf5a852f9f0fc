"""Saving: whole or not at all, whatever step fails; two writers merged; links and modes kept."""

from __future__ import annotations

import errno
import os
import stat
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project import edits
from boltend.core.project.plain import same_plain
from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.reading import read_bytes
from boltend.core.project.saving import ChangedOnDisk, ProjectFile
from boltend.core.project.whole_file import SaveFailed, put_whole

sys.path.insert(0, str(Path(__file__).parent))  # test modules stand alone under --import-mode=importlib
from quilts import HARBOUR, STYLES

OLD = HARBOUR.encode()


@pytest.fixture(name="path")
def _path(tmp_path: Path) -> Path:
    path = tmp_path / "harbour.toml"
    path.write_bytes(OLD)
    return path


def opened(path: Path) -> tuple[ProjectFile, Any]:
    """The file, and the project with one edit."""
    file = ProjectFile.open(path)
    return file, edits.set_given(file.saved, file.saved.tab("Edge").key, "width", "61 in")


def leftovers(path: Path) -> list[str]:
    return sorted(p.name for p in path.parent.iterdir() if p.name not in (path.name, f".{path.name}.before"))


@pytest.mark.parametrize("text", STYLES.values(), ids=STYLES)
def test_saved_and_read_again_is_what_was_meant(tmp_path: Path, text: str) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(text.encode())
    file = ProjectFile.open(path)
    wanted = edits.add_tab(file.saved, "Later", "binding", {"width": "3 in"})
    done = file.save(wanted)
    assert (done.project, done.merged, done.note) == (wanted, False, "")
    assert same_plain(ProjectFile.open(path).saved.to_plain(), wanted.to_plain())
    assert file.before.read_bytes() == text.encode()
    assert leftovers(path) == []
    assert not file.changed_on_disk()
    # And a second time, from the text as it now is.
    again = edits.rename_tab(wanted, wanted.tab("Later").key, "Sooner")
    file.save(again)
    assert same_plain(ProjectFile.open(path).saved.to_plain(), again.to_plain())


def test_nothing_to_save_writes_nothing(path: Path) -> None:
    file = ProjectFile.open(path)
    before = path.stat().st_mtime_ns, path.stat().st_ino
    file.save(file.saved)
    assert (path.stat().st_mtime_ns, path.stat().st_ino) == before
    assert not file.before.exists()


def test_mode_and_symlink_are_kept(path: Path) -> None:
    path.chmod(0o640)
    link = path.parent / "link.toml"
    link.symlink_to(path)
    file, wanted = opened(link)
    file.save(wanted)
    assert link.is_symlink()
    assert path.read_bytes() != OLD
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert stat.S_IMODE(file.before.stat().st_mode) == 0o640


def test_a_new_file_and_another_name(tmp_path: Path) -> None:
    file = ProjectFile.new(tmp_path / "new.toml")
    first = edits.add_tab(file.saved, "One", "binding")
    file.save(first)
    assert (
        tmp_path / "new.toml"
    ).read_text() == 'boltend = 1\n\n[[tab]]\nname = "One"\ncalculator = "binding"\n'
    file.save_as(tmp_path / "other.toml", edits.add_tab(first, "Two", "binding"))
    assert file.path.name == "other.toml"
    assert [t.name for t in ProjectFile.open(tmp_path / "new.toml").saved.tabs] == ["One"]
    assert [t.name for t in ProjectFile.open(tmp_path / "other.toml").saved.tabs] == ["One", "Two"]


def fails(code: int) -> Callable[..., Any]:
    def fail(*_: Any, **__: Any) -> Any:
        raise OSError(code, os.strerror(code))

    return fail


def fails_to_make(code: int) -> Callable[..., Any]:
    """A folder in which no file can be made; those that are there can be read."""

    def fail(path: Any, flags: int, *args: Any) -> int:
        if flags & os.O_CREAT:
            raise OSError(code, os.strerror(code))
        return _open(path, flags, *args)

    return fail


def half_write(handle: int, data: Any) -> int:
    """The disk fills up half way."""
    if len(data) < 200:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    return _write(handle, data[: len(data) // 2])


_open, _write, _fsync, _replace, _link = os.open, os.write, os.fsync, os.replace, os.link


def nth(real: Callable[..., Any], number: int, code: int) -> Callable[..., Any]:
    """Works until the n-th call, which fails (later ones work again)."""
    calls = 0

    def call(*args: Any, **kwargs: Any) -> Any:
        nonlocal calls
        calls += 1
        if calls == number:
            raise OSError(code, os.strerror(code))
        return real(*args, **kwargs)

    return call


STEPS: dict[str, dict[str, Callable[..., Any]]] = {
    "stat": {"stat": fails(errno.EIO)},
    "open": {"open": fails_to_make(errno.EACCES)},
    "read-only disk": {"open": fails_to_make(errno.EROFS)},
    "write": {"write": fails(errno.ENOSPC)},
    "half a write": {"write": half_write},
    "write takes nothing": {"write": lambda *_: 0},
    "fchmod": {"fchmod": fails(errno.EPERM)},
    "fsync": {"fsync": fails(errno.EIO)},
    "close": {"close": nth(os.close, 1, errno.EIO)},
    "link and copy": {"link": fails(errno.EPERM), "write": nth(os.write, 2, errno.ENOSPC)},
    "keeping the last": {"replace": nth(os.replace, 1, errno.EIO)},
    "replace": {"replace": nth(os.replace, 2, errno.EACCES)},
}


@pytest.mark.parametrize("step", STEPS)
def test_a_fault_at_any_step_leaves_the_old_file_whole(
    path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    file, wanted = opened(path)
    with monkeypatch.context() as patch:
        for name, function in STEPS[step].items():
            patch.setattr(os, name, function)
        with pytest.raises(SaveFailed) as caught:
            file.save(wanted)
    assert path.read_bytes() == OLD
    assert leftovers(path) == []
    assert "whole and as it was" in caught.value.safe
    assert caught.value.way_out
    # Nothing is lost: the same project can be saved as soon as the trouble is over.
    file.save(wanted)
    assert same_plain(ProjectFile.open(path).saved.to_plain(), wanted.to_plain())
    assert file.before.read_bytes() == OLD


def test_what_does_not_read_back_is_not_put_in_place(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file, wanted = opened(path)
    with monkeypatch.context() as patch:
        # A disk that says yes and keeps something else.
        patch.setattr(os, "write", lambda handle, data: _write(handle, bytes(len(data))))
        with pytest.raises(SaveFailed, match="read back"):
            file.save(wanted)
    assert path.read_bytes() == OLD
    assert leftovers(path) == []


def test_partial_writes_are_carried_on(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file, wanted = opened(path)
    monkeypatch.setattr(os, "write", lambda handle, data: _write(handle, data[:100]))
    file.save(wanted)
    assert same_plain(ProjectFile.open(path).saved.to_plain(), wanted.to_plain())


def test_where_links_are_not_possible_the_last_version_is_copied(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, wanted = opened(path)
    monkeypatch.setattr(os, "link", fails(errno.EPERM))
    file.save(wanted)
    assert file.before.read_bytes() == OLD
    assert leftovers(path) == []


@pytest.mark.parametrize(("code", "silent"), [(errno.EIO, False), (errno.EINVAL, True)])
def test_a_folder_that_cannot_be_flushed_is_told(
    path: Path, monkeypatch: pytest.MonkeyPatch, code: int, silent: bool
) -> None:
    file, wanted = opened(path)
    monkeypatch.setattr(os, "fsync", nth(os.fsync, 2, code))  # the first is the file's own
    done = file.save(wanted)
    assert (done.note == "") == silent
    assert same_plain(ProjectFile.open(path).saved.to_plain(), wanted.to_plain())


def test_a_folder_that_is_gone(path: Path) -> None:
    file, wanted = opened(path)
    path.unlink()
    path.parent.rmdir()
    with pytest.raises(SaveFailed, match="folder is gone") as caught:
        file.save(wanted)
    assert caught.value.safe == "No file was made."


def test_text_that_is_no_unicode_is_refused_before_anything_is_written(path: Path) -> None:
    file = ProjectFile.open(path)
    wanted = edits.set_tab_flag(file.saved, file.saved.tabs[0].key, "note", "half a pair \ud800")
    with pytest.raises(SaveFailed):
        file.save(wanted)
    assert path.read_bytes() == OLD


def test_old_temporary_files_are_swept_and_new_ones_left(path: Path) -> None:
    old, young = path.parent / ".harbour.toml.aa.tmp", path.parent / ".harbour.toml.bb.tmp"
    for temporary in (old, young):
        temporary.write_text("x")
    os.utime(old, (1, 1))
    file, wanted = opened(path)
    file.save(wanted)
    assert leftovers(path) == [young.name]


# --- two writers


def elsewhere(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new))


def test_changes_on_both_sides_are_merged_and_their_comments_kept(path: Path) -> None:
    file, wanted = opened(path)
    elsewhere(path, "across = 4", "across = 5  # told by phone\n# one more remark")
    elsewhere(path, 'name = "Top as sewn"', 'name = "Sewn top"')
    elsewhere(path, "# end of the file", '[[tab]]\nname = "Theirs"\ncalculator = "binding"\n# the end')
    assert file.changed_on_disk()
    wanted = edits.add_tab(wanted, "Mine", "binding", at=0)
    wanted = edits.set_given(wanted, wanted.tab("Lantern blocks").key, "down", 6)
    done = file.save(wanted)
    assert done.merged
    now = ProjectFile.open(path).saved
    assert [t.name for t in now.tabs] == [
        "Mine",
        "Lantern blocks",
        "Sewn top",
        "Border walk",
        "Edge",
        "Theirs",
    ]
    assert now.tab("Lantern blocks").given["across"] == 5
    assert now.tab("Lantern blocks").given["down"] == 6
    assert now.tab("Edge").given["width"] == "61 in"
    assert "# told by phone" in path.read_text()
    assert "# one more remark" in path.read_text()
    assert done.project.tab("Edge").key == wanted.tab("Edge").key
    assert file.saved is done.project


def test_only_comments_changed_there(path: Path) -> None:
    file, wanted = opened(path)
    elsewhere(path, "# how wide?", "# how wide, though?")
    done = file.save(wanted)
    assert not done.merged
    assert done.project is wanted
    assert "# how wide, though?" in path.read_text()
    assert '"61 in"' in path.read_text()


@pytest.mark.parametrize(("side", "width"), [("mine", "61 in"), ("theirs", "62 in")])
def test_the_same_key_changed_on_both_sides_asks(path: Path, side: Any, width: str) -> None:
    file, wanted = opened(path)
    elsewhere(path, 'given = { width = "60 in"', 'given = { width = "62 in"')
    theirs = path.read_bytes()
    with pytest.raises(ChangedOnDisk) as caught:
        file.save(wanted)
    (conflict,) = caught.value.conflicts
    assert (conflict.where, conflict.mine, conflict.theirs) == (
        'tab "Edge" · given · width',
        "61 in",
        "62 in",
    )
    assert path.read_bytes() == theirs
    assert caught.value.theirs.tab("Edge").given["width"] == "62 in"
    file.save(wanted, on_conflict=side)
    assert ProjectFile.open(path).saved.tab("Edge").given["width"] == width


def test_a_tab_removed_there_and_changed_here_asks(path: Path) -> None:
    file, wanted = opened(path)
    other = ProjectFile.open(path)
    other.save(edits.remove_tab(other.saved, other.saved.tab("Edge").key))
    with pytest.raises(ChangedOnDisk, match="Edge"):
        file.save(wanted)
    # Untouched here, it simply goes.
    calm = ProjectFile.open(path)
    third = ProjectFile.open(path)
    third.save(edits.remove_tab(third.saved, third.saved.tab("Border walk").key))
    calm.save(edits.set_setting(calm.saved, "copies", 2))
    assert [t.name for t in ProjectFile.open(path).saved.tabs] == ["Lantern blocks", "Top as sewn"]


def test_a_tab_removed_here_and_changed_there_asks(path: Path) -> None:
    file = ProjectFile.open(path)
    wanted = edits.remove_tab(file.saved, file.saved.tab("Lantern blocks").key)
    elsewhere(path, "across = 4", "across = 5")
    with pytest.raises(ChangedOnDisk, match="Lantern blocks"):
        file.save(wanted)
    file.save(wanted, on_conflict="mine")
    assert [t.name for t in ProjectFile.open(path).saved.tabs] == ["Top as sewn", "Border walk", "Edge"]


def test_a_broken_file_there_is_not_overwritten(path: Path) -> None:
    file, wanted = opened(path)
    path.write_text("boltend = 1\n[tab")
    with pytest.raises(ProjectUnreadable):
        file.save(wanted)
    assert path.read_text() == "boltend = 1\n[tab"
    file.save_as(path.parent / "rescue.toml", wanted)
    assert same_plain(ProjectFile.open(path.parent / "rescue.toml").saved.to_plain(), wanted.to_plain())


def test_a_file_taken_away_is_written_again_and_said_so(path: Path) -> None:
    file, wanted = opened(path)
    path.unlink()
    assert "taken away" in file.save(wanted).note
    assert same_plain(read_bytes(path.read_bytes(), "x").project.to_plain(), wanted.to_plain())


def test_no_such_file(tmp_path: Path) -> None:
    with pytest.raises(ProjectUnreadable, match="no such file"):
        ProjectFile.open(tmp_path / "none.toml")
    with pytest.raises(ProjectUnreadable, match="this is a folder"):
        ProjectFile.open(tmp_path)


# What is no project: plans and pictures ----------------------------------------------------------------


def test_a_plan_that_finds_no_room_leaves_the_one_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = tmp_path / "plan.pdf"
    put_whole(plan, b"the first")
    assert plan.read_bytes() == b"the first"
    link = tmp_path / "link.pdf"
    link.symlink_to(plan)
    put_whole(link, b"the second")
    assert (link.is_symlink(), plan.read_bytes()) == (True, b"the second")

    def full(handle: int, data: object) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "write", full)
    with pytest.raises(OSError, match="No space"):
        put_whole(plan, b"the third")
    assert plan.read_bytes() == b"the second"
    assert sorted(each.name for each in tmp_path.iterdir()) == ["link.pdf", "plan.pdf"]


def test_what_is_no_file_is_written_to(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    try:
        put_whole(pipe, b"through")
        assert os.read(reader, 100) == b"through"
    finally:
        os.close(reader)
