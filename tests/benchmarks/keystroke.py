"""A key until the screen shows all that it changed: the shell's result against the echo of a bare input.

Headless, at 80 by 24: from handing over the key to the first painting after which the screen reads as it does
when all is quiet. In the shell the key changes a length of the example's third tab, which runs through all
that follow, a length of its binding, which feeds no other tab, or its very first number, which a search in
the worker process works out. The keys come at odd moments, so that no frame timer favours either.
"""

import asyncio
import os
import tempfile
import time
from collections.abc import Sequence
from importlib.resources import as_file, files
from typing import Any

from bare_app import BareApp
from figures import ROUNDS, Figure, figure
from rich.console import RenderableType
from textual import events
from textual.app import App
from textual.pilot import Pilot
from textual.screen import Screen

from boltend.shell.app import BoltendApp
from boltend.shell.desk import Desk
from boltend.shell.looks import Place

AIM = 1.5
SIZE = (80, 24)
QUIET = 0.3
"""Seconds after which nothing more is painted."""

PAUSES = (0.031, 0.047, 0.052, 0.038, 0.061, 0.043, 0.057, 0.035, 0.049)


class Painting(App[None]):
    """Tells when the screen first reads as wanted."""

    wanted = ""
    painted: asyncio.Event | None = None
    when = 0.0

    def _display(self, screen: Screen[Any], renderable: RenderableType | None) -> None:
        super()._display(screen, renderable)
        now = time.perf_counter()  # before we look, which costs time
        if self.painted is not None and not self.painted.is_set() and screen_text(self) == self.wanted:
            self.when = now
            self.painted.set()


class PaintingBare(Painting, BareApp):
    """The bare app, watched."""


class PaintingShell(Painting, BoltendApp):
    """The shell, watched."""


def figures() -> Sequence[Figure]:
    """A key in each of three tabs against the echo, in turns with it."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BOLTEND_STATE"] = folder
        example = files("boltend_shared.examples").joinpath("harbour-steps.toml")
        with as_file(example) as path:
            taken = asyncio.run(_all(str(path)))
    return [figure(f"key to result, {what}", ours, echo, AIM) for what, echo, ours in taken]


async def _all(path: str) -> list[tuple[str, list[float], list[float]]]:
    """For each tab what it is, the echoes, and our own."""
    bare, shell = PaintingBare(), PaintingShell(Desk.open(path))
    async with bare.run_test(size=SIZE) as echo, shell.run_test(size=SIZE) as pilot:
        await _go(pilot, shell, "Steps", "sash")
        head = "six tabs of eight", *await _in_turns(echo, pilot, ("home",), "1")
        await _go(pilot, shell, "Binding", "tail")
        tail = "one tab of eight", *await _in_turns(echo, pilot, ("home",), "1")
        await _go(pilot, shell, "Squares in hand", "precuts")
        await pilot.press("end", "backspace")
        search = "a search, and seven tabs", *await _in_turns(echo, pilot, ("end",), "2")
    return [head, tail, search]


async def _go(pilot: Pilot[None], shell: BoltendApp, tab: str, given: str) -> None:
    view = shell.project_screen
    view.show_tab(shell.desk.project.tab(tab).key, Place(given))
    await pilot.pause(QUIET)
    if getattr(shell.focused, "place", None) != Place(given):
        raise ValueError(f"the focus is not on {given} of “{tab}”")


async def _in_turns(
    echo: Pilot[None], pilot: Pilot[None], first: Sequence[str], key: str
) -> tuple[list[float], list[float]]:
    """Nine keys each; the wanted screens are those of a first key, once all is quiet."""
    for each in (echo, pilot):
        await each.press(*first)
        await _learn(each, key)
    taken = [(await _timed(echo, key, pause), await _timed(pilot, key, pause)) for pause in PAUSES[:ROUNDS]]
    return [t[0] for t in taken], [t[1] for t in taken]


async def _learn(pilot: Pilot[None], key: str) -> None:
    app = pilot.app
    assert isinstance(app, Painting)
    before = screen_text(app)
    await pilot.press(key)
    await pilot.pause(QUIET)
    app.wanted = screen_text(app)
    if app.wanted == before:
        raise ValueError(f"the key {key!r} changes nothing on the screen of {app.title}")
    await pilot.press("backspace")
    await pilot.pause(QUIET)


async def _timed(pilot: Pilot[None], key: str, pause: float) -> float:
    app = pilot.app
    assert isinstance(app, Painting)
    await asyncio.sleep(pause)
    app.painted = asyncio.Event()
    begin = time.perf_counter()
    app.post_message(events.Key(key, key))
    await asyncio.wait_for(app.painted.wait(), 5)
    app.painted = None
    await pilot.press("backspace")
    await pilot.pause(QUIET / 3)
    return app.when - begin


def screen_text(app: App[None]) -> str:
    """What stands on the screen. Only Textual's private compositor knows."""
    return "\n".join(strip.text for strip in app.screen._compositor.render_strips())
