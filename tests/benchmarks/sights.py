"""How many widgets of the shell are in sight, so that a bare app can have as many."""

from bare_app import Sight
from textual.app import App
from textual.scrollbar import ScrollBar
from textual.widgets import Input


def sight_of(app: App[None]) -> Sight:
    """Count them: neither the screen, which the bare app has too, nor scroll bars."""
    seen = [w for w in app.screen._compositor.visible_widgets if not isinstance(w, ScrollBar)]
    inputs = sum(isinstance(w, Input) for w in seen)
    return Sight(inputs, len(seen) - inputs - 1)
