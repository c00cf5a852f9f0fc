"""A dialog in which the project is edited, cell by cell: kept, undone and worked out as anywhere else."""

from collections.abc import Callable, Sequence

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from boltend.core.contract import GivenSpec
from boltend.core.project.model import Project
from boltend.core.project.problems import EditRefused
from boltend.core.values import Notation
from boltend.shell.actions import key_of
from boltend.shell.cells import Cell
from boltend.shell.desk import Desk
from boltend.shell.dialogs import Offer, is_beside
from boltend.shell.help import HelpScreen, help_text
from boltend.shell.looks import Place
from boltend.shell.picking import PickName
from boltend.shell.plain_form import PlainForm
from boltend.shell.say import say_of
from boltend.shell.texts import shown
from boltend.shell.typed import raw_of


class Sheet(ModalScreen[str | None]):
    """Title, what the subclass puts on top, a form, help for its field, keys. Gives "save" or None.

    A subclass says what the form is about: `cells`, `data`, `put`, and paints all in `paint`.
    """

    DEFAULT_CSS = """
    Sheet { align: center middle; }
    Sheet > #sheet { width: 100%; max-width: 104; height: 100%; max-height: 30; background: $panel;
                     border: solid $primary; padding: 0 1; }
    Sheet #title { height: 1; text-style: bold; }
    Sheet #hint { height: 2; color: $text-muted; }
    Sheet #hint.-bad { color: $text-error; }
    Sheet #keys { height: 1; color: $text-muted; }
    """
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape", "leave", "Leave", show=False),
        Binding("ctrl+z", "undo", "Undo", show=False, id="undo"),
        Binding("ctrl+y", "redo", "Redo", show=False, id="redo"),
        Binding("ctrl+s", "save", "Save", show=False, id="save"),
        Binding("f1", "help", "Help", show=False, id="help"),
    ]

    def __init__(self, desk: Desk, title: str) -> None:
        super().__init__()
        self.desk, self.title_words = desk, title
        self.form = PlainForm(self.cells, self, self.options_of)
        self.hint = Static("", id="hint", markup=False)
        self._told = ""

    def compose(self) -> ComposeResult:
        """From top to bottom."""
        with Vertical(id="sheet"):
            yield Static(shown(self.title_words), id="title", markup=False)
            yield from self.on_top()
            yield self.form
            yield self.hint
            yield Static(self._keys(), id="keys", markup=False)

    def _keys(self) -> str:
        saves, helps = f"{key_of('undo')} undoes, {key_of('save')} saves the file", key_of("help")
        return f"Kept as you type: {saves}. {helps} helps, Esc leaves."

    def on_mount(self) -> None:
        """Fill it."""
        self.paint()
        self.first_field().focus()

    # What a subclass says -------------------------------------------------------------------------

    @property
    def cells(self) -> Sequence[Cell]:
        """The cells as they are read now."""
        raise NotImplementedError

    @property
    def data(self) -> dict[str, object]:
        """The raw values of the cells."""
        raise NotImplementedError

    def put(self, project: Project, name: str, raw: object | None) -> Project:
        """The project with one cell set."""
        raise NotImplementedError

    def about(self, spec: GivenSpec) -> str:
        """What an edit of a cell is called, for undo."""
        raise NotImplementedError

    def on_top(self) -> ComposeResult:
        """What stands above the form."""
        yield from ()

    def first_field(self) -> Widget:
        """Where the person begins."""
        return next(iter(self.form.rows.values())).field

    def options_of(self, spec: GivenSpec) -> Sequence[str]:
        """The choices of a cell."""
        return ()

    def paint(self) -> None:
        """Show what the project says now."""
        self.form.show(self.cells, self.data, self.how)
        self.paint_hint()

    # What they share ------------------------------------------------------------------------------

    @property
    def how(self) -> Notation:
        """How the project reads and shows."""
        return self.desk.book.basis.how if self.desk.book is not None else Notation()

    @property
    def place(self) -> Place | None:
        """Where the focused field stands."""
        place = getattr(self.focused, "place", None)
        return place if isinstance(place, Place) else None

    def spec_of(self, name: str) -> GivenSpec:
        """How a cell is read now."""
        return next(cell.spec for cell in self.cells if cell.spec.name == name)

    def edit(self, make: Callable[[Project], Project], label: str, merge_key: object | None = None) -> bool:
        """Make an edit and show it, or say why it is refused; whether it was made."""
        try:
            self.desk.edit(make(self.desk.project), label, merge_key)
        except EditRefused as error:
            self.tell(f"! {error}")
            return False
        self._told = ""
        self.paint()
        return True

    def tell(self, words: str) -> None:
        """Say something in passing, in the line below the form."""
        self._told = words
        self.paint_hint()

    def paint_hint(self) -> None:
        """What was just told, else what helps with the focused field."""
        words = self.desk.journal.trouble or self._told or self.help_words()
        self.hint.update(shown(words))
        self.hint.set_class(words.startswith("!"), "-bad")

    def help_words(self) -> str:
        """Help for where the focus is."""
        place = self.place
        if place is None or place.given not in self.form.rows:
            return ""
        return say_of(self.spec_of(place.given), self.form.look(place))

    # As the owner of the fields -------------------------------------------------------------------

    def typed(self, place: Place, text: str) -> None:
        """A cell changed: keep it and work it out now."""
        spec = self.spec_of(place.given)
        raw = raw_of(spec, text, self.how)
        self.edit(lambda p: self.put(p, place.given, raw), self.about(spec), (type(self), self.about(spec)))

    def entered(self, place: Place) -> None:
        """A field got the focus."""
        self._told = ""
        self.paint_hint()

    def left(self, place: Place) -> None:
        """A field was left: the next edit of it is a step of its own."""
        self.desk.history.close_burst()

    def told(self, place: Place, words: str) -> None:
        """A field has something to say."""
        self.tell(words)

    def paged(self, by: int) -> None:
        """Nothing is found here."""

    def list_asked(self, place: Place, typed: str = "") -> None:
        """All choices of a cell, or those that fit what was typed."""
        spec = self.spec_of(place.given)
        offers = [Offer(name, name) for name in spec.options or self.options_of(spec)]
        look = self.form.look(place)
        pick = PickName(spec.label, offers, at=look.text or look.faint, typed=typed)
        self.app.push_screen(pick, lambda name: None if name is None else self.typed(place, name))

    # Keys -----------------------------------------------------------------------------------------

    def action_undo(self) -> None:
        """Take the last edit back, wherever it was made."""
        self._turned(self.desk.undo(), "Undone", "There is nothing to undo.")

    def action_redo(self) -> None:
        """Bring it back."""
        self._turned(self.desk.redo(), "Redone", "There is nothing to redo.")

    def _turned(self, label: str | None, did: str, nothing: str) -> None:
        self.paint()
        self.tell(nothing if label is None else f"{did}: {label}")

    def action_help(self) -> None:
        """Help for where the focus is."""
        place = self.place
        label = f"{self.spec_of(place.given).label}: " if place is not None else ""
        words = self.help_words()
        self.app.push_screen(HelpScreen(help_text(("Project",), f"{label}{words}" if words else "")))

    def action_save(self) -> None:
        """Leave and save: what a save has to ask or to say stands on the project's own screen."""
        self.dismiss("save")

    def action_leave(self) -> None:
        """Leave; all is kept already."""
        self.dismiss(None)

    def on_click(self, event: events.Click) -> None:
        """Beside the dialog: leave."""
        if is_beside(self, event):
            self.dismiss(None)
