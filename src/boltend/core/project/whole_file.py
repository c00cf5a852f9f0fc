"""Writing a file whole or not at all: temporary file, flush, read back, keep the last version, rename."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import stat
import sys
import time
from collections.abc import Iterator
from pathlib import Path

PATIENCE = 2.0
"""Seconds that a save waits for another one in the same folder; a save takes hundredths of one."""

STALE_AFTER = 600.0
"""Seconds after which a temporary file of ours must be left from a crash: no save takes so long."""


class SaveFailed(Exception):
    """The file could not be written. `safe` says what is still whole, `way_out` what would do."""

    def __init__(self, why: str, safe: str, way_out: str = "") -> None:
        super().__init__(" ".join(part for part in (why, safe, way_out) if part))
        self.why, self.safe, self.way_out = why, safe, way_out


def before_path(target: Path) -> Path:
    """Where the last version of a file is kept: `.NAME.before`, beside it."""
    return target.with_name(f".{target.name}.before")


def real_path(path: Path) -> Path:
    """The file that a path means, through symlinks: a link stays a link, its target is written."""
    return Path(os.path.realpath(path))


def write_whole(target: Path, data: bytes) -> str:
    """Replace (or make) `target` with `data`; a note where there is something to tell, else empty.

    Raises SaveFailed; then the old file is untouched and no temporary file stays behind.
    """
    temporary = target.with_name(f".{target.name}.{secrets.token_hex(6)}.tmp")
    fresh, note = False, ""
    try:
        try:
            old = _stat_of(target)
            fresh = old is None
            _write_temporary(temporary, data, old)
            _read_back(temporary, data)
            if old is not None:
                note = _other_names(target, old)
                _keep_last(target)
            os.replace(temporary, target)
        except OSError as error:
            raise _failed(target, error, fresh) from error
    finally:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
    note = " ".join(part for part in (note, _confirm(target.parent)) if part)
    _sweep(target)
    return note


def put_whole(path: Path, data: bytes) -> None:
    """Write a plan or a picture whole or not at all: a full disk does not cut short the one before.

    What is there and is no file (a pipe, a terminal) is written to. Raises OSError.
    """
    target = real_path(path)
    old = _stat_of(target)
    if old is not None and not stat.S_ISREG(old.st_mode):
        path.write_bytes(data)
        return
    temporary = target.with_name(f".{target.name[:100]}.{secrets.token_hex(6)}.tmp")
    try:
        _write_temporary(temporary, data, old)
        os.replace(temporary, target)
    finally:
        with contextlib.suppress(OSError):
            os.unlink(temporary)


def _stat_of(target: Path) -> os.stat_result | None:
    """What the system knows of the file there, or None where there is none."""
    try:
        return os.stat(target)
    except FileNotFoundError:
        return None


def _other_names(target: Path, old: os.stat_result) -> str:
    """A note where the file bears another name of the person's: that one is not written."""
    try:
        ours = os.path.samestat(old, os.stat(before_path(target)))  # left by a crash in the middle of a save
    except OSError:
        ours = False
    if old.st_nlink - ours <= 1:
        return ""
    return "The file has another name somewhere (a hard link); under that it stays as it was before."


def _write_temporary(temporary: Path, data: bytes, old: os.stat_result | None) -> None:
    # 0600 at first: nobody else may read a private project while it is being written.
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    handle = os.open(temporary, flags, 0o666 if old is None else 0o600)
    try:
        write_all(handle, data)
        if old is not None and hasattr(os, "fchmod"):
            if os.geteuid() == 0:  # saved by root, the file stays its owner's
                with contextlib.suppress(OSError):
                    os.fchown(handle, old.st_uid, old.st_gid)
            os.fchmod(handle, stat.S_IMODE(old.st_mode))
        os.fsync(handle)
    finally:
        os.close(handle)


def write_all(handle: int, data: bytes) -> None:
    """Write every byte: one `write` may take only a part."""
    view = memoryview(data)
    while view:
        written = os.write(handle, view)
        if written <= 0:
            raise OSError(errno.EIO, "nothing could be written")
        view = view[written:]


@contextlib.contextmanager
def in_turn(target: Path) -> Iterator[None]:
    """Let one Boltend after the other save in a folder, so that each sees what the one before it wrote.

    Where a folder cannot be locked (some network disks), or another holds it too long, go on all the same:
    what is replaced then stays as `.NAME.before`.
    """
    handle = -1
    if sys.platform != "win32":
        import fcntl  # Unix only, so not at the top

        with contextlib.suppress(OSError):
            handle = os.open(target.parent, os.O_RDONLY)
            until = time.monotonic() + PATIENCE
            while time.monotonic() < until:
                try:
                    fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
                    break
                except BlockingIOError:
                    time.sleep(0.01)
    try:
        yield
    finally:
        if handle >= 0:
            with contextlib.suppress(OSError):
                os.close(handle)


def _read_back(temporary: Path, data: bytes) -> None:
    if temporary.read_bytes() != data:
        raise OSError(errno.EIO, "what was written does not read back the same")


def _keep_last(target: Path) -> None:
    """Keep the version on disk as `.NAME.before`: a second name for it, or a copy where that cannot be."""
    beside = target.with_name(f".{target.name}.{secrets.token_hex(6)}.tmp")
    try:
        try:
            os.link(target, beside)
        except OSError:
            data = target.read_bytes()
            _write_temporary(beside, data, _stat_of(target))
            _read_back(beside, data)
        os.replace(beside, before_path(target))
    finally:
        with contextlib.suppress(OSError):
            os.unlink(beside)


def _confirm(folder: Path) -> str:
    """Flush the folder, so that the new name survives a power cut. The file is in place already."""
    if os.name == "nt":
        return ""  # Windows has no way to flush a folder
    try:
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
    except OSError as error:
        if error.errno in (errno.EINVAL, errno.ENOTSUP):
            return ""  # a file system that cannot do it says so with these
        return f"Saved, but the disk did not confirm it ({error.strerror or error})."
    return ""


def _sweep(target: Path) -> None:
    """Remove temporary files that a crash left beside the target long ago."""
    with contextlib.suppress(OSError):
        for path in target.parent.iterdir():
            ours = path.name.startswith(f".{target.name}.") and path.name.endswith(".tmp")
            if ours and time.time() - path.stat().st_mtime > STALE_AFTER:
                path.unlink()


def _failed(target: Path, error: OSError, fresh: bool) -> SaveFailed:
    reason = error.strerror or str(error)
    ways = {
        errno.ENOSPC: "The disk is full: make room, or save somewhere else.",
        errno.EDQUOT: "Your share of the disk is used up: make room, or save somewhere else.",
        errno.EACCES: "You may not write in this folder: save somewhere else, or change its permissions.",
        errno.EPERM: "You may not write in this folder: save somewhere else, or change its permissions.",
        errno.EROFS: "This disk is read-only: save somewhere else.",
        errno.ENOENT: "The folder is gone: make it again, or save somewhere else.",
    }
    way = ways.get(error.errno or 0, "Try again, or save somewhere else.")
    safe = "No file was made." if fresh else "The file on disk is whole and as it was."
    return SaveFailed(f"{target.name} could not be saved ({reason}).", safe, way)
