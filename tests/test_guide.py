"""The guide for plugin writers: its example is a plugin, its test passes, its project is worked out."""

import re
import subprocess
import sys
from pathlib import Path

GUIDE = (Path(__file__).parent.parent / "DEVELOPERS.md").read_text(encoding="utf-8")


def blocks(kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```", GUIDE, re.M | re.S)


def install(folder: Path) -> dict[str, str]:
    """The guide's plugin as if it were installed: its module, and the door of its pyproject."""
    (folder / "my_squares.py").write_text(blocks("python")[0], encoding="utf-8")
    door = re.search(r'boltend\.plugins"\]\n(.*?)\n', blocks("toml")[0])
    assert door is not None
    info = folder / "my_squares-0.1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text(
        "Metadata-Version: 2.1\nName: my-squares\nVersion: 0.1.0\n", encoding="utf-8"
    )
    (info / "entry_points.txt").write_text(
        "[boltend.plugins]\n" + door[1].replace('"', "") + "\n", encoding="utf-8"
    )
    return {"PYTHONPATH": str(folder), "PATH": "", "BOLTEND_CONFIG": str(folder / "config")}


def run(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    environment = install(folder)
    command = [sys.executable, *words]
    return subprocess.run(
        command, cwd=folder, env=environment, capture_output=True, text=True, encoding="utf-8"
    )


def test_the_example_is_a_plugin(tmp_path: Path) -> None:
    done = run(tmp_path, "-m", "boltend", "work", "squares_from_strip", "size=2 1/2 in")
    assert (done.returncode, done.stderr) == (0, "")
    assert "42 in ÷ 2 1/2 in = 16 whole squares" in done.stdout


def test_its_tests_pass(tmp_path: Path) -> None:
    test = "from my_squares import squares_from_strip\n" + "\n".join(blocks("python")[1:])
    (tmp_path / "test_squares.py").write_text(test, encoding="utf-8")
    done = run(
        tmp_path, "-m", "pytest", "-q", "-c", "/dev/null", "--rootdir", str(tmp_path), "test_squares.py"
    )
    assert done.returncode == 0, done.stdout
    assert "3 passed" in done.stdout


def test_the_project_is_worked_out(tmp_path: Path) -> None:
    (tmp_path / "quilt.toml").write_text(blocks("toml")[1], encoding="utf-8")
    done = run(tmp_path, "-m", "boltend", "check", "quilt.toml")
    assert (done.returncode, done.stdout) == (0, "quilt.toml: 2 tabs, all worked out.\n")
