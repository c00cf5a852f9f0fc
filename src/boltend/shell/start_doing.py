"""Getting started: the start screen, and what leads from one project to another."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from textual.widget import Widget

from boltend.core.contract import CalculatorSpec, Start
from boltend.core.project.model import Project
from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.recovered import Recovered
from boltend.shell.actions import key_of
from boltend.shell.desk import Desk, unsaved_nameless, when_words
from boltend.shell.dialogs import Choose, Offer
from boltend.shell.doing_back import BackView
from boltend.shell.doing_tabs import Begin
from boltend.shell.texts import shown

if TYPE_CHECKING:  # imported when first used: a project that is opened by its name pays nothing for it
    from boltend.shell.start_offers import Example, Pick
    from boltend.shell.start_recent import Recent


class StartView(BackView):
    """A view from which a person begins: a question, an example, another project."""

    _throws = False
    """Whether the changes of this project go when another takes its place."""
    _asked = ""
    """What was typed for the last question."""
    _begun: "tuple[Start | CalculatorSpec, Project] | None" = None
    """The last question, and the project as it made it."""

    def begin_with(self, what: Start | CalculatorSpec, typed: str = "") -> None:
        """The tabs of a question, which is remembered: somebody may want to mend it."""
        super().begin_with(what, typed)
        self._asked, self._begun = typed, (what, self.desk.project)

    def action_start(self) -> None:
        """The start screen."""
        from boltend.shell.start_offers import (
            PROJECT_LINES,
            example_lines,
            examples,
            list_lines,
            recent_lines,
            start_lines,
            tab_lines,
            unsaved_lines,
        )
        from boltend.shell.start_recent import Recent, recents
        from boltend.shell.start_screen import StartScreen

        bench = self.desk.bench
        if bench is None:
            return
        # Where there are tabs already, what they all come to is asked for first.
        asked = [*list_lines(), *start_lines(bench)]
        if not self.desk.project.tabs:
            asked = [*start_lines(bench), *list_lines(empty=True)]
        unsaved = unsaved_lines(unsaved_nameless())
        lines = [
            *recent_lines(recents()),
            *PROJECT_LINES,
            *asked,
            *example_lines(examples()),
            *tab_lines(bench, but={line.words for line in asked}),
        ]
        if not any(isinstance(line.pick, Recent) for line in lines):
            # Nobody was here before: the questions come first.
            lines.sort(key=lambda line: line.group != "Questions")
        screen = StartScreen([*unsaved, *lines], adds=bool(self.desk.project.tabs), asked=self._asked)
        self.app.push_screen(screen, lambda pick: self._picked(pick, screen.typed))

    def _picked(self, pick: "Pick | None", typed: str = "") -> None:
        from boltend.shell.start_offers import Do, Example, ThrowAway
        from boltend.shell.start_recent import Recent

        if pick is not None:
            self._asked = typed  # also what was taken makes nothing of it: it may be asked again
        if isinstance(pick, Do):
            self.run_named(pick.action)
        elif isinstance(pick, Recovered):
            self._when_free(lambda: self._go_on_with(pick))
        elif isinstance(pick, ThrowAway):
            self._throw_away(pick.work)
        elif isinstance(pick, Recent):
            self._open_recent(pick)
        elif isinstance(pick, Example):
            self._when_free(lambda: self._open_copy(pick))
        elif isinstance(pick, (Start, CalculatorSpec)):
            self._ask_where(pick, typed)

    def _ask_where(self, pick: "Start | CalculatorSpec", typed: str) -> None:
        """The tabs of a question: in this project where it has none yet, else as the person says."""
        add = partial(self.begin_with, pick, typed)
        if not self.desk.project.tabs:
            add()
            return
        offers = [
            Offer("add", "Add its tabs to this project"),
            Offer("new", "Begin a new quilt with it", "this one is kept as it is"),
        ]
        made, project = self._begun or (None, None)
        if project is self.desk.project:  # nothing was done since
            mended = Offer("instead", "Put it in place of what was asked before", "the tabs of that go")
            offers.insert(0 if made == pick else len(offers), mended)
        name = shown(self.desk.project.name) or (
            "A project without a name" if self.desk.untitled else self.desk.file_name
        )

        def settle(what: str | None) -> None:
            if what == "instead":
                self.desk.undo()
                self.current = None
            if what in ("add", "instead"):
                add()
            elif what == "new":
                self._when_free(lambda: self._go_to(Desk.open(None), begin=(pick, typed)))

        self.app.push_screen(Choose(f"{name} is in sight.", offers), settle)

    # Unsaved work ---------------------------------------------------------------------------------

    def _go_on_with(self, work: Recovered) -> None:
        """Take unsaved work over: here where this project is empty, else in place of it."""
        said = f"Gone on with the work of {when_words(work.when)}. {key_of('save')} asks where to keep it."
        if self.desk.untitled and not self.desk.project.tabs and not self.desk.changed:
            self.desk.take_recovered(work)
            self.show_tab(self.current)
            self.tell(said)
            return
        desk = Desk.open(None)
        desk.take_recovered(work)
        self._go_to(desk, said)

    def _throw_away(self, work: Recovered) -> None:
        from boltend.shell.start_offers import typed_words

        names = ", ".join(f"“{shown(tab.name)}”" for tab in work.project.tabs if tab.name)
        body = f"Last changed {when_words(work.when)}; tabs: {names}.\n{typed_words(work.project)}."
        offers = [Offer(False, "Keep it"), Offer(True, "Throw it away", "it cannot be brought back")]
        title = f"Throw the unsaved work {shown(work.project.name)} away?".replace("  ", " ")

        def settle(away: bool | None) -> None:
            if away:
                work.discard()
            self.action_start()

        self.app.push_screen(Choose(title, offers, body=body), settle)

    # Another project ------------------------------------------------------------------------------

    def remember_file(self) -> None:
        """The file in sight is the one that was open last."""
        from boltend.shell.start_recent import remember

        if not self.desk.untitled and self.desk.file.data is not None:
            remember(self.desk.file.path, self.desk.project.name)

    def _open_recent(self, recent: "Recent") -> None:
        from boltend.shell.start_paths import short_path

        if not recent.missing:
            self._when_free(lambda: self._open(str(recent.path)))
            return
        offers = [Offer(False, "Back"), Offer(True, "Take it off the list")]
        title = f"There is no file any more: {short_path(recent.path)}"
        self.app.push_screen(Choose(title, offers), lambda off: self._off_the_list(recent, off))

    def _off_the_list(self, recent: "Recent", off: bool | None) -> None:
        from boltend.shell.start_recent import forget

        if off:
            forget(recent.path)
        self.action_start()

    def action_open(self) -> None:
        """Ask for a file, and open it in place of this project."""
        self._when_free(self._ask_open)

    def _ask_open(self) -> None:
        from boltend.shell.start_path_dialog import AskPath
        from boltend.shell.start_paths import path_of, wrong_to_open

        # Read at once, so that what is wrong with the file is said where another can be named.
        read: list[Desk] = []

        def take(typed: str) -> str:
            wrong = wrong_to_open(typed)
            if wrong:
                return wrong
            try:
                read.append(Desk.open(str(path_of(typed))))
            except (ProjectUnreadable, OSError) as error:
                return str(error)
            return ""

        ask = AskPath("Open which project file?", "", take)
        self.app.push_screen(ask, lambda typed: self._go_to(read[-1]) if typed is not None else None)

    def _open(self, path: str) -> None:
        try:
            desk = Desk.open(path)
        except (ProjectUnreadable, OSError) as error:
            self.notice.show(f"NOT OPENED: {error}")
            return
        self._go_to(desk)

    def _open_copy(self, example: "Example") -> None:
        from boltend.shell.start_offers import example_bytes

        try:
            desk = Desk.copy_of(example_bytes(example.name), example.name)
        except (ProjectUnreadable, OSError) as error:
            self.notice.show(f"NOT OPENED: {error}")
            return
        self._go_to(desk, f"A copy of the example. {key_of('save')} asks where to keep it.")

    def action_empty_project(self) -> None:
        """A new project without a file, in place of this one."""
        if self.desk.untitled and not self.desk.project.tabs and not self.desk.changed:
            self.show_tab(None)  # this one is empty
            return
        self._when_free(lambda: self._go_to(Desk.open(None), "A new project."))

    def _go_to(self, desk: Desk, words: str = "", begin: Begin | None = None) -> None:
        """Put another project on the screen; this one is closed, its unsaved work kept as was said."""
        from boltend.shell.app import BoltendApp  # the app imports the screen that this is a part of

        assert isinstance(self.app, BoltendApp)
        self.app.show_desk(desk, words, begin, keep=not self._throws)
        self.app.project_screen._asked = self._asked

    def _when_free(self, then: Callable[[], None]) -> None:
        """Go on where nothing is unsaved, or all of it is kept as it was found; else ask."""
        self._throws = False
        if not self.desk.changed or self.desk.as_taken:
            then()
            return

        def settle(what: str | None) -> None:
            if what == "save":
                self.save(then)
            elif what is not None:
                self._throws = what == "drop"
                then()

        self.ask_unsaved("Go on", settle)

    # A pattern's yardage --------------------------------------------------------------------------

    def action_printed(self) -> None:
        """To what a pattern prints of a fabric; then To buy, which compares it."""
        book = self.desk.book
        if book is None:
            return
        from boltend.shell.fabrics_sheet import FabricsSheet

        class AtPrinted(FabricsSheet):
            def first_field(self) -> Widget:
                return self.form.rows["printed"].field if self.fabric is not None else self.list

        def left(what: str | None) -> None:
            self._sheet_left(what)
            if what is None and self.desk.project.fabrics and self.list_in_sight != "to_buy":
                self.action_to_buy()

        self.app.push_screen(AtPrinted(self.desk, book), left)
