"""The projects that were open last: a small file in the person's state folder. Knows no screen."""

import contextlib
import json
import os
import secrets
from pathlib import Path
from typing import NamedTuple

from boltend.core.project.recovery import state_folder

MOST = 10
"""Projects that are remembered."""


class Recent(NamedTuple):
    """A project file that was open; its project's name as it was then, or empty."""

    path: Path
    name: str = ""

    @property
    def missing(self) -> bool:
        """Whether the file is not there any more, or cannot be reached."""
        try:
            return not self.path.is_file()
        except OSError:
            return True


def recent_file() -> Path:
    """The file that holds them: a JSON list of `{"path": …, "name": …}`, the newest first."""
    return state_folder() / "recent.json"


def recents() -> list[Recent]:
    """The projects that were open last, newest first. A list that cannot be read counts as empty."""
    try:
        data = json.loads(recent_file().read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return []
    kept: list[Recent] = []
    for row in data if isinstance(data, list) else ():
        if isinstance(row, dict) and isinstance(row.get("path"), str) and row["path"]:
            kept.append(Recent(Path(row["path"]), row["name"] if isinstance(row.get("name"), str) else ""))
    return kept[:MOST]


def remember(path: Path, name: str) -> None:
    """Put a project on top of the list. Where that cannot be written, nothing is lost but the reminder."""
    try:
        # As typed, but whole: a link that the person made keeps its own name.
        whole = Path(os.path.abspath(path))
    except OSError:  # the folder that we are in is gone
        return
    _write([Recent(whole, name), *(r for r in recents() if not _same(r.path, whole))])


def forget(path: Path) -> None:
    """Take a project off the list; its file is left alone."""
    _write([r for r in recents() if not _same(r.path, path)])


def _same(one: Path, other: Path) -> bool:
    return os.path.realpath(one) == os.path.realpath(other)


def _write(kept: list[Recent]) -> None:
    rows = [{"path": str(r.path), "name": r.name} for r in kept[:MOST]]
    target = recent_file()
    beside = target.with_name(f".{target.name}.{secrets.token_hex(4)}.tmp")
    try:
        text = json.dumps(rows, ensure_ascii=True, indent=1) + "\n"  # ASCII: a path may hold any bytes
        target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        beside.write_text(text, encoding="utf-8")
        os.replace(beside, target)
    except (OSError, ValueError):
        with contextlib.suppress(OSError):
            beside.unlink()
