"""`boltend ladder` as it is called."""

import json
from pathlib import Path

import pytest
from calling import call

HARBOUR = Path(__file__).parents[2] / "shared/boltend_shared/examples/harbour-steps.toml"
ASK = ("ladder", HARBOUR, "--tab", "Squares in hand", "--given", "precuts", "--values", "8; 16")


def test_a_table_with_the_values_across() -> None:
    done = call(*ASK, "--take", "blocks", "--take", "Steps.width")
    assert done.returncode == 0
    lines = done.stdout.split("\n")
    assert lines[0].split() == ["Precuts", "in", "hand", "8", "16"]
    # Each precut gives one block; 8 of 9 in stand 2 by 4, 16 3 by 5: 2 × 9 + 1 1/2, 3 × 9 + 2 × 1 1/2.
    assert lines[1].split() == ["Blocks", "8", "16"]
    assert lines[2] == "Steps: Width of the top  19 1/2 in  30 in"


def test_the_same_is_said_by_place() -> None:
    asked = call(*ASK, "--take", "blocks", "--take", "Steps.width")
    by_place = ("ladder", HARBOUR, "Squares in hand", "precuts", "8", "16")
    said = call(*by_place, "--take", "blocks", "--take", "Steps", "width")
    assert (said.returncode, said.stdout) == (0, asked.stdout)
    assert "which ladder? Say VALUE." in call(*by_place[:4]).stderr
    assert "--take has 3 words" in call(*by_place, "--take", "Steps", "width", "height").stderr


def test_json_has_exact_values() -> None:
    done = call(*ASK, "--take", "Steps.width", "--as", "json")
    body = json.loads(done.stdout)
    assert [rung["value"] for rung in body["rungs"]] == ["8", "16"]
    cells = [rung["cells"]["Steps: Width of the top"] for rung in body["rungs"]]
    assert [cell["exact"] for cell in cells] == ["39/2", "30"]


def test_a_rung_that_cannot_be_worked_out_is_told_and_the_code_says_so() -> None:
    done = call(*ASK[:-1], "8; none of it", "--take", "blocks")
    assert done.returncode == 1
    assert "! none of it, Blocks: " in done.stdout


def test_a_ladder_of_the_project_by_name(tmp_path: Path) -> None:
    kept = tmp_path / "q.toml"
    ladder = '\n[[ladder]]\nname = "How many"\ntab = "Squares in hand"\ngiven = "precuts"\nvalues = [8]\n'
    kept.write_text(HARBOUR.read_text(encoding="utf-8") + ladder + 'take = "blocks"\n', encoding="utf-8")
    assert call("ladder", kept, "How many").stdout.startswith("How many\n\nPrecuts in hand  8\n")
    assert "The project keeps no" in call("ladder", kept, "How much").stderr.replace(
        "the project", "The project"
    )
    assert "Name a ladder that it keeps (How many)" in call("ladder", kept).stderr


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((HARBOUR,), "which ladder? Say --tab, --given, --values."),
        ((HARBOUR, "How many"), "the project keeps no ladder “How many”."),
        ((HARBOUR, "How many", *ASK[2:]), "a name and a ladder of its own are both given."),
        ((*ASK[1:], "--take", "blocs"), "finds no 'blocs'. Did you mean “blocks”?"),
        (("/nowhere.toml",), "/nowhere.toml"),
    ],
)
def test_a_call_that_cannot_be_read(words: tuple[str, ...], said: str) -> None:
    done = call("ladder", *words)
    assert done.returncode == 2
    assert said in done.stderr
