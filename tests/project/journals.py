"""The journals of a project file: begun, left by a crash, offered again."""

from __future__ import annotations

import os
from pathlib import Path

from boltend.core.project.recovered import Recovered, recover
from boltend.core.project.recovery import Journal
from boltend.core.project.saving import ProjectFile

opened: list[Journal] = []


def begin(path: Path) -> tuple[ProjectFile, Journal]:
    file = ProjectFile.open(path)
    journal = Journal(file)
    opened.append(journal)
    return file, journal


def crash(journal: Journal) -> None:
    """What the system does for a killed process: its handles close, so its lock goes; nothing else runs."""
    if journal._handle is not None:
        os.close(journal._handle)
        journal._handle = None


def offered(path: Path) -> Recovered:
    found = recover(ProjectFile.open(path))
    assert found is not None
    return found
