"""No one in: a file names neither code nor a path, config files neither; what we depend on has a reason."""

from __future__ import annotations

import builtins
import importlib.metadata
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest

from boltend.commands.main import main
from boltend.core.host import ConfigError, config_file, read_config
from boltend.core.host.config import keep_in_config
from boltend.core.host.off import off_file, switched_off
from boltend.core.host.own_rows import own_rows, rows_file
from boltend.core.project import keys

ROOT = Path(__file__).parents[2]
BOM = "\ufeff"


def test_no_key_of_a_project_file_names_a_path_or_code() -> None:
    """Every key that a project file has. A new one is added here, once it is sure that it names neither."""
    known = {
        "boltend", "project", "fabric", "tab", "ladder", "row",
        "name", "notes", "currency", "units", "seam", "usable_width", "overage", "squaring", "buying_step",
        "cutting_step", "size_step", "layers", "prewash_across", "prewash_along", "copies",
        "form", "price", "have", "one_way", "colour", "printed", "calculator", "aside", "done", "note",
        "given", "values", "take", "from",
    }  # fmt: skip
    said = {*keys.ROOT, *keys.PROJECT, *keys.FABRIC, *keys.TAB, *keys.LADDER, *keys.LINK}
    assert said <= known, said - known


WATCHED = """
import sys
opened, home = set(), sys.argv[2]
def hook(event, args):
    if event == "open" and isinstance(args[0], str) and args[0].startswith(home):
        opened.add(args[0])
    if event in ("exec", "compile", "import"):
        names = str(args[0])
        assert "owned" not in names, (event, names)
    if event in ("subprocess.Popen", "os.exec", "os.system", "os.posix_spawn", "os.fork"):
        assert "owned" not in str(args), (event, args)
    if event.startswith(("socket.connect", "urllib")):
        raise SystemExit(f"it talks to somebody: {event} {args}")
sys.addaudithook(hook)
from boltend.commands.main import main
for words in (["check"], ["print"], ["print", "--as", "json"], ["print", "--as", "html"]):
    main([words[0], sys.argv[1], *words[1:]])
print(sorted(opened), file=sys.stderr)
"""

NAMES = [
    *("/etc/passwd", "../owned.toml", "owned", "owned:run", "~/owned"),
    *("file:///etc/passwd", "http://x.example/owned"),
]


@pytest.mark.parametrize("name", NAMES)
def test_nothing_but_the_file_itself_is_opened(tmp_path: Path, name: str) -> None:
    """Paths, modules and addresses wherever a text can stand; Python itself tells what is opened and run."""
    folder = tmp_path / "quilts"
    folder.mkdir()
    (folder / "owned.py").write_text("raise SystemExit('owned')", encoding="utf-8")
    (tmp_path / "owned.toml").write_text("boltend = 1\n", encoding="utf-8")
    (folder / "sitecustomize.py").write_text("raise SystemExit('owned')", encoding="utf-8")
    path = folder / "q.toml"
    tab = f'[[tab]]\nname = "{name}"\ncalculator = "{name}"\nplugin = "{name}"\nimport = "{name}"\n'
    path.write_text(
        f'boltend = 1\nplugins = ["{name}"]\ninclude = "{name}"\n'
        f'[project]\nname = "{name}"\nnotes = "{name}"\n'
        f'logo = "{name}"\n[[fabric]]\nname = "{name}"\nform = "{name}"\npicture = "{name}"\n'
        f'[[row]]\ntable = "{name}"\nname = "{name}"\n{tab}[tab.given]\nwidth = "{name}"\n'
        f'height = {{ from = "{name}", take = "{name}", file = "{name}" }}\n'
        f'[[tab]]\nname = "B"\ncalculator = "binding"\n[tab.given]\nwidth = "{name}"\nfabric = "{name}"\n',
        encoding="utf-8",
    )
    env = {**os.environ, "BOLTEND_STATE": str(tmp_path / "state"), "BOLTEND_CONFIG": str(tmp_path / "config")}
    done = subprocess.run(
        [sys.executable, "-P", "-c", WATCHED, str(path), str(tmp_path)],
        capture_output=True, text=True, env=env, cwd=folder, timeout=90, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    files = re.findall(r"'([^']+)'", done.stderr.splitlines()[-1])
    allowed = {str(path), *(str(tmp_path / "config" / f) for f in ("config.toml", "rows.toml", "off.toml"))}
    assert set(files) <= allowed
    assert str(path) in files
    assert sorted(p.name for p in tmp_path.iterdir()) == ["owned.toml", "quilts"], "nothing is written"


def test_no_module_of_ours_runs_a_text() -> None:
    """No eval, exec, pickle of a file, shell or template in what reads files and works them out."""
    ours = [*(ROOT / "src").rglob("*.py"), *(ROOT / "plugins").glob("*/src/**/*.py")]
    wrong = re.compile(
        r"\b(eval|exec|__import__|os\.system|pickle\.load|yaml\.load|shell\s*=\s*True)\b\s*[(=]?"
    )
    found = {}
    for file in ours:
        for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), 1):
            match = wrong.search(line.partition("#")[0])
            if match and "(" in line[match.start() :] and not line.lstrip().startswith(('"', "'")):
                found[f"{file.relative_to(ROOT)}:{number}"] = line.strip()
    assert found == {}


# --- the person's own settings

ODD: dict[str, bytes] = {
    "nested": b"x = " + b"[" * 5000 + b"]" * 5000,
    "digits": b"x = " + b"9" * 5000,
    "NUL": b"x = \0",
    "UTF-16": "x = 1\n".encode("utf-16"),
    "half": b'[row\nname = "',
    "binary": bytes(range(256)),
}


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTEND_CONFIG", str(tmp_path))


@pytest.mark.parametrize("odd", ODD)
def test_settings_that_cannot_be_read_are_told_and_kept(odd: str, capsys: pytest.CaptureFixture[str]) -> None:
    for file in (config_file(), rows_file(), off_file()):
        file.write_bytes(ODD[odd])
    for read in (read_config, switched_off):
        with pytest.raises(ConfigError, match="Mend or delete it"):
            read()
    with pytest.raises(ConfigError):
        keep_in_config("theme", "dark")
    problems: list[Any] = []
    assert own_rows(problems) == {}
    assert "Mend or delete it" in str(problems[0])
    assert main(["calculators"]) in (0, 1)
    assert "Traceback" not in capsys.readouterr().err
    for file in (config_file(), rows_file(), off_file()):
        assert file.read_bytes() == ODD[odd]


def test_settings_with_a_byte_order_mark_are_read() -> None:
    config_file().write_text(BOM + 'theme = "dark"\n', encoding="utf-8")
    off_file().write_text(BOM + "[off]\nx = []\n", encoding="utf-8")
    rows_file().write_text(
        BOM + '[[row]]\ntable = "beds"\nname = "Mine"\nwidth = "60 in"\n', encoding="utf-8"
    )
    problems: list[Any] = []
    assert read_config() == {"theme": "dark"}
    assert switched_off() == {"x": ()}
    assert list(own_rows(problems)["beds"]) == ["Mine"]
    assert problems == []


def test_no_setting_names_a_module_or_a_program(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "owned.py").write_text("raise SystemExit('owned')", encoding="utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(builtins, "exec", builtins.exec)
    config_file().write_text('plugins = ["owned"]\nplugin = "owned"\neditor = "owned"\n', encoding="utf-8")
    rows_file().write_text('[[row]]\ntable = "owned"\nname = "owned"\nsource = "owned"\n', encoding="utf-8")
    off_file().write_text('[off]\nowned = ["owned"]\n', encoding="utf-8")
    assert main(["calculators"]) == 0
    assert "owned" not in sys.modules


# --- what we stand on

LGPL = {"python-bidi": "right-to-left names in a PDF", "textual-image": "an extra: sharp pictures"}
"""Used as they are, imported and never copied."""


def dependencies() -> list[tuple[str, str]]:
    """Each line of a dependency in pyproject.toml: its name, and what is written beside or above it."""
    found, above, inside = [], "", False
    for line in (ROOT / "pyproject.toml").read_text(encoding="utf-8").splitlines():
        if re.match(r"(dependencies|requires|[a-z]+) = \[", line) and line.rstrip().endswith("["):
            inside, above = line.split(" ")[0] in ("dependencies", "web", "test", "dev", "sharp"), ""
        elif line.startswith("]"):
            inside = False
        elif inside and line.strip().startswith("#"):
            above = line.strip("# ")
        elif inside and (match := re.match(r'\s*"([A-Za-z0-9-]+)[^"]*",?\s*(?:#\s*(.*))?$', line)):
            found.append((match[1], match[2] or above))
    return found


def test_each_dependency_has_its_reason_beside_it() -> None:
    needed = dependencies()
    assert len(needed) > 12
    plain = {"boltend", "pytest", "ruff", "mypy", "build", "hypothesis"}
    assert [name for name, reason in needed if not reason and name not in plain] == []


def test_no_licence_binds_us_unawares() -> None:
    """All that a person installs with us: permissive, or named above and in pyproject.toml."""
    pyproject = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = pyproject["optional-dependencies"]
    names = [*pyproject["dependencies"], *extras.get("web", []), *extras.get("sharp", [])]
    lines = (ROOT / "pyproject.toml").read_text(encoding="utf-8").splitlines()
    for line in names:
        name = re.match(r"[A-Za-z0-9-]+", line)[0]  # type: ignore[index]
        try:
            data = importlib.metadata.metadata(name)
        except importlib.metadata.PackageNotFoundError:
            continue  # an extra that is not installed here
        told = " ".join([data.get("License-Expression", ""), *(data.get_all("Classifier") or ())])
        if re.search(r"GPL|General Public", told):
            assert name in LGPL, f"{name} is under {told}"
            at = next(n for n, text in enumerate(lines) if text.strip().startswith(f'"{name}'))
            assert "LGPL" in " ".join(lines[at - 2 : at + 1]), f"say beside {name} that it is LGPL"
            assert not re.search(r"(?<![L])GPL(?!.*Lesser)", told.replace("LGPL", "")), told
