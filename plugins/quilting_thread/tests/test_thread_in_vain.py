"""What was given and does not count, lines that are too short for the quilt, and units that suit it."""

from typing import Any

import pytest

from boltend.testing import Worked, work
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS

DITCH = {"pattern": "in the ditch", "ditch_length": "90 yd"}


def quilt(**said: Any) -> Worked:
    given = {"width": "49 in", "height": "63 in", "pattern": "parallel lines", "spacing": "1 in", **said}
    given = {name: value for name, value in given.items() if value is not None}
    return work(quilting_thread, tables=[THREADS, BOBBINS], **given)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"ditch_length": "90 yd"}, "“Seams to follow” is not counted: the pattern is parallel lines."),
        ({"path": "90 yd"}, "The pattern and its spacing do not count: the length of the lines is given."),
        (DITCH, "“Spacing” makes no length of lines here: the pattern is in the ditch."),
    ],
)
def test_a_given_in_vain_is_told(said: dict[str, Any], words: str) -> None:
    assert any(line.startswith(words) for line in quilt(**said).cautions), quilt(**said).cautions


@pytest.mark.parametrize("said", [{}, {**DITCH, "spacing": None}, {"pattern": "other", "path": "90 yd"}])
def test_a_given_that_counts_is_not_warned_of(said: dict[str, Any]) -> None:
    assert not any("not count" in line or "no length" in line for line in quilt(**said).cautions)


def test_lines_shorter_than_the_quilt_are_warned_of() -> None:
    words = (
        "All lines together are 62 in, less than one line along the quilt's 63 in: look at what was given."
    )
    assert words in quilt(path="62 in").cautions
    assert any(line.startswith("All lines together are 0 in") for line in quilt(path="0 yd").cautions)
    assert any("less than one line" in line for line in quilt(**{**DITCH, "ditch_length": "1 in"}).cautions)
    for fine in ({"path": "63 in"}, {}, DITCH):
        assert not any("less than one line" in line for line in quilt(**fine).cautions)


def test_a_project_of_inches_reads_in_inches_and_yards() -> None:
    # 49 × 63 ÷ 1 in is 85 3/4 yd; × 1.1 × (1 + 15/254 × 10), for 1.5 mm are 15/254 in: 150.0287.
    said = "\n".join(quilt().working)
    assert " cm" not in said.replace("(7.6 cm)", "")
    assert " mm" not in said
    assert "1 + ≈ 0.059 in × 10 per in = ≈ 1.591 times" in said
    assert "Top thread: ≈ 150.029 yd, up to the next 1 yd: 151 yd" in said


def test_a_metric_project_reads_in_metres() -> None:
    said = "\n".join(quilt(settings={"units": "centimetres"}).working)
    assert " yd" not in said.replace("yd of top thread a square foot", "").replace("about 10 yd", "")
    assert "1 + 0.15 cm × 3.937 per cm" in said.replace("≈ ", "")
    assert " mm" not in said
