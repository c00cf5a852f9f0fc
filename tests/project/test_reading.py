"""Reading: every fault with its file, line and a way out; one bad tab never keeps the rest from opening."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from boltend.core.project.file_bytes import LIMIT
from boltend.core.project.problems import Problem, ProjectUnreadable
from boltend.core.project.reading import Reading, read_bytes, read_text

sys.path.insert(0, str(Path(__file__).parent))  # test modules stand alone under --import-mode=importlib
from quilts import HARBOUR, crlf

FAULTY = """\
boltend = 1
nmae = "Misplaced"
seam = "1/4 in"

[project]
name = 12
seam = 0.25
overge = "4 in"
prewash_along = 3.5

[[fabric]]
name = "Fern"
one_way = "yes"
colr = "#00ff00"

[[tab]]
name = "Good"
calculator = "binding"
[tab.given]
width = "60 in"

[[tab]]
name = "Bad"
calculater = "binding"
asid = true
done = "no"

[tab.given]
width = 12.5
height = { from = "Good", tak = "length" }
# between
[[tab.given.borders]]
width = "1 in"
[[tab.given.borders]]
width = { from = 3, take = "width" }

[[tab]]
name = "good"
calculator = "binding"
given = 4

[[ladder]]
tab = "Good"
given = "width"
values = "2 in"
"""


def problem(read: Reading, *path: str | int, where: str = "") -> Problem:
    found = [p for p in read.problems if p.path == path and where in p.where]
    assert len(found) == 1, [str(p) for p in read.problems]
    return found[0]


@pytest.mark.parametrize("text", [FAULTY, crlf(FAULTY), "\ufeff" + FAULTY])
def test_each_fault_is_told_with_its_line_and_a_way_out(text: str) -> None:
    read = read_text(text, "faulty.toml")
    lines = FAULTY.split("\n")

    def told(line: str, way_out: str, *path: str | int, where: str = "", severity: str = "error") -> None:
        found = problem(read, *path, where=where)
        assert found.line is not None
        assert lines[found.line - 1].startswith(line), str(found)
        assert way_out in found.way_out
        assert found.severity == severity
        assert found.file == "faulty.toml"

    told("nmae", "name under [project]", "nmae", severity="note")
    told("seam", "seam under [project]", "seam", where="file", severity="note")
    told("name = 12", 'name = "…"', "name", where="project")
    told("seam = 0.25", 'seam = "0.25"', "seam", where="project")
    told("overge", "overage", "overge", severity="note")
    told("one_way", "true or one_way = false", "one_way")
    told("colr", "colour", "colr", severity="note")
    told("[[tab]]", 'calculator = "…"', where='tab "Bad"')
    told("calculater", "calculator", "calculater", severity="note")
    told("asid", "aside", "asid", severity="note")
    told("done", "true or done = false", "done")
    told("height", "take", "given", "height", "tak", severity="note")
    told("width = { from = 3", "from", "given", "borders", 1, "width", "from")
    told('name = "good"', '"good 2"', "name", where='tab "good"')
    told("given = 4", "[tab.given]", "given", where='tab "good"')
    told("values", "[ … ]", "values")


def test_the_good_tab_is_untouched_by_its_neighbours() -> None:
    read = read_text(FAULTY, "faulty.toml")
    assert [tab.name for tab in read.project.tabs] == ["Good", "Bad", "good"]
    assert read.project.tab("Good").problems == ()
    bad = [p.tab_key for p in read.problems if p.where.startswith('tab "Bad"')]
    assert set(bad) == {read.project.tabs[1].key}
    assert len(bad) == 7
    # A TOML float as a given is the flow's to refuse, by its kind.
    assert read.project.tab("Bad").given["width"] == 12.5


def test_wrong_shapes_of_whole_sections_open_and_are_told() -> None:
    read = read_text('boltend = 1\ntab = 3\n[fabric]\nname = "x"\n', "x.toml")
    assert {(p.path, p.line) for p in read.problems} == {(("tab",), 2), (("fabric",), 3)}
    assert "[[tab]]" in problem(read, "tab").way_out
    assert read_text("boltend = 1\ntab = []\n", "x.toml").problems == ()


def test_a_clean_file_has_only_notes() -> None:
    assert {p.severity for p in read_text(HARBOUR, "h.toml").problems} == {"note"}


@pytest.mark.parametrize(
    ("text", "line", "column", "words"),
    [
        ('boltend = 1\n[project]\nname = "open\n', 3, None, "quotation mark"),
        ("boltend = 1\n[[tab]]\nwidth = 12 1/2 in\n", 3, None, "in quotes"),
        ("boltend = 1\nboltend = 1\n", 2, None, "only once"),
        ("boltend = 1\nname = ", 2, 8, "one name = value"),
        ("", 1, None, "boltend = 1"),
        ("[project]\nboltend = 1\n", 1, None, "under [project] now"),
        ("boltend = 2\n", 1, None, "later Boltend"),
        ('# x\nboltend = "1"\n', 2, None, "boltend = 1"),
        ("boltend = true\n", 1, None, "boltend = 1"),
        ("boltend = 1.0\n", 1, None, "boltend = 1"),
    ],
)
def test_unreadable_files(text: str, line: int, column: int | None, words: str) -> None:
    with pytest.raises(ProjectUnreadable) as caught:
        read_text(text, "x.toml")
    assert caught.value.line == line
    assert column is None or caught.value.column == column
    assert words in str(caught.value)
    assert str(caught.value).startswith(f"x.toml:{line}")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"boltend = 1\n[project]\nname = '\xff'\n", "x.toml:3:9"),
        (b"boltend = 1\n" + b"#" * LIMIT, "larger than 2 MB"),
        (b"boltend = 1\nx = " + b"[" * 5000 + b"]" * 5000, "nested too deep"),
        (b"boltend = 1\nx = " + b"9" * 5000, "very long number"),
        (b"\x00" * 40, "x.toml:1:1"),
        ("boltend = 1\n".encode("utf-16"), "UTF-8"),
    ],
)
def test_hostile_bytes_end_in_a_clear_error(data: bytes, words: str) -> None:
    with pytest.raises(ProjectUnreadable) as caught:
        read_bytes(data, "x.toml")
    assert words in str(caught.value)
