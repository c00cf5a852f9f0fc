"""The guide for plugin writers: its blocks are plugins that work, its tests pass, nothing is left out."""

import importlib.util
import inspect
import pydoc
import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from dataclasses import fields
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

import boltend.plugin
import boltend.testing
from boltend import plugin, testing
from boltend.commands.work import read_givens
from boltend.plugin import Calculator, Job, Settings
from boltend.testing import check

ALL = (Path(__file__).parent.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
GUIDE = ALL[ALL.index("## A calculator in ten minutes") : ALL.index("## The project file")]
HOOK = """

@hookimpl
def boltend_calculators() -> list[Calculator]:
    return [each for each in dict(globals()).values() if isinstance(each, Calculator)]
"""


def blocks(kind: str, text: str = ALL) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```", text, re.M | re.S)


PYTHON = [block for block in blocks("python") if "def test_" not in block]
TESTS = [block for block in blocks("python") if "def test_" in block]


def put(folder: Path, distribution: str, door: str, module: str, source: str) -> dict[str, str]:
    """A plugin as if it were installed, and the environment that finds it."""
    (folder / f"{module}.py").write_text(source, encoding="utf-8")
    info = folder / f"{distribution.replace('-', '_')}-0.1.0.dist-info"
    info.mkdir()
    metadata = f"Metadata-Version: 2.1\nName: {distribution}\nVersion: 0.1.0\n"
    (info / "METADATA").write_text(metadata, encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[boltend.plugins]\n{door} = {module}\n", encoding="utf-8")
    return {"PYTHONPATH": str(folder), "PATH": "", "BOLTEND_CONFIG": str(folder / "config")}


def install(folder: Path) -> dict[str, str]:
    """The guide's first plugin: its module, and the door of its pyproject."""
    door = re.search(r'boltend\.plugins"\]\n(\w+) = "(\w+)"\n', blocks("toml")[0])
    assert door is not None
    return put(folder, "my-squares", door[1], door[2], PYTHON[0])


def run(folder: Path, environment: dict[str, str], *words: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, *words]
    environment = {**environment, "PYTHONIOENCODING": "utf-8"}
    return subprocess.run(
        command, cwd=folder, env=environment, capture_output=True, text=True, encoding="utf-8", timeout=120
    )


def test_the_example_is_a_plugin(tmp_path: Path) -> None:
    done = run(tmp_path, install(tmp_path), "-m", "boltend", "work", "squares_from_strip", "size=2 1/2 in")
    assert (done.returncode, done.stderr) == (0, "")
    assert "42 in ÷ 2 1/2 in = 16 whole squares" in done.stdout


def test_its_tests_pass_as_they_stand(tmp_path: Path) -> None:
    (test,) = TESTS
    (tmp_path / "test_squares.py").write_text(test, encoding="utf-8")
    words = ("-m", "pytest", "-q", "-c", "/dev/null", "--rootdir", str(tmp_path), "test_squares.py")
    done = run(tmp_path, install(tmp_path), *words)
    assert done.returncode == 0, done.stdout
    assert "4 passed" in done.stdout


def test_the_project_is_worked_out(tmp_path: Path) -> None:
    (tmp_path / "quilt.toml").write_text(blocks("toml")[1], encoding="utf-8")
    done = run(tmp_path, install(tmp_path), "-m", "boltend", "check", "quilt.toml")
    assert (done.returncode, done.stdout) == (0, "quilt.toml: 2 tabs, all worked out.\n")


# All blocks together -----------------------------------------------------------------------------


def commands() -> list[list[str]]:
    """Every `boltend …` line of the guide but the bare one, which opens the shell."""
    lines = [line for block in blocks("sh", GUIDE) for line in block.splitlines()]
    words = [shlex.split(line, comments=True) for line in lines if line.startswith("boltend ")]
    return [each for each in words if len(each) > 1]


def test_every_command_of_the_guide_does_what_it_says(tmp_path: Path) -> None:
    environment = put(tmp_path, "guide-blocks", "guide", "guide_blocks", "\n\n".join(PYTHON) + HOOK)
    told = commands()
    assert told[0] == ["boltend", "new-plugin", "my-squares"]
    for words in told:
        done = run(tmp_path, environment, "-m", *words)
        assert done.returncode == 0, (words, done.stdout, done.stderr)
        if words[1] == "new-plugin":  # what `pip install -e` would do
            source = (tmp_path / "my-squares/src/my_squares/__init__.py").read_text(encoding="utf-8")
            put(tmp_path, "my-squares", "my_squares", "my_squares", source)
        if "--picture" in words:
            assert "\nPicture\n" in done.stdout, words
        if words[1] == "plugins":
            assert re.search(r"^guide +on +guide-blocks 0\.1\.0 +contract 1$", done.stdout, re.M)
            assert re.search(r"^my_squares +on ", done.stdout, re.M)


@pytest.fixture(scope="module")
def guide(tmp_path_factory: pytest.TempPathFactory) -> ModuleType:
    file = tmp_path_factory.mktemp("guide") / "guide_here.py"
    file.write_text("\n\n".join(PYTHON), encoding="utf-8")
    spec = importlib.util.spec_from_file_location("guide_here", file)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["guide_here"] = module  # the classes of its rows look for their module
    spec.loader.exec_module(module)
    return module


def calculators() -> list[str]:
    return re.findall(r'^@calculator\("(\w+)"', "\n".join(PYTHON), re.M)


@pytest.mark.parametrize("name", calculators())
def test_every_calculator_of_the_guide_keeps_the_contract(guide: ModuleType, name: str) -> None:
    calculator = getattr(guide, name)
    assert isinstance(calculator, Calculator)
    said = next((words[3:] for words in commands() if words[1:3] == ["work", name]), [])
    example = read_givens(calculator.spec, [word for word in said if "=" in word])
    example = example or ({"size": "2 1/2 in"} if name == "squares_from_strip" else {})
    may_be_zero = ("left",) if name == "least_left" else ()
    check(calculator, tables=[guide.HOOPS], may_be_zero=may_be_zero, examples=20, **example)


def test_a_root_is_never_below_and_hardly_above(guide: ModuleType) -> None:
    for square in (*range(200), guide.Fraction(1, 3), guide.Fraction(99, 7)):
        root = guide.root_above(guide.Fraction(square))
        assert root**2 >= square
        assert root == 0 or (root - guide.Fraction(1, 10**6)) ** 2 < square


# Nothing is left out -----------------------------------------------------------------------------

SECTIONS = re.split(r"^##+ ", GUIDE, flags=re.M)

DECLARED: tuple[Callable[..., Any], ...] = (
    plugin.given, plugin.found, plugin.calculator, plugin.line, plugin.Answer, plugin.Piece, plugin.Run,
    plugin.Goods, plugin.Cannot, plugin.Rect, plugin.Polygon, plugin.Rule, plugin.Note, plugin.Start,
    plugin.Table, plugin.Part, plugin.Bolt, plugin.Sheet, plugin.Stock, plugin.Price, plugin.Rate,
    plugin.ThreadNumber, plugin.cutting_plan, plugin.stacks_of, testing.work, testing.check, testing.load,
)  # fmt: skip
"""What an author calls with arguments of names."""


def code(section: str) -> str:
    """All that stands in a block or between backticks."""
    found = re.findall(r"^```\w*\n(.*?)^```", section, re.M | re.S)
    rest = re.sub(r"^```\w*\n.*?^```", "", section, flags=re.M | re.S)
    return "\n".join([*found, *re.findall(r"`([^`]+)`", rest)])


CODE = [code(section) for section in SECTIONS]


def said(name: str, text: str) -> bool:
    return re.search(rf"(?<![\w]){re.escape(name)}(?!\w)", text) is not None


@pytest.mark.parametrize("module", [boltend.plugin, boltend.testing])
def test_every_public_name_has_a_place(module: Any) -> None:
    assert [name for name in module.__all__ if not any(said(name, text) for text in CODE)] == []


@pytest.mark.parametrize("called", DECLARED, ids=lambda called: called.__name__)
def test_every_parameter_has_a_place_beside_what_takes_it(called: Callable[..., Any]) -> None:
    names = [name for name in inspect.signature(called).parameters if name != "givens"]
    ours = {name: getattr(plugin, name) for name in plugin.__all__}
    public = next(n for n, v in {**ours, **vars(testing)}.items() if v is called)
    beside = [text for text in CODE if said(public, text)]
    assert [name for name in names if not any(said(name, text) for text in beside)] == []


def test_every_part_of_settings_of_a_job_and_of_what_work_returns_has_a_place() -> None:
    (settings,) = (text for text in CODE if text.count("setting.") > 4 and said("setting.on(fabric)", text))
    public = {n for n in vars(Settings) if not n.startswith("_")} | {f.name for f in fields(Settings)}
    assert sorted(n for n in public if not said(n, settings)) == []
    methods = [n for n, v in vars(Job).items() if inspect.isfunction(v) and not n.startswith("_")]
    assert [n for n in methods if not any(said(f"job.{n}", text) for text in CODE)] == []
    kit = next(text for text in CODE if said("Worked", text))
    assert [f.name for f in fields(testing.Worked) if not said(f.name, kit)] == []


def test_a_new_parameter_would_be_missed() -> None:
    assert not any(said("lest", text) for text in CODE)
    assert any(said("least", text) for text in CODE)


def test_help_shows_every_name_of_the_door_for_plugins() -> None:
    shown = pydoc.plaintext.document(boltend.plugin)
    at_the_margin = re.findall(r"^    (?:class )?(\w+)", shown, re.M)
    assert [name for name in plugin.__all__ if name not in at_the_margin] == []
    assert "Look at `unplaced` of the plan before anything else" in shown
