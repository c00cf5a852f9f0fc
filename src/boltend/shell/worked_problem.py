"""A tab as a worked problem: given, picture, found, working, cautions, side by side or stacked."""

from collections.abc import Mapping
from functools import partial

from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.geometry import Size
from textual.reactive import Reactive
from textual.widgets import Static

from boltend.core.contract import CalculatorSpec
from boltend.core.flow import Result, Workbook
from boltend.core.project.model import Tab
from boltend.shell.fields import Owner
from boltend.shell.form import GivenForm, Options
from boltend.shell.found_lines import FoundLines
from boltend.shell.late_picture import LatePicture, Wanted
from boltend.shell.list_pane import ListPane
from boltend.shell.result_lines import ResultLine, result_lines
from boltend.shell.results import Results

FRAMES = 0.035
"""Seconds (two frames) until a picture is drawn that takes its time: the figures stand before that."""

LEAST_ROWS = 9
"""Lines below which a picture of its own is not worth the room."""

MOST_ROWS = 20
"""Lines of a picture that stands among the results."""

GIVEN_SHARE = 11, 20
"""How much of the body the givens may take where they stand above the results."""

READING_SHARE = 6, 20
"""How much of it they keep while somebody reads the results."""


def has_picture(result: Result) -> bool:
    """Whether there is something to draw."""
    return result.answer is not None and bool(result.answer.picture)


class Line(Static):
    """Text in a place of fixed size: another text moves nothing, and the same one is not painted again."""

    def __init__(self, name: str) -> None:
        super().__init__("", id=name, markup=False)
        self._said = ""

    def say(self, words: str) -> None:
        """Show these words."""
        if words != self._said:
            self._said = words
            self.update(words, layout=False)


class GivenPart(Vertical):
    """The givens and what stands around them. All of it fits, so no part of it asks for another layout."""

    virtual_size = Reactive(Size(0, 0))


class WorkedProblem(Container):
    """The body of the screen: the form of the tab in sight with what helps, its picture, and the results.

    One form serves all tabs of a calculator. The lists of the whole project stand in its place when wanted.
    """

    DEFAULT_CSS = """
    WorkedProblem { height: 1fr; layout: vertical; }
    WorkedProblem #given { width: 1fr; height: 11; }
    WorkedProblem #asks { height: 1; color: $text-primary; text-style: bold; }
    WorkedProblem #say { height: 1; color: $text-muted; }
    WorkedProblem #picture { height: 1fr; display: none; }
    WorkedProblem #results { border-top: solid $primary; }
    """

    def __init__(self) -> None:
        super().__init__(id="body")
        self.asks, self.says = Line("asks"), Line("say")
        self.picture, self.results, self.pane = Results("picture"), FoundLines(), ListPane()
        self.given = GivenPart(self.asks, self.says, self.picture, id="given")
        self.picture.can_focus = False  # all of it is in sight
        self.forms: dict[str, GivenForm] = {}
        self.form: GivenForm | None = None
        self._room = 0
        self._reading = False
        self._late = LatePicture(partial(self.set_timer, FRAMES), self._picture_ready, self.call_later)
        self._painted: tuple[Workbook, int] | None = None
        self.before: Mapping[int, Result] = {}
        """What every tab came to before the last step."""

    def compose(self) -> ComposeResult:
        """The parts, before any form is there."""
        yield self.given
        yield self.results
        yield self.pane

    @property
    def wide(self) -> bool:
        """Whether given and found stand side by side."""
        return self.screen.has_class("-wide")

    def form_for(self, spec: CalculatorSpec | None, owner: Owner, options: Options) -> GivenForm | None:
        """Bring the form of a calculator into sight, and every other out of it."""
        form = self.forms.get(spec.name) if spec is not None else None
        if spec is not None and (form is None or form.spec is not spec):
            form = self.forms[spec.name] = GivenForm(spec, owner, options)
            self.given.mount(form, before=self.says)
        if form is not self.form:
            for other in self.forms.values():
                other.display = other is form
            self.form = form
        return form

    def say_only(self, words: str) -> None:
        """Nothing is in sight but these words."""
        self.asks.say("")
        self.says.say("")
        self.picture.display = False
        self._painted = None
        self.results.show((ResultLine(((words, ""),)),), from_top=True)

    def paint(self, book: Workbook, tab: Tab, *, from_top: bool) -> None:
        """What was found; the picture below the givens where they leave room for it, else among the rest."""
        result, width = book.results[tab.key], self.results.size.width or self.screen.size.width or 78
        drawn = has_picture(result)
        room = self._room = self._room_for_picture() if drawn else 0
        self.picture.display = room > 0
        self._painted = book, tab.key

        def picture(cells: int, rows: int = MOST_ROWS) -> tuple[ResultLine, ...]:
            return self._late.lines(Wanted(tab.key, result, cells, rows))

        if room > 0:
            self.picture.show(picture(max(20, self.given.size.width - 1), room), from_top=True)
        among = picture if drawn and not room else None
        lines = result_lines(book, tab, width, among, self.before.get(tab.key))
        self.results.show(lines, from_top=from_top)

    def _picture_ready(self) -> None:
        """The picture is drawn, some frames after the figures; meanwhile another tab may be in sight."""
        if self._painted is not None:
            book, key = self._painted
            tab = book.project.find_tab(key)
            if tab is not None:
                self.paint(book, tab, from_top=False)

    def fit(self, book: Workbook | None, tab: Tab | None) -> None:
        """Stacked, the givens take what they need, but leave room for what is found."""
        room = self._room_for_picture() if book and tab and has_picture(book.results[tab.key]) else 0
        if self.form is not None:
            self.form.styles.height = self.form.rows if room else "1fr"
        if room != self._room and book is not None and tab is not None:
            self.paint(book, tab, from_top=False)
        self._fit_given()

    def _fit_given(self) -> None:
        if self.wide:
            self.given.styles.height = "1fr"
            return
        body = max(8, self.screen.size.height - 3)
        wanted = (self.form.rows if self.form is not None else 0) + 2
        part, of = READING_SHARE if self._reading else GIVEN_SHARE
        self.given.styles.height = max(4, min(wanted, body * part // of))

    def on_descendant_focus(self) -> None:
        """Who reads the results gets more of them in sight; who types, more of the givens."""
        reading = self.results.has_focus
        if reading is not self._reading:
            self._reading = reading
            self._fit_given()

    def _room_for_picture(self) -> int:
        """Lines below the givens for a picture; 0 where there are too few, or where all is stacked."""
        if not self.wide or self.form is None:
            return 0
        # The line of the question, three that help with a given, and the form itself stand above it.
        room = self.screen.size.height - 4 - 4 - self.form.rows
        return room if room >= LEAST_ROWS else 0
