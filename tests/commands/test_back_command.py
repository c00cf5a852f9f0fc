"""`boltend back` as it is called."""

import json
from pathlib import Path

import pytest
from calling import call

HARBOUR = Path(__file__).parents[2] / "shared/boltend_shared/examples/harbour-steps.toml"
ASK = ("back", HARBOUR, "--tab", "Steps", "--given", "sash", "--take", "width", "--most", "3 in")


def test_the_values_that_reach_it() -> None:
    # Five blocks of 9 in and four sashes: 45 + 4 s is at least 54 from s = 2 1/4 on; steps are 1/4 in.
    done = call(*ASK, "--wanted", "54 in")
    assert done.returncode == 0
    lines = done.stdout.split("\n")
    assert lines[0] == "Sash width of “Steps”, for Width of the top at least 54 in:"
    assert lines[1] == (
        "  2 1/4 in is the least that does (by 1/8 in): it gives exactly 54 in. "
        "All from 2 1/4 in on do; 3 in is as far as was looked."
    )
    assert [line.split("  gives ")[0].strip() for line in lines[2:6]] == [
        "2 1/4 in", "2 1/2 in", "2 3/4 in", "3 in",
    ]  # fmt: skip
    assert lines[2].endswith("gives 54 in")
    assert lines[6].startswith("Looked at from ")


def test_the_same_is_said_by_place() -> None:
    said = call("back", HARBOUR, "Steps", "width", "54 in", "--change", "Steps", "sash", "--most", "3 in")
    asked = call(*ASK[:-3], "Steps.width", "--most", "3 in", "--wanted", "54 in")
    assert (said.returncode, said.stdout) == (0, asked.stdout)
    assert "2 1/4 in  gives 54 in" in said.stdout


def test_exactly_in_json_and_the_nearest_misses() -> None:
    done = call(*ASK, "--wanted", "54 in", "--reach", "exactly", "--as", "json")
    body = json.loads(done.stdout)
    assert [(one["value"], one["exact"]) for one in body["hits"]] == [("2 1/4 in", "54")]
    done = call(*ASK, "--wanted", "54 1/8 in", "--reach", "exactly")
    assert done.returncode == 1
    assert "  none. The nearest:\n  2 1/4 in  gives 54 in\n" in done.stdout


def test_between_the_steps_and_by_a_step_that_is_said() -> None:
    """45 + 4 s is 54 1/2 in at s = 2 3/8 in, which no 1/4 in hits, and 54 1/4 in at 2 5/16 in."""
    done = call(*ASK, "--wanted", "54 1/2 in", "--reach", "exactly")
    assert done.returncode == 0
    said = "  2 3/8 in does (by 1/8 in): it gives 54 1/2 in. By 1/4 in none does.\n  2 3/8 in  gives"
    assert said in done.stdout
    done = call(*ASK, "--wanted", "54 1/4 in", "--reach", "exactly", "--step", "1/16 in")
    assert done.stdout.split("\n")[1] == "  2 5/16 in does (by 1/16 in): it gives 54 1/4 in."


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((*ASK, "--wanted", "wide"), "'wide': "),
        (
            ("back", HARBOUR, "--tab", "Step", "--given", "sash", "--take", "width", "--wanted", "1"),
            "Did you mean “Steps”?",
        ),
        (("back", HARBOUR), "not all is said. Say --take, --wanted, --change TAB GIVEN, too."),
        (("back", HARBOUR, "Steps", "width"), "Say TAB FOUND AMOUNT"),
    ],
)
def test_a_call_that_cannot_be_read(words: tuple[str, ...], said: str) -> None:
    done = call(*words)
    assert done.returncode == 2
    assert said in done.stderr
