"""The Python door: held against the command line's JSON, against hand work, and against the file."""

import doctest
import json
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

import boltend
from boltend.door import AskError, ChangedOnDisk, ProjectUnreadable, Quilt
from boltend_shared.examples import NAMES, path

F = Fraction
GUIDE = Path(__file__).parent.parent.parent / "DEVELOPERS.md"

MADE = """\
boltend = 1
# Four patches; a comment that stays.
[project]
name = "Four"
[[fabric]]
name = "Slate"
price = "$12.00 per yard"
[[tab]]
name = "Top"
calculator = "straight_set"
[tab.given]
block_width = "9 in"
block_height = "9 in"
across = 4
down = 5
[[tab]]
name = "Edge"
calculator = "binding"
[tab.given]
width = { from = "Top", take = "width" }
height = { from = "Top", take = "height" }
fabric = "Slate"
[[tab]]
name = "Lost"
calculator = "binding"
[tab.given]
width = "no width"
height = "9 in"
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    made = tmp_path / "four.toml"
    made.write_text(MADE, encoding="utf-8")
    return made


@pytest.fixture
def quilt(file: Path) -> Iterator[Quilt]:
    with boltend.open(file) as opened:
        yield opened


def test_the_session_in_the_guide(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    session = re.search(r"^```pycon\n(.*?)^```", GUIDE.read_text(encoding="utf-8"), re.M | re.S)
    assert session is not None
    shutil.copy(path("lantern-row"), tmp_path / "lantern-row.toml")
    monkeypatch.chdir(tmp_path)
    names: dict[str, Any] = {}
    test = doctest.DocTestParser().get_doctest(session[1], names, "the guide", "DEVELOPERS.md", 0)
    said: list[str] = []
    outcome = doctest.DocTestRunner().run(test, out=said.append)
    assert outcome.failed == 0, "".join(said)
    assert outcome.attempted >= 12


def test_founds_are_exact_and_typed(quilt: Quilt) -> None:
    top = quilt["Top"]
    assert (top["width"].value, top["width"].kind, top["width"].text) == (F(36), "finished", "36 in finished")
    assert top["width"].to("yd") == 1
    assert top["width"].to("cm") == F(9144, 100)
    assert top["blocks"].value == 20
    assert type(top["blocks"].value) is int
    assert top.given["across"].value == 4
    # 2 × (36 1/2 + 45 1/2) + 10 in.
    assert quilt["Edge"]["length"].value == 174


def test_what_fails_says_why_and_the_rest_is_there(quilt: Quilt) -> None:
    lost = quilt["Lost"]
    assert lost.state == "cannot"
    assert "no width" in lost.why[0]
    assert dict(lost.found) == {}
    with pytest.raises(KeyError, match="no width"):
        lost["length"]
    with pytest.raises(KeyError, match="Did you mean “width”"):
        quilt["Top"]["widht"]
    with pytest.raises(KeyError, match="Did you mean “Edge”"):
        quilt["Egde"]
    with pytest.raises(TypeError, match="no length but count"):
        quilt["Top"]["blocks"].to("in")
    with pytest.raises(ValueError, match="no unit of a length"):
        quilt["Top"]["width"].to("furlong")


def test_a_what_if_leaves_the_quilt_and_its_file(quilt: Quilt, file: Path) -> None:
    wider = quilt.with_given("Top", "across", 6)
    assert (wider["Top"]["width"].value, quilt["Top"]["width"].value) == (54, 36)
    assert wider["Edge"]["length"].value == 2 * (F(109, 2) + F(91, 2)) + 10
    assert quilt.with_given("Edge", "width", quilt["Top"]["width"])["Edge"].given["width"].value == 36
    assert file.read_text(encoding="utf-8") == MADE
    with pytest.raises(KeyError, match=r"has no given 'acros'\. Did you mean “across”"):
        quilt.with_given("Top", "acros", 6)
    assert quilt.with_given("Top", "across", "six")["Edge"].state == "waiting"


def test_a_ladder_and_backwards(quilt: Quilt) -> None:
    rungs = quilt.ladder("Top", "across", [4, 5, 6], ["width", {"from": "Edge", "take": "length"}])
    assert [rung.cells["Width"].amount if "Width" in rung.cells else None for rung in rungs] == [
        36,
        45,
        54,
    ] or [next(iter(rung.cells.values())).amount for rung in rungs] == [36, 45, 54]
    found = quilt.back("Top", "across", take="width", wanted="60 in")
    assert found.hits[0].value == 7  # 7 × 9 = 63, the first that is at least 60
    with pytest.raises(AskError, match="no tab"):
        quilt.ladder("Tip", "across", [1])


def test_the_lists_say_what_the_command_says(quilt: Quilt, file: Path) -> None:
    words = [sys.executable, "-m", "boltend", "print", "--as", "json", str(file)]
    said = json.loads(subprocess.run(words, capture_output=True, check=False, encoding="utf-8").stdout)
    bought = [(row["name"], row["length"] and F(row["length"]["inches"])) for row in said["to_buy"]]
    assert [(line.name, line.length) for line in quilt.to_buy] == bought
    assert quilt.total is not None
    assert quilt.total.amount == F(said["total"]["amount"])
    assert list(quilt.to_cut)


@pytest.mark.parametrize("name", NAMES)
def test_every_example_opens_and_its_tabs_are_those_of_the_command(name: str) -> None:
    words = [sys.executable, "-m", "boltend", "print", "--as", "json", str(path(name))]
    said = json.loads(subprocess.run(words, capture_output=True, check=False, encoding="utf-8").stdout)
    with boltend.open(path(name)) as quilt:
        assert [(tab.name, tab.state) for tab in quilt] == [(t["name"], t["state"]) for t in said["tabs"]]
        for tab, told in zip(quilt, said["tabs"], strict=True):
            for found in tab.found.values():
                if found.kind in ("finished", "cut", "length") and found.value is not None:
                    assert F(told["found"][found.name]["inches"]) == found.value


def test_saving_keeps_comments_and_merges(file: Path) -> None:
    with boltend.open(file) as quilt:
        wider = quilt.with_given("Top", "across", 6)
        file.write_text(MADE.replace("down = 5", "down = 7"), encoding="utf-8")
        wider.save()
        assert (wider["Top"].given["across"].value, wider["Top"].given["down"].value) == (6, 7)
        kept = file.read_text(encoding="utf-8")
        assert "# Four patches; a comment that stays." in kept
        assert "across = 6" in kept
        file.write_text(kept.replace("across = 6", "across = 8"), encoding="utf-8")
        with pytest.raises(ChangedOnDisk):
            wider.with_given("Top", "across", 9).save()


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(ProjectUnreadable, match="no such file"):
        boltend.open(tmp_path / "none.toml")
