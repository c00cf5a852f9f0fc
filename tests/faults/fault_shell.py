"""What the fault tests and the walk share: the strangers installed, a project, a shell with the real host."""

import re
import shutil
import subprocess
import sys
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

STRANGERS = Path(__file__).parents[1] / "strangers"

PROJECT = """\
boltend = 1
# Kept as it is, this line too.

[project]
name = "Among strangers"

[[tab]]
name = "Ours"
calculator = "straight_set"
[tab.given]
block_width = "9 in"
block_height = "9 in"
across = 4
down = 5

[[tab]]
name = "Buttons"
calculator = "button_row"
[tab.given]
edge = { from = "Ours", take = "width" }

[[tab]]
name = "Bad"
calculator = "mischief"
[tab.given]
what = "nothing"

[[tab]]
name = "After"
calculator = "button_row"
[tab.given]
edge = { from = "Bad", take = "wide" }
apart = "1/2 in"
"""

UNTOUCHED = ("Ours", "Buttons")
"""The tabs that no fault of the stranger's may reach."""


def install(folder: Path) -> Path:
    """Both strangers, built and installed offline as a person would; the folder to put on the path."""
    for name in ("button_row", "mischief"):
        source = folder / name
        shutil.copytree(STRANGERS / name, source)
        pip = [sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-index"]
        pip += ["--no-deps", "--no-build-isolation", "--target", str(folder / "site"), str(source)]
        done = subprocess.run(pip, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
    return folder / "site"


def names(module: str, pattern: str) -> list[str]:
    """Names that stand in a module of the stranger's as keys of its table, read without importing it."""
    text = (STRANGERS / "mischief/src/stranger_mischief" / f"{module}.py").read_text(encoding="utf-8")
    return re.findall(pattern, text, re.MULTILINE)


FAULTS = names("faults", r'^    "([^"]+)": ')
ANSWERS = names("answers", r'^    "([^"]+)": lambda')
LONG = [name for name in FAULTS if name.startswith(("sleeps", "holds"))]
SOUND = (
    *("prints", "dawdles", "leaks threads", "forks", "forks away", "moves", "takes signals", "rings later"),
    *(
        "many rows",
        "many pieces",
        "many lines",
        "many shapes",
        "a million of a piece",
        "a length below nothing",
    ),
    *("a megabyte of words", "a picture as wide as the world", "markup", "a format"),
)
"""What goes wrong and yet leaves a sound answer: it is shown."""


@dataclass
class Faulty:
    """A running shell on the project, with what a person does and sees."""

    app: Any
    pilot: Any

    @property
    def book(self) -> Any:
        """What was worked out."""
        return self.app.desk.book

    def text(self) -> str:
        """The screen, as a person reads it."""
        return "\n".join(strip.text.rstrip() for strip in self.app.screen._compositor.render_strips())

    def state(self, name: str) -> str:
        """The state of a tab."""
        return str(self.book.result(name).state)

    def untouched(self) -> dict[str, object]:
        """What the tabs find that no fault may reach."""
        return {name: dict(self.book.result(name).found) for name in UNTOUCHED}

    async def wait(self, condition: Callable[[], Any], what: str, seconds: float = 30) -> None:
        """Until something holds."""
        until = time.monotonic() + seconds
        while not condition():
            if time.monotonic() > until:
                raise AssertionError(f"{what} never came. The screen:\n{self.text()}")
            await self.pilot.pause(0.01)
        await self.pilot.pause()

    async def press(self, *keys: str) -> None:
        """Press keys, one after the other."""
        await self.pilot.press(*keys)
        await self.pilot.pause()

    async def settled(self) -> None:
        """Until no tab is working."""
        await self.wait(
            lambda: self.book is not None and all(r.state != "working" for r in self.book.results.values()),
            "an end of the work",
        )

    async def see(self, name: str) -> None:
        """Bring a tab into sight by its key in the bar."""
        view = self.app.project_screen
        view.show_tab(self.app.desk.project.tab(name).key)
        await self.wait(lambda: self.app.focused is not None, "a focus")

    async def paste(self, text: str) -> None:
        """Put a text into the focused field, all at once, as a paste does."""
        from textual.events import Paste

        await self.press("end", "ctrl+u")
        self.app.focused.post_message(Paste(text))
        await self.pilot.pause()


@asynccontextmanager
async def faulty(path: Path, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Faulty]:
    """The shell on a project with its real host: every plugin that is installed."""
    from boltend.shell.app import BoltendApp
    from boltend.shell.desk import Desk

    app = BoltendApp(Desk.open(str(path)))
    async with app.run_test(size=size) as pilot:
        it = Faulty(app, pilot)
        await it.wait(lambda: it.book is not None and app.focused is not None, "the calculators")
        yield it
    app.desk.close().result(30)
