"""A new form is painted once it stands, with its focus; and what never finds a place holds nothing up."""

from typing import Any

import pytest
from textual.widgets import Static

from boltend.shell import settling
from boltend.shell.sparing import SparingCompositor

Shell = Any


@pytest.fixture
def painted(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """The rows of the screen at each painting of it."""
    times: list[list[str]] = []
    paint = SparingCompositor.render_update

    def note(self: SparingCompositor, *args: Any, **named: Any) -> Any:
        update = paint(self, *args, **named)
        if update is not None:
            times.append([strip.text.rstrip() for strip in self.render_strips()])
        return update

    monkeypatch.setattr(SparingCompositor, "render_update", note)
    return times


@pytest.fixture
def patient(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a busy machine, too, the next layout comes before the patience is at an end."""
    monkeypatch.setattr(settling, "STILL", 0.5)
    monkeypatch.setattr(settling, "MOST", 10)


@pytest.mark.usefixtures("patient")
async def test_the_first_that_is_painted_is_the_whole_form(shell: Shell, painted: list[list[str]]) -> None:
    async with shell() as it:
        await it.wait(lambda: painted, "a painting")
        await it.pilot.pause(0.1)
        assert painted[0][1:] == painted[-1][1:], "what comes first stays as it is; above it words may pass"
        assert any(">" in row and "6 in" in row for row in painted[0]), "with its focus"


@pytest.mark.usefixtures("patient")
async def test_a_form_that_comes_later_is_painted_whole_too(shell: Shell, painted: list[list[str]]) -> None:
    async with shell() as it:
        await it.wait(lambda: painted, "a painting")
        before = len(painted)
        await it.press("f6")
        await it.sees("[Frame]")
        await it.wait(lambda: any("Inner" in row for row in painted[-1]))
        first = next(rows for rows in painted[before:] if any("[Frame]" in row for row in rows))
        assert any("Inner" in row for row in first)


async def test_what_finds_no_place_holds_nothing_up(shell: Shell, painted: list[list[str]]) -> None:
    async with shell() as it:
        await it.wait(lambda: painted, "a painting")
        before = len(painted)
        it.view.paint_with(Static())  # nobody mounts it
        it.view.refresh()
        await it.pilot.pause(settling.MOST / 2)
        assert len(painted) == before
        await it.wait(lambda: len(painted) > before, "a painting all the same")


async def test_a_window_that_is_too_small_says_so(shell: Shell, painted: list[list[str]]) -> None:
    async with shell(size=(30, 8)) as it:
        await it.wait(lambda: painted, "a painting")
        assert any("30 × 8" in row for row in painted[0])
