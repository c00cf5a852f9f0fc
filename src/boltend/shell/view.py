"""The screen of a project: what stands where, and how an edit is painted. Its subclasses do the rest."""

from collections.abc import Callable, Set
from functools import partial

from textual import on
from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import Static

from boltend.core.contract import GivenSpec
from boltend.core.host.calls import Outcome
from boltend.core.project.edits import set_cell, set_given
from boltend.core.project.model import Project, Tab
from boltend.core.project.problems import EditRefused
from boltend.core.values import visible
from boltend.shell.actions import BY_NAME, bindings, key_of
from boltend.shell.arrivals import Arrivals, Arrived, Whole
from boltend.shell.desk import Bench, Desk, InParts
from boltend.shell.form import GivenForm, see_whole
from boltend.shell.garbage import Garbage
from boltend.shell.given_row import RowsChanged
from boltend.shell.head import Head, Notice
from boltend.shell.key_line import KeyLine
from boltend.shell.looks import Place
from boltend.shell.rest import Rest
from boltend.shell.results import Results
from boltend.shell.say import say_of
from boltend.shell.settling import SettlingScreen
from boltend.shell.start_place import in_rows
from boltend.shell.tab_bar import TabBar
from boltend.shell.tab_labels import Labels
from boltend.shell.texts import clipped
from boltend.shell.trail import Trail
from boltend.shell.typed import raw_of
from boltend.shell.waits import brought, waiting_givens
from boltend.shell.worked_problem import WorkedProblem

BenchMaker = Callable[[Callable[[object, Outcome], None]], Bench]

_NO_TAB = "No tab yet. {} adds one: choose what you want to know."

WIDE = 110
"""Cells from which Given and Found stand side by side."""

LEAST = (40, 10)
"""Cells across and lines below which nothing could be read: then the screen says what it needs."""


class View(SettlingScreen):
    """Head, tabs, given, found. It owns the desk; the widgets below are bound to it, messages come up."""

    AUTO_FOCUS = None
    BINDINGS = bindings()
    DEFAULT_CSS = """
    View { layout: vertical; }
    View.-wide #body { layout: horizontal; }
    View.-wide #say { height: 3; }
    View.-wide #given { width: 1fr; height: 1fr; padding: 0 1 0 0; }
    View.-wide #results { width: 1fr; border-top: none; border-left: solid $primary; padding: 0 0 0 1; }
    View #small { height: 1fr; display: none; }
    View.-small #small { display: block; }
    View.-small #body, View.-small TabBar, View.-small Head, View.-small KeyLine { display: none; }
    """

    def __init__(self, desk: Desk, make_bench: BenchMaker) -> None:
        super().__init__()
        self.desk = desk
        self.make_bench = make_bench
        self._labels = Labels()
        self._arrivals = Arrivals(self.call_later, self.set_timer, self._paint_came)
        self._rest = Rest(desk, self.call_after_refresh, self.call_later, self._paint_frame)
        self._garbage = Garbage()
        self._trail = Trail()
        self.current: int | None = desk.project.tabs[0].key if desk.project.tabs else None
        self.body = WorkedProblem()
        self.list_in_sight = ""
        self._came_from: Place | None = None
        self._painted: Project | None = None

    def compose(self) -> ComposeResult:
        """Everything that is there before any calculator is."""
        yield Head()
        yield TabBar()
        yield Notice()
        yield Static("", id="small", markup=False)
        yield self.body
        yield KeyLine()

    def on_mount(self) -> None:
        """The calculators come after the frame is laid out; it is painted with the form that it is for."""
        self.head, self.bar = self.query_one(Head), self.query_one(TabBar)
        self.notice = self.query_one(Notice)
        self.given, self.results, self.pane = self.body.given, self.body.results, self.body.pane
        self._paint_frame()
        self.call_after_refresh(self._take_bench)

    def _take_bench(self) -> None:
        bench = self.make_bench(lambda t, o: self._later(t, o))
        self._garbage.expect(len(self.desk.project.tabs))
        self.desk.take_bench(bench)
        self._garbage.leave_alone(self.desk.book_so_far)
        self.show_tab(self.current)
        self.begun()
        if isinstance(bench, InParts):
            bench.when_whole(lambda: self.post_message(Whole()))

    @on(Whole)
    def _take_others(self) -> None:
        before, changed = self._form, self.desk.take_others()
        self.repaint(changed)
        if self._form is not before and not self.list_in_sight:
            self.show_tab(self.current)

    def _later(self, ticket: object, outcome: Outcome) -> None:
        self.post_message(Arrived(ticket, outcome))

    def begun(self) -> None:
        """The project is worked out and in sight."""

    # What is in sight -----------------------------------------------------------------------------

    @property
    def _form(self) -> GivenForm | None:
        return self.body.form

    @property
    def tab(self) -> Tab | None:
        """The tab in sight."""
        return self.desk.project.find_tab(self.current) if self.current is not None else None

    @property
    def place(self) -> Place | None:
        """Where the focused field stands."""
        place = getattr(self.focused, "place", None)
        return place if isinstance(place, Place) else None

    def spec_at(self, place: Place) -> GivenSpec | None:
        """The given (or column) at a place of the tab in sight."""
        spec = self._form.spec.given(place.given) if self._form is not None else None
        if spec is not None and place.column:
            return next((c for c in spec.columns if c.name == place.column), None)
        return spec

    def show_tab(self, key: int | None, place: Place | None = None) -> None:
        """Bring a tab into sight, and its first field (or the one told) into focus."""
        key = self._trail.to(self.desk.project, key)
        other = key != self.current
        self.current = key
        self.desk.finish()  # the tab in sight is always worked out
        self.see_list("")
        self.head.tell("")
        if other:
            self.notice.pass_by()
        self._paint_frame()
        self._paint_tab(from_top=other)
        if self._form is not None:
            field = self._form.field(place or self._first_place())
            # A new form knows its width, and so its height, only after it was laid out.
            self.call_after_refresh(self._fit_height)
            if field is not None and field.is_attached:
                self.set_focus(field, scroll_visible=False)
                self.call_after_refresh(see_whole, field)
            elif field is not None:
                # What is typed until then waits; it must not get into a field of the tab before.
                self.set_focus(None)
                self.call_after_refresh(self._enter, field)
            if not self._form.is_mounted:
                self.paint_with(field)
        else:
            self.bar.focus()
            self.paint_now()

    def _enter(self, field: Widget) -> None:
        if not field.is_attached:  # nothing was waited for; a field has messages once it is mounted
            field.call_after_refresh(self._enter, field)
            return
        if not isinstance(self.focused, Results):  # where a line was gone to meanwhile
            field.focus()
        self.call_after_refresh(see_whole, field)  # once the height of the form is settled

    def see_list(self, name: str) -> None:
        """Bring a list of the whole project into sight, or with "" the tab."""
        if name and not self.list_in_sight:
            self._came_from = self.place
            self.notice.pass_by()
        self.list_in_sight = name
        self.given.display = self.results.display = not name
        self.pane.display = bool(name)
        self._paint_frame()
        self.refresh_bindings()
        if name:
            self.call_after_refresh(self.paint_list)  # its width is known only now

    def back_to_tab(self) -> None:
        """From a list to the tab that was in sight before, and to the field."""
        self.show_tab(self.current, self._came_from)

    def show_again(self, place: Place | None = None) -> None:
        """Paint all anew, whatever is in sight."""
        if self.list_in_sight:
            self._paint_frame()
            self.lists_changed()
        else:
            self.show_tab(self.current, place)

    def lists_changed(self) -> None:
        """Something changed that a list in sight may show."""

    def paint_list(self) -> None:
        """Paint a list in sight for another width."""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While a list is in sight, what is done to a tab is out of reach, and out of the footer."""
        known = BY_NAME.get(action)
        return not (known is not None and known.in_tab and self.list_in_sight)

    def on_screen_resume(self) -> None:
        """A dialog is gone, in which anything may have been changed."""
        if self.desk.book is None:
            return
        if self._painted is not self.desk.project:
            self.show_again(self.place)
        self.lists_changed()

    def _first_place(self) -> Place:
        """The given that keeps the tab in sight from being worked out, else the first."""
        names = list(self._form.parts) if self._form is not None else []
        book, key = self.desk.book_so_far, self.current
        results = book.results if book is not None else {}
        result = results.get(self.current) if self.current is not None else None
        troubles = result.troubles if result is not None and result.state == "cannot" else ()
        wrong = [trouble.given for trouble in troubles if trouble.given in names]
        prepared = book.prepared(key) if book is not None and key is not None and result is not None else None
        return in_rows(prepared, (wrong or names or [""])[0])

    def repaint(self, changed: Set[int]) -> None:
        """Paint what an edit changed, then work out what it has left."""
        self._rest.begin()
        self._paint_frame()
        if self.list_in_sight:
            self.lists_changed()
            return
        if self.current in changed:
            self._paint_tab(from_top=False)

    def _paint_frame(self) -> None:
        desk = self.desk
        self._painted = desk.project
        self.bar.show(self._labels.of(desk.project, desk.book_so_far), self.list_in_sight or self.current)
        self.head.show(desk.project.name, f"{desk.file_name} · {self.file_state}")
        if desk.journal.trouble:
            self.notice.show(desk.journal.trouble)

    @property
    def file_state(self) -> str:
        """Whether the file holds what is in sight, in a word."""
        desk = self.desk
        return "changed" if desk.changed else "new" if desk.file.data is None else "saved"

    def _paint_tab(self, *, from_top: bool = False) -> None:
        tab, book = self.tab, self.desk.book_so_far
        if book is None:
            return
        if tab is None:
            self.body.form_for(None, self, self.options_of)
            self.body.say_only(_NO_TAB.format(key_of("add_tab")))
            return
        result, prepared = book.results[tab.key], book.prepared(tab.key)
        spec = self.desk.bench.spec(tab.calculator) if self.desk.bench is not None and prepared else None
        form = self.body.form_for(spec, self, self.options_of)
        if form is not None and prepared is not None:
            waits = waiting_givens(book, tab.key)
            form.show(tab.key, prepared, result, waits, partial(brought, book, tab.key))
        asks = form.spec.asks if form is not None else visible(tab.calculator)
        self.body.asks.say(clipped(f"Given · {asks}", self.given.size.width or 78))
        self.body.before = self.desk.before
        self._fit_height()
        self.body.paint(book, tab, from_top=from_top)
        self._paint_say()

    def _fit_height(self) -> None:
        self.body.fit(self.desk.book_so_far, self.tab)

    def _paint_say(self) -> None:
        place = self.place
        spec = self.spec_at(place) if place is not None else None
        if spec is None or place is None or self._form is None:
            self.body.says.say("")
            return
        words = say_of(spec, self._form.look(place), place.row)
        says = self.body.says
        says.say(words if self.body.wide else clipped(words, says.size.width or 78))

    def on_resize(self) -> None:
        """Side by side where there is room."""
        self.set_class(self.size.width >= WIDE, "-wide")
        small = self.size.width < LEAST[0] or self.size.height < LEAST[1]
        self.set_class(small, "-small")
        self.refresh_bindings()
        if small:
            across, high = self.size
            needs = f"{LEAST[0]} × {LEAST[1]} are needed to read anything. Nothing is lost."
            self.query_one("#small", Static).update(f"This window has {across} × {high} cells; {needs}")
        self.call_after_refresh(self.paint_list if self.list_in_sight else self._paint_tab)

    # Edits ----------------------------------------------------------------------------------------

    def edit(self, make: Callable[[Project], Project], label: str, merge_key: object | None = None) -> bool:
        """Make an edit, work it out, paint it; where it is refused, say why. Whether it was made."""
        try:
            changed = self.desk.edit(make(self.desk.project), label, merge_key, first=self.current)
        except EditRefused as error:
            self.tell(str(error), bad=True)
            return False
        self.head.tell("")
        self.notice.pass_by()
        self.repaint(changed)
        return True

    def tell(self, words: str, *, bad: bool = False) -> None:
        """Say something in passing."""
        self.notice.pass_by()
        if not self.head.tell(f"! {words}" if bad else words) and not self.notice.words:
            self.notice.show(words, passing=True)

    def set_at(self, place: Place, raw: object | None, label: str, merge_key: object | None = None) -> bool:
        """Set a given, or a cell of its rows, of the tab in sight."""
        tab = self.tab
        if tab is None:
            return False
        if place.column:
            return self.edit(
                lambda p: set_cell(p, tab.key, place.given, place.row, place.column, raw), label, merge_key
            )
        return self.edit(lambda p: set_given(p, tab.key, place.given, raw), label, merge_key)

    def typed(self, place: Place, text: str) -> None:
        """A field changed: keep it, work it out, paint it, all now."""
        spec, tab, book = self.spec_at(place), self.tab, self.desk.book_so_far
        if spec is None or tab is None or book is None:
            return
        how = book.results[tab.key].settings.notation
        self.set_at(place, raw_of(spec, text, how), f"{spec.label} in {tab.name}", (tab.key, place))

    def entered(self, place: Place) -> None:
        """A field got the focus."""
        self._paint_say()

    def left(self, place: Place) -> None:
        """A field was left: the next edit of it is a step of its own."""
        self.desk.history.close_burst()

    def told(self, place: Place, words: str) -> None:
        """A field has something to say: in the line below the form, where its help stands."""
        self.body.says.say(clipped(words, self.body.says.size.width or 78))

    def paged(self, by: int) -> None:
        """Scroll what was found by so many pages."""
        found = self.results
        found.scroll_relative(y=by * max(1, found.size.height - 1), animate=False)

    def list_asked(self, place: Place, typed: str = "") -> None:
        """All choices of a field, or those that fit what was typed."""
        raise NotImplementedError

    def options_of(self, spec: GivenSpec) -> list[str]:
        """The choices of a fabric or of a row of a table, the project's own rows too."""
        if spec.kind == "fabric":
            return [row.name for row in self.desk.project.fabrics if row.name]
        table = book.table(spec.table) if (book := self.desk.book_so_far) and spec.table else None
        return list(table.rows) if table is not None else []

    # Messages -------------------------------------------------------------------------------------

    @on(TabBar.Chosen)
    def _tab_chosen(self, event: TabBar.Chosen) -> None:
        self.show_tab(event.key)

    @on(RowsChanged)
    def _rows_changed(self) -> None:
        self.call_after_refresh(self._fit_height)

    @on(Results.TabAsked)
    def _tab_asked(self, event: Results.TabAsked) -> None:
        self.show_tab(event.key)

    @on(Arrived)
    def _arrived(self, event: Arrived) -> None:
        if isinstance(event.ticket, int):
            self._arrivals.take(self.desk.arrived(event.ticket, event.outcome, first=self.current))

    def _paint_came(self, came: Set[int]) -> None:
        self.repaint(came)
        self._garbage.leave_alone(self.desk.book_so_far)

    def on_unmount(self) -> None:
        """Another project comes, or the end."""
        self._garbage.as_before()
