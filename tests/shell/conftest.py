"""A driver for the screen, with calculators of the tests' own (`shell_calculators`)."""

import os
import sys
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from string import ascii_letters
from typing import Any

import pytest
from rich.style import Style

from boltend.core.host.calls import Outcome

sys.path.insert(0, str(Path(__file__).parent))  # test files are no package here
from shell_calculators import Bench, SewingBench

from boltend.shell.app import BoltendApp
from boltend.shell.desk import Desk
from boltend.shell.project_screen import ProjectScreen

GOLDEN = Path(__file__).parent / "golden"

PROJECT = """\
boltend = 1
# The quilt that every test begins with.

[project]
name = "Lantern"

[[fabric]]
name = "Night sky"

[[tab]]
name = "Sheet"
calculator = "patch"
[tab.given]
size = "6 in"
across = 5

[[tab]]
name = "Frame"
calculator = "frame"
[tab.given]
width = { from = "Sheet", take = "width" }
[[tab.given.rings]]
name = "Inner"
width = "2 in"
[[tab.given.rings]]
width = "3 1/2 in"
corner = "mitred"
"""


def look_words(style: Style | None) -> str:
    """A style as a person reads it, without what cannot be seen."""
    if style is None:
        return "plain"
    marks = ("bold", "dim", "italic", "underline", "reverse")
    words = [mark for mark in marks if getattr(style, mark)]
    colours = [c.triplet.hex if c and c.triplet else "" for c in (style.color, style.bgcolor)]
    return " ".join([*words, *([" on ".join(colours)] if any(colours) else [])]) or "plain"


@dataclass
class Driver:
    """A running shell, with what a person does and sees."""

    app: BoltendApp
    pilot: Any
    benches: list[Bench] = field(default_factory=list)

    @property
    def view(self) -> ProjectScreen:
        return self.app.project_screen

    @property
    def desk(self) -> Desk:
        return self.app.desk

    @property
    def bench(self) -> Bench:
        return self.benches[0]

    def rows(self) -> list[str]:
        """The screen as rows of cells. The one place that uses Textual's private compositor."""
        return [strip.text.rstrip() for strip in self.app.screen._compositor.render_strips()]

    def text(self) -> str:
        return "\n".join(self.rows())

    def painted(self) -> str:
        """Each row with a letter below every cell for how it is painted; what they mean at the end."""
        looks: dict[str, str] = {}
        lines = []
        for strip in self.app.screen._compositor.render_strips():
            letters = ""
            for segment in strip:
                look = look_words(segment.style)
                letters += looks.setdefault(look, ascii_letters[len(looks)]) * segment.cell_length
            lines += [strip.text.rstrip(), letters]
        return "\n".join([*lines, *(f"{letter}: {look}" for look, letter in looks.items())])

    async def wait(self, condition: Callable[[], Any], what: str = "") -> None:
        """Until something holds; no blind pauses."""
        until = time.monotonic() + 10
        while not condition():
            if time.monotonic() > until:
                pytest.fail(f"{what or 'the condition'} never held. The screen:\n{self.text()}")
            await self.pilot.pause(0.01)
        await self.pilot.pause()

    async def sees(self, *words: str) -> None:
        await self.wait(lambda: all(word in self.text() for word in words), f"seeing {words}")

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.pilot.pause()
        await self.written()

    async def written(self) -> None:
        """Until a save on its way is done: on a busy machine that is after its key."""
        while self.view._writes is not None:
            await self.pilot.pause(0.01)

    async def type(self, text: str) -> None:
        """Type a text, letter by letter, into whatever has the focus."""
        names = {" ": "space", "/": "slash", ".": "full_stop"}
        await self.pilot.press(*(names.get(letter, letter) for letter in text))
        await self.pilot.pause()

    async def to(self, given: str, row: int = -1, column: str = "") -> None:
        """The focus to a field of the form."""
        from boltend.shell.looks import Place

        assert self.view._form is not None
        widget = self.view._form.field(Place(given, row, column))
        assert widget is not None
        widget.focus()
        await self.wait(lambda: self.app.focused is widget, f"focus on {given}")

    async def focus_in_sight(self) -> None:
        """Until the form was scrolled to what has the focus."""
        seen = self.app.screen._compositor
        await self.wait(lambda: self.app.focused in seen.visible_widgets, "the focus in sight")
        before = ""
        while before != (before := self.text()):  # it scrolls in steps
            await self.pilot.pause(0.1)

    async def clear(self) -> None:
        """Empty the focused line of text."""
        await self.press("end", "ctrl+u")

    async def click_on(self, words: str) -> None:
        """Click on the first place where these words stand."""
        for y, line_ in enumerate(self.rows()):
            if words in line_:
                await self.pilot.click(offset=(line_.index(words) + len(words) // 2, y))
                await self.pilot.pause()
                return
        pytest.fail(f"{words!r} is not on the screen:\n{self.text()}")

    def state(self, name: str) -> str:
        assert self.desk.book is not None
        return self.desk.book.result(name).state

    def given(self, name: str) -> dict[str, Any]:
        return dict(self.desk.project.tab(name).given)


Shell = Callable[..., Any]


@pytest.fixture(autouse=True)
def own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Recovery files and settings of a test lie in its own folders, and the terminal has colours."""
    folder = tmp_path / "state"
    monkeypatch.setenv("BOLTEND_STATE", str(folder))
    monkeypatch.setenv("BOLTEND_CONFIG", str(tmp_path / "config"))
    monkeypatch.delenv("NO_COLOR", raising=False)
    return folder


@pytest.fixture(autouse=True)
def quick_pilot(monkeypatch: pytest.MonkeyPatch) -> None:
    """Textual's Pilot sleeps 20 ms at least twice a key until the process is idle: half of all the time here.

    5 ms tell that as well. What takes longer is waited for by its condition.
    """
    monkeypatch.setattr("textual._wait.SLEEP_GRANULARITY", 1 / 200)
    monkeypatch.setattr("textual._wait.SLEEP_IDLE", 1 / 4000)


@pytest.fixture
def project_file(tmp_path: Path) -> Path:
    path = tmp_path / "lantern.toml"
    path.write_text(PROJECT, encoding="utf-8")
    return path


@pytest.fixture
def shell(project_file: Path) -> Shell:
    """`async with shell() as it:` opens the project (or the path told), ready for keys."""

    @asynccontextmanager
    async def opened(
        path: Path | str | None = project_file,
        size: tuple[int, int] = (80, 24),
        text: str | None = None,
        bench: type[Bench] = Bench,
    ) -> AsyncIterator[Driver]:
        if text is not None:
            assert path is not None
            Path(path).write_text(text, encoding="utf-8")
        benches: list[Bench] = []

        def make(on_outcome: Callable[[object, Outcome], None]) -> Bench:
            benches.append(bench(on_outcome))
            return benches[-1]

        app = BoltendApp(Desk.open(None if path is None else str(path)), make)
        async with app.run_test(size=size) as pilot:
            driver = Driver(app, pilot, benches)
            await driver.wait(lambda: driver.desk.book is not None, "the calculators")
            await driver.wait(lambda: driver.app.focused is not None or len(app.screen_stack) > 2, "a focus")
            yield driver
        app.desk.close().result(30)

    return opened


@pytest.fixture
def sewing(shell: Shell) -> Shell:
    """As `shell`, with the calculator that asks for cloth, and a table of precuts."""
    return partial(shell, bench=SewingBench)


@pytest.fixture
def golden() -> Callable[..., None]:
    """Compares the screen with `golden/NAME.txt`, with `painted` also how each cell is painted.

    BOLTEND_GOLDEN=write writes it anew, to be looked at.
    """

    def compare(driver: Driver, name: str, *, painted: bool = False) -> None:
        path = GOLDEN / f"{name}.txt"
        now = (driver.painted() if painted else driver.text()) + "\n"
        if os.environ.get("BOLTEND_GOLDEN") == "write":
            GOLDEN.mkdir(exist_ok=True)
            path.write_text(now, encoding="utf-8")
        if not path.exists():
            pytest.fail(f"{path} is missing; BOLTEND_GOLDEN=write makes it. The screen:\n{now}")
        assert now == path.read_text(encoding="utf-8")

    return compare
