"""A day at the screen, as keys drawn by a seed: `all_day.py` replays it in full, the tests for a minute.

Every move is one that a person makes: values typed and mistyped, tabs, lists, dialogs opened and left, saves,
undo, another size of the window, a stranger's plugin that dawdles or ends its process, the project anew.
"""

import gc
import os
import sys
import threading
import time
from collections import Counter
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "faults"))  # test files are no package here
from fault_shell import PROJECT, Faulty

EXAMPLES = Path(__file__).parents[2] / "shared/boltend_shared/examples"

VALUES = ("9 in", "12 1/2 in", "4", "7", "3 3/4 in", "1 1/2 yd", "banana", "0", "20 cm", "100 in", "")
WRONG = (
    "exits: SIGKILL",
    "dawdles",
    "raises",
    "many lines",
    "leaks threads",
    "nothing",
    "nothing",
    "nothing",
)
OPENED = (
    *("f1", "f2", "f4", "f7", "f9", "ctrl+f", "alt+home", "ctrl+n", "shift+f5", "shift+f1"),
    *("alt+e", "alt+l", "alt+w", "shift+f7", "shift+f8", "shift+f9"),
)
IN_SIGHT = ("f5", "f8", "alt+m", "alt+a", "alt+r", "alt+u")
SIZES = ((80, 24), (120, 40), (60, 20), (160, 50))
MOST_TABS = 14


def quilt() -> str:
    """A whole quilt, with the strangers' tabs behind its own."""
    strangers = PROJECT[PROJECT.index("[[tab]]") :]
    return (EXAMPLES / "harbour-steps.toml").read_text(encoding="utf-8") + "\n" + strangers


@dataclass
class Day:
    """One shell at work. `keys` counts what was pressed; `reopens`: the project is opened anew at times."""

    it: Faulty
    path: Path
    random: Random
    reopens: bool = True
    keys: int = 0
    moves: Counter[str] = field(default_factory=Counter)

    @property
    def view(self) -> Any:
        """The screen of the project."""
        return self.it.app.project_screen

    async def press(self, *keys: str) -> None:
        """Press keys; the app takes them in its own time."""
        self.keys += len(keys)
        await self.it.pilot.press(*keys)

    async def calm(self) -> None:
        """Back to the form, whatever was opened."""
        for _ in range(8):
            if self.it.app.screen is self.view and not self.view.list_in_sight:
                break
            await self.press("escape")
            await self.it.pilot.pause()
        assert self.it.app.screen is self.view, self.it.text()

    async def move(self) -> None:
        """Do one thing that a person does."""
        moves: list[tuple[int, Callable[[], Awaitable[None]]]] = [
            *((40, self.edit), (12, self.go), (12, self.undo), (10, self.dialog), (8, self.list)),
            *((5, self.resize), (4, self.mischief), (3, self.save), (3, self.tabs), (1, self.anew)),
        ]
        weights, doing = zip(*moves, strict=True)
        (do,) = self.random.choices(doing, weights)
        self.moves[do.__name__] += 1
        await do()
        await self.calm()

    async def edit(self) -> None:
        """Type a value into some field."""
        for _ in range(self.random.randrange(4)):
            await self.press("tab")
        text = self.random.choice(VALUES)
        names = {" ": "space", "/": "slash", ":": "colon"}
        await self.press("end", "ctrl+u", *(names.get(c, c) for c in text))

    async def go(self) -> None:
        """To other tabs."""
        for _ in range(self.random.randrange(1, 4)):
            await self.press(self.random.choice(("f6", "shift+f6")))

    async def undo(self) -> None:
        """Take edits back, and bring some again."""
        for _ in range(self.random.randrange(1, 5)):
            await self.press("ctrl+z")
        if self.random.random() < 0.3:
            await self.press("ctrl+y")

    async def dialog(self) -> None:
        """Open one of the dialogs, type a little, leave it."""
        await self.press(self.random.choice(OPENED))
        await self.it.pilot.pause()
        await self.press("a", "down", "up")

    async def list(self) -> None:
        """Look at a list of the whole project."""
        await self.press(self.random.choice(IN_SIGHT), "pagedown", "down")

    async def resize(self) -> None:
        """Another size of the window."""
        await self.it.pilot.resize_terminal(*self.random.choice(SIZES))

    async def mischief(self) -> None:
        """The stranger goes wrong, or is slow."""
        if self.it.app.desk.project.find_tab("Bad") is None:
            return
        self.view.show_tab(self.it.app.desk.project.tab("Bad").key)
        await self.it.pilot.pause()
        if self.view.place is not None and self.view.place.given == "what":
            await self.it.paste(self.random.choice(WRONG))

    async def save(self) -> None:
        """Save."""
        await self.press("ctrl+s")

    async def tabs(self) -> None:
        """A tab more, or one less."""
        many = len(self.it.app.desk.project.tabs)
        await self.press("shift+f7" if many < MOST_TABS else "shift+f2")
        await self.it.pilot.pause()
        await self.press("enter")

    async def anew(self) -> None:
        """Close the project and open it again, as it was in the morning."""
        if not self.reopens:
            return
        from boltend.shell.desk import Desk

        self.it.app.desk.close(keep=False)
        self.path.write_text(quilt(), encoding="utf-8")
        self.it.app.show_desk(Desk.open(str(self.path)))
        await self.it.wait(
            lambda: self.it.book is not None and self.it.app.focused is not None, "the project"
        )

    async def settled(self) -> None:
        """The same state at the end of each interval: all worked out, nothing open; the project as it was."""
        await self.anew()
        await self.it.pilot.resize_terminal(80, 24)
        await self.it.press("f5", "escape")
        await self.it.settled()
        await self.it.pilot.pause(0.5)


@dataclass(frozen=True)
class Look:
    """What can be counted between two moves. Sizes in MiB, times in seconds."""

    keys: int
    cpu: float
    own: float
    others: float
    processes: int
    threads: int
    descriptors: int
    widgets: int
    objects: int
    kinds: Counter[str]


def look(day: Day, cpu: float) -> Look:
    """Count, after everything that can be freed is. `cpu` was taken before the last settling."""
    from textual.widget import Widget

    for _ in range(3):
        gc.collect()
    every = gc.get_objects()
    kinds = Counter(f"{type(o).__module__}.{type(o).__qualname__}" for o in every)
    widgets = sum(issubclass(type(o), Widget) for o in every)
    pids = _children(os.getpid())
    return Look(
        day.keys, cpu, _resident(os.getpid()), sum(map(_resident, pids)), len(pids), threading.active_count(),
        len(os.listdir("/proc/self/fd")), widgets, len(every), kinds,
    )  # fmt: skip


async def replay(day: Day, keys: int, intervals: int, tell: Callable[[Look], None]) -> list[Look]:
    """Work through a day, with a look at the end of each interval."""
    await day.settled()
    looks = [look(day, time.process_time())]
    for n in range(1, intervals + 1):
        begun, before = time.process_time(), day.keys
        while day.keys < keys * n // intervals:
            await day.move()
        spent = (time.process_time() - begun) / max(1, day.keys - before)
        await day.settled()
        looks.append(look(day, spent))
        tell(looks[-1])
    return looks


def _resident(pid: int) -> float:
    try:
        words = Path(f"/proc/{pid}/statm").read_text().split()
    except OSError:  # it has ended meanwhile
        return 0.0
    return int(words[1]) * os.sysconf("SC_PAGE_SIZE") / 2**20


def _children(pid: int) -> list[int]:
    try:
        tasks = list(Path(f"/proc/{pid}/task").iterdir())
        found = [int(child) for task in tasks for child in (task / "children").read_text().split()]
    except OSError:
        return []
    return [grand for child in found for grand in (child, *_children(child))]
