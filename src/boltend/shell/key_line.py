"""The last line: the keys that do something where the person is. One widget, however many keys there are.

Only whole keys stand there: what has no room is left out, but never the menu, which leads to all.
"""

from typing import NamedTuple

from rich.cells import cell_len
from rich.segment import Segment
from textual import events
from textual.screen import Screen
from textual.strip import Strip

from boltend.shell.fixed import Fixed


class KeyShown(NamedTuple):
    """A key as it stands in the line; `key` is Textual's name for it."""

    key: str
    display: str
    words: str
    action: str = ""

    @property
    def width(self) -> int:
        """Cells that it takes."""
        return cell_len(self.display) + 1 + cell_len(self.words)


_TO_ALL = "menu"
"""The action that leads to all others."""


def whole_keys(keys: tuple[KeyShown, ...], room: int) -> tuple[KeyShown, ...]:
    """Those that fit into so many cells with a blank between, in their order; the menu before any other."""
    menu = next((key for key in keys if key.action == _TO_ALL), None)
    left = room - (menu.width + 1 if menu is not None else 0)
    fitting = []
    for key in keys:
        if key is menu:
            fitting.append(key)
        elif left >= key.width:
            fitting.append(key)
            left -= key.width + 1
        else:
            left = 0  # a less wanted one must not stand for it
    return tuple(fitting)


class KeyLine(Fixed):
    """Keys with what they do; a click is as good as the key.

    Textual's own footer makes a widget for each key, and all of them anew whenever the focus moves: 40 of the
    63 ms (CPU) to another tab, and 100 of the 600 ms of a start.
    """

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    KeyLine { dock: bottom; height: 1; width: 1fr; background: $footer-background;
              color: $footer-description-foreground; }
    KeyLine > .keys--key { color: $footer-key-foreground; text-style: bold; }
    KeyLine > .keys--hovered { background: $block-hover-background; }
    """
    COMPONENT_CLASSES = {"keys--key", "keys--hovered"}  # noqa: RUF012 - as Textual declares it

    def __init__(self) -> None:
        super().__init__(id="keys")
        self.keys: tuple[KeyShown, ...] = ()
        self._hovered: KeyShown | None = None

    def on_mount(self) -> None:
        """Hear of every change of what a key does."""
        self.screen.bindings_updated_signal.subscribe(self, self._bindings_changed)

    def _bindings_changed(self, screen: Screen[object]) -> None:
        if not self.app.app_focus or screen is not self.screen:
            return
        shown: dict[str, KeyShown] = {}
        for _, binding, _, _ in screen.active_bindings.values():
            if binding.show:  # of several keys of one action the first stands for all
                key = KeyShown(
                    binding.key, self.app.get_key_display(binding), binding.description, binding.action
                )
                shown.setdefault(binding.action, key)
        keys = tuple(shown.values())
        if keys != self.keys:
            self.keys = keys
            self.refresh()

    def render_line(self, y: int) -> Strip:
        """The one line."""
        base, ours = self.rich_style, self.get_component_rich_style("keys--key")
        hovered = self.get_component_rich_style("keys--hovered")
        segments = []
        for key in whole_keys(self.keys, self.size.width):
            of_key, of_words = (hovered, hovered) if key == self._hovered else (ours, base)
            segments += [
                Segment(key.display, of_key), Segment(f" {key.words}", of_words), Segment(" ", base),
            ]  # fmt: skip
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def _key_at(self, x: int) -> KeyShown | None:
        for key in whole_keys(self.keys, self.size.width):
            if 0 <= x < key.width:
                return key
            x -= key.width + 1
        return None

    def _hover(self, key: KeyShown | None) -> None:
        if key != self._hovered:
            self._hovered = key
            self.refresh()

    def on_mouse_move(self, event: events.MouseMove) -> None:
        """The key under the mouse shows that it can be clicked."""
        self._hover(self._key_at(event.x))

    def on_leave(self) -> None:
        """No more."""
        self._hover(None)

    def on_mouse_down(self, event: events.MouseDown) -> None:
        """As if the key were pressed."""
        key = self._key_at(event.x)
        if key is not None:
            self.app.simulate_key(key.key)
