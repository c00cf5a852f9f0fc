"""A word while the disk takes its time and nothing else is left to do but wait for it."""

from textual.app import ComposeResult
from textual.screen import ModalScreen
from textual.widgets import Static

SLOW = 0.5
"""Seconds after which the screen says what it waits for."""


class Writing(ModalScreen[None]):
    """Takes all keys; after a moment it says why."""

    DEFAULT_CSS = """
    Writing { align: center middle; background: transparent; }
    Writing Static { width: auto; max-width: 100%; background: $panel; border: solid $primary; padding: 0 1;
                     display: none; }
    """

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words

    def compose(self) -> ComposeResult:
        """The word, which is not seen yet."""
        yield Static(f"{self.words} Boltend ends when that is done.", markup=False)

    def on_mount(self) -> None:
        """Wait a moment."""
        self.set_timer(SLOW, self._say)

    def _say(self) -> None:
        self.query_one(Static).display = True
