"""The key for the next tab until all of that tab is in sight, against a bare app that changes pages.

The bare app has as many widgets in sight, on each of the two pages of its `ContentSwitcher`, made beforehand.
In the shell the two tabs are of two calculators, so of two forms, or of one, which shows other givens.
"""

import asyncio
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path

from figures import Figure
from painting import QUIET, SIZE, PaintingBare, PaintingShell, Pair, Stroke, figures_of, in_turns
from quilts import write_quilts
from sights import sight_of

from boltend.core.project.edits import move_tab
from boltend.shell.desk import Desk

AIM = 2.0
TABS = 40
NEXT = Stroke("f6", ["shift+f6"])


def figures() -> Sequence[Figure]:
    """To a tab of another calculator, and to one of the same."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BOLTEND_STATE"] = folder
        taken = asyncio.run(_all(write_quilts(TABS, Path(folder) / "quilts.toml")))
    return [line for what, pairs in taken.items() for line in figures_of(f"tab switch, {what}", pairs, AIM)]


async def _all(path: Path) -> dict[str, list[Pair]]:
    desk = Desk.open(str(path))
    shell = PaintingShell(desk)
    taken = {}
    async with shell.run_test(size=SIZE) as pilot:
        await pilot.pause(1)
        view = shell.project_screen
        beside = move_tab(desk.project, desk.project.tab("Binding 2").key, 6)
        view.edit(lambda _: beside, "moving a tab")
        for what, tab in (("another form", "Steps"), ("the same form", "Binding")):
            view.show_tab(desk.project.tab(tab).key)
            await pilot.pause(QUIET)
            bare = PaintingBare(sight_of(shell), pages=2)
            async with bare.run_test(size=SIZE) as pages:
                taken[what] = await in_turns(pages, pilot, Stroke("f1", ["f1"]), NEXT)
    return taken
