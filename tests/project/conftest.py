"""A project file with a state folder of its own; its journals are closed at the end."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))  # test modules stand alone under --import-mode=importlib
from journals import opened
from quilts import HARBOUR


@pytest.fixture(name="path")
def _path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    monkeypatch.setenv("BOLTEND_STATE", str(tmp_path / "state"))
    file = tmp_path / "harbour.toml"
    file.write_text(HARBOUR)
    yield file
    for journal in opened:
        journal.close()
    opened.clear()
