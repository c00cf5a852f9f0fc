"""What can be done with a given: linked, unlinked, followed to its source, chosen from a list; rows of it."""

from textual import on

from boltend.core.contract import GivenSpec
from boltend.core.flow.givens import GivenState
from boltend.core.flow.links import Link
from boltend.core.project.edits import checked_name, set_given, set_rows
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.core.project.problems import EditRefused
from boltend.shell.actions import key_of
from boltend.shell.dialogs import AskText, Offer
from boltend.shell.doing_tabs import TabView
from boltend.shell.given_row import SourceAsked
from boltend.shell.link_offers import LinkTo, link_offers
from boltend.shell.looks import Look, Place, empty_words
from boltend.shell.moves import Moves
from boltend.shell.picking import Pick, PickName
from boltend.shell.rows_block import RowAsked
from boltend.shell.start_place import wanting_in
from boltend.shell.typed import typed_value
from boltend.shell.waits import carried

NEW_FABRIC = "\0new"
"""Stands for the offer to add a fabric; no name can hold this character."""


class GivenView(TabView):
    """A view whose givens can be linked and chosen."""

    # Links ----------------------------------------------------------------------------------------

    def action_link(self) -> None:
        """Choose a found of another tab for this given."""
        place, tab, book = self.place, self.tab, self.desk.book
        spec = self.spec_at(place) if place is not None else None
        if place is None or spec is None or tab is None or book is None:
            self.tell("Go to a given first: a link takes its value from another tab.")
            return
        offers = link_offers(book, tab, spec)
        title = f"Where does “{spec.label}” come from?"
        body = "" if offers else "No other tab finds anything that fits, or it would run in a circle."
        picker = Pick(title, offers, body=body, filtered=bool(offers), none="Nothing here fits.")
        self.app.push_screen(picker, lambda chosen: self._link(place, spec, chosen))

    def _link(self, place: Place, spec: GivenSpec, chosen: LinkTo | None) -> None:
        if chosen is not None:
            self.set_at(place, {"from": chosen[0], "take": chosen[1]}, f"linking {spec.label}")

    def action_unlink(self) -> None:
        """Keep the value, let go of the link."""
        place, book, tab = self.place, self.desk.book, self.tab
        state = self.state_at(place) if place is not None else None
        if place is None or book is None or tab is None or state is None or state.link is None:
            self.tell("This given is not linked.")
            return
        result = book.results[tab.key]
        raw = typed_value(state.spec, carried(book, tab.key, state), result.settings.notation)
        self.set_at(place, raw, f"unlinking {state.spec.label}")

    def action_go_to_source(self) -> None:
        """To the tab that this given comes from."""
        state = self.state_at(self.place) if self.place is not None else None
        if state is None or state.link is None:
            self.tell(f"This given is not linked. {key_of('link')} links it.")
            return
        self._go(state.link)

    def _go(self, link: Link) -> None:
        source = self.desk.project.find_tab(link.tab)
        if source is None:
            self.tell(f"There is no tab “{link.tab}”.", bad=True)
        else:
            self.show_tab(source.key)

    def state_at(self, place: Place) -> GivenState | None:
        """What the flow knows of a given or a cell of the tab in sight."""
        book = self.desk.book
        prepared = (
            book.prepared(self.current)
            if book is not None and self.tab is not None and self.current is not None
            else None
        )
        state = prepared.states.get(place.given) if prepared is not None else None
        if state is None or not place.column:
            return state
        return state.cells[place.row].get(place.column) if 0 <= place.row < len(state.cells) else None

    @on(SourceAsked)
    def _source_asked(self, event: SourceAsked) -> None:
        state = self.state_at(event.place)
        if state is not None and state.link is not None:
            self._go(state.link)

    # Choices --------------------------------------------------------------------------------------

    def list_asked(self, place: Place, typed: str = "") -> None:
        """All choices of a field, in a list, or those that fit what was typed."""
        spec = self.spec_at(place)
        if spec is None:
            return
        names = list(spec.options) or self.options_of(spec)
        offers = [Offer(name, name) for name in names]
        new = Offer(NEW_FABRIC, "(a new fabric …)") if spec.kind == "fabric" else None
        if spec.kind == "fabric":
            offers.append(Offer("", f"({empty_words(spec, place.row)})"))
        elif not spec.required:
            offers.append(Offer("", f"({empty_words(spec, place.row) if spec.optional else 'default'})"))
        look = self._form.look(place) if self._form is not None else Look()
        holds = look.text or look.faint or None
        pick = PickName(spec.label, offers, at=holds, typed=typed, last=new)
        self.app.push_screen(pick, lambda chosen: self._choose(place, spec, chosen, pick.typed))

    def _choose(self, place: Place, spec: GivenSpec, chosen: str | None, typed: str) -> None:
        if chosen == NEW_FABRIC:
            self._ask_fabric(place, spec, typed)
        elif chosen is not None and self.set_at(place, chosen or None, f"{spec.label}"):
            self._on_from(place)

    def _on_from(self, place: Place) -> None:
        """To the next field: Enter in a list is the Enter of any field; what is typed next belongs there."""
        field = self._form.field(place) if self._form is not None else None
        if isinstance(field, Moves):
            field.on_if_any()

    def _ask_fabric(self, place: Place, spec: GivenSpec, typed: str) -> None:
        taken = [row.name for row in self.desk.project.fabrics if row.name]

        def wrong(name: str) -> str:
            try:
                checked_name(name, taken, "fabric")
            except EditRefused as error:
                return str(error)
            return ""

        self.app.push_screen(
            AskText("A name for the new fabric", typed, wrong),
            lambda name: self._new_fabric(place, spec, name),
        )

    def _new_fabric(self, place: Place, spec: GivenSpec, name: str | None) -> None:
        if name is not None and self.edit(lambda p: add_fabric(p, name), f"adding {name.strip()}"):
            self.set_at(place, name.strip(), f"{spec.label}")
            self._on_from(place)

    def action_drop_unknown(self) -> None:
        """Take out what stands in the file under a name that the calculator does not know."""
        tab, spec = self.tab, self._form.spec if self._form is not None else None
        if tab is None or spec is None:
            return
        known = {name for given in spec.givens for name in (given.name, *given.was)}
        unknown = [name for name in tab.given if name not in known]

        def make(project: Project) -> Project:
            for name in unknown:
                project = set_given(project, tab.key, name, None)
            return project

        if self.edit(make, f"taking out {', '.join(unknown)}"):
            self.tell(f"Taken out: {', '.join(unknown)}." if unknown else "There is nothing to take out.")

    # Rows -----------------------------------------------------------------------------------------

    @on(RowAsked)
    def _row_asked(self, event: RowAsked) -> None:
        self._change_rows(event.given, event.what, event.row)

    def action_add_row(self) -> None:
        """A row below this one."""
        place = self._rows_place()
        if place is not None:
            self._change_rows(place.given, "add", place.row)

    def action_remove_row(self) -> None:
        """Take this row out."""
        self._on_row("remove")

    def action_row_up(self) -> None:
        """This row before the one above."""
        self._on_row("up")

    def action_row_down(self) -> None:
        """This row after the one below."""
        self._on_row("down")

    def _on_row(self, what: str) -> None:
        place = self._rows_place()
        if place is not None and place.row >= 0:
            self._change_rows(place.given, what, place.row)

    def _rows_place(self) -> Place | None:
        """The focused row, or the only rows that this tab has."""
        place = self.place
        spec = self._form.spec if self._form is not None else None
        if spec is None:
            return None
        if place is not None and (given := spec.given(place.given)) is not None and given.kind == "rows":
            return place
        return next((Place(g.name) for g in spec.givens if g.kind == "rows"), None)

    def _change_rows(self, given: str, what: str, row: int) -> None:
        tab = self.tab
        if tab is None:
            return
        have = tab.given.get(given, [])
        rows = list(have) if isinstance(have, list) else []
        to = row
        if what == "add":
            to = len(rows) if row < 0 else min(row + 1, len(rows))
            rows.insert(to, {})
        elif not 0 <= row < len(rows):
            return
        elif what == "remove":
            del rows[row]
            to = min(row, len(rows) - 1)
        else:
            to = max(0, min(len(rows) - 1, row - 1 if what == "up" else row + 1))
            rows.insert(to, rows.pop(row))
        if self.edit(lambda p: set_rows(p, tab.key, given, rows), f"rows of {tab.name}"):
            self._focus_row(given, to, new=what == "add")

    def _focus_row(self, given: str, row: int, *, new: bool) -> None:
        """To the cell of a row in which one was; of a new row to the first that must be filled."""
        column = self.place.column if self.place is not None and self.place.given == given else ""
        book = self.desk.book
        if new and book is not None and self.current is not None:
            column = wanting_in(book.prepared(self.current), given, row) or column
        field = self._form.field(Place(given, row, column)) if self._form is not None else None
        if field is not None:
            if field is not self.focused:
                self.set_focus(None)  # what is typed until then waits for it
            self.call_after_refresh(field.focus)
