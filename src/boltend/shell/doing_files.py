"""Beginning, recovering, undoing, leaving: nothing typed is lost on any of these ways."""

from collections.abc import Callable

from boltend.core.project.edits import set_setting
from boltend.core.project.recovered import Recovered
from boltend.shell.actions import key_of
from boltend.shell.desk import when_words
from boltend.shell.dialogs import AskText, Choose, Offer
from boltend.shell.doing_saves import AT_ONCE, SaveView, Written
from boltend.shell.doing_tabs import Begin
from boltend.shell.lanes import done_within
from boltend.shell.start_place import changed_place
from boltend.shell.texts import shown
from boltend.shell.writing import Writing


class FileView(SaveView):
    """A view whose project can be left."""

    _leaves = False

    begin: Begin | None = None
    """The question that this project begins with, and what was typed to find it."""

    begin_words = ""
    """What to say of a project that the person just asked for: then nothing else is asked."""

    # Beginning ------------------------------------------------------------------------------------

    def begun(self) -> None:
        """The project is in sight: say what there is to say, one thing after another."""
        self.desk.keeper.begin()
        if self.desk.journal.trouble:
            self.notice.show(self.desk.journal.trouble)  # before anything is typed
        if self.desk.is_new and self.desk.project.tabs == ():
            offers = [Offer(True, "Make a new project there"), Offer(False, "Quit")]
            title = f"There is no file {self.desk.file.path}."
            self.app.push_screen(Choose(title, offers), self._make_new)
        elif self.begin is not None:
            self.begin_with(*self.begin)
        elif self.begin_words:
            self.tell(self.begin_words)
        else:
            self._offer_recovery()
        self.note_file()

    def action_start(self) -> None:
        """From where a person begins."""

    def _make_new(self, yes: bool | None) -> None:
        if yes:
            self._offer_recovery()
        else:
            self._leave()

    def _offer_recovery(self) -> None:
        # What has no file yet stands on the start screen, whatever of it there is.
        found = self.desk.recovered() if not self.desk.untitled else None
        if found is None:
            self._go_on()
            return
        body = f"It was last changed {when_words(found.when)}."
        if found.file_changed:
            body += (
                "\nThe file was changed since: what you take over replaces what the file says, once you save."
            )
        offers = [
            Offer("take", "Go on with the unsaved work", f"{key_of('undo')} goes back to the file"),
            Offer("later", "Open the file as it is", "the unsaved work is offered again next time"),
            Offer("discard", "Throw the unsaved work away"),
        ]
        choose = Choose("There is unsaved work of this project.", offers, body=body)
        self.app.push_screen(choose, lambda what: self._recover(found, what))

    def _recover(self, found: Recovered, what: str | None) -> None:
        if what == "take":
            self.desk.take_recovered(found)
            self.show_tab(self.current)
        elif what == "discard":
            found.discard()
        self._go_on()

    def _go_on(self) -> None:
        """Nothing is to be recovered any more: begin, or say what is wrong with the file."""
        if self.desk.untitled and not self.desk.project.tabs and not self.desk.changed:
            self.action_start()
        else:
            self._tell_problems()

    def _tell_problems(self) -> None:
        # What is wrong in a tab only for a note, the tab itself says.
        if any(problem.severity == "error" or problem.tab_key is None for problem in self.desk.problems()):
            self.action_problems()

    def action_problems(self) -> None:
        """What is wrong with the file, in a list."""
        problems = self.desk.problems()
        offers: list[Offer[int | None]] = [
            Offer(problem.tab_key, str(problem).removesuffix(problem.way_out).strip(), below=problem.way_out)
            for problem in problems
        ]
        title = (
            f"What there is to know about {self.desk.file_name} ({len(problems)})"
            if problems
            else "Nothing is wrong in the file."
        )
        choose: Choose[int | None] = Choose(title, offers, none="All is well.")
        self.app.push_screen(choose, self._to_problem)

    def _to_problem(self, tab: int | None) -> None:
        if tab is not None:
            self.show_tab(tab)

    # Undo -----------------------------------------------------------------------------------------

    def action_undo(self) -> None:
        """Take the last edit back."""
        self._turn(self.desk.undo, "Undone", "There is nothing to undo.")

    def action_redo(self) -> None:
        """Bring it back."""
        self._turn(self.desk.redo, "Redone", "There is nothing to redo.")

    def _turn(self, turn: Callable[[], str | None], did: str, nothing: str) -> None:
        before = self.desk.project
        label = turn()
        if label is None:
            self.tell(nothing)
            return
        old = {tab.key: tab for tab in before.tabs}
        changed = {tab.key: tab for tab in self.desk.project.tabs if old.get(tab.key) is not tab}
        place = self.place
        # Where the edit was, so that it is seen.
        key = self.current if self.current in changed or not changed else next(iter(changed))
        if key is not None and key in old and key in changed:
            place = changed_place(old[key], changed[key]) or place
        if self.list_in_sight:
            self.show_again()
        else:
            now = {tab.key for tab in self.desk.project.tabs}
            self.show_tab(key, place if key in old and key in now else None)
        self.tell(f"{did}: {label}")

    def action_name_project(self) -> None:
        """The project's own name."""
        ask = AskText("The project's name", self.desk.project.name, lambda text: "")
        self.app.push_screen(ask, self._name_project)

    def _name_project(self, name: str | None) -> None:
        if name is not None:
            self.edit(lambda p: set_setting(p, "name", name.strip() or None), "naming the project")

    # Leaving --------------------------------------------------------------------------------------

    def action_leave(self) -> None:
        """Quit; where something is not saved, ask."""
        if self._leaves:
            return
        if len(self.app.screen_stack) > 2:
            self.app.pop_screen()  # a dialog is open: leave that first
            return
        if self.when_written(self.action_leave):
            return
        if not self.desk.changed or self.desk.as_taken:
            self._leave()
            return
        self.ask_unsaved("Quit", self._leave_as)

    def ask_unsaved(self, verb: str, settle: Callable[[str | None], None]) -> None:
        """Ask what becomes of the changes; promise only what holds: gives "save", "keep", "drop" or None."""
        held = self.desk.keeper.holds(self.desk.project)
        kept = held.result() if done_within(AT_ONCE, held) else None
        offers = [Offer("save", f"Save and {verb.lower()}"), Offer("stay", "Stay")]
        body = ""
        if kept is False:
            body = self.desk.journal.trouble
        else:
            again = "at the next start" if self.desk.untitled else "when this file is opened"
            said = f"it is offered again {again}" if kept else "once the disk has written what is kept"
            offers.insert(1, Offer("keep", f"{verb} without saving", said))
        offers.append(Offer("drop", f"{verb} and throw the changes away"))
        title = f"{shown(self.desk.project.name) or 'The project'} has changes that are not saved."

        def settled(what: str | None) -> None:
            if what == "keep":
                self._keep(verb, settle)
            elif what != "stay":
                settle(what)

        self.app.push_screen(Choose(title, offers, body=body), settled)

    def _keep(self, verb: str, settle: Callable[[str | None], None]) -> None:
        """Go only once all of it is kept; where that fails after all, ask again."""
        held = self.desk.keeper.holds(self.desk.project)
        self.once_done(held, lambda: settle("keep") if held.result() else self.ask_unsaved(verb, settle))

    def _leave_as(self, what: str | None) -> None:
        if what == "save":
            self.save(self._leave)
        elif what in ("keep", "drop"):
            self._leave(keep=what == "keep")

    def _leave(self, *, keep: bool = True) -> None:
        """Quit once all is written; until then keys go nowhere."""
        self._leaves = True
        closed = self.desk.close(keep=keep)
        if done_within(AT_ONCE, closed):
            self._left()
            return
        self.app.push_screen(Writing(f"{self.desk.file_name} is still being written."))
        closed.add_done_callback(lambda _: self.post_message(Written(self._left)))

    def _left(self) -> None:
        self.app.exit(return_code=0)
