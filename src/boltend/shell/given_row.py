"""One given: label, field, and beside it where it comes from or what is wrong.

Nothing of it moves while somebody types: what is wrong is clipped here, and whole in the line below the form.
"""

from dataclasses import replace

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.app import ComposeResult
from textual.message import Message
from textual.strip import Strip

from boltend.core.contract import GivenSpec
from boltend.shell.fields import ChoiceField, LiveInput
from boltend.shell.fixed import Fixed
from boltend.shell.looks import Look, Place, without_kind
from boltend.shell.shades import shade
from boltend.shell.texts import clipped, padded

_WIDE_KINDS = {"measured": 60, "text": 34, "fabric": 24, "table_row": 30}
_USUAL = 21
"""Cells of a field: `1 yd 4 3/16 in` and `46 11/16 in finished` fit."""

_LEAST_BESIDE = 13
"""Cells that are left for what stands beside a field: its kind, or `the project's`."""

_BESIDE_MANY = 6
"""Cells beside a list of sizes: its kind, and a sign where not all of it is in sight."""

_LEAST_TAKES = 9
"""Cells of the label of what a link takes that must stand beside its field."""

_INDENT = 4
"""Cells before the source of a link that has no room below its field either."""


ORIGIN, LINK, TROUBLE = "text-muted", "text-accent", "text-error"
"""The colours of what stands beside a field."""


class SourceAsked(Message):
    """The person clicked where a given comes from."""

    def __init__(self, place: Place) -> None:
        self.place = place
        super().__init__()


class RowsChanged(Message):
    """A line of the form takes more or fewer lines than before, now that its width is known."""


class GivenRow(Fixed):
    """A line of the form. It paints label and origin itself; only the field is a widget of its own."""

    DEFAULT_CSS = """
    GivenRow { height: 1; width: 1fr; }
    GivenRow > LiveInput, GivenRow > ChoiceField { position: absolute; }
    """

    def __init__(self, spec: GivenSpec, field: LiveInput | ChoiceField, label_width: int) -> None:
        super().__init__()
        self.spec = spec
        self.field = field
        self.label_width = label_width
        self.look = Look()
        self._place()

    def compose(self) -> ComposeResult:
        """The field."""
        yield self.field

    @property
    def _field_x(self) -> int:
        return 2 + self.label_width + 1

    @property
    def _field_width(self) -> int:
        beside = (
            0 if self._source_below else _BESIDE_MANY if self.spec.kind == "measured" else _LEAST_BESIDE + 1
        )
        return max(8, min(self._room - beside, self._wanted_width))

    @property
    def _room(self) -> int:
        return (self.size.width or 80) - self._field_x

    @property
    def _wanted_width(self) -> int:
        return _WIDE_KINDS.get(self.spec.kind, _USUAL)

    @property
    def _beside_x(self) -> int:
        return self._field_x + self._field_width + 1

    def _place(self) -> None:
        self.field.styles.width = self._field_width
        self.field.styles.offset = (self._field_x, 0)

    def show(self, look: Look) -> bool:
        """Show this; whether the row's height changed."""
        if look == self.look and look.text == self.field.value:
            return False
        before, was = self.rows, self.look
        self.look = look
        self._show_in_field(look)
        after = self.rows
        if after != before:
            self.styles.height = after
            self._place()
        if replace(was, text=look.text, faint=look.faint) != look:  # those the field paints
            self.refresh()
        return after != before

    def _show_in_field(self, look: Look) -> None:
        """Of a value from elsewhere the word of its kind goes as a whole, where it does not fit."""
        fits = cell_len(look.text) < self._field_width  # the cursor takes a cell
        self.field.show(look if fits else without_kind(look))

    @property
    def rows(self) -> int:
        """Lines that the row takes: the source of a link may need one of its own."""
        return 2 if self._source_below else 1

    @property
    def _source_below(self) -> bool:
        """Whether the source of a link has no room beside the field; then the field may have all of it."""
        least, _, takes = self.look.beside.rpartition(" · ")
        least += f" · {takes[:_LEAST_TAKES]}"  # of what it takes the beginning will do
        return self.look.linked and cell_len(least) > self._room - self._wanted_width - 1

    def on_resize(self) -> None:
        """All is laid out anew."""
        self._place()
        self._show_in_field(self.look)
        rows = self.rows
        if self.styles.height is None or self.styles.height.value != rows:
            self.styles.height = rows
            self.refresh()
            self.post_message(RowsChanged())

    def on_descendant_focus(self) -> None:
        """Its mark comes: it also shows without colour."""
        self.refresh()

    def on_descendant_blur(self) -> None:
        """Its mark goes."""
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """Label and origin; where the origin has no room beside the field, it stands below."""
        if y == 0:
            return self._first_line()
        indent = self._field_x if cell_len(self.look.beside) <= self._room else _INDENT
        text = " " * indent + clipped(self.look.beside, self.size.width - indent)
        base = self.rich_style
        return Strip([Segment(text, base + shade(self, LINK))]).adjust_cell_length(self.size.width, base)

    def _first_line(self) -> Strip:
        base, look = self.rich_style, self.look
        bad = bool(look.trouble) or look.needed
        beside = LINK if look.linked else TROUBLE if bad else ORIGIN
        label = base + Style(bold=True) if self.field.has_focus else base
        room = max(0, self.size.width - self._beside_x)
        said = look.trouble if look.trouble and not look.linked else look.beside
        words = "" if self._source_below else _fitting(said, room)
        cut, words = ("…", f" {words}") if cell_len(self.field.value) > self._field_width else (" ", words)
        segments = [
            Segment("! " if bad else "  ", base + shade(self, TROUBLE)),
            Segment(padded(self.spec.label, self.label_width), label),
            Segment(">" if self.field.has_focus else " ", label),
            Segment(" " * self._field_width + cut, base),
            Segment(words, base + shade(self, beside)),
        ]
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def on_click(self, event: events.Click) -> None:
        """The label leads to the field, the origin to its source."""
        self.field.focus()
        on_source = event.y == 1 if self._source_below else event.y == 0 and event.x >= self._beside_x
        if self.look.linked and on_source:
            self.post_message(SourceAsked(self.field.place))


def _fitting(beside: str, room: int) -> str:
    """What fits beside a field: the other system is left out before the kind is cut."""
    if cell_len(beside) > room and "≈" in beside:
        beside = beside.partition("≈")[0].rstrip()
    return clipped(beside, room)
