"""Painting no more widgets than changed."""

from typing import Any

from rich.console import RenderableType
from textual._compositor import ChopsUpdate, Compositor
from textual.geometry import Region
from textual.screen import Screen
from textual.widget import Widget


class SparingCompositor(Compositor):
    """Textual's, which asks for the lines of those widgets only that stand on a line to be painted.

    Textual 8.2 asks every widget between the highest line that changed and the lowest, and all others in
    their containers, then throws most of it away. While somebody types in the upper half and results change
    in the lower, that is the whole screen.
    """

    _lines: frozenset[int] | None = None
    """The lines that are painted at the moment; None: all."""

    held = False
    """Whether nothing is painted. What changes meanwhile is remembered, and painted at once in the end."""

    def render_update(
        self, full: bool = False, screen_stack: list[Screen[Any]] | None = None, simplify: bool = False
    ) -> RenderableType | None:
        """What changed, as it is painted; nothing while all is held."""
        return None if self.held else super().render_update(full, screen_stack, simplify)

    @property
    def visible_widgets(self) -> dict[Widget, tuple[Region, Region]]:
        """What is in sight, each with region and clip; while lines are painted, what stands on them."""
        seen = super().visible_widgets
        if self._lines is None:
            return seen
        return {
            widget: (region, clip)
            for widget, (region, clip) in seen.items()
            if not self._lines.isdisjoint(region.intersection(clip).line_range)
        }

    def render_partial_update(self) -> ChopsUpdate | None:
        """Paint what changed."""
        self.cuts  # noqa: B018 - worked out and kept here, for it needs all that is in sight
        self._lines = frozenset(y for region in self._dirty_regions for y in region.line_range)
        try:
            return super().render_partial_update()
        finally:
            self._lines = None
