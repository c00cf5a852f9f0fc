"""What is new on the screen is painted once it stands: before, it would be painted five times, and flicker.

A new form learns its width in one layout, its height in the next, whether it has a scroll bar in a third.
Textual paints after each of them, which costs a start 40 ms (CPU).
"""

import asyncio

from textual.geometry import Size
from textual.messages import Layout
from textual.reactive import Reactive
from textual.screen import Screen
from textual.scrollbar import ScrollBar
from textual.widget import Widget

from boltend.shell.sparing import SparingCompositor

STILL = 0.04
"""Seconds without another layout after which all stands; Textual lays out every sixtieth of one at most."""

MOST = 0.5
"""Seconds after which it is painted in any case: what is waited for may have gone out of sight."""


class SettlingScreen(Screen[None]):
    """A screen that holds its painting back: from its start, and while something new on it is laid out."""

    # Textual paints the whole screen anew when the focus moves; who has it, or had it, paints itself.
    focused: Reactive[Widget | None] = Reactive(None, repaint=False)

    def __init__(self) -> None:
        super().__init__()
        self._compositor: SparingCompositor = SparingCompositor()
        self._compositor.held = True
        self._settles_with: Widget | None = None
        self._paints_at: asyncio.TimerHandle | None = None

    def paint_with(self, new: Widget | None) -> None:
        """Paint again once this widget has its place, and nothing was laid out for a moment."""
        self._compositor.held = True
        self._settles_with = new
        self._paint_in(MOST)

    def paint_now(self) -> None:
        """Paint what is there, settled or not."""
        if self._paints_at is not None:
            self._paints_at.cancel()
            self._paints_at = None
        if self._compositor.held:
            self._compositor.held = False
            self._compositor.update_widgets(self._dirty_widgets)
            self._compositor_refresh()  # not `refresh`, which would paint twice where anything else changed

    def _paint_in(self, seconds: float) -> None:
        if self._paints_at is not None:
            self._paints_at.cancel()
        # asyncio's own, for one of Textual's is a task, and a start has several layouts
        self._paints_at = asyncio.get_running_loop().call_later(seconds, self.paint_now)

    def on_unmount(self) -> None:
        """Let go: a timer of asyncio's would hold on to the whole screen."""
        if self._paints_at is not None:
            self._paints_at.cancel()

    def on_layout(self, event: Layout) -> None:
        """Textual lays the screen out once more for a scroll bar that has been laid out just now."""
        if isinstance(event.widget, ScrollBar):
            event.prevent_default()

    def _refresh_layout(self, size: Size | None = None, scroll: bool = False) -> None:
        super()._refresh_layout(size, scroll)
        if self._compositor.held and self._settles_with is not None and self._settles_with.size:
            self._paint_in(STILL)
