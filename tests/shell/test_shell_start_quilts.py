"""Five questions that people ask, each answered from the start screen in at most 60 keys, with every plugin.

The sizes are worked by hand here: a seam is 1/4 in, a binding lies round the raw edge and has 10 in of tail,
a backing and a batting reach 4 in beyond the raw edge.
"""

import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

import pytest

from boltend.shell.app import host_bench
from boltend.shell.looks import Place

Shell = Any
MOST_KEYS = 60
MOST_SECONDS = 60


class Hands:
    """Presses keys and counts them."""

    def __init__(self, it: Any) -> None:
        self.it, self.keys = it, 0

    async def type(self, text: str) -> None:
        self.keys += len(text)
        await self.it.type(text)

    async def press(self, *keys: str) -> None:
        self.keys += len(keys)
        await self.it.press(*keys)

    async def ask(self, words: str, *tabs: str) -> None:
        """Type into the start screen and take the first line."""
        await self.it.sees("type to search")
        await self.type(words)
        await self.press("enter")
        await self.it.wait(lambda: [t.name for t in self.it.desk.project.tabs] == list(tabs), f"{tabs}")

    async def at(self, given: str, row: int = -1, column: str = "") -> None:
        """The cursor is there by itself."""
        await self.it.wait(lambda: self.it.view.place == Place(given, row, column), f"{given} in focus")


@pytest.fixture
def begun(shell: Shell) -> Callable[[], Any]:
    @asynccontextmanager
    async def opened() -> AsyncIterator[tuple[Any, Hands]]:
        async with shell(None, bench=host_bench) as it:
            hands, since = Hands(it), time.monotonic()
            yield it, hands
            assert hands.keys <= MOST_KEYS
            assert time.monotonic() - since <= MOST_SECONDS

    return opened


async def test_thirty_blocks_of_nine_inches_two_borders_and_binding(begun: Any) -> None:
    async with begun() as (it, hands):
        await hands.ask("blocks two borders", "Blocks", "Borders", "Binding")
        await hands.at("blocks")
        await hands.type("30")
        await hands.press("enter")
        await hands.type("9")
        await hands.press("enter")
        await hands.type("9")
        # Five by six of 9 in.
        await it.sees("45 in finished", "54 in finished")
        await hands.press("f6")
        await hands.at("borders", 0, "width")
        await hands.type("2")
        await hands.press("f6", "shift+f6")
        await hands.at("borders", 1, "width")
        await hands.type("4")
        # 45 + 2 × (2 + 4) and 54 + 2 × (2 + 4).
        await it.sees("57 in finished", "66 in finished")
        await hands.press("f6")
        # 2 × (57 1/2 + 66 1/2) + 10.
        await it.sees("258 in")
        await hands.press("f8")
        await it.sees("Inner border", "Outer border", "Binding", "yd")


async def test_a_queen_bed_from_nine_inch_blocks(begun: Any) -> None:
    async with begun() as (it, hands):
        tabs = ("Bed", "Blocks", "Top", "Borders", "Binding", "Backing", "Batting")
        await hands.ask("cover bed", *tabs)
        await hands.at("bed")
        await hands.press("space")
        await it.sees("queen")
        await hands.type("us queen")
        await hands.press("enter")
        await it.wait(lambda: it.given("Bed") == {"bed": "US queen"})
        await hands.at("mattress_width")
        await hands.press("enter", "enter", "enter")
        await hands.at("drop")
        await hands.type("13")
        # 60 + 2 × 13 and 80 + 13.
        await it.sees("86 in finished", "93 in finished")
        await hands.press("f6")
        await hands.at("block_width")
        await hands.type("9")
        # 9 × 9 + 2 × 2 1/2 and 10 × 9 + 2 × 2 1/2: the least of all that cover 86 by 93.
        await it.sees("2 1/2 in finished", "86 in finished", "95 in finished")
        # The block is typed once: all that follows is worked out.
        assert [it.state(name) for name in tabs] == ["worked out"] * len(tabs)


async def test_the_block_on_point_is_typed_once_too(begun: Any) -> None:
    async with begun() as (it, hands):
        await hands.ask("on point bed", "Bed", "Blocks", "Top", "Borders", "Binding", "Backing", "Batting")
        it.view.edit(lambda p: p, "")
        for tab, given, value in (("Bed", "mattress_width", "60"), ("Bed", "mattress_length", "80"),
                                  ("Bed", "drop", "13"), ("Blocks", "block_width", "9")):  # fmt: skip
            from boltend.core.project.edits import set_given

            key = it.desk.project.tab(tab).key
            it.view.edit(lambda p, k=key, g=given, v=value: set_given(p, k, g, v), "")
        assert {it.state(tab.name) for tab in it.desk.project.tabs} == {"worked out"}


async def test_borders_that_bring_a_measured_top_to_a_size(begun: Any) -> None:
    async with begun() as (it, hands):
        await hands.ask("borders to size", "Top", "Borders to size", "Borders", "Binding")
        await hands.at("widths")
        await hands.type("60 1/4;60 3/8;60 1/4")
        await hands.press("enter")
        await hands.type("72")
        await hands.press("f6")
        await hands.at("target_width")
        await hands.type("70")
        await hands.press("enter")
        await hands.type("84")
        # The top is 71 1/2 in high; 6 in on each side make 83 1/2, 6 1/2 in make 84 1/2.
        await it.sees("84 1/2 in finished")
        await it.wait(lambda: it.state("Binding") == "worked out", "the binding")


async def test_backing_off_two_widths_and_a_batting(begun: Any) -> None:
    async with begun() as (it, hands):
        await hands.ask("how much backing", "Top", "Backing", "Batting")
        await hands.at("widths")
        await hands.type("87 1/2")
        await hands.press("enter")
        await hands.type("93 1/2")
        await hands.press("f6")
        # 87 + 1/2 + 8 = 95 1/2 by 101 1/2: three panels of 42 in either way; across, 3 × 95 1/2 = 286 1/2 in.
        await it.sees("8 yd")
        await hands.press("shift+f7", "shift+f8")
        await it.sees("(aside)")
        await hands.at("width")
        await hands.press("enter", "enter", "enter", "enter")
        await hands.at("usable_width")
        await hands.type("108")
        # One panel of 95 1/2 in: 2.65 yd.
        await it.sees("2 3/4 yd")
        await hands.press("f6")
        await it.sees("96 in", "102 in")
        assert it.state("Batting") == "worked out"


async def test_the_backing_that_a_pattern_prints(begun: Any) -> None:
    async with begun() as (it, hands):
        await hands.ask("printed backing", "Backing")
        await it.sees("Shift+F5", "“Backing”")
        await hands.at("width")
        await hands.type("87")
        await hands.press("enter")
        await hands.type("93")
        await hands.press("alt+home")
        await it.sees("What do you want to know")
        await hands.type("printed")
        await hands.press("enter")
        await it.wait(lambda: getattr(it.app.focused, "place", None) == Place("printed"), "the cell")
        await hands.type("5")
        await hands.press("escape")
        # 286 1/2 in are needed, 5 yd are 180 in.
        await it.sees("[To buy", "the 5 yd printed is short")
