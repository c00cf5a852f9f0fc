"""From field to field: on in reading order, or up and down to what stands there. The last one is the last."""

from textual.widget import Widget

from boltend.shell.fixed import Fixed
from boltend.shell.looks import Place

AT_THE_END = "This is the last field. Tab leads on, ↑ back."


class Moves(Fixed):
    """A field that leads to others of its form. Its owner is told where there is none."""

    place: Place

    def _fields(self) -> "list[Moves]":
        form = next((w for w in self.ancestors if getattr(w, "holds_fields", False)), self.screen)
        # By class and not by a selector: Textual names a widget after its first base only.
        return [w for w in form.query("*") if isinstance(w, Moves) and w.focusable]

    def action_on(self) -> None:
        """To the next field in reading order; the last stays: what is typed blindly must not get lost.

        Within a grid it passes over what may stay empty: `2 Enter 5` are two borders' widths, not a width and
        what the border's ends would have of their own.
        """
        self._go_or_tell(self._after())

    def on_if_any(self) -> None:
        """As `action_on`, without a word at the last field."""
        for field in self._after()[:1]:
            self._go(field)

    def _after(self) -> "list[Moves]":
        fields = self._fields()
        after = fields[fields.index(self) + 1 :]
        return [w for w in after if not w.in_grid(self) or w.needed] if self.place.row >= 0 else after

    @property
    def needed(self) -> bool:
        """Whether a cell must be filled."""
        return True

    def action_below(self) -> None:
        """To the field below: within a grid in the same column."""
        fields = self._fields()
        y = self.region.y
        cells = [w for w in fields if w.in_grid(self) and w.region.y > y]
        if cells:
            self._go(self._nearest(cells, min(w.region.y for w in cells)))
            return
        after = fields[fields.index(self) + 1 :]
        if self.place.row >= 0:
            after = [w for w in after if w.place.given != self.place.given]
        self._go_or_tell(after)

    def action_above(self) -> None:
        """To the field above, or from the first to what stands before the form."""
        fields = self._fields()
        y = self.region.y
        cells = [w for w in fields if w.in_grid(self) and w.region.y < y]
        if cells:
            self._go(self._nearest(cells, max(w.region.y for w in cells)))
            return
        before = fields[: fields.index(self)]
        if self.place.row >= 0:
            before = [w for w in before if not w.in_grid(self)]
        if before:
            last = before[-1].place  # of a grid the first field of its last line
            self._go(next(w for w in before if (w.place.given, w.place.row) == (last.given, last.row)))
            return
        chain = self.screen.focus_chain
        at = chain.index(fields[0])
        if at > 0:
            self._go(chain[at - 1])

    def to_cell(self, by: int) -> bool:
        """To the cell before or behind this one in its grid; whether there is one."""
        fields = self._fields()
        at = fields.index(self) + by
        there = 0 <= at < len(fields) and fields[at].in_grid(self)
        if there:
            self._go(fields[at])
        return there

    def in_grid(self, other: "Moves") -> bool:
        """Whether both are cells of one grid."""
        return self.place.given == other.place.given and min(self.place.row, other.place.row) >= 0

    def _nearest(self, cells: "list[Moves]", y: int) -> "Moves":
        """In the line at `y` the cell that stands most nearly in the same column."""
        return min((w for w in cells if w.region.y == y), key=lambda w: abs(w.region.x - self.region.x))

    def _go_or_tell(self, fields: "list[Moves]") -> None:
        if fields:
            self._go(fields[0])
        else:
            self.told(AT_THE_END)

    def _go(self, widget: Widget) -> None:
        # Now, where `focus()` leaves it for later: the next key may be here already.
        self.screen.set_focus(widget)

    def told(self, words: str) -> None:
        """Hand words about this field to its owner."""
        raise NotImplementedError
