"""What is read of installed distributions, against what Python's own `importlib.metadata` reads."""

import sys
import zipfile
from importlib.metadata import distributions
from pathlib import Path

import pytest

from boltend.core.host.calls import Fault
from boltend.core.host.installed import Installed, installed, normal
from boltend.core.host.opening import GROUP


def by_python() -> list[Installed]:
    """The same as Python tells it, in its plainest way: of two of one name the first counts."""
    found: dict[str, list[Installed]] = {}
    for distribution in distributions():
        name, version = distribution.metadata["Name"], distribution.metadata["Version"]
        pairs = [(e.name, e.value) for e in distribution.entry_points.select(group=GROUP)]
        if pairs:
            found.setdefault(normal(name), [Installed(*pair, name, version) for pair in pairs])
    return [each for of_one in found.values() for each in of_one]


def read() -> list[Installed]:
    problems: list[Fault] = []
    found = installed(problems)
    assert not problems
    return found


def test_what_is_installed_here():
    assert read() == by_python()
    assert any(each.distribution == "boltend" for each in read())


@pytest.mark.parametrize(
    "entry_points",
    [
        "[boltend.plugins]\nloom = made.loom:plugin\n",
        "[console_scripts]\nx = a:b\n\n[boltend.plugins]\n# a word\n loom=a.b \nw =  a [b]\n\n[z]\nq=r\n",
        "[other]\nboltend.plugins = x\n",
    ],
)
@pytest.mark.parametrize("kind", ["made_up-1.0.dist-info", "made_up.egg-info"])
def test_a_distribution_in_a_folder(tmp_path: Path, monkeypatch, entry_points: str, kind: str):
    info = tmp_path / kind
    info.mkdir()
    head = "PKG-INFO" if kind.endswith("egg-info") else "METADATA"
    (info / head).write_text("Metadata-Version: 2.1\nName: Made.Up\nVersion: 1.0\n\nName: in the text\n")
    (info / "entry_points.txt").write_text(entry_points)
    monkeypatch.syspath_prepend(tmp_path)
    assert read() == by_python()
    hidden = tmp_path / "further"
    hidden.mkdir()
    info.rename(hidden / kind)
    monkeypatch.syspath_prepend(hidden)  # the same once more, further up
    assert read() == by_python()


def test_a_distribution_in_an_archive_is_found_too(tmp_path: Path, monkeypatch):
    archive = tmp_path / "made.zip"
    with zipfile.ZipFile(archive, "w") as file:
        file.writestr("made-2.0.dist-info/METADATA", "Metadata-Version: 2.1\nName: made\nVersion: 2.0\n")
        file.writestr("made-2.0.dist-info/entry_points.txt", "[boltend.plugins]\nloom = made\n")
    monkeypatch.setattr(sys, "path", [str(archive), *sys.path])
    assert Installed("loom", "made", "made", "2.0") in read()
    assert read() == by_python()
