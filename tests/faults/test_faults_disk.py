"""Disks that are full, small or read-only, and two Boltends on one file: what is kept, and what is said."""

from __future__ import annotations

import itertools
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from boltend.core.project import edits
from boltend.core.project.plain import same_plain
from boltend.core.project.reading import read_bytes
from boltend.core.project.recovered import recover
from boltend.core.project.recovery import Journal
from boltend.core.project.saving import ChangedOnDisk, ProjectFile
from boltend.core.project.whole_file import PATIENCE, SaveFailed, before_path, in_turn

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="limits and mounts as Unix has them")

QUILT = 'boltend = 1\n# stays\n[project]\nname = "Lantern"\n' + "".join(
    f'\n[[tab]]\nname = "Tab {n}"\ncalculator = "binding"\n[tab.given]\nwidth = "60 in"\nheight = "70 in"\n'
    for n in range(40)
)
ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


def long_note(project: Any, letters: int = 3000) -> Any:
    return edits.set_tab_flag(project, project.tabs[0].key, "note", "n" * letters)


def whole(path: Path, *plains: Any) -> bool:
    """Whether the file is one of these versions, whole."""
    said = read_bytes(path.read_bytes(), path.name).project.to_plain()
    return any(same_plain(said, plain) for plain in plains)


# --- a disk with room for so many bytes


def run(code: str, *words: str | Path, **how: Any) -> dict[str, Any]:
    """A program of its own, which prints one JSON object."""
    done = subprocess.run(
        [sys.executable, "-c", code, *map(str, words)],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        **how,
    )
    assert done.returncode == 0, done.stderr
    said: dict[str, Any] = json.loads(done.stdout)
    return said


LIMITED = """
import json, resource, signal, sys
from pathlib import Path
from boltend.core.project import edits, text_edit
from boltend.core.project.saving import ProjectFile
from boltend.core.project.recovery import Journal
from boltend.core.project.whole_file import SaveFailed
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)  # then a write past the limit fails, as on a full disk
path, room, said = Path(sys.argv[1]), int(sys.argv[2]), {}
file = ProjectFile.open(path)
journal = Journal(file)
wanted = edits.set_tab_flag(file.saved, file.saved.tabs[0].key, "note", "n" * 3000)
small = edits.set_tab_flag(file.saved, file.saved.tabs[0].key, "note", "small")
journal.edited(small)
resource.setrlimit(resource.RLIMIT_FSIZE, (room, resource.RLIM_INFINITY))
journal.edited(wanted)
said["trouble"] = journal.trouble
try:
    file.save(wanted)
    said["saved"] = True
except SaveFailed as error:
    said |= {"saved": False, "safe": error.safe, "way_out": error.way_out}
print(json.dumps(said))
"""


@pytest.mark.parametrize("room", [0, 1, 100, 4000, 6000, 100_000])
def test_room_for_so_many_bytes_a_file(tmp_path: Path, room: int) -> None:
    path = tmp_path / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    env = {**os.environ, "BOLTEND_STATE": str(tmp_path / "state")}
    said = run(LIMITED, path, str(room), env=env)
    file = ProjectFile.open(path)
    old = file.saved.to_plain() if not said["saved"] else {}
    assert said["saved"] == (room == 100_000)
    if not said["saved"]:
        assert path.read_text(encoding="utf-8") == QUILT
        assert "whole and as it was" in said["safe"]
        assert said["way_out"]
        assert [p.name for p in tmp_path.iterdir() if p.name.endswith(".tmp")] == []
    os.environ["BOLTEND_STATE"] = env["BOLTEND_STATE"]
    try:
        found = recover(file)
    finally:
        del os.environ["BOLTEND_STATE"]
    if said["trouble"]:
        # The last edit did not fit; it was said so, and the one before it is offered, whole.
        assert "Save the project" in said["trouble"]
        assert found is not None
        assert found.project.tabs[0].note == "small"
        assert found.project.to_plain() != old
    elif found is not None:
        assert found.project.tabs[0].note == "n" * 3000


@pytest.fixture(name="small_disk")
def _small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 64 kB, where root may mount one."""
    if not ROOT or not sys.platform.startswith("linux"):
        pytest.skip("only root may mount a disk; the limits above stand for it")
    folder = tmp_path / "disk"
    folder.mkdir()
    call = ["mount", "-t", "tmpfs", "-o", "size=64k", "boltend-test", str(folder)]
    if subprocess.run(call, capture_output=True, check=False).returncode != 0:
        pytest.skip("no disk can be mounted here; the limits above stand for it")
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=True)


def fill(disk: Path, leave: int) -> Path:
    """Fill a disk but for so many bytes."""
    filler = disk / "filler"
    with filler.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(b"x" * 4096)
        except OSError:
            pass
    os.truncate(filler, max(filler.stat().st_size - leave, 0))
    return filler


@pytest.mark.parametrize("leave", [0, 4096, 8192, 12288, 20480])
def test_a_disk_that_is_really_full(small_disk: Path, leave: int) -> None:
    path = small_disk / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    file = ProjectFile.open(path)
    wanted = long_note(file.saved)
    filler = fill(small_disk, leave)
    failed: SaveFailed | None = None
    try:
        file.save(wanted)
    except SaveFailed as error:
        failed = error
    if failed is not None:
        assert "disk is full" in failed.way_out
        assert path.read_text(encoding="utf-8") == QUILT
        assert sorted(p.name for p in small_disk.iterdir()) == ["filler", "q.toml"]
        filler.unlink()
        file.save(wanted)
    assert whole(path, wanted.to_plain())
    assert before_path(path).read_text(encoding="utf-8") == QUILT


def test_a_full_disk_for_the_journal_alone(
    small_disk: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Saving goes on; the person is told; with room again the next edit carries all that was missed."""
    monkeypatch.setenv("BOLTEND_STATE", str(small_disk / "state"))
    path = tmp_path / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    file = ProjectFile.open(path)
    journal = Journal(file)
    first = edits.set_setting(file.saved, "copies", 2)
    journal.edited(first)
    assert journal.trouble == ""
    filler = fill(small_disk, 0)
    second = long_note(first, 30_000)
    journal.edited(second)
    assert "Save the project" in journal.trouble
    filler.unlink()
    third = edits.set_setting(second, "copies", 3)
    journal.edited(third)
    assert journal.trouble == ""
    os.close(journal._handle or 0)
    found = recover(ProjectFile.open(path))
    assert found is not None
    assert same_plain(found.project.to_plain(), third.to_plain())
    file.save(third)
    assert whole(path, third.to_plain())


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device of Linux")
@pytest.mark.parametrize("form", ["text", "json", "html", "pdf"])
def test_output_that_finds_no_room(tmp_path: Path, form: str) -> None:
    """`boltend print quilt.toml > file` on a full disk: words and an exit code, no traceback."""
    path = tmp_path / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    call = [sys.executable, "-m", "boltend", "print", str(path), "--as", form]
    with open("/dev/full", "wb") as full:
        done = subprocess.run(call, stdout=full, stderr=-1, timeout=60, check=False)
    assert done.returncode == 2
    assert b"No space left" in done.stderr
    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr


# --- a folder in which nothing can be written

NOBODY = """
import fcntl, json, os, sys
from pathlib import Path
from boltend.core.project import edits, text_edit
from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.recovery import Journal
from boltend.core.project.saving import ProjectFile
from boltend.core.project.whole_file import SaveFailed
path, said = Path(sys.argv[1]), {}
if os.geteuid() == 0:  # last: this Python itself may lie where nobody else can read
    os.setgroups([]); os.setgid(65534); os.setuid(65534)
try:
    file = ProjectFile.open(path)
except ProjectUnreadable as error:
    print(json.dumps({"unreadable": str(error)})); sys.exit()
journal = Journal(file)
wanted = edits.set_setting(file.saved, "copies", 2)
journal.edited(wanted)
try:
    file.save(wanted)
    said["saved"] = True
except SaveFailed as error:
    said |= {"saved": False, "safe": error.safe, "way_out": error.way_out}
said["trouble"] = journal.trouble
print(json.dumps(said))
"""


@pytest.mark.parametrize(
    ("folder", "file", "words"),
    [
        (0o555, 0o666, "You may not write in this folder"),
        (0o777, 0o444, ""),  # a file that only says so is replaced whole, as editors do; its mode stays
        (0o777, 0o000, "Check its permissions"),
        (0o000, 0o666, "Check its permissions"),
    ],
)
def test_what_somebody_else_may_not_do(folder: int, file: int, words: str) -> None:
    with tempfile.TemporaryDirectory() as made:  # pytest's own folders let nobody else in
        where = Path(made) / "theirs"
        where.mkdir()
        Path(made).chmod(0o755)
        _as_nobody(where, folder, file, words)


def _as_nobody(where: Path, folder: int, file: int, words: str) -> None:
    path = where / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    path.chmod(file)
    where.chmod(folder)
    env = {**os.environ, "BOLTEND_STATE": str(where / "state")}
    said = run(NOBODY, path, env=env)
    where.chmod(0o777)
    path.chmod(path.stat().st_mode | 0o400)
    if "unreadable" in said:
        assert words in said["unreadable"]
    elif words:
        assert not said["saved"]
        assert words in said["way_out"]
        assert "Save the project" in said["trouble"], "a journal that cannot be kept is told, too"
    else:
        assert said["saved"]
        assert path.stat().st_mode & 0o377 == file & 0o377
    assert (path.read_text(encoding="utf-8") == QUILT) == bool(words)


def test_a_disk_that_may_only_be_read(small_disk: Path) -> None:
    path = small_disk / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    file = ProjectFile.open(path)
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    with pytest.raises(SaveFailed, match="read-only: save somewhere else"):
        file.save(long_note(file.saved))
    assert path.read_text(encoding="utf-8") == QUILT
    assert [p.name for p in small_disk.iterdir()] == ["q.toml"]


# --- two Boltends on one file

WRITER = """
import sys, time
from pathlib import Path
from boltend.core.project import edits
from boltend.core.project.saving import ProjectFile
from boltend.core.project.whole_file import SaveFailed
path, tab, times = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
file = ProjectFile.open(path)
project, again = file.saved, 0
for number in range(1, times + 1):
    project = edits.set_given(project, project.tabs[tab].key, "width", f"{number} in")
    if number % 5 == 0:
        project = edits.set_given(project, project.tabs[tab].key, f"own_{number}", f"{number} in")
    for _ in range(50):
        try:
            project = file.save(project).project
            break
        except SaveFailed as error:
            assert "while it was being saved" in str(error), error
            again += 1
    else:
        raise SystemExit("never saved")
print('{"again": %d}' % again)
"""
TIMES = 40


def test_two_that_save_at_full_speed_lose_nothing(tmp_path: Path) -> None:
    """Eighty saves of two processes, as they come: each side's last value and every key is there."""
    path = tmp_path / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    both = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(path), str(tab), str(TIMES)], stdout=-1, stderr=-1
        )
        for tab in (0, 1)
    ]
    for one in both:
        _, complaint = one.communicate(timeout=120)
        assert one.returncode == 0, complaint.decode()
    project = ProjectFile.open(path).saved
    for tab in (0, 1):
        given = project.tabs[tab].given
        assert given["width"] == f"{TIMES} in"
        assert [k for k in given if k.startswith("own_")] == [f"own_{n}" for n in range(5, TIMES + 1, 5)]
    assert "# stays" in path.read_text(encoding="utf-8")
    assert sorted(p.name for p in tmp_path.iterdir()) == [".q.toml.before", "q.toml"]


def test_one_that_holds_the_folder_too_long_does_not_stop_the_other(tmp_path: Path) -> None:
    path = tmp_path / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    file = ProjectFile.open(path)
    before = time.monotonic()
    with in_turn(path):
        file.save(edits.set_setting(file.saved, "copies", 2))
    assert PATIENCE * 0.9 < time.monotonic() - before < PATIENCE + 5
    assert ProjectFile.open(path).saved.settings["copies"] == 2


def test_a_folder_that_cannot_be_locked_is_saved_in_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import fcntl

    def no_locks(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    path = tmp_path / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    file = ProjectFile.open(path)
    monkeypatch.setattr(fcntl, "flock", no_locks)
    file.save(edits.set_setting(file.saved, "copies", 2))
    assert ProjectFile.open(path).saved.settings["copies"] == 2


SIDES: dict[str, Callable[[Any], Any]] = {
    "replaced": lambda p: edits.set_given(p, p.tabs[0].key, "width", "1 in"),
    "removed": lambda p: edits.set_given(p, p.tabs[0].key, "width", None),
    "tab removed": lambda p: edits.remove_tab(p, p.tabs[0].key),
}


@pytest.mark.parametrize(("mine", "theirs"), [*itertools.permutations(SIDES, 2)])
def test_two_who_change_the_same_are_asked_and_both_versions_are_kept(
    tmp_path: Path, mine: str, theirs: str
) -> None:
    path = tmp_path / "q.toml"
    path.write_text(QUILT, encoding="utf-8")
    first, second = ProjectFile.open(path), ProjectFile.open(path)
    first.save(SIDES[theirs](first.saved))
    there = path.read_bytes()
    wanted = SIDES[mine](second.saved)
    with pytest.raises(ChangedOnDisk):
        second.save(wanted)
    assert path.read_bytes() == there
    second.save(wanted, "mine")
    assert before_path(path).read_bytes() == there, "what was there is kept beside it"
