"""Writing a file whole or not at all: temporary file, flush, read back, keep the last version, rename."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import stat
import time
from pathlib import Path

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
    """Replace (or make) `target` with `data`; a note where the disk did not confirm, else empty.

    Raises SaveFailed; then the old file is untouched and no temporary file stays behind.
    """
    temporary = target.with_name(f".{target.name}.{secrets.token_hex(6)}.tmp")
    fresh = False
    try:
        try:
            mode = _mode_of(target)
            fresh = mode is None
            _write_temporary(temporary, data, mode)
            _read_back(temporary, data)
            if mode is not None:
                _keep_last(target)
            os.replace(temporary, target)
        except OSError as error:
            raise _failed(target, error, fresh) from error
    finally:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
    note = _confirm(target.parent)
    _sweep(target)
    return note


def _mode_of(target: Path) -> int | None:
    """The permission bits of the file there, or None where there is none."""
    try:
        return stat.S_IMODE(os.stat(target).st_mode)
    except FileNotFoundError:
        return None


def _write_temporary(temporary: Path, data: bytes, mode: int | None) -> None:
    # 0600 at first: nobody else may read a private project while it is being written.
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    handle = os.open(temporary, flags, 0o666 if mode is None else 0o600)
    try:
        write_all(handle, data)
        if mode is not None and hasattr(os, "fchmod"):
            os.fchmod(handle, mode)
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
            _write_temporary(beside, data, _mode_of(target))
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
