"""Any size of window: nothing falls over, and a window that is too small says what it needs."""

from random import Random
from typing import Any

import pytest

Shell = Any


@pytest.mark.parametrize("size", [(60, 20), (50, 14), (40, 10)])
async def test_small_windows_show_the_given_and_its_place(shell: Shell, size: tuple[int, int]) -> None:
    async with shell(size=size) as it:
        await it.sees("Given", "Size")
        lines = it.text().split("\n")
        assert len(lines) <= size[1]
        await it.type("7 in")
        assert it.given("Sheet")["size"].startswith("7 in")


@pytest.mark.parametrize("size", [(39, 20), (60, 9), (20, 8), (5, 2), (1, 1)])
async def test_a_window_too_small_says_what_it_needs(shell: Shell, size: tuple[int, int]) -> None:
    async with shell(size=size) as it:
        if size[0] >= 20:
            await it.sees("40 × 10")
        await it.pilot.resize_terminal(80, 24)
        await it.sees("Given", "Size")
        await it.type("7 in")
        assert it.given("Sheet")["size"].startswith("7 in")


async def test_resized_wildly_while_working(shell: Shell) -> None:
    chance = Random(20)
    async with shell() as it:
        typed = ""
        for _ in range(40):
            await it.pilot.resize_terminal(chance.randint(1, 140), chance.randint(1, 50))
            key = chance.choice("123456789")
            await it.type(key)
            typed += key
            if chance.random() < 0.3:
                await it.press(chance.choice(["f5", "f8", "f9", "f1", "shift+f3"]), "escape", "escape")
                typed = None or typed
            if it.view.list_in_sight:
                await it.press("escape")
        await it.pilot.resize_terminal(80, 24)
        await it.press("escape", "escape")
        await it.sees("Given", "Size")
