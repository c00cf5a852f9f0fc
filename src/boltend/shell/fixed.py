"""A widget whose size does not depend on what it holds."""

from textual.geometry import Size
from textual.reactive import Reactive
from textual.widget import Widget


class Fixed(Widget):
    """Neither its size nor what it holds is a reason to lay the screen out once more.

    Textual 8.2 does so whenever a widget learns its size, for it might need a bar to scroll with, and for
    every letter in a line of text: a form of ten givens was laid out five times before it stood.
    """

    virtual_size = Reactive(Size(0, 0))
