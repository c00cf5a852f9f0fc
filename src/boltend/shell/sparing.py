"""Painting no more widgets than changed."""

from typing import Any

from rich.console import RenderableType
from textual._compositor import ChopsUpdate, Compositor
from textual.geometry import Region
from textual.screen import Screen
from textual.widget import Widget

Places = dict[Widget, tuple[Region, Region]]
"""Widgets, each with region and clip, the foremost first."""


class SparingCompositor(Compositor):
    """Textual's, which asks those widgets only for their lines of which something will be seen.

    Textual 8.2 asks every widget between the highest line that changed and the lowest, and all others in
    their containers, then throws most of it away. While somebody types in the upper half and results change
    in the lower, that is the whole screen.
    """

    _asked: Places | None = None
    """Who is asked at the moment; None: everybody in sight."""

    held = False
    """Whether nothing is painted. What changes meanwhile is remembered, and painted at once in the end."""

    def render_update(
        self, full: bool = False, screen_stack: list[Screen[Any]] | None = None, simplify: bool = False
    ) -> RenderableType | None:
        """What changed, as it is painted; nothing while all is held."""
        return None if self.held else super().render_update(full, screen_stack, simplify)

    @property
    def visible_widgets(self) -> Places:
        """What is in sight, each with region and clip; while something is painted, what is asked for it."""
        return super().visible_widgets if self._asked is None else self._asked

    def render_partial_update(self) -> ChopsUpdate | None:
        """Paint what changed."""
        self._asked = self._seen_on({y for region in self._dirty_regions for y in region.line_range})
        try:
            return super().render_partial_update()
        finally:
            self._asked = None

    def _seen_on(self, lines: set[int]) -> Places:
        """The widgets of which something is seen on these lines, beside what stands before them."""
        seen: Places = {}
        empty = {y: set(self.cuts[y][:-1]) for y in lines if 0 <= y < len(self.cuts)}
        for widget, (region, clip) in super().visible_widgets.items():
            area = region.intersection(clip)
            left, right = area.column_span
            for y in empty.keys() & area.line_range:
                filled = {x for x in empty[y] if left <= x < right}
                if filled:
                    empty[y] -= filled
                    seen[widget] = region, clip
        return seen
