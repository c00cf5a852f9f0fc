"""What stands where a project file should: folders, pipes, devices, links, odd names, another clock."""

from __future__ import annotations

import os
import socket
import stat
import sys
import threading
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project import edits
from boltend.core.project.file_bytes import LIMIT
from boltend.core.project.plain import same_plain
from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.recovered import recover
from boltend.core.project.recovery import Journal
from boltend.core.project.saving import ChangedOnDisk, ProjectFile
from boltend.core.project.whole_file import SaveFailed
from boltend.shell.desk import Desk

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="pipes, devices and links as Unix has them")

QUILT = """\
boltend = 1
# two tabs, and a comment that stays

[[tab]]
name = "Edge"
calculator = "binding"
[tab.given]
width = "60 in"
height = "70 in"

[[tab]]
name = "Top"
calculator = "straight_set"
[tab.given]
across = 4
"""


@pytest.fixture(name="path")
def _path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BOLTEND_STATE", str(tmp_path / "state"))
    folder = tmp_path / "quilts"
    folder.mkdir()
    path = folder / "lantern.toml"
    path.write_text(QUILT, encoding="utf-8")
    return path


def edited(file: ProjectFile, width: str = "61 in") -> Any:
    return edits.set_given(file.saved, file.saved.tab("Edge").key, "width", width)


def in_time(work: Callable[[], Any], seconds: float = 5.0) -> Any:
    """What a call gives or raises; a call that hangs fails the test and does not hang it."""
    done: list[Any] = []

    def run() -> None:
        try:
            done.append(work())
        except Exception as error:  # handed over to the test
            done.append(error)

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    thread.join(seconds)
    assert done, "it hangs"
    return done[0]


def _socket(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as end:
        # The name of a socket may have 107 bytes at most, which a folder of pytest's can exceed.
        home = Path.cwd()
        os.chdir(path.parent)
        try:
            end.bind(path.name)
        finally:
            os.chdir(home)


def _sparse(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(100_000_000)


ODD: dict[str, tuple[Callable[[Path], Any], str]] = {
    "a folder": (Path.mkdir, "this is a folder"),
    "a pipe that nobody writes": (os.mkfifo, "this is a pipe"),
    "a socket": (_socket, "cannot be read"),
    "a device without an end": (lambda p: p.symlink_to("/dev/zero"), "this is a device"),
    "a device with nothing": (lambda p: p.symlink_to("/dev/null"), "this is a device"),
    "a link in a circle": (lambda p: p.symlink_to(p.name), "leads round in a circle"),
    "100 MB": (_sparse, "larger than 2 MB"),
    "a NUL": (lambda p: p.write_bytes(b"boltend = 1\n\0"), "lantern.toml:2:1"),
    "UTF-16": (lambda p: p.write_bytes(QUILT.encode("utf-16")), "not UTF-8"),
    "UTF-16 without a mark": (lambda p: p.write_bytes(QUILT.encode("utf-16-le")), "lantern.toml:1:2"),
    "somebody else's text": (lambda p: p.write_text("Dear all,\n"), "lantern.toml:1"),
}


@pytest.mark.parametrize("odd", ODD)
def test_what_is_no_project_file_is_refused_at_once_and_in_words(path: Path, odd: str) -> None:
    make, words = ODD[odd]
    path.unlink()
    make(path)
    tracemalloc.start()
    found = in_time(lambda: ProjectFile.open(path))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert isinstance(found, ProjectUnreadable)
    assert words in str(found)
    assert found.way_out
    assert peak < 4 * LIMIT


@pytest.mark.parametrize("odd", ODD)
def test_what_is_put_there_under_an_open_project_is_left_alone(path: Path, odd: str) -> None:
    file = ProjectFile.open(path)
    journal = Journal(file)
    wanted = edited(file)
    journal.edited(wanted)
    path.unlink()
    ODD[odd][0](path)
    there = os.lstat(path)
    assert in_time(file.changed_on_disk) is True
    said = in_time(lambda: file.save(wanted))
    assert isinstance(said, ProjectUnreadable)
    assert "save as another file" in str(said)
    assert os.path.samestat(os.lstat(path), there)
    # What was typed goes into another file; and it is offered as soon as a file is there again.
    os.close(journal._handle or 0)
    path.rmdir() if odd == "a folder" else path.unlink()
    path.write_text(QUILT, encoding="utf-8")
    found = recover(ProjectFile.open(path))
    assert found is not None
    assert same_plain(found.project.to_plain(), wanted.to_plain())
    rescue = path.with_name("rescue.toml")
    file.save_as(rescue, wanted)
    assert same_plain(ProjectFile.open(rescue).saved.to_plain(), wanted.to_plain())
    assert "# two tabs" in rescue.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["a\0b.toml", "x" * 300 + ".toml", "lantern.toml/below.toml"])
def test_names_that_no_file_can_have(path: Path, name: str) -> None:
    with pytest.raises(ProjectUnreadable) as caught:
        ProjectFile.open(path.parent / name)
    assert caught.value.way_out


def test_a_name_of_odd_bytes(path: Path) -> None:
    """Bytes that are no UTF-8: opened, saved, journalled, and shown without a control character."""
    odd = Path(os.fsdecode(os.fsencode(path.parent) + b"/l\xffn\x1b[31mt\xc3.toml"))
    path.rename(odd)
    file = ProjectFile.open(odd)
    journal = Journal(file)
    journal.edited(edited(file, "62 in"))
    assert journal.trouble == ""
    os.close(journal._handle or 0)
    assert recover(ProjectFile.open(odd)) is not None
    file.save(edited(file))
    assert 'width = "61 in"' in odd.read_text(encoding="utf-8")
    for problem in file.problems():
        str(problem)


# --- links


def test_a_link_into_another_folder(path: Path) -> None:
    link = path.parent.parent / "here.toml"
    link.symlink_to(path)
    file = ProjectFile.open(link)
    file.save(edited(file))
    assert link.is_symlink()
    assert 'width = "61 in"' in path.read_text(encoding="utf-8")
    assert file.before == path.with_name(".lantern.toml.before")
    assert sorted(p.name for p in link.parent.iterdir()) == ["here.toml", "quilts"]


def test_both_names_of_a_linked_file_share_one_journal(path: Path) -> None:
    link = path.with_name("link.toml")
    link.symlink_to(path)
    file = ProjectFile.open(link)
    journal = Journal(file)
    journal.edited(edited(file))
    os.close(journal._handle or 0)
    assert recover(ProjectFile.open(path)) is not None


def test_a_link_to_nothing_becomes_the_file_that_it_names(path: Path) -> None:
    link = path.with_name("link.toml")
    link.symlink_to("later.toml")
    with pytest.raises(ProjectUnreadable, match="no such file"):
        ProjectFile.open(link)
    desk = Desk.open(str(link))  # the shell offers to make it
    desk.edit(edits.add_tab(desk.project, "One", "binding"), "a tab")
    desk.saved(desk.save())
    assert link.is_symlink()
    assert 'name = "One"' in path.with_name("later.toml").read_text(encoding="utf-8")
    desk.close().result(30)


def test_a_link_into_a_folder_that_is_not_there(path: Path) -> None:
    link = path.with_name("link.toml")
    link.symlink_to("nowhere/later.toml")
    file = ProjectFile.new(link)
    with pytest.raises(SaveFailed, match="folder is gone"):
        file.save(edits.add_tab(file.saved, "One", "binding"))


def test_a_hard_link_is_told_once(path: Path) -> None:
    other = path.with_name("other name.toml")
    os.link(path, other)
    file = ProjectFile.open(path)
    assert "another name" in file.save(edited(file)).note
    assert other.read_text(encoding="utf-8") == QUILT
    assert file.save(edited(file, "62 in")).note == ""


def test_the_name_that_a_crash_left_is_none_of_the_persons(path: Path) -> None:
    """Killed between keeping the last version and replacing the file, the two are one file."""
    os.link(path, path.with_name(".lantern.toml.before"))
    file = ProjectFile.open(path)
    assert file.save(edited(file)).note == ""


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root may give files away")
def test_a_file_that_root_saves_stays_its_owners(path: Path) -> None:
    os.chown(path, 1234, 2345)
    path.chmod(0o600)
    file = ProjectFile.open(path)
    file.save(edited(file))
    now = path.stat()
    assert (now.st_uid, now.st_gid, stat.S_IMODE(now.st_mode)) == (1234, 2345, 0o600)


# --- clocks


@pytest.mark.parametrize("moment", [0, 1, 2**31 + 7, 4_000_000_000])
def test_a_clock_that_jumps_hides_no_change(path: Path, moment: int) -> None:
    """Another content of the same size and the same moment is noticed: contents are compared, not clocks."""
    os.utime(path, (moment, moment))
    file = ProjectFile.open(path)
    wanted = edited(file)
    path.write_text(QUILT.replace('"70 in"', '"72 in"'), encoding="utf-8")
    os.utime(path, (moment, moment))
    assert file.changed_on_disk()
    done = file.save(wanted)
    assert done.merged
    text = path.read_text(encoding="utf-8")
    assert 'width = "61 in"' in text
    assert 'height = "72 in"' in text


def test_the_same_place_changed_at_the_same_moment_is_asked(path: Path) -> None:
    file = ProjectFile.open(path)
    was = path.stat()
    path.write_text(QUILT.replace('"60 in"', '"66 in"'), encoding="utf-8")
    os.utime(path, ns=(was.st_atime_ns, was.st_mtime_ns))
    with pytest.raises(ChangedOnDisk, match="width"):
        file.save(edited(file))
    assert '"66 in"' in path.read_text(encoding="utf-8")


def test_a_journal_from_the_future_or_from_long_ago_is_offered(path: Path) -> None:
    file = ProjectFile.open(path)
    journal = Journal(file)
    journal.edited(edited(file))
    assert journal.path is not None
    os.close(journal._handle or 0)
    for moment in (0, 4_000_000_000):
        os.utime(journal.path, (moment, moment))
        assert recover(file) is not None


# --- another file under it


def test_another_inode_of_the_same_content_is_no_change(path: Path) -> None:
    file = ProjectFile.open(path)
    twin = path.with_name("twin")
    twin.write_text(QUILT, encoding="utf-8")
    os.replace(twin, path)
    assert not file.changed_on_disk()
    file.save(edited(file))
    assert 'width = "61 in"' in path.read_text(encoding="utf-8")


def test_a_folder_that_was_moved_away_and_came_back(path: Path) -> None:
    file = ProjectFile.open(path)
    wanted = edited(file)
    aside = path.parent.with_name("aside")
    path.parent.rename(aside)
    with pytest.raises(SaveFailed, match="folder is gone"):
        file.save(wanted)
    aside.rename(path.parent)
    file.save(wanted)
    assert 'width = "61 in"' in path.read_text(encoding="utf-8")


def test_a_project_that_could_not_be_opened_again_is_not_saved(path: Path) -> None:
    file = ProjectFile.open(path)
    wanted = edits.set_tab_flag(file.saved, file.saved.tab("Edge").key, "note", "long " * (LIMIT // 5))
    with pytest.raises(SaveFailed, match="larger than 2 MB") as caught:
        file.save(wanted)
    assert path.read_text(encoding="utf-8") == QUILT
    assert caught.value.way_out
