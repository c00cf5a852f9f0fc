"""The least that a Textual app can be: what the shell is held against. Run by itself, it is a program.

`python bare_app.py INPUTS OTHERS`: so many widgets in sight, all of them Textual's own. It works
nothing out and keeps nothing: what is typed is only echoed. Every figure against it is a figure against the
echo alone, though no program that answers can paint as little.
"""

import sys
from collections.abc import Iterator
from typing import NamedTuple

from textual.app import App, ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widget import Widget
from textual.widgets import ContentSwitcher, Footer, Header, Input, Label, Static

LAST_LINE = "The last line."
"""What stands on the screen once all of the app does."""


class Sight(NamedTuple):
    """How many widgets are in sight: lines to type in, and all others."""

    inputs: int
    others: int


class BareApp(App[None]):
    """Header, Label, Input, Footer; with a `sight`, as many widgets in sight as that says."""

    AUTO_FOCUS = "Input"
    CSS = """
    Horizontal { height: 1; }
    .line { width: 1fr; height: 1; }
    Horizontal > Static { width: 30; height: 1; }
    Horizontal > Input { width: 1fr; }
    """

    def __init__(self, sight: Sight | None = None, pages: int = 1) -> None:
        super().__init__()
        self._sight = sight
        self._pages = pages
        self.bind("f1", "other_page")

    def compose(self) -> ComposeResult:
        """The four, the input with a text to edit; or what the sight says."""
        if self._sight is None:
            yield Header()
            yield Label("What is typed here is only echoed.")
            yield Input("32")
            yield Footer()
        elif self._pages == 1:
            yield from _page(self._sight, 1)
        else:
            with ContentSwitcher(initial="page1"):
                for n in range(1, self._pages + 1):
                    yield Vertical(*_page(self._sight, n), id=f"page{n}")

    def action_other_page(self) -> None:
        """To the next page, and into its first line."""
        switcher = self.query_one(ContentSwitcher)
        at = int((switcher.current or "page0")[4:])
        switcher.current = f"page{at % self._pages + 1}"
        switcher.query_one(f"#{switcher.current} Input").focus()


def _page(sight: Sight, number: int) -> Iterator[Widget]:
    """A label beside each input, in a line of their own, as far as the others go; the rest in lines."""
    labelled = min(sight.inputs, (sight.others - 1) // 2)
    for n in range(sight.inputs):
        line = Input(f"{n + 32}", compact=True, classes="line")
        yield Horizontal(Static(f"Label {n + 1} of {number}"), line) if n < labelled else line
    for n in range(sight.others - 2 * labelled - 2):
        yield Static(f"Line {n + 1} of page {number}.", classes="line")
    yield Static(LAST_LINE, classes="line")


if __name__ == "__main__":
    _said = [int(word) for word in sys.argv[1:]]
    BareApp(Sight(*_said) if _said else None).run()
