"""Money in a typed question: what it is put to, and what asks only for it."""

from typing import Any

from boltend.shell.app import host_bench

Shell = Any


async def test_what_was_typed_stands_there_again_where_nothing_could_use_it(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("how much will it all cost")
        await it.press("enter")
        await it.sees("[To buy")
        await it.press("alt+home")
        await it.sees("What do you want to know", "how much will it all cost")


async def test_also_after_an_example_was_opened(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("tidewater")
        await it.press("enter")
        await it.sees("A copy of the example")
        await it.press("alt+home")
        assert it.app.screen.filter.value == "tidewater"
