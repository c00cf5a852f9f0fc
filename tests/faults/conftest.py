"""Two strangers installed for real, one of whom does everything wrong, and a project that uses both."""

import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))  # test files are no package here
from fault_shell import PROJECT, install


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return install(tmp_path_factory.mktemp("installed"))


@pytest.fixture
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTEND_STATE", str(tmp_path / "state"))
    monkeypatch.setenv("BOLTEND_CONFIG", str(tmp_path / "config"))
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.delenv("MISCHIEF", raising=False)


@pytest.fixture
def strangers(site: Path, own_folders: None, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The strangers are on the path of this process and of all that it starts; none is imported here."""
    monkeypatch.syspath_prepend(site)
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join([str(site), os.environ.get("PYTHONPATH", "")]))
    yield site
    assert not [name for name in sys.modules if name.startswith("stranger_")]


@pytest.fixture
def project_file(tmp_path: Path) -> Path:
    path = tmp_path / "quilt.toml"
    path.write_text(PROJECT, encoding="utf-8")
    return path
