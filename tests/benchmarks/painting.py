"""Apps that tell when their screen first reads as wanted: from a key to all that it changed.

Headless, at 80 by 24: from handing over the key to the first painting after which the screen reads as it does
when all is quiet, the time that looking takes left out. The keys come at odd moments, so that no frame timer
favours either. Two clocks: the wall's, frames waited for included, and the CPU time of this process.
"""

import asyncio
import time
from collections.abc import Sequence
from typing import Any, NamedTuple

from bare_app import BareApp
from figures import Figure, figure
from rich.console import RenderableType
from textual import events
from textual.app import App
from textual.pilot import Pilot
from textual.screen import Screen

from boltend.shell.app import BoltendApp

SIZE = (80, 24)
QUIET = 0.3
"""Seconds after which nothing more is painted."""

PAUSES = (0.031, 0.047, 0.052, 0.038, 0.061, 0.043, 0.057, 0.035, 0.049)


class Taken(NamedTuple):
    """Seconds by the wall's clock and of CPU."""

    wall: float
    cpu: float


def clocks() -> Taken:
    """Both clocks now."""
    return Taken(time.perf_counter(), time.process_time())


class Painting(App[None]):
    """Tells when the screen first reads as wanted."""

    wanted = ""
    passed_over: int | None = None
    """A line of the screen that is not waited for."""
    painted: asyncio.Event | None = None
    begun = Taken(0, 0)
    taken = Taken(0, 0)

    def begin(self) -> asyncio.Event:
        """Look at every painting from now on; set once the screen reads as wanted."""
        self.painted = asyncio.Event()
        self.begun = clocks()
        return self.painted

    def _display(self, screen: Screen[Any], renderable: RenderableType | None) -> None:
        super()._display(screen, renderable)
        if self.painted is None or self.painted.is_set():
            return
        now = clocks()
        if read(self) == self.wanted:
            self.taken = Taken(now.wall - self.begun.wall, now.cpu - self.begun.cpu)
            self.painted.set()
        looked = clocks()  # what we look at between two paintings is not the app's own
        self.begun = Taken(self.begun.wall + looked.wall - now.wall, self.begun.cpu + looked.cpu - now.cpu)


class PaintingBare(Painting, BareApp):
    """The bare app, watched."""


class PaintingShell(Painting, BoltendApp):
    """The shell, watched."""


Keys = Sequence[str]
Pair = tuple[Taken, Taken]


class Stroke(NamedTuple):
    """A key whose painting is timed, and the keys that lead back to the screen before it."""

    key: str
    back: Keys


async def in_turns(
    bare: Pilot[None], ours: Pilot[None], bare_stroke: Stroke, our_stroke: Stroke
) -> list[Pair]:
    """Nine strokes each: the bare app's, ours. A first one tells how the screen reads once all is quiet."""
    await learn(bare, bare_stroke)
    await learn(ours, our_stroke)
    return [(await timed(bare, bare_stroke, p), await timed(ours, our_stroke, p)) for p in PAUSES]


async def learn(pilot: Pilot[None], stroke: Stroke) -> None:
    """What the screen reads after the key."""
    app = pilot.app
    assert isinstance(app, Painting)
    before = read(app)
    await pilot.press(stroke.key)
    await pilot.pause(QUIET)
    app.wanted = read(app)
    if app.wanted == before:
        raise ValueError(f"the key {stroke.key!r} changes nothing on the screen of {app.title}")
    await pilot.press(*stroke.back)
    await pilot.pause(QUIET)


async def timed(pilot: Pilot[None], stroke: Stroke, pause: float) -> Taken:
    """One stroke."""
    app = pilot.app
    assert isinstance(app, Painting)
    await asyncio.sleep(pause)
    painted = app.begin()
    app.post_message(events.Key(stroke.key, stroke.key if len(stroke.key) == 1 else None))
    await asyncio.wait_for(painted.wait(), 5)
    app.painted = None
    await pilot.press(*stroke.back)
    await pilot.pause(QUIET / 3)
    return app.taken


def figures_of(
    what: str, pairs: Sequence[Pair], aim: float, clocks: Sequence[str] = ("wall", "cpu")
) -> list[Figure]:
    """A line for each clock."""
    return [
        figure(
            f"{what}, {clock.replace('cpu', 'CPU')}",
            [getattr(ours, clock) for _, ours in pairs],
            [getattr(bare, clock) for bare, _ in pairs],
            aim,
        )
        for clock in clocks
    ]


def read(app: Painting) -> str:
    """What stands on the screen, without the line that is not waited for. Only the compositor knows."""
    lines = [strip.text for strip in app.screen._compositor.render_strips()]
    return "\n".join(line for at, line in enumerate(lines) if at != app.passed_over)
