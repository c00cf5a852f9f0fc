"""Each mistake of the example that is full of them is told where it stands, and harms nobody else."""

import re

import pytest

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.reading import Reading, read_bytes
from boltend_shared.examples import NAMES, path

TOLD = {
    # tab: (state, given that stands in the way, what the message must name)
    "Misspelt given": ("cannot", "acros", "Did you mean across"),
    "Unknown calculator": ("cannot", "calculator", "Did you mean straight_set"),
    "Link to nothing": ("waiting", "width", "The quilt that never was"),
    "Link to no found": ("waiting", "width", "Did you mean “width”"),
    "Hen": ("cannot", "", "“Hen” ← “Egg” ← “Hen”"),
    "Egg": ("cannot", "", "“Egg” ← “Hen” ← “Egg”"),
    "Decimal comma": ("cannot", "block_width", "8.5 in"),
    "Bare decimal": ("cannot", "block_width", "in quotes"),
    "Wrong choice": ("cannot", "shape", "square"),
    "Nothing given": ("cannot", "down", "nothing is given"),
    "Unknown fabric": ("cannot", "fabric", "Did you mean “Moss”"),
    "Length without a kind": ("cannot", "width", "length without a kind"),
    "Count for a length": ("cannot", "width", "a count cannot feed"),
    "Too many": ("cannot", "across", "500"),
    "Cannot be made": ("cannot", "leave_at_most", "Allow 6"),
    "Waiting": ("waiting", "width", "Decimal comma"),
}
SOUND = ("Sound blocks", "Sound setting")


@pytest.fixture(scope="module")
def reading() -> Reading:
    return read_bytes(path("mistakes").read_bytes(), "mistakes.toml")


@pytest.fixture(scope="module")
def book(reading: Reading) -> Workbook:
    with Host.load() as host:
        return Workbook(host, reading.project)


def test_every_tab_is_in_the_table(reading: Reading) -> None:
    assert [tab.name for tab in reading.project.tabs] == [*SOUND, *TOLD]


@pytest.mark.parametrize("name", TOLD)
def test_the_mistake_is_told(book: Workbook, name: str) -> None:
    state, given, words = TOLD[name]
    result = book.result(name)
    assert (result.state, result.troubles[0].given) == (state, given)
    assert words in result.why


@pytest.mark.parametrize("name", SOUND)
def test_the_sound_tabs_are_worked_out(book: Workbook, name: str) -> None:
    assert book.result(name).state == "worked out"


def test_the_misspelt_key_is_told_with_its_line(reading: Reading) -> None:
    (problem,) = reading.problems
    text = path("mistakes").read_text(encoding="utf-8").splitlines()
    at = next(number for number, row in enumerate(text, 1) if row.startswith("usabel_width"))
    assert f":{at}:" in str(problem)
    assert "usable_width" in str(problem)


def test_every_mistake_has_a_comment_that_names_it() -> None:
    _, *tabs = path("mistakes").read_text(encoding="utf-8").split("[[tab]]\n")
    named = {re.findall(r'^name = "(.*?)"', text)[0] for text in tabs if re.search(r"# MISTAKE \w", text)}
    assert named == set(TOLD) - {"Waiting"}


def test_an_example_is_found_by_its_name_and_a_wrong_one_names_the_others() -> None:
    assert path("mistakes.toml") == path("mistakes")
    assert all(path(name).is_file() for name in NAMES)
    with pytest.raises(KeyError, match="harbour-steps"):
        path("harbor-stairs")
