"""`boltend work`: one calculator from the command line."""

import json
import re

import pytest
from calling import call


def test_work_in_text_and_json() -> None:
    words = ("work", "straight_set", "block_width=12 in", "block_height=12 in", "across=4", "down=4")
    said = call(*words)
    assert said.returncode == 0
    assert said.stdout.startswith("straight_set\n")
    assert re.search(r"Width of the top +48 in finished", said.stdout)
    said = call(*words, "--as", "json")
    data = json.loads(said.stdout)
    assert list(data) == [
        "calculator",
        "given",
        "found",
        "working",
        "pieces",
        "runs",
        "goods",
        "first",
        "cautions",
    ]
    assert data["calculator"] == "straight_set"
    assert data["found"]["width"] == {
        "text": "48 in", "inches": "48", "unrounded": "48", "exact": True, "kind": "finished",
    }  # fmt: skip


def test_work_with_rows_and_a_fabric_that_no_project_declares() -> None:
    said = call(
        "work", "borders", "top_width=48 in", "top_height=48 in", "borders.1.width=3 in",
        "borders.1.fabric=Moss", "borders.2.width=5 in", "borders.2.fabric=moss", "--as", "json",
    )  # fmt: skip
    data = json.loads(said.stdout)
    assert (said.returncode, said.stderr) == (0, "")
    assert data["found"]["width"]["inches"] == "64"  # 8 in a side: 48 + 16 (common practice, no source)
    assert [row["width"]["text"] for row in data["given"]["borders"]] == ["3 in", "5 in"]
    assert {row["fabric"] for row in data["given"]["borders"]} == {"Moss"}


def test_work_with_lists() -> None:
    said = call("work", "measured_top", "widths=60 1/4; 60 3/8; 60 1/8", "heights=72 1/2", "--as", "json")
    data = json.loads(said.stdout)
    assert said.returncode == 0
    assert [width["text"] for width in data["given"]["widths"]] == ["60 1/4 in", "60 3/8 in", "60 1/8 in"]
    assert data["found"]["width"]["inches"] == "239/4"  # the mean, 60 1/4, less two seams of 1/4


def test_work_in_centimetres_and_yes_or_no() -> None:
    said = call(
        "work", "straight_set", "block_width=30", "block_height=30", "across=4", "down=4", "sash=5",
        "cornerstones=YES", "--units", "centimetres", "--as", "json",
    )  # fmt: skip
    data = json.loads(said.stdout)
    assert data["found"]["width"]["text"] == "135 cm"
    assert data["given"]["cornerstones"] is True


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (["bindign"], "no plugin brings a calculator 'bindign'. Did you mean binding?"),
        (["binding", "width"], "'width' is no name=value. Write, say, width=…."),
        (["binding", "widht=3 in"], "binding has no given 'widht'. Did you mean “width”?"),
        (["binding", "width=3 in", "width=4 in"], "width is given twice."),
        (["binding", "width.1.x=3 in"], "'width.1.x': width has no rows. Write width=…."),
        (["borders", "borders=3 in"], "'borders': say which row and column, as borders.1."),
        (["borders", "borders.0.width=3 in"], "say which row and column"),
        (["borders", "borders.99999.width=3 in"], "say which row and column"),
        (
            ["borders", "borders.1.widht=3 in"],
            "'borders.1.widht': there is no column 'widht'. Did you mean “width”?",
        ),
        (["borders", "borders.1.width=3 in", "borders.1.width=4 in"], "borders.1.width is given twice."),
        (["straight_set", "cornerstones=maybe"], "cornerstones: “maybe”: this is neither yes nor no"),
    ],
)
def test_a_call_of_work_that_cannot_be_read_ends_with_two(words: list[str], part: str) -> None:
    said = call("work", *words)
    assert (said.returncode, said.stdout) == (2, "")
    assert part in said.stderr


def test_work_that_cannot_be_worked_out_ends_with_one_and_keeps_the_keys() -> None:
    words = ("work", "binding", "width=60 in", "height=zz")
    said = call(*words)
    assert (said.returncode, said.stdout) == (1, "")
    assert said.stderr.startswith("binding: Height of the quilt: “zz”")
    wrong = call(*words, "--as", "json")
    right = call("work", "binding", "width=60 in", "height=72 in", "--as", "json")
    assert wrong.returncode == 1
    assert json.loads(wrong.stdout).keys() == json.loads(right.stdout).keys()
    assert json.loads(wrong.stdout)["found"].keys() == json.loads(right.stdout)["found"].keys()
    assert json.loads(wrong.stdout)["given"]["width"]["inches"] == "60"


def test_work_shows_its_picture_where_it_is_asked_to() -> None:
    words = ("work", "straight_set", "block_width=12 in", "block_height=12 in", "across=3", "down=2")
    assert "Picture" not in call(*words).stdout
    said = call(*words, "--picture")
    assert (said.returncode, said.stderr) == (0, "")
    picture = said.stdout.partition("\nPicture\n")[2].partition("\nWorking\n")[0].splitlines()
    assert "36 in" in picture[0]  # 3 blocks of 12 in
    assert any("24 in" in line for line in picture)
    plain = call(*words, "--picture", PYTHONIOENCODING="ascii").stdout.partition("\nPicture\n")[2]
    assert plain.partition("\nWorking\n")[0].isascii()


def test_work_says_where_there_is_no_picture_to_show() -> None:
    said = call("work", "measured_top", "widths=60 in", "heights=72 in", "--picture")
    assert said.returncode == 0
    assert said.stderr == "measured_top answers without a picture.\n"
