"""From field to field: on in reading order, or up and down to what stands there. The last one is the last."""

from textual.widget import Widget

from boltend.shell.looks import Place

AT_THE_END = "This is the last field. Tab leads on, ↑ back."


class Moves(Widget):
    """A field that leads to others of its form. Its owner is told where there is none."""

    place: Place

    def _fields(self) -> "list[Moves]":
        form = next((w for w in self.ancestors if getattr(w, "holds_fields", False)), self.screen)
        # By class and not by a selector: Textual names a widget after its first base only.
        return [w for w in form.query("*") if isinstance(w, Moves) and w.focusable]

    def action_on(self) -> None:
        """To the next field in reading order."""
        fields = self._fields()
        at = fields.index(self) + 1
        if at < len(fields):
            self._go(fields[at])
        else:
            self.told(AT_THE_END)

    def action_below(self) -> None:
        """To the field below; the last stays: what is typed blindly must not get lost."""
        if not self.region:
            self.action_on()  # not laid out yet, in a form that was just opened
            return
        y = self.region.y
        lower = [w for w in self._fields() if w.region.y > y]
        if lower:
            nearest = min(w.region.y for w in lower)
            self._go(self._nearest([w for w in lower if w.region.y == nearest]))
        else:
            self.told(AT_THE_END)

    def action_above(self) -> None:
        """To the field above, or from the first to what stands before the form."""
        y = self.region.y
        fields = self._fields()
        upper = [w for w in fields if w.region.y < y]
        if upper:
            nearest = max(w.region.y for w in upper)
            self._go(self._nearest([w for w in upper if w.region.y == nearest]))
            return
        chain = self.screen.focus_chain
        at = chain.index(fields[0])
        if at > 0:
            self._go(chain[at - 1])

    def _go(self, widget: Widget) -> None:
        # Now, where `focus()` leaves it for later: the next key may be here already.
        self.screen.set_focus(widget)

    def _nearest(self, line: "list[Moves]") -> "Moves":
        """In a grid the same column; from outside the first field of a line."""
        if line[0].place.given != self.place.given:
            return line[0]
        return min(line, key=lambda w: abs(w.region.x - self.region.x))

    def told(self, words: str) -> None:
        """Hand words about this field to its owner."""
        raise NotImplementedError
