"""Two plugins as from outside the tree, written by the guide: installed, and all they promise held."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

HERE = Path(__file__).parent
PLUGINS = ("hanging-sleeve", "scalloped-edge")
PIP = (
    "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-index", "--no-deps",
    "--no-build-isolation",
)  # fmt: skip

PROJECT = """boltend = 1

[[tab]]
name = "Top"
calculator = "measured_top"

[tab.given]
widths = "60 in cut"
heights = "72 in cut"

[[tab]]
name = "Sleeve"
calculator = "hanging_sleeve"

[tab.given]
width = { from = "Top", take = "width" }
fabric = "Slate"

[[tab]]
name = "Edge"
calculator = "scalloped_edge"

[tab.given]
fabric = "Slate"

[[tab.given.edges]]
name = "ends"
length = { from = "Top", take = "width" }
times = 2
scallops = 8

[[tab.given.edges]]
name = "sides"
length = "71 1/2 in"
times = 2
scallops = 10
form = "half as high"

[[fabric]]
name = "Slate"
price = "$12 per yard"

[[row]]
table = "scallops"
name = "half as high"
depth = "5 %"
"""

START = """
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.edits import add_tab
from boltend.core.project.model import Project

with Host.load() as host:
    (start,) = (each for each in host.starts if "scalloped" in each.question)
    project = Project()
    for name, calculator, givens in start.tabs:
        project = add_tab(project, name, calculator, dict(givens))
    book = Workbook(host, project)
    print([book.result(name).state for name, _, _ in start.tabs], book.result("Edge").found["strips"])
"""

Run = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Both of them installed into `site`."""
    folder = tmp_path_factory.mktemp("outside")
    for name in PLUGINS:
        shutil.copytree(HERE / name, folder / name, ignore=shutil.ignore_patterns("__pycache__", ".*"))
        words = [sys.executable, *PIP, "--target", str(folder / "site"), str(folder / name)]
        done = subprocess.run(words, capture_output=True, text=True, timeout=120)
        assert done.returncode == 0, done.stderr
    return folder


@pytest.fixture
def run(folder: Path) -> Run:
    """Run Python beside them; four minutes (on a busy machine) are the most that anything takes."""
    path = os.pathsep.join((str(folder / "site"), os.environ.get("PYTHONPATH", "")))
    env = {**os.environ, "PYTHONPATH": path, "BOLTEND_CONFIG": str(folder / "config")}
    env["PYTHONIOENCODING"] = "utf-8"

    def run(*words: str, cwd: Path = folder) -> "subprocess.CompletedProcess[str]":
        line = [sys.executable, *words]
        return subprocess.run(
            line, cwd=cwd, env=env, capture_output=True, text=True, encoding="utf-8", timeout=240
        )

    return run


@pytest.mark.parametrize("name", PLUGINS)
def test_its_own_tests_pass_where_it_is_installed(folder: Path, run: Run, name: str) -> None:
    done = run("-m", "pytest", "-q", "-p", "no:cacheprovider", "-p", "no:asyncio", "tests", cwd=folder / name)
    assert done.returncode == 0, done.stdout
    assert "passed" in done.stdout


def test_they_import_nothing_of_ours_but_the_door() -> None:
    for source in (file for name in PLUGINS for file in (HERE / name / "src").rglob("*.py")):
        lines = source.read_text(encoding="utf-8").splitlines()
        ours = [line for line in lines if line.startswith(("from boltend", "import boltend"))]
        assert {line.split()[1] for line in ours} <= {"boltend.plugin"}, source


def test_both_are_whole(run: Run) -> None:
    plugins = json.loads(run("-m", "boltend", "plugins", "--json").stdout)["plugins"]
    told = {each["name"]: each for each in plugins if not each["built_in"]}
    assert {name: (each["state"], each["contract"]) for name, each in told.items()} == {
        "hanging_sleeve": ("on", 1), "scalloped_edge": ("on", 1),
    }  # fmt: skip
    assert told["scalloped_edge"]["tables"] == ["scallops"]
    assert told["scalloped_edge"]["starts"] == ["What does a scalloped edge take?"]


@pytest.mark.parametrize(
    "words",
    [("hanging_sleeve", "width=60 in"), ("scalloped_edge", "edges.1.length=60 in", "edges.1.scallops=8")],
)
def test_their_pictures_can_be_looked_at(run: Run, words: tuple[str, ...]) -> None:
    done = run("-m", "boltend", "work", *words, "--picture")
    assert (done.returncode, done.stderr) == (0, "")
    picture = done.stdout.partition("\nPicture\n")[2].partition("\nWorking\n")[0]
    assert len(picture.splitlines()) > 3
    assert "┏" in picture


def test_in_a_project_they_link_pool_and_take_rows_of_a_persons_own(folder: Path, run: Run) -> None:
    (folder / "quilt.toml").write_text(PROJECT, encoding="utf-8")
    done = run("-m", "boltend", "print", "quilt.toml", "--as", "json")
    assert done.returncode == 0, done.stdout[:2000] + done.stderr
    told = json.loads(done.stdout)
    sleeve, edge = told["tabs"][1], told["tabs"][2]
    # The top is 59 1/2 in finished: less 1 in a side 57 1/2, and four turns of 1/2 in.
    assert sleeve["found"]["section_length"]["inches"] == "119/2"
    first, second = edge["given"]["edges"]
    assert (first["length"]["inches"], second["form"]) == ("119/2", "half as high")
    assert edge["found"]["each"][1]["deep"]["inches"] == "3/8"  # 7.15 in · 5 % = 0.3575, to 1/16 in
    assert edge["found"]["edge_length"]["exact"] is False
    assert [piece["name"] for piece in edge["pieces"]] == ["for bias binding"]
    (bought,) = (
        each for each in told["to_buy"] if each.get("fabric") == "Slate" or each.get("name") == "Slate"
    )
    assert bought


def test_its_question_is_answered_with_links_in_the_cells_of_rows(run: Run) -> None:
    done = run("-c", START)
    # By arcsines in floats: 277.45 in and 10 in tail are 4.89 strips of 42·√2 in, a join 0.71 in each.
    assert (done.stdout, done.stderr) == ("['worked out', 'worked out'] 5\n", "")
