"""A key until the screen shows all that it changed: the shell's result against the echo of a bare input.

The bare app has as many widgets in sight, and only echoes. In the shell the key changes a length of the
example's third tab, which runs through all that follow, a length of its binding, which feeds no other tab, or
its very first number, which a search in the worker process works out. Seen as `painting` says.

The result is that of the tab in sight; what the bar says of the tabs that follow stands there a moment later,
which is a figure of its own.
"""

import asyncio
import os
import tempfile
from collections.abc import Sequence
from typing import NamedTuple

from figures import Figure
from painting import QUIET, SIZE, PaintingBare, PaintingShell, Pair, Stroke, figures_of, in_turns
from quilts import example
from sights import sight_of
from textual.pilot import Pilot

from boltend.shell.app import BoltendApp
from boltend.shell.desk import Desk
from boltend.shell.looks import Place

AIM = 1.5


class Flow(NamedTuple):
    """What a key changes: a given of a tab, the keys that lead to where it is typed, and the key."""

    tab: str
    given: str
    first: Sequence[str]
    key: str


SASH = Flow("Steps", "sash", ("home",), "1")
BACK = ["backspace"]
BAR = 1
"""The line of the bar."""

FLOWS = {
    "one tab of eight": (Flow("Binding", "tail", ("home",), "1"), BAR),
    "the first of six tabs": (SASH, BAR),
    "all six, in the bar": (SASH, None),
    "a search, and seven tabs": (Flow("Squares in hand", "precuts", ("end", "backspace"), "2"), BAR),
}


def figures() -> Sequence[Figure]:
    """A key in each of three tabs against the echo, in turns with it; the aim is for the tab in sight."""
    with tempfile.TemporaryDirectory() as folder, example() as path:
        os.environ["BOLTEND_STATE"] = folder
        taken = asyncio.run(_all(str(path)))
    # What the worker does to work a search out is no CPU time of this process.
    return [
        line
        for what, pairs in taken.items()
        for line in figures_of(
            f"key to result, {what}",
            pairs,
            AIM if FLOWS[what][1] is not None else None,
            ("wall",) if "search" in what else ("wall", "cpu"),
        )
    ]


async def _all(path: str) -> dict[str, list[Pair]]:
    shell = PaintingShell(Desk.open(path))
    taken = {}
    async with shell.run_test(size=SIZE) as pilot:
        for what, (flow, shell.passed_over) in FLOWS.items():
            await go(pilot, shell, flow.tab, flow.given)
            await pilot.press(*flow.first)
            await pilot.pause(QUIET)
            bare = PaintingBare(sight_of(shell))
            async with bare.run_test(size=SIZE) as echo:
                await echo.press("home")
                taken[what] = await in_turns(echo, pilot, Stroke("1", BACK), Stroke(flow.key, BACK))
    return taken


async def go(pilot: Pilot[None], shell: BoltendApp, tab: str, given: str) -> None:
    """To a given of a tab."""
    view = shell.project_screen
    view.show_tab(shell.desk.project.tab(tab).key, Place(given))
    await pilot.pause(QUIET)
    if getattr(shell.focused, "place", None) != Place(given):
        raise ValueError(f"the focus is not on {given} of “{tab}”")
