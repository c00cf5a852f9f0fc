"""Colours of the look in use, for who paints many small widgets.

A component class is styled anew for every widget that declares it, whenever any style may have changed: four
of them in each line of a form were a fifth of all styling at the start.
"""

from functools import lru_cache

from rich.style import Style
from textual.widget import Widget


def shade(widget: Widget, name: str) -> Style:
    """Writing in a colour of the look, as `text-muted`; added to a style, its ground stays."""
    return _writing(widget.app.current_theme.variables[name])


@lru_cache(maxsize=64)
def _writing(colour: str) -> Style:
    return Style(color=colour)
