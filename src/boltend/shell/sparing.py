"""Painting no more widgets than changed."""

from textual._compositor import ChopsUpdate, Compositor
from textual.geometry import Region
from textual.widget import Widget


class SparingCompositor(Compositor):
    """Textual's, which asks for the lines of those widgets only that stand on a line to be painted.

    Textual 8.2 asks every widget between the highest line that changed and the lowest, and all others in
    their containers, then throws most of it away. While somebody types in the upper half and results change
    in the lower, that is the whole screen.
    """

    _lines: frozenset[int] | None = None
    """The lines that are painted at the moment; None: all."""

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
