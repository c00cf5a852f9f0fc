"""`boltend new-plugin`: names from any folder, nothing of a person's written over, and what comes next."""

import keyword
import tomllib
from pathlib import Path

import pytest
from calling import call
from hypothesis import given
from hypothesis import strategies as st

from boltend.commands.new_plugin import guide, module_name


@pytest.mark.parametrize(
    ("folder", "name"),
    [
        ("hanging-sleeve", "hanging_sleeve"),
        ("Hanging Sleeve", "hanging_sleeve"),
        ("  --Döll.Haus!  ", "doll_haus"),
        ("9patch", "my_9patch"),
        ("日本", "my_plugin"),
        ("", "my_plugin"),
        ("class", "my_class"),  # a word of Python's
        ("json", "my_json"),  # a module that is there already
        ("boltend", "my_boltend"),
        ("line", "my_line"),  # what every plugin imports
        ("tests", "my_tests"),
        ("binding", "my_binding"),  # a calculator that is there already
        ("x" * 100, "x" * 40),
    ],
)
def test_names(folder: str, name: str) -> None:
    assert module_name(folder, ["binding"]) == name


def test_a_name_that_is_taken_in_every_form_gets_a_number() -> None:
    assert module_name("hem", ["hem", "my_hem", "hem_plugin", "hem_2"]) == "hem_3"


@given(st.text(max_size=60))
def test_any_folder_gives_a_name_that_python_and_the_contract_take(folder: str) -> None:
    name = module_name(folder, [])
    assert name.isidentifier()
    assert name.isascii()
    assert name == name.lower()
    assert name[0].isalpha()
    assert not keyword.iskeyword(name)
    assert len(name) <= 60


def test_what_it_makes_and_says(tmp_path: Path) -> None:
    folder = tmp_path / "Hanging Sleeve"
    said = call("new-plugin", folder, BOLTEND_CONFIG=str(tmp_path))
    assert (said.returncode, said.stderr) == (0, "")
    made = sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())
    assert made == [
        ".gitignore", "README.md", "pyproject.toml", "src/hanging_sleeve/__init__.py",
        "tests/test_hanging_sleeve.py",
    ]  # fmt: skip
    assert all(path in said.stdout for path in made)
    for part in (f"cd '{folder}'", "pip install -e '.[test]'", "-m pytest", "work hanging_sleeve"):
        assert part in said.stdout
    project = tomllib.loads((folder / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["project"]["name"] == "hanging-sleeve"
    assert project["project"]["entry-points"]["boltend.plugins"] == {"hanging_sleeve": "hanging_sleeve"}
    guide = Path(said.stdout.splitlines()[-1].strip())
    assert "## A calculator in ten minutes" in guide.read_text(encoding="utf-8")
    assert "$" not in "".join((folder / path).read_text(encoding="utf-8") for path in made)


def test_an_empty_folder_will_do(tmp_path: Path) -> None:
    (tmp_path / "sleeve").mkdir()
    assert call("new-plugin", tmp_path / "sleeve").returncode == 0
    assert (tmp_path / "sleeve" / "pyproject.toml").exists()


def test_a_folder_with_anything_in_it_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    said = call("new-plugin", tmp_path)
    assert (said.returncode, said.stdout) == (2, "")
    assert "holds something already (notes.txt), and nothing of yours is written over." in said.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]
    said = call("new-plugin", tmp_path / "notes.txt")
    assert (said.returncode, said.stdout) == (2, "")
    assert "is a file. Name a folder that is not there yet." in said.stderr


def test_where_nothing_can_be_written_nothing_is_left(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    said = call("new-plugin", tmp_path / "file" / "sleeve")  # a file is no folder to make one in
    assert (said.returncode, said.stdout) == (2, "")
    assert "Choose another place." in said.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_the_guide_is_named_where_one_looks_for_it() -> None:
    for words in (("new-plugin", "--help"), ("where",)):
        said = "".join(call(*words, COLUMNS="400").stdout.split())
        assert "".join(str(guide()).split()) in said
    assert guide().is_file()


def test_a_name_that_was_changed_is_told(tmp_path: Path) -> None:
    said = call("new-plugin", tmp_path / "binding", BOLTEND_CONFIG=str(tmp_path))
    assert "(named my_binding: binding is installed already, or a name that" in said.stdout
    said = call("new-plugin", tmp_path / "hanging-sleeve", BOLTEND_CONFIG=str(tmp_path))
    assert "installed already" not in said.stdout
