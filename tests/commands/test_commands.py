"""The commands as a person calls them: in a process of their own, with their exit codes."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from calling import call

GOOD = """\
boltend = 1

[project]
name = "Trial"

[[fabric]]
name = "Moss"

[[tab]]
name = "Set"
calculator = "straight_set"
[tab.given]
block_width = "12 in"
block_height = "12 in"
across = 4
down = 4

[[tab]]
name = "Edge"
calculator = "binding"
[tab.given]
width = { from = "Set", take = "width" }
height = { from = "Set", take = "height" }
fabric = "Moss"
"""
BAD = GOOD.replace('"12 in"\nacross', '"12,5 in"\nacross')
"""The height of a block has a decimal comma: line 14 of the file."""


@pytest.fixture
def good(tmp_path: Path) -> Path:
    file = tmp_path / "good.toml"
    file.write_text(GOOD, encoding="utf-8")
    return file


@pytest.fixture
def bad(tmp_path: Path) -> Path:
    file = tmp_path / "bad.toml"
    file.write_text(BAD, encoding="utf-8")
    return file


def test_print_in_text(good: Path) -> None:
    said = call("print", good)
    assert (said.returncode, said.stderr) == (0, "")
    assert said.stdout.startswith("Trial\n=====\nFinished size, with its binding on: 48 1/2 in × 48 1/2 in (")
    assert "\n\nSet · straight_set\n" in said.stdout
    assert re.search(r"Width of the top +48 in finished", said.stdout)  # four blocks of 12 in
    assert "from “Set” · Width" in said.stdout


def test_print_in_markdown(good: Path) -> None:
    said = call("print", good, "--as", "markdown")
    assert said.returncode == 0
    assert said.stdout.startswith("# Trial\n\nFinished size, with its binding on: 48 1/2 in × 48 1/2 in (")
    assert "\n\n## Set\n" in said.stdout
    assert "| Width of the top | 48 in finished |" in said.stdout


def test_print_in_json(good: Path) -> None:
    said = call("print", good, "--as", "json")
    data = json.loads(said.stdout)
    assert said.returncode == 0
    assert data["project"] == {"name": "Trial", "units": "inches", "currency": "USD"}
    assert [(tab["name"], tab["state"]) for tab in data["tabs"]] == [
        ("Set", "worked out"),
        ("Edge", "worked out"),
    ]
    assert data["tabs"][0]["found"]["width"]["inches"] == "48"
    assert data["tabs"][1]["given"]["width"]["inches"] == "48"


def test_print_some_tabs_in_the_order_told(good: Path) -> None:
    data = json.loads(call("print", good, "--as", "json", "--tab", "edge", "--tab", "Set").stdout)
    assert [tab["name"] for tab in data["tabs"]] == ["Edge", "Set"]


def test_print_into_a_file_and_where_none_can_be_written(good: Path, tmp_path: Path) -> None:
    out = tmp_path / "out.md"
    said = call("print", good, "--as", "markdown", "--out", out)
    assert (said.returncode, said.stdout, said.stderr) == (0, "", "")
    assert out.read_text(encoding="utf-8").startswith("# Trial")
    said = call("print", good, "--out", tmp_path / "none" / "out.md")
    assert said.returncode == 2
    assert said.stderr.endswith("Choose another place with --out.\n")
    assert "Traceback" not in said.stderr


@pytest.mark.parametrize("form", ["text", "markdown", "json"])
def test_print_what_cannot_be_worked_out_says_why_and_ends_with_one(bad: Path, form: str) -> None:
    said = call("print", bad, "--as", form)
    assert said.returncode == 1
    assert "a comma inside a number" in said.stdout
    assert "waits for “Set”" in said.stdout


def test_print_of_a_sound_tab_ends_with_nought_though_another_is_wrong(bad: Path) -> None:
    bad.write_text(
        BAD
        + '\n[[tab]]\nname = "Apart"\ncalculator = "binding"\n[tab.given]\nwidth = "9 in"\nheight = "9 in"\n'
    )
    assert call("print", bad, "--tab", "Apart").returncode == 0
    assert call("print", bad).returncode == 1


def test_print_of_a_tab_that_is_not_there_offers_the_nearest(good: Path) -> None:
    said = call("print", good, "--tab", "Egde")
    assert (said.returncode, said.stdout) == (2, "")
    assert said.stderr == f"{good}: there is no tab “Egde”. Did you mean “Edge”?\n"


@pytest.mark.parametrize("command", ["print", "check"])
@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("boltend = 2\n", "A later Boltend wrote it"),
        ("name = 'x'\n", "the format number is missing"),
        ("boltend = 1\n[project\n", "this is not TOML"),
        ("boltend = 1\n[[tab]]\nname = 12 1/2 in\n", ":3:"),
    ],
)
def test_a_file_that_cannot_be_read_ends_with_two(tmp_path: Path, command: str, text: str, part: str) -> None:
    file = tmp_path / "f.toml"
    file.write_text(text)
    said = call(command, file)
    assert (said.returncode, said.stdout) == (2, "")
    assert part in said.stderr
    assert "f.toml" in said.stderr
    assert "Traceback" not in said.stderr


@pytest.mark.parametrize("command", ["print", "check"])
def test_no_such_file(tmp_path: Path, command: str) -> None:
    said = call(command, tmp_path / "none.toml")
    assert said.returncode == 2
    assert "there is no such file. Check the name and the folder." in said.stderr


def test_check_of_a_sound_project(good: Path) -> None:
    said = call("check", good)
    assert (said.returncode, said.stdout, said.stderr) == (0, f"{good}: 2 tabs, all worked out.\n", "")


def test_check_tells_each_trouble_with_its_line(bad: Path) -> None:
    text = BAD + 'tial = "4 in"\n\n[[tab]]\nname = "Lost"\n'
    bad.write_text(text, encoding="utf-8")
    said = call("check", bad)
    lines = said.stdout.splitlines()
    assert said.returncode == 1
    written = text.splitlines()
    comma, tial = written.index('block_height = "12,5 in"') + 1, written.index('tial = "4 in"') + 1
    begins = (
        f'{bad}:{tial + 2}: tab "Lost": it has no calculator.',
        f"{bad}:{comma}: tab “Set” cannot: Block height: “12,5 in”",
        f"{bad}:{tial}: tab “Edge” cannot: binding has no given 'tial'. Did you mean tail?",
    )
    for begin in begins:
        assert any(line.startswith(begin) for line in lines), begin
    assert not any("all worked out" in line for line in lines)


def test_check_tells_a_wrong_setting_once_with_its_line(good: Path) -> None:
    good.write_text(GOOD.replace('name = "Trial"\n', 'name = "Trial"\nseam = 0.25\nunits = "feet"\n'))
    said = call("check", good)
    assert said.returncode == 1
    assert said.stdout.count("seam") == 2  # in one line: the key, and the way to write it
    assert f"{good}:5: project · seam" in said.stdout
    assert f"{good}:6: the project's units are 'feet'" in said.stdout
    assert len(said.stdout.splitlines()) == 2


def test_check_of_an_unknown_key_tells_and_passes(good: Path) -> None:
    good.write_text(GOOD.replace('name = "Trial"\n', 'name = "Trial"\nusabel_width = "40 in"\n'))
    said = call("check", good)
    assert said.returncode == 0
    assert f"{good}:5: project · usabel_width" in said.stdout
    assert "Did you mean usable_width?" in said.stdout
    assert said.stdout.endswith("2 tabs, all worked out.\n")


def test_control_characters_of_a_name_do_not_reach_the_terminal(tmp_path: Path) -> None:
    file = tmp_path / "f.toml"
    name = '"\\u001b[31mred\\u0007 \\u202e \\u009b2J [/x]"'
    file.write_text(
        f"boltend = 1\n[project]\nname = {name}\n{name} = 1\n"
        f"[[tab]]\nname = {name}\ncalculator = {name}\nnote = {name}\n"
        f'[[tab]]\nname = "B"\ncalculator = "binding"\n'
        f"[tab.given]\nwidth = {name}\n{name} = 3\nfabric = {name}\n"
    )
    calls = [
        ("print", file),
        ("print", file, "--as", "markdown"),
        ("print", file, "--as", "json"),
        ("check", file),
    ]
    for words in (
        *calls,
        ("print", file, "--tab", "\x1b[31m"),
        ("work", "bin\x1bding"),
        ("print", "no\x1b.toml"),
    ):
        said = call(*words)
        for text in (said.stdout, said.stderr):
            assert not re.search("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]", text), (words, text)
        assert "Traceback" not in said.stderr
        assert said.stdout + said.stderr


def test_calculators_lists_each_with_its_question() -> None:
    said = call("calculators")
    assert said.returncode == 0
    names = {line.split()[0] for line in said.stdout.splitlines()}
    assert {"fabric_in_hand", "straight_set", "measured_top", "borders", "binding"} <= names
    listed = json.loads(call("calculators", "--as", "json").stdout)
    assert {one["calculator"] for one in listed} == names
    assert all(one["asks"].endswith("?") and one["plugin"] for one in listed)


def test_calculators_tells_all_of_one() -> None:
    said = call("calculators", "borders")
    assert said.returncode == 0
    assert said.stdout.startswith("borders: ")
    for part in (
        "top_width  (finished; at least 1 in; at most 10000 in)",
        "borders.1.width",
        "usable_width",
        "the project's unless given",
    ):
        assert part in said.stdout
    data = json.loads(call("calculators", "borders", "--as", "json").stdout)
    assert data["calculator"] == "borders"
    assert [given["name"] for given in data["given"]][:3] == ["top_width", "top_height", "borders"]
    said = call("calculators", "bordres")
    assert said.returncode == 2
    assert "Did you mean borders?" in said.stderr


@pytest.mark.parametrize("words", [[], ["print"], ["check"], ["work"], ["calculators"]])
def test_help_tells_what_each_word_means(words: list[str]) -> None:
    said = call(*words, "--help", COLUMNS="100")
    assert (said.returncode, said.stderr) == (0, "")
    assert said.stdout.startswith("usage: boltend")
    assert len(said.stdout.splitlines()) > 6
    options = re.findall(r"^  (--\w+|-\w|[A-Z]\w+|name=value)\b.*", said.stdout, re.M)
    assert options
    bare = [
        line
        for line in said.stdout.splitlines()
        if re.fullmatch(r"  (--?\w+|[A-Z]\w+|name=value)( [A-Z]+)?", line)
    ]
    assert bare in ([], ["  COMMAND"]), "an argument without a word of help (the commands have theirs below)"
    if words != ["calculators"]:
        assert "Exit codes" in " ".join(said.stdout.split())


@pytest.mark.parametrize(
    "words", [["pirnt", "x.toml"], ["print"], ["print", "x", "--as", "pdff"], ["--nonsense"]]
)
def test_a_call_that_cannot_be_read_ends_with_two(words: list[str]) -> None:
    said = call(*words)
    assert (said.returncode, said.stdout) == (2, "")
    assert "usage: boltend" in said.stderr


def test_without_a_terminal_a_file_alone_is_printed_and_nothing_alone_is_refused(good: Path) -> None:
    assert call(good).stdout == call("print", good).stdout
    said = call()
    assert said.returncode == 2
    assert "boltend --help" in said.stderr


def through(*words: str, typed: str) -> subprocess.CompletedProcess[str]:
    """A command that is begun with a pipe."""
    command = [sys.executable, "-m", "boltend", *words]
    return subprocess.run(command, input=typed, capture_output=True, text=True, check=False, timeout=60)


@pytest.mark.skipif(sys.platform == "win32", reason="names of open files as Unix has them")
def test_what_only_reads_reads_what_is_handed_to_it(good: Path) -> None:
    for name in ("/dev/stdin", "/dev/fd/0"):
        said = through("check", name, typed=GOOD)
        assert (said.returncode, said.stdout) == (0, f"{name}: 2 tabs, all worked out.\n")
    assert through("print", "/dev/stdin", typed=GOOD).stdout == call("print", good).stdout
    said = through("check", "/dev/stdin", typed=BAD)
    assert said.returncode == 1
    assert "/dev/stdin:14" in said.stdout + said.stderr
    said = through("check", "/dev/stdin", typed="#" * 2_000_001)
    assert said.returncode == 2
    assert "larger than 2 MB" in said.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="pipes as Unix has them")
def test_a_pipe_of_the_disk_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    said = call("check", tmp_path / "pipe")
    assert said.returncode == 2
    assert "this is a pipe, not a file. Write what comes out of it into a file." in said.stderr


def test_a_pipe_that_nobody_reads_ends_quietly(good: Path) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    try:
        for words in (["print", str(good)], ["check", str(good)], ["calculators"], ["--help"]):
            said = subprocess.run(
                [sys.executable, "-m", "boltend", *words],
                stdout=writer,
                stderr=subprocess.PIPE,
                text=True,
                check=False,
                timeout=60,
            )
            assert said.stderr == "", words
            assert said.returncode in (0, 1)
    finally:
        os.close(writer)


def test_a_terminal_of_few_letters_still_gets_the_print(good: Path) -> None:
    said = call("print", good, PYTHONIOENCODING="ascii")
    assert (said.returncode, said.stderr) == (0, "")
    assert "48 in finished" in said.stdout


IMPORTED = """
import sys
from boltend.commands.main import main
code = main(sys.argv[1:])
heavy = sorted({name.partition(".")[0] for name in sys.modules} & {"textual", "rich", "pint", "tomlkit"})
print(code, *heavy, file=sys.stderr)
"""


@pytest.mark.parametrize("command", ["print", "check", "work", "calculators"])
def test_no_command_imports_the_screen_or_what_is_slow_to_import(good: Path, command: str) -> None:
    """Textual costs about 150 ms, pint about 80, tomlkit about 20: none is needed to read and work out."""
    words = {"print": [good], "check": [good], "work": ["binding", "width=60 in", "height=150 cm"]}.get(
        command, []
    )
    line = [sys.executable, "-c", IMPORTED, command, *map(str, words)]
    said = subprocess.run(line, capture_output=True, text=True, check=False, timeout=60)
    assert said.stderr == "0\n"
