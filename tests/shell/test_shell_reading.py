"""Reading what was found: more of it in sight while the focus is there, and a sign at the chosen line."""

from typing import Any

import pytest

Shell = Any

TEXT = """\
boltend = 1
[[tab]]
name = "Frame"
calculator = "frame"
[tab.given]
width = "30 in"
cut = "6 in"
rings = [{ width = "1 in" }, { width = "2 in" }, { width = "3 in" }, { width = "4 in" }]
"""


async def test_who_reads_gets_more_of_it_in_sight(shell: Shell) -> None:
    async with shell(text=TEXT, size=(80, 24)) as it:
        high = it.view.results.size.height
        await it.press("alt+r")
        await it.wait(lambda: it.view.results.size.height >= high + 4, "more lines")
        await it.press("escape")
        await it.wait(lambda: it.view.results.size.height == high, "the givens' lines")
        await it.pilot.click(it.view.results, offset=(2, 1))
        await it.wait(lambda: it.view.results.size.height >= high + 4, "the same by a click")


async def test_the_form_keeps_its_place_beside_the_results(shell: Shell) -> None:
    async with shell(text=TEXT, size=(120, 40)) as it:
        await it.press("alt+r")
        await it.wait(lambda: it.view.results.has_focus, "the results")
        assert it.view.given.size.height == it.view.results.size.height


@pytest.mark.parametrize("down", [0, 1])
async def test_the_chosen_line_has_a_sign_that_reads_without_colour(shell: Shell, down: int) -> None:
    async with shell(text=TEXT, size=(80, 24)) as it:
        values = {line.found for line in it.view.results.lines if line.found}
        assert len(values) > 1
        await it.press("alt+r", *["down"] * down)
        picked = it.view.results.picked_found
        at = next(n for n, line in enumerate(it.view.results.lines) if line.found == picked)
        label, value = (text for text, _ in it.view.results.lines[at].parts[:2])
        await it.sees(f"{label[:-1]}>{value.rstrip()}")
        assert sum(">" in row for row in it.rows()) == 1
