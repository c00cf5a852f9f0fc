"""The rules of the house that a reader cannot see at a glance: each failure names what is missing."""

import re
import subprocess
import sys
import tomllib
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from boltend.commands.main import COMMANDS
from boltend.core.contract import SETTING_KINDS, STEP_SETTINGS, CalculatorSpec, hooks
from boltend.core.host import load_plugins
from boltend.core.host.opening import GROUP
from boltend.core.host.soundness import calculator_problem, table_problem

ROOT = Path(__file__).parent.parent
PYPROJECT: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PLUGINS = sorted(
    folder.name for folder in (ROOT / "plugins").iterdir() if folder.is_dir() and (folder / "src").is_dir()
)
MOST_LINES = 400
HOOKS = sorted(name for name in vars(hooks) if name.startswith("boltend_"))
SETTINGS = (*SETTING_KINDS, *STEP_SETTINGS)


def sources() -> list[Path]:
    folders = [ROOT / "src", ROOT / "shared", *(ROOT / "plugins" / name / "src" for name in PLUGINS)]
    return [file for folder in folders for file in sorted(folder.rglob("*.py"))]


def said_in_tests() -> str:
    """All that the tests say, but for this file: it mentions everything only to look for it."""
    folders = [ROOT / "tests", *(ROOT / "plugins" / name / "tests" for name in PLUGINS)]
    files = [file for folder in folders for file in folder.rglob("*.py") if file != Path(__file__)]
    return "\n".join(file.read_text(encoding="utf-8") for file in files)


def docs() -> str:
    return "\n".join((ROOT / name).read_text(encoding="utf-8") for name in ("README.md", "DEVELOPERS.md"))


def calculators() -> list[CalculatorSpec]:
    ours = [e for e in load_plugins() if e.built_in]
    return [spec for plugin in ours for spec in plugin.calculators]


def missing(names: tuple[str, ...] | list[str], text: str) -> list[str]:
    return [name for name in names if not re.search(rf"\b{re.escape(name)}\b", text)]


def test_every_plugin_folder_has_its_lines() -> None:
    entry_points = PYPROJECT["project"]["entry-points"][GROUP]
    packages = PYPROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]["packages"]
    typed, linted = PYPROJECT["tool"]["mypy"]["packages"], PYPROJECT["tool"]["importlinter"]["root_packages"]
    (door,) = (c for c in PYPROJECT["tool"]["importlinter"]["contracts"] if c["id"] == "plugins-public-door")
    lacks: list[str] = []
    for name in PLUGINS:
        package = f"boltend_{name}"
        wanted = {
            f'{name} = "{package}" under [project.entry-points."{GROUP}"]': entry_points.get(name) == package,
            f"plugins/{name}/src/{package} under [tool.hatch.build.targets.wheel]": (
                f"plugins/{name}/src/{package}" in packages
            ),
            f"{package} under [tool.mypy] packages": package in typed,
            f"plugins/{name}/src under [tool.mypy] mypy_path": (
                f"plugins/{name}/src" in PYPROJECT["tool"]["mypy"]["mypy_path"]
            ),
            f"{package} under [tool.importlinter] root_packages": package in linted,
            f"{package} in the import contract plugins-public-door": package in door["source_modules"],
            f"plugins/{name}/tests with a test in it": any(
                (ROOT / "plugins" / name / "tests").glob("test_*.py")
            ),
        }
        lacks += [line for line, there in wanted.items() if not there]
    assert lacks == [], "pyproject.toml lacks: " + "; ".join(lacks)
    assert PLUGINS
    assert set(entry_points) == set(PLUGINS), "an entry point without a folder in plugins/"


def test_every_plugin_loads_whole() -> None:
    ours = {plugin.name: plugin for plugin in load_plugins() if plugin.built_in}
    assert sorted(ours) == PLUGINS, (
        "the installed package is older than pyproject.toml: pip install -e . again"
    )
    assert {name: [str(f) for f in p.faults] for name, p in ours.items() if p.faults} == {}
    assert [p.name for p in ours.values() if not p.calculators] == []


def test_every_text_of_a_built_in_declaration_can_be_read() -> None:
    """Built-in plugins are not read deeply when they are loaded (a stranger's are): here they are."""
    plugins = [plugin for plugin in load_plugins() if plugin.built_in]
    wrong = [calculator_problem(spec, deep=True) for plugin in plugins for spec in plugin.calculators]
    wrong += [table_problem(table, deep=True) for plugin in plugins for table in plugin.tables]
    assert [problem for problem in wrong if problem] == []


def test_no_module_is_too_long() -> None:
    lines = {file: len(file.read_text(encoding="utf-8").splitlines()) for file in sources()}
    assert {str(f.relative_to(ROOT)): n for f, n in lines.items() if n >= MOST_LINES} == {}


def test_no_two_test_files_share_a_name() -> None:
    """Two of one name are told apart by path only under importlib mode; their reports look the same."""
    files = [f for folder in ("tests", "plugins") for f in (ROOT / folder).rglob("test_*.py")]
    names = [f.name for f in files]
    assert sorted({name for name in names if names.count(name) > 1}) == []


def test_the_core_and_the_commands_import_no_screen() -> None:
    """The import contracts read the source; this looks at what really gets imported."""
    modules = []
    for package in ("core", "commands"):
        for file in sorted((ROOT / "src" / "boltend" / package).rglob("*.py")):
            dotted = ".".join(file.relative_to(ROOT / "src").with_suffix("").parts)
            modules.append(dotted.removesuffix(".__init__"))
    code = "import sys, importlib\n" + "\n".join(
        f"importlib.import_module({name!r})" for name in (*modules, "boltend.plugin", "boltend.testing")
    )
    code += "\ntops = {m.partition('.')[0] for m in sys.modules}"
    code += "\nprint(sorted(tops & {'textual', 'rich'}), 'boltend.shell' in sys.modules)"
    said = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert said.stdout == "[] False\n"


def test_every_command_is_a_module_with_a_test_and_a_place_in_the_docs() -> None:
    modules = {file.stem.strip("_") for file in (ROOT / "src/boltend/commands").glob("*.py")}
    helpers = {"init", "main", "exits", "opened"}
    assert {name.replace("-", "_") for name in COMMANDS} <= modules
    commands = [name for name in modules - helpers if hasattr(import_module(_module(name)), "add")]
    assert sorted(set(commands) - {n.replace("-", "_") for n in COMMANDS}) == [], (
        "a command that main does not know"
    )
    spoken = docs()
    assert [n for n in COMMANDS if f'"{n}"' not in said_in_tests()] == [], "no test calls these commands"
    assert [n for n in COMMANDS if not re.search(rf"boltend {n}\b", spoken)] == [], (
        "not in README.md or DEVELOPERS.md"
    )


def _module(name: str) -> str:
    folder = ROOT / "src/boltend/commands"
    return f"boltend.commands.{name}" if (folder / f"{name}.py").exists() else f"boltend.commands.{name}_"


def test_every_hook_has_a_test_and_a_place_in_the_docs() -> None:
    assert HOOKS
    assert missing(HOOKS, said_in_tests()) == [], "no test mentions these hooks"
    assert missing(HOOKS, docs()) == [], "not in README.md or DEVELOPERS.md"


def test_every_setting_has_a_test_and_a_place_in_the_docs() -> None:
    assert missing(SETTINGS, said_in_tests()) == [], "no test mentions these settings"
    assert missing(SETTINGS, docs()) == [], "not in README.md or DEVELOPERS.md"


def test_every_calculator_has_a_test_of_its_own_plugin() -> None:
    lacks = []
    for spec in calculators():
        folder = ROOT / "plugins" / spec.plugin / "tests"
        said = "\n".join(f.read_text(encoding="utf-8") for f in folder.rglob("test_*.py"))
        lacks += missing([spec.name], said)
    assert lacks == [], "no test in the folder of their plugin"


def test_every_calculator_tells_what_it_does() -> None:
    specs = calculators()
    assert [s.name for s in specs if not s.asks.endswith("?")] == [], "asks= is a question"
    assert [s.name for s in specs if len(s.help.split()) < 8] == [], (
        "a docstring with units, range, worked number, source"
    )
    assert [s.name for s in specs if "source" not in s.help.casefold()] == [], (
        "a docstring names the source of its rule"
    )


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_the_docs_name_no_path_that_is_not_there(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    paths = set(re.findall(r"`((?:src|plugins|tests|shared)/[\w./-]+)`", text))
    assert sorted(p for p in paths if not (ROOT / p).exists() and "NAME" not in p) == []


REASONED = re.compile(r"# noqa: (?P<codes>[A-Z0-9, ]+) - \S|# type: ignore\[[\w, -]+\] +# \S")


def test_every_lint_exception_gives_its_reason() -> None:
    """`# noqa: A002 - why`, `# type: ignore[code]  # why`; of a few alike in a row the first gives it."""
    bare = []
    for file in sources():
        lines = file.read_text(encoding="utf-8").splitlines()
        for at, line in enumerate(lines):
            mark = re.search(r"# (?:noqa|type: ignore)\S* ?[A-Z0-9, ]*", line)
            near = "\n".join(lines[max(0, at - 4) : at])
            if mark and not REASONED.search(line) and f"{mark[0].strip()} - " not in near:
                bare.append(f"{file.relative_to(ROOT)}:{at + 1}")
    assert bare == []
