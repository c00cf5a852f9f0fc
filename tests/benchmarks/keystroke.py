"""A key until the screen shows all that it changed: the shell's result against the echo of a bare input.

The bare app has as many widgets in sight, and only echoes. In the shell the key changes a length of the
example's third tab, which runs through all that follow, a length of its binding, which feeds no other tab, or
its very first number, which a search in the worker process works out. Seen as `painting` says.
"""

import asyncio
import os
import tempfile
from collections.abc import Sequence

from figures import Figure
from painting import QUIET, SIZE, PaintingBare, PaintingShell, Pair, Stroke, figures_of, in_turns
from quilts import example
from sights import sight_of
from textual.pilot import Pilot

from boltend.shell.app import BoltendApp
from boltend.shell.desk import Desk
from boltend.shell.looks import Place

AIM = 1.5
STROKES = (
    ("six tabs of eight", "Steps", "sash", ("home",), Stroke("1", ["backspace"])),
    ("one tab of eight", "Binding", "tail", ("home",), Stroke("1", ["backspace"])),
    (
        "a search, and seven tabs",
        "Squares in hand",
        "precuts",
        ("end", "backspace"),
        Stroke("2", ["backspace"]),
    ),
)


def figures() -> Sequence[Figure]:
    """A key in each of three tabs against the echo, in turns with it."""
    with tempfile.TemporaryDirectory() as folder, example() as path:
        os.environ["BOLTEND_STATE"] = folder
        taken = asyncio.run(_all(str(path)))
    # What the worker does to work a search out is no CPU time of this process.
    return [
        line
        for what, pairs in taken.items()
        for line in figures_of(
            f"key to result, {what}", pairs, AIM, ("wall",) if "search" in what else ("wall", "cpu")
        )
    ]


async def _all(path: str) -> dict[str, list[Pair]]:
    shell = PaintingShell(Desk.open(path))
    taken = {}
    async with shell.run_test(size=SIZE) as pilot:
        for what, tab, given, first, stroke in STROKES:
            await go(pilot, shell, tab, given)
            await pilot.press(*first)
            await pilot.pause(QUIET)
            bare = PaintingBare(sight_of(shell))
            async with bare.run_test(size=SIZE) as echo:
                await echo.press("home")
                taken[what] = await in_turns(echo, pilot, Stroke("1", ["backspace"]), stroke)
    return taken


async def go(pilot: Pilot[None], shell: BoltendApp, tab: str, given: str) -> None:
    """To a given of a tab."""
    view = shell.project_screen
    view.show_tab(shell.desk.project.tab(tab).key, Place(given))
    await pilot.pause(QUIET)
    if getattr(shell.focused, "place", None) != Place(given):
        raise ValueError(f"the focus is not on {given} of “{tab}”")
