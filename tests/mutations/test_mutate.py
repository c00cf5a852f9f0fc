"""The tool itself, quickly: what it finds, what it makes of it, and that a trial can end either way."""

import ast
import os
import subprocess
import sys
from pathlib import Path
from textwrap import dedent

import pytest
from mutate import Site, mutant, sites
from subjects import DRAWS, LEFT_OUT, ROOT, Explained, all_sites, drawn, explained, modules, names, stale

SMALL = dedent('''
    """A docstring with 1 + 1 in it."""

    MOST: int = 9


    @decorated(1 + 1)
    def panels(span: "1 + 1", usable=given("Width", least=f"{1 + 1} in")) -> int:
        """Not 2 * 3 either."""
        if span <= 0 and not usable:
            raise ValueError(f"{span + 1} is wrong")
        words = "panel" if span == 1 else "two panels"
        return ceil_div(span - 2, usable) if usable else min(span, 1), words[::-1]
''')


def test_the_sites_of_a_small_source_are_these() -> None:
    found = [(site.function, site.kind, site.text) for site in sites(SMALL, "small.py")]
    assert found == [
        ("<module>", "9 to 10", "MOST: int = 9"),
        ("<module>", "9 to 8", "MOST: int = 9"),
        ("panels", "test true", "span <= 0 and not usable"),
        ("panels", "test false", "span <= 0 and not usable"),
        ("panels", "test turned", "span <= 0 and not usable"),
        ("panels", "and to or", "span <= 0 and not usable"),
        ("panels", "<= to <", "span <= 0"),
        ("panels", "<= to >", "span <= 0"),
        ("panels", "0 to 1", "span <= 0"),
        ("panels", "0 to -1", "span <= 0"),
        ("panels", "not dropped", "not usable"),
        ("panels", "test true", "span == 1"),
        ("panels", "test false", "span == 1"),
        ("panels", "== to !=", "span == 1"),
        ("panels", "1 to 2", "span == 1"),
        ("panels", "1 to 0", "span == 1"),
        ("panels", "test true", "usable"),
        ("panels", "test false", "usable"),
        ("panels", "test turned", "usable"),
        ("panels", "ceil_div to floor_div", "ceil_div(span - 2, usable)"),
        ("panels", "- to +", "span - 2"),
        ("panels", "2 to 3", "span - 2"),
        ("panels", "2 to 1", "span - 2"),
        ("panels", "min to max", "min(span, 1)"),
        ("panels", "1 to 2", "min(span, 1)"),
        ("panels", "1 to 0", "min(span, 1)"),
        ("panels", "minus dropped", "-1"),
    ]


def test_a_choice_between_two_texts_is_words() -> None:
    source = 'def said(n):\n    return "one panel" if n == 1 else f"{n - 1} more"\n'
    assert sites(source, "small.py") == []


def test_each_mutant_compiles_and_differs() -> None:
    made = [ast.unparse(mutant(SMALL, site)) for site in sites(SMALL, "small.py")]
    assert len({*made, ast.unparse(ast.parse(SMALL))}) == len(made) + 1
    for text in made:
        compile(text, "small.py", "exec")


def test_a_site_is_the_same_when_lines_move() -> None:
    moved = "# a line\n\n" + SMALL
    assert sites(moved, "small.py") == sites(SMALL, "small.py")
    assert [site.line + 2 for site in sites(SMALL, "small.py")] == [s.line for s in sites(moved, "small.py")]


def test_equals_are_told_apart_by_their_ordinal() -> None:
    source = "def twice(a):\n    return a + 1, a + 1\n"
    found = [(site.kind, site.ordinal) for site in sites(source, "small.py")]
    assert found.count(("+ to -", 1)) == found.count(("+ to -", 2)) == 1
    with pytest.raises(KeyError):
        mutant(source, Site("small.py", "twice", "+ to -", "a + 1", 3, 0, ""))


def test_every_plugin_has_sites_and_no_site_is_twice() -> None:
    for name in names():
        here = all_sites(name)
        assert here, name
        assert len(set(here)) == len(here), name
        assert not [site for site in here if (Path(site.file).name, site.outer) in DRAWS]


def test_what_is_left_out_is_there_to_be_left_out() -> None:
    files = {file.name for name in names() for file in (ROOT / "plugins" / name / "src").rglob("*.py")}
    taken = {file.name for name in names() for file in modules(name)}
    for pattern, why in LEFT_OUT.items():
        assert any(Path(file).match(pattern) for file in files - taken), pattern
        assert why
    drawn_by = {
        (file.name, function) for name in names() for file in modules(name) for function in defined(file)
    }
    assert drawn_by >= DRAWS


def defined(file: Path) -> list[str]:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    return [node.name for node in tree.body if isinstance(node, ast.FunctionDef)]


def test_every_explained_survivor_is_a_site_and_says_why() -> None:
    entries = explained()
    assert [entry.site.said for entry in stale(entries)] == []
    assert [entry.site.said for entry in entries if len(entry.why.split()) < 5] == []
    assert len({entry.site for entry in entries}) == len(entries)
    gone = Explained(Site("plugins/none.py", "f", "+ to -", "a + b", 1, 0, ""), "it is no more, in truth")
    assert stale([gone]) == [gone]


def test_a_small_sample_is_part_of_a_larger_one() -> None:
    here = all_sites(names()[0])
    few, more = drawn(here, 20, seed=7), drawn(here, 40, seed=7)
    assert (len(few), len(more)) == (20, 40)
    assert set(few) < set(more)
    assert set(few) < set(drawn(here[10:], 40, seed=7)) | set(here[:10])
    assert drawn(here, 20, seed=8) != few


TRIAL = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[1])
from mutate import sites
from trial import Lab
root = Path(sys.argv[2])
lab = Lab(root, {"tiny": root / "tiny"})
tests = lab.learn(["tests"])
for site in sites((root / "tiny/area.py").read_text(), "tiny/area.py"):
    verdict = lab.trial(site, tests, [])
    print(site.function, site.kind, verdict.what, verdict.by, sep="|")
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="a trial is a fork")
def test_a_trial_can_end_either_way(tmp_path: Path) -> None:
    for folder in ("tiny", "tests"):
        (tmp_path / folder).mkdir()
    (tmp_path / "tiny/__init__.py").write_text("")
    (tmp_path / "tiny/area.py").write_text(
        "def area(a, b):\n    return a * b\n\n\ndef near(a):\n    return a + 1\n\n\n"
        "def idle(a):\n    return a % 2\n"
    )
    (tmp_path / "tests/test_area.py").write_text(
        "import sys\nsys.path.insert(0, sys.path[0] + '/..')\nfrom tiny.area import area, near\n\n\n"
        "def test_area():\n    assert area(2, 3) == 6\n\n\ndef test_near():\n    assert near(1) > 0\n"
    )
    environment = {**os.environ, "PYTHONPATH": str(tmp_path), "PYTHONDONTWRITEBYTECODE": "1"}
    said = subprocess.run(
        [sys.executable, "-c", TRIAL, str(Path(__file__).parent), str(tmp_path)],
        capture_output=True, text=True, timeout=120, env=environment, check=True,
    )  # fmt: skip
    lines = said.stdout.splitlines()
    assert "area|* to /|killed|tests/test_area.py::test_area" in lines
    assert "near|+ to -|killed|tests/test_area.py::test_near" in lines
    assert "near|1 to 2|survived|" in lines
    assert "idle|% to //|survived|no test enters it" in lines
    assert "a * b" in (tmp_path / "tiny/area.py").read_text()
