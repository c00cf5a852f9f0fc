"""What a given means is said on one line below the form, and at length by the help."""

from typing import Any

import pytest
from shell_calculators import frame

from boltend.core.host import Host
from boltend.shell.given_help import given_help
from boltend.shell.looks import Look
from boltend.shell.say import ROOM, say_of

Shell = Any


def test_a_line_is_cut_between_its_parts_only() -> None:
    with Host.load() as host:
        givens = [given for spec in host.specs.values() for given in spec.givens]
    specs = [spec for given in givens for spec in (given, *given.columns)]
    assert len(specs) > 100
    for spec in specs:
        said, whole = say_of(spec, Look()), say_of(spec, Look(), room=1000)
        parts = whole.split(" · ")
        assert all(part in parts for part in said.split(" · ")), said
        assert said.startswith(spec.help), "its meaning comes first"
        assert len(said) <= max(ROOM, len(spec.help))


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("way", ("Way", "Choices: along, across, on the bias.", "Left empty: along")),
        ("width", ("Finished: as it lies in the sewn quilt.", "At least 1 in.", "It is needed")),
        ("cut", ("Cut: with its seam allowances", "It may be left empty.")),
        ("washed", ("Yes or no", "Left empty: no")),
    ],
)
def test_the_help_says_meaning_limits_choices_and_what_empty_means(name: str, words: tuple[str, ...]) -> None:
    spec = frame.spec.given(name)
    assert spec is not None
    said = " ".join(given_help(spec, Look()).split())
    for each in words:
        assert each in said


async def test_the_help_of_a_cell_says_where_it_is_and_what_the_signs_do(shell: Shell) -> None:
    async with shell(size=(80, 40)) as it:
        await it.press("f6")
        await it.to("rings", 0, "name")
        await it.sees("Name: any words")
        await it.press("f1")
        await it.sees("Name · in row 1 of “Rings”", "Any words", "It may be left empty.", "x takes it out")


async def test_enter_on_a_found_goes_to_the_tab_that_uses_it_as_the_help_says(shell: Shell) -> None:
    async with shell() as it:
        await it.press("alt+r", "f1")
        await it.sees("Enter on a line with →")
        await it.press("escape", "enter")
        await it.sees("[Frame]")
