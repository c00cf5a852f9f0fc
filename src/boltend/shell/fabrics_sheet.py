"""The project's fabrics in a dialog: a list of them, and below it all that the chosen one says."""

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.widget import Widget
from textual.widgets import OptionList

from boltend.core.contract import SETTING_KINDS, GivenSpec
from boltend.core.flow import Workbook
from boltend.core.pool.snapshot import PRECUTS
from boltend.core.project.edits import checked_name
from boltend.core.project.edits_fabrics import add_fabric, remove_fabric, rename_fabric, set_fabric
from boltend.core.project.model import FabricRow, Project
from boltend.core.project.problems import EditRefused
from boltend.core.values import KINDS
from boltend.core.values.kinds_text import COLOURS
from boltend.shell.actions import key_of
from boltend.shell.cells import BOLT, FORM, Cell, fabric_cells, is_precut
from boltend.shell.desk import Desk
from boltend.shell.dialogs import AskText, Choose, Offer
from boltend.shell.fabric_list import UNUSED, FabricList
from boltend.shell.fabric_uses import fabric_places, named_fabrics, tabs_that_name
from boltend.shell.sheet import Sheet
from boltend.shell.signs import Signs


class FabricsSheet(Sheet):
    """Fabrics added, renamed, removed; their cells edited."""

    DEFAULT_CSS = """
    FabricsSheet Signs { margin: 0 0 1 0; }
    FabricsSheet #sheet.-low Signs { margin: 0; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        # With the ids of what is done to tabs: whoever binds that to another key does this by it, too.
        Binding("f7", "add", "Add", show=False, id="add_tab"),
        Binding("f2", "rename", "Rename", show=False, id="rename_tab"),
        Binding("shift+f2", "remove", "Remove", show=False, id="remove_tab"),
        Binding("delete", "remove_in_list", "Remove", show=False),
    ]

    def __init__(self, desk: Desk, book: Workbook) -> None:
        self.book = book
        self.chosen: int | None = desk.project.fabrics[0].key if desk.project.fabrics else None
        self.list = FabricList()
        super().__init__(desk, f"Fabrics of {desk.project.name or 'the project'}")

    def on_top(self) -> ComposeResult:
        """The list, and what can be done with its fabrics."""
        yield self.list
        yield Signs(
            (f"Add {key_of('add_tab')}", "add"),
            (f"Rename {key_of('rename_tab')}", "rename"),
            (f"Remove {key_of('remove_tab')}", "remove"),
        )

    def on_resize(self) -> None:
        """The list has another width; where there is little height nothing of it is given away."""
        self.query_one("#sheet").set_class(self.size.height < 30, "-low")
        self.call_after_refresh(self.paint)

    # The chosen fabric ----------------------------------------------------------------------------

    @property
    def fabric(self) -> FabricRow | None:
        """The chosen one."""
        return self.desk.project.find_fabric(self.chosen) if self.chosen is not None else None

    @property
    def forms(self) -> list[str]:
        """What a fabric can be."""
        table = self.book.table(PRECUTS)
        return [BOLT, *(table.rows if table is not None else ())]

    @property
    def cells(self) -> Sequence[Cell]:
        """The cells of the chosen fabric."""
        return self._cells_of(self.fabric)

    def _cells_of(self, fabric: FabricRow | None) -> Sequence[Cell]:
        precut = fabric is not None and is_precut(fabric.data.get(FORM))
        how, basis = self.book.basis.how, self.book.basis

        def holds(name: str) -> tuple[str, str]:
            if precut:  # the project's settings speak for bolts only
                return ("none", "") if name == "usable_width" else ("0", "for a precut")
            words = KINDS[SETTING_KINDS[name]].show(getattr(basis.settings, name), how)
            return words, "the project's" if name in basis.said else "default"

        return fabric_cells(how, precut=precut, forms=self.forms, holds=holds)

    @property
    def data(self) -> dict[str, object]:
        """What the chosen fabric says."""
        return dict(self.fabric.data) if self.fabric is not None else {}

    def put(self, project: Project, name: str, raw: object | None) -> Project:
        """One cell of the chosen fabric."""
        return project if self.chosen is None else set_fabric(project, self.chosen, name, raw)

    def about(self, spec: GivenSpec) -> str:
        """For undo."""
        return f"{spec.label.lower()} of {self.fabric.name if self.fabric is not None else 'a fabric'}"

    def options_of(self, spec: GivenSpec) -> Sequence[str]:
        """The forms; the plain names of colours."""
        if spec.kind == "colour":
            return list(COLOURS)
        return self.forms if spec.name == FORM else ()

    def first_field(self) -> Widget:
        """The list."""
        return self.list

    def paint(self) -> None:
        """The list, and the chosen one's cells."""
        rows = self.desk.project.fabrics
        if self.fabric is None:
            self.chosen = rows[0].key if rows else None
        at = next((n for n, row in enumerate(rows) if row.key == self.chosen), None)
        named = named_fabrics(self.book)
        unused = {n for n, row in enumerate(rows) if row.key not in named}
        self.list.show(rows, [self._wrong(row) for row in rows], unused, at)
        self.form.visible = at is not None
        if at is None:
            self.list.focus()
        super().paint()

    def _wrong(self, row: FabricRow) -> frozenset[str]:
        how = self.book.basis.how
        return frozenset(
            cell.spec.name
            for cell in self._cells_of(row)
            if cell.look(row.data.get(cell.spec.name), "", how).trouble
        )

    def help_words(self) -> str:
        """For a cell as ever; for the list, who names the chosen fabric."""
        if self.place is not None:
            return super().help_words()
        if self.fabric is None:
            return f"No fabric yet. {key_of('add_tab')} adds one."
        tabs = tabs_that_name(self.book, self.fabric)
        if not tabs:
            return f"↑ ↓ choose, Enter or Tab: its cells. {UNUSED.capitalize()}: Del removes it."
        named = ", ".join(f"“{tab}”" for tab in tabs)
        return f"↑ ↓ choose, Enter or Tab: its price, width, form and so on. Named by {named}."

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        rows = self.desk.project.fabrics
        if 0 < event.option_index <= len(rows) and rows[event.option_index - 1].key != self.chosen:
            self.desk.history.close_burst()
            self.chosen = rows[event.option_index - 1].key
            self._told = ""
            self.paint()

    @on(OptionList.OptionSelected)
    def _to_cells(self) -> None:
        next(iter(self.form.rows.values())).field.focus()

    def on_descendant_focus(self) -> None:
        """The list has other help than the cells."""
        self.paint_hint()

    # Changing -------------------------------------------------------------------------------------

    @on(Signs.Asked)
    def _asked(self, event: Signs.Asked) -> None:
        {"add": self.action_add, "rename": self.action_rename, "remove": self.action_remove}[event.what]()

    def action_add(self) -> None:
        """A new one, at the end."""
        ask = AskText("A name for the new fabric", "", lambda name: self._wrong_name(name, None))
        self.app.push_screen(ask, self._add)

    def _add(self, name: str | None) -> None:
        if name is not None and self.edit(lambda p: add_fabric(p, name), f"adding {name.strip()}"):
            self.chosen = self.desk.project.fabrics[-1].key
            self.paint()
            self._to_cells()

    def action_rename(self) -> None:
        """Another name, carried to wherever the old one stands."""
        fabric = self.fabric
        if fabric is None:
            return
        ask = AskText(
            "Rename the fabric",
            fabric.name,
            lambda name: self._wrong_name(name, fabric),
            body="Every given that names it follows.",
        )
        self.app.push_screen(ask, lambda name: self._rename(fabric, name))

    def _rename(self, fabric: FabricRow, name: str | None) -> None:
        if name is not None:
            uses = fabric_places(self.book)
            self.edit(lambda p: rename_fabric(p, fabric.key, name, uses), f"renaming {fabric.name}")

    def _wrong_name(self, name: str, but: FabricRow | None) -> str:
        others = [row.name for row in self.desk.project.fabrics if row.name and row is not but]
        try:
            checked_name(name, others, "fabric")
        except EditRefused as error:
            return str(error)
        return ""

    def action_remove_in_list(self) -> None:
        """Take the chosen one out, while the list has the focus: in a cell the key is for its text."""
        if self.focused is self.list:
            self.action_remove()

    def action_remove(self) -> None:
        """Take it out; where tabs name it, say which, and ask."""
        fabric = self.fabric
        if fabric is None:
            return
        tabs = tabs_that_name(self.book, fabric)
        if not tabs:
            self._remove(fabric, True)
            return
        body = "These tabs name it, and could not be worked out:\n" + "\n".join(f"  “{t}”" for t in tabs[:8])
        offers = [Offer(False, "Keep it"), Offer(True, "Remove it", "undo brings it back")]
        choose = Choose(f"Remove “{fabric.name}”?", offers, body=body)
        self.app.push_screen(choose, lambda yes: self._remove(fabric, yes))

    def _remove(self, fabric: FabricRow, yes: bool | None) -> None:
        keys = [row.key for row in self.desk.project.fabrics]
        if not yes or fabric.key not in keys:
            return
        at = keys.index(fabric.key)
        if self.edit(lambda p: remove_fabric(p, fabric.key), f"removing {fabric.name}"):
            left = self.desk.project.fabrics
            self.chosen = left[min(at, len(left) - 1)].key if left else None
            self.paint()
            self.tell(f"Removed “{fabric.name}”. {key_of('undo')} brings it back.")
            self.list.focus()
