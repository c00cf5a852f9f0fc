"""An empty field says what its emptiness means, where its calculator has words for it."""

from collections.abc import Iterator
from typing import Any

import pytest

from boltend.core.contract import GivenSpec
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.model import project_from_plain
from boltend.shell.looks import look_of


@pytest.fixture(scope="module")
def host() -> Iterator[Any]:
    with Host.load() as made:
        yield made


def faint(host: Any, calculator: str, given: str, row: int = -1, column: str = "", **said: Any) -> str:
    tab = {"name": "A", "calculator": calculator, "given": said}
    book = Workbook(host, project_from_plain({"boltend": 1, "project": {}, "tab": [tab]}))
    key = book.project.tabs[0].key
    prepared = book.prepared(key)
    assert prepared is not None
    state = prepared.states[given]
    return look_of(state.cells[row][column] if column else state, book.results[key], "").faint


def test_what_an_empty_given_means_stands_in_it(host: Any) -> None:
    assert faint(host, "bed_size", "foot_drop", drop="15 in") == "as the sides"
    assert faint(host, "straight_set", "block_height", block_width="6 in") == "square"
    assert faint(host, "on_point", "edge") == "by the sash"
    border = [{"width": "4 in"}]
    assert faint(host, "borders", "borders", 0, "width_ends", borders=border) == "as the sides"
    # Without words: nothing is meant by it, or the calculator chooses.
    assert faint(host, "batting", "roll_width") == "none"
    assert faint(host, "measured_blocks", "coping_most") == "none"


def test_help_that_tells_of_emptiness_has_its_words(host: Any) -> None:
    def all_of(givens: tuple[GivenSpec, ...]) -> Iterator[GivenSpec]:
        for given in givens:
            yield given
            yield from all_of(given.columns)

    told = [
        given for spec in host.specs.values() for given in all_of(spec.givens) if "eft empty:" in given.help
    ]
    assert len(told) > 5
    assert [given.name for given in told if not given.empty] == []


def test_an_example_in_an_empty_field_is_no_value(host: Any) -> None:
    assert faint(host, "backing", "width") == "e.g. 60 in"
