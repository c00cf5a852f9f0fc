"""A line to type in."""

from textual.binding import Binding
from textual.widgets import Input


class TextInput(Input):
    """Textual's, but Ctrl+A selects all, as elsewhere; to the start of the line leads Home."""

    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("ctrl+a", "select_all", "Select all", show=False),
    ]
