"""The form of one kind of calculator, bound to the tab in sight."""

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.dom import DOMNode
from textual.widget import Widget

from boltend.core.contract import CalculatorSpec, GivenSpec
from boltend.core.flow import Result
from boltend.core.flow.givens import GivenState, Prepared
from boltend.core.values import Notation
from boltend.shell.both import both_shown
from boltend.shell.fields import ChoiceField, LiveInput, Owner, field_for
from boltend.shell.given_row import GivenRow
from boltend.shell.looks import Look, Place, look_of, number_for_a_name, without_label
from boltend.shell.rows_block import RowLine, RowsBlock
from boltend.shell.typed import same_text, text_of
from boltend.shell.waits import Brought

LABELS = (10, 26)
"""Cells of the labels: at least and at most."""

MOST_ROWS = 60
"""Rows of one given that are shown: no given takes more than fifty, but a file may hold ten thousand."""

PICK, FROM = "pick", "choices"
"""A given that picks one of the rows found: the names that calculators have for both."""

Options = Callable[[GivenSpec], Sequence[str]]
Bringing = Callable[[GivenState], Brought]


class GivenForm(VerticalScroll, can_focus=False):
    """All givens of a calculator. One form serves every tab that uses it."""

    DEFAULT_CSS = "GivenForm { height: 1fr; scrollbar-size-vertical: 1; }"
    holds_fields = True

    def __init__(self, spec: CalculatorSpec, owner: Owner, options: Options) -> None:
        super().__init__()
        self.spec = spec
        self._tab: int | None = None
        self._looks: dict[Place, tuple[object, Look]] = {}
        """Each look with all that it was worked out from: from key to key nearly all stay as they are."""
        width = min(LABELS[1], max([LABELS[0], *(len(g.label) for g in spec.givens if g.kind != "rows")]))
        self.parts: dict[str, GivenRow | RowsBlock] = {
            g.name: RowsBlock(g, owner, options) if g.kind == "rows" else _row(g, owner, options, width)
            for g in spec.givens
        }

    def compose(self) -> ComposeResult:
        """A part for each given."""
        yield from self.parts.values()

    def on_resize(self) -> None:
        """What has the focus stays in sight; a new form has no size before, and could not bring it there."""
        self.call_after_refresh(self._see_focus)

    def on_descendant_focus(self) -> None:
        """Into sight at once; a row that was just added has no place yet."""
        self._see_focus()
        self.call_after_refresh(self._see_focus)

    def watch_virtual_size(self) -> None:
        """Nor can it scroll before it knows how many lines it has, which is one layout later."""
        if self.is_mounted:
            self.call_after_refresh(self._see_focus)

    def _see_focus(self) -> None:
        focused = self.screen.focused if self.is_attached else None
        if focused is not None and self in focused.ancestors:
            see_whole(focused)

    @property
    def rows(self) -> int:
        """Lines that the whole form would take."""
        return sum(part.rows for part in self.parts.values())

    def show(self, tab: int, prepared: Prepared, result: Result, waits: Set[str], brought: Bringing) -> None:
        """Show a tab's givens; `waits` names those whose source is not worked out,
        `brought` gives what a link brings.

        In the same tab, a field that says what the tab says is left as typed.
        """
        how = result.settings.notation
        again = tab == self._tab
        self._tab = tab
        said = _said(result, self.spec, waits)
        for name, state in prepared.states.items():
            part = self.parts[name]
            if isinstance(part, RowsBlock):
                self._show_rows(part, state, result, said.get(name, ""), again, brought)
                continue
            text = _text(part.field, state, how, again)
            look = self._look(Place(name), state, result, text, said.get(name, ""), brought(state))
            part.show(_of_choices(look, result) if name == PICK else look)

    def _show_rows(
        self, block: RowsBlock, state: GivenState, result: Result, said: str, again: bool, brought: Bringing
    ) -> None:
        how = result.settings.notation
        rows = []
        for n, cells in enumerate(state.cells[:MOST_ROWS]):
            fields = block.lines[n].fields if n < len(block.lines) else {}
            looks = {}
            for name, cell in cells.items():
                text = _text(fields.get(name), cell, how, again)
                looks[name] = self._look(
                    Place(block.spec.name, n, name), cell, result, text, "", brought(cell)
                )
            doubt = number_for_a_name(cells, how)
            if doubt:
                looks["name"] = replace(looks["name"], trouble=doubt)
            rows.append(looks)
        head = look_of(state, result, "", said, brought(state)) if state.link else _head(state, said)
        more = len(state.cells) - len(rows)
        if more > 0 and not head.trouble:
            head = replace(head, beside=f"{more} more rows stand in the file; edit them there.")
        block.show(head, rows)

    def _look(
        self, place: Place, state: GivenState, result: Result, text: str, said: str, brought: Brought
    ) -> Look:
        """The look of a given or cell, worked out only where it may be another one than before."""
        linked = result.args.get(state.spec.name) if state.link is not None else None
        given = (state, linked, result.settings.notation, text, said, brought, both_shown())
        kept = self._looks.get(place)
        if kept is None or kept[0] != given:
            kept = self._looks[place] = given, look_of(state, result, text, said, brought, place.row)
        return kept[1]

    def field(self, place: Place) -> Widget | None:
        """The widget at a place."""
        part = self.parts.get(place.given)
        if isinstance(part, GivenRow):
            return part.field
        if isinstance(part, RowsBlock):
            if 0 <= place.row < len(part.lines) and part.lines[place.row].display:
                fields = part.lines[place.row].fields
                return fields.get(place.column) or next(iter(fields.values()))
            return part.title_line
        return None

    def look(self, place: Place) -> Look:
        """What is shown at a place."""
        part = self.parts.get(place.given)
        if isinstance(part, GivenRow):
            return part.look
        if isinstance(part, RowsBlock):
            if 0 <= place.row < len(part.lines):
                return part.lines[place.row].looks.get(place.column, Look())
            return part.title_line.look
        return Look()


def see_whole(field: Widget) -> None:
    """Bring a field into sight, where there is room with its heads above it and what stands below it.

    Not by Textual's own way: it does not see where in a row a field stands.
    """
    form = next((each for each in field.ancestors if isinstance(each, GivenForm)), None)
    if form is None or not field.region.height:
        field.scroll_visible(animate=False)
        return
    part, above, y = field.parent, 0, 0
    if isinstance(part, RowLine):
        y, above = part.where(field)
    below = part.rows - 1 if isinstance(part, GivenRow) else 0
    inner: DOMNode | None = part if isinstance(part, RowLine | GivenRow) else field
    while isinstance(inner, Widget) and inner is not form:
        y += inner.virtual_region.y  # as laid out, wherever the form is scrolled to meanwhile
        inner = inner.parent
    high, top = form.scrollable_content_region.height, round(form.scroll_y)
    top = max(top, y + 1 + below - high)
    top = min(top, y - above)
    top = max(top, y + 1 - high)
    form.scroll_to(y=top, animate=False, force=True, immediate=True)


def _row(spec: GivenSpec, owner: Owner, options: Options, width: int) -> GivenRow:
    return GivenRow(spec, field_for(spec, Place(spec.name), owner, lambda: options(spec)), width)


def _text(field: LiveInput | ChoiceField | None, state: GivenState, how: Notation, again: bool) -> str:
    """What the field shall show: as typed while that means what the tab says."""
    if (
        again
        and field is not None
        and not field.linked
        and same_text(state.spec, state.raw, field.value, how)
    ):
        return field.value
    return text_of(state.raw)


def _said(result: Result, spec: CalculatorSpec, waits: Set[str]) -> Mapping[str, str]:
    """What stands against each given in the result: a calculator's `Cannot`, a link that brings nothing.

    Of a given that only waits for another tab nothing is said: nothing is wrong with it.
    """
    said: dict[str, str] = {}
    for trouble in result.troubles:
        given = spec.given(trouble.given)
        if given is not None and trouble.given not in waits:
            said.setdefault(trouble.given, without_label(str(trouble), given.label))
    return said


def _of_choices(look: Look, result: Result) -> Look:
    """Of a given that picks one of the rows found below: out of how many."""
    choices = result.found.get(FROM)
    if not isinstance(choices, tuple) or look.linked:
        return look
    return replace(look, beside=" · ".join(filter(None, (f"of {len(choices)}", look.beside))))


def _head(state: GivenState, said: str) -> Look:
    if state.trouble is not None and state.speaks == "empty":
        return Look(needed=True, beside="needed")
    in_cells = any(cell.trouble is not None for row in state.cells for cell in row.values())
    return Look(trouble="" if in_cells else said)
