"""The bytes of a project file: never of a pipe or a device, and never more than a project may have."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

from boltend.core.project.problems import ProjectUnreadable

LIMIT = 2_000_000
"""The most bytes that a project file may have: a thousand tabs take about half a megabyte."""

_WAYS = {
    errno.EACCES: "Check its permissions.",
    errno.EPERM: "Check its permissions.",
    errno.ELOOP: "It is a link that leads round in a circle: remove it, or name the file itself.",
    errno.ENAMETOOLONG: "Take a shorter name.",
    errno.ENOTDIR: "A part of its path is a file and no folder: check the path.",
    errno.EIO: "The disk does not give it back: copy what you can, and try again.",
    errno.ESTALE: "The disk it lies on went away meanwhile: open it again.",
}
_SORTS = {stat.S_IFIFO: "a pipe", stat.S_IFSOCK: "a socket"}


def bytes_of(path: Path, *, pipes: bool = False) -> bytes | None:
    """The bytes there, or None where there is no file; one byte more than `LIMIT` at most.

    Raises ProjectUnreadable where it cannot be read. A pipe would keep the shell waiting, and a device may
    never end: nothing is read of either. With `pipes` one that was handed to this process is read to its end.
    """
    try:
        waits = pipes and _handed(path) and stat.S_ISFIFO(os.stat(path).st_mode)
        with open(path, "rb", opener=None if waits else _without_waiting) as file:
            sort = stat.S_IFMT(os.fstat(file.fileno()).st_mode)
            if sort != stat.S_IFREG and not (waits and sort == stat.S_IFIFO):
                what = _SORTS.get(sort, "a device")
                way = (
                    "Write what comes out of it into a file."
                    if sort == stat.S_IFIFO
                    else "Name a project file."
                )
                raise ProjectUnreadable(str(path), f"this is {what}, not a file.", way)
            return file.read(LIMIT + 1)
    except FileNotFoundError:
        return None
    except (OSError, ValueError) as error:
        raise _unreadable(path, error) from error


def _handed(path: Path) -> bool:
    """Whether a path names what this process was begun with, as `/dev/stdin`: there somebody writes."""
    return str(path) == "/dev/stdin" or str(path.parent) in ("/dev/fd", "/proc/self/fd")


def _without_waiting(path: str, flags: int) -> int:
    """Opening a pipe waits for its other end, unless it is told not to."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def _unreadable(path: Path, error: OSError | ValueError) -> ProjectUnreadable:
    number = getattr(error, "errno", None)
    if number == errno.EISDIR:
        return ProjectUnreadable(str(path), "this is a folder, not a file.", "Name a project file.")
    reason = getattr(error, "strerror", None) or error
    way_out = _WAYS.get(number or 0, "Check its name and its permissions.")
    return ProjectUnreadable(str(path), f"it cannot be read ({reason}).", way_out)
