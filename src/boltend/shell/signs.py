"""Words in one line that do something when they are clicked; each says its key."""

from rich.segment import Segment
from textual import events
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget


class Signs(Widget):
    """`[Add F7] [Rename F2]`: (words, what they do)."""

    DEFAULT_CSS = """
    Signs { height: 1; width: 1fr; color: $text-accent; }
    """

    class Asked(Message):
        """The person clicked on one."""

        def __init__(self, what: str) -> None:
            self.what = what
            super().__init__()

    def __init__(self, *signs: tuple[str, str]) -> None:
        super().__init__()
        self.signs = signs

    def render_line(self, y: int) -> Strip:
        """The one line."""
        text = " ".join(f"[{words}]" for words, _ in self.signs)
        return Strip([Segment(text, self.rich_style)]).adjust_cell_length(self.size.width, self.rich_style)

    def on_click(self, event: events.Click) -> None:
        """Which one it was."""
        x = 0
        for words, what in self.signs:
            if x <= event.x < x + len(words) + 2:
                self.post_message(self.Asked(what))
            x += len(words) + 3
