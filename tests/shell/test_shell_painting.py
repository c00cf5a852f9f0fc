"""What is sent to the terminal, piece by piece, against the whole screen painted anew."""

import re
from typing import Any

import pytest
from rich.cells import cell_len
from textual.app import App

Shell = Any

_PART = re.compile(r"\x1b\[(\d+);(\d+)H|\x1b\[[\d;]*m|\n|([^\x1b\n]+)")


class Paper:
    """What a terminal shows after all that was sent to it."""

    def __init__(self, width: int, height: int) -> None:
        self.cells = [[" "] * width for _ in range(height)]
        self.partly = 0

    def take(self, sent: str) -> None:
        """Moves of the cursor, and text; looks are passed over."""
        x = y = 0
        for part in _PART.finditer(sent):
            if part[1]:
                y, x = int(part[1]) - 1, int(part[2]) - 1
            for letter in part[3] or "":
                assert cell_len(letter) == 1, f"{letter!r} is beyond this paper"
                self.cells[y][x] = letter
                x += 1

    @property
    def rows(self) -> list[str]:
        return ["".join(row).rstrip() for row in self.cells]


@pytest.fixture
def paper(monkeypatch: pytest.MonkeyPatch) -> Paper:
    """All that the app sends, written down."""
    paper = Paper(80, 24)
    display = App._display

    def note(app: App[None], screen: Any, update: Any) -> None:
        display(app, screen, update)
        if update is not None and screen is app.screen:
            paper.take(update.render_segments(app.console))
            paper.partly += type(update).__name__ == "ChopsUpdate"

    monkeypatch.setattr(App, "_display", note)
    return paper


KEYS = [
    ("of one line", ["1", "0", "backspace", "backspace"]),
    ("that cannot be worked out, with more lines and fewer", ["x", "backspace", "slash", "backspace"]),
    ("from field to field", ["down", "down", "up", "2", "delete", "enter", "7"]),
    ("from tab to tab", ["f6", "3", "f6", "shift+f6", "backspace"]),
    ("to a list and back", ["alt+m", "down", "escape", "4"]),
    ("to what was found", ["alt+r", "down", "down", "down", "up", "alt+r", "5"]),
    ("undone", ["9", "ctrl+z", "ctrl+y", "ctrl+z"]),
]


@pytest.mark.parametrize(("what", "keys"), KEYS, ids=[what for what, _ in KEYS])
async def test_what_was_sent_is_what_the_screen_says(
    shell: Shell, paper: Paper, what: str, keys: list[str]
) -> None:
    async with shell(size=(80, 24)) as it:
        await it.to("across")
        before = paper.partly
        for key in keys:
            await it.press(key)
            await it.pilot.pause(0.05)
            await it.wait(lambda: paper.rows == it.rows(), f"all of it painted after {key}")
        assert paper.partly > before, "it was to be painted in parts, not as a whole"
