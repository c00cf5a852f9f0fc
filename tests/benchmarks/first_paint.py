"""From the start of a fresh process to the first filled screen, seen from outside, in a terminal.

Ours is filled when the form, its last value and the last result of the first tab that 80 by 24 shows are
there, not when the empty frame is: that result comes from a search in the worker process. The project has
forty tabs. Of the bare app, which has as many widgets in sight, the last line must be there.
The example, of eight tabs, is also held against the very least app, of four widgets.
"""

import asyncio
import os
import sys
import tempfile
from collections.abc import Sequence
from importlib.util import cache_from_source
from pathlib import Path

from bare_app import LAST_LINE, Sight
from figures import ROUNDS, Figure, figure
from quilts import example, write_quilts
from sights import sight_of
from terminal import Terminal

from boltend.shell import desk
from boltend.shell.app import BoltendApp

AIM = 1.5
TABS = 40
FILLED = (
    "Harbour Steps", "Given", "Blocks from these pieces", "Found", "Blocks in hand", "Stacks to cut", "Quit",
)  # fmt: skip
"""What stands at the top, in each part and at the end of each part, once the form has its place."""

BARE = ("BareApp", "only echoed", "32", "palette")
SIGHT = (LAST_LINE,)


def figures() -> Sequence[Figure]:
    """Wall time and CPU time of nine starts each, taken in turns after one to warm up."""
    with tempfile.TemporaryDirectory() as folder, example() as eight:
        env = environment(folder)
        forty = write_quilts(TABS, Path(folder) / "forty.toml")
        sight = sight_of_first(forty, folder)
        ours, fair = (shell_command(forty), FILLED), (bare_command(sight), SIGHT)
        small, least = (shell_command(eight), FILLED), (bare_command(None), BARE)
        rounds = [[_start(c, env, w) for c, w in (ours, fair, small, least)] for _ in range(ROUNDS + 1)][1:]
        if not Path(cache_from_source(desk.__file__)).exists():
            raise ValueError(
                "no byte code was kept: each start compiled every module, which is not measured here"
            )
    print(f"in sight of a first tab: {sight}")
    return [
        *_figures(f"first filled paint, {TABS} tabs", [r[:2] for r in rounds], AIM),
        *_figures("the same, 8 tabs, to the least app", [r[2:] for r in rounds], None),
    ]


def _figures(what: str, pairs: list[list[tuple[float, float]]], aim: float | None) -> list[Figure]:
    ours, theirs = zip(*pairs, strict=True)
    return [
        figure(f"{what}, {clock}", [t[n] for t in ours], [t[n] for t in theirs], aim)
        for n, clock in enumerate(("wall", "CPU"))
    ]


def sight_of_first(path: Path, folder: str) -> Sight:
    """How many widgets are in sight with the first tab of a project."""
    os.environ["BOLTEND_STATE"] = folder
    return asyncio.run(_sight(path))


async def _sight(path: Path) -> Sight:
    app = BoltendApp(desk.Desk.open(str(path)))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause(1)
        return sight_of(app)


def shell_command(path: Path) -> list[str]:
    """How the shell is started with a project."""
    return [sys.executable, "-m", "boltend", str(path)]


def bare_command(sight: Sight | None) -> list[str]:
    """How the bare app is started, with so many widgets."""
    said = map(str, sight) if sight is not None else ()
    return [sys.executable, str(Path(__file__).with_name("bare_app.py")), *said]


def environment(folder: str) -> dict[str, str]:
    """A home of its own, a plain colour terminal, and byte code kept, as after an installation."""
    kept = {k: v for k, v in os.environ.items() if k in ("PATH", "LANG", "LC_ALL", "VIRTUAL_ENV")}
    return {
        **kept, "HOME": folder, "BOLTEND_STATE": folder, "TERM": "xterm-256color", "COLORTERM": "truecolor",
    }  # fmt: skip


def _start(command: Sequence[str], env: dict[str, str], words: Sequence[str]) -> tuple[float, float]:
    with Terminal(command, env) as terminal:
        wall = terminal.until(*words)
        return wall, terminal.end()
