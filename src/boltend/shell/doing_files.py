"""Saving, leaving, recovering: nothing typed is lost on any of these ways."""

import os
from collections.abc import Callable
from pathlib import Path

from boltend.core.project.edits import set_setting
from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.recovered import Recovered
from boltend.core.project.saving import ChangedOnDisk, Side
from boltend.core.project.whole_file import SaveFailed
from boltend.shell.actions import key_of
from boltend.shell.desk import when_words
from boltend.shell.dialogs import AskText, Choose, Offer
from boltend.shell.doing_givens import GivenView
from boltend.shell.texts import shown

Then = Callable[[], None]


class FileView(GivenView):
    """A view whose project can be saved and left."""

    begin_words = ""
    """What to say of a project that the person just asked for: then nothing else is asked."""

    # Beginning ------------------------------------------------------------------------------------

    def begun(self) -> None:
        """The project is in sight: say what there is to say, one thing after another."""
        if self.desk.is_new and self.desk.project.tabs == ():
            offers = [Offer(True, "Make a new project there"), Offer(False, "Quit")]
            title = f"There is no file {self.desk.file.path}."
            self.app.push_screen(Choose(title, offers), self._make_new)
        elif self.begin_words:
            self.tell(self.begin_words)
        else:
            self._offer_recovery()
        self.remember_file()

    def remember_file(self) -> None:
        """The file in sight is the one that was open last."""

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
        changed = [tab.key for tab in self.desk.project.tabs if old.get(tab.key) is not tab]
        place = self.place
        # Where the edit was, so that it is seen.
        key = self.current if self.current in changed or not changed else changed[0]
        if self.list_in_sight:
            self.show_again()
        else:
            self.show_tab(key, place if key == self.current else None)
        self.tell(f"{did}: {label}")

    # Saving ---------------------------------------------------------------------------------------

    def look_at_file(self) -> None:
        """The person is back from elsewhere: say so where somebody else changed the file."""
        if not self.desk.untitled and self.desk.file.data is not None and self.desk.file.changed_on_disk():
            name, key = self.desk.file_name, key_of("save")
            words = f"{name} was changed by somebody else. {key} takes that in."
            if not self.desk.file.path.exists():
                words = f"{name} is not there any more. {key} writes it again."
            self.notice.show(words, passing=True)

    def action_save(self) -> None:
        """Save."""
        self.save()

    def save(self, then: Then | None = None, on_conflict: Side = "ask") -> None:
        """Save, asking for what is needed; `then` is done only once it is saved."""
        if self.desk.untitled:
            self._ask_path(then)
            return
        try:
            said = self.desk.save(on_conflict)
        except ChangedOnDisk as error:
            self._ask_conflict(error, then)
            return
        except (SaveFailed, ProjectUnreadable) as error:
            self._not_saved(error)
            return
        self._saved(said, then)

    def _saved(self, said: str, then: Then | None) -> None:
        self.notice.show("")
        self.remember_file()
        if then is not None:
            then()
            return
        self.show_again(self.place)
        self.tell(said)

    def _not_saved(self, error: Exception) -> None:
        kept = (
            "What you typed is kept for the next start."
            if not self.desk.journal.trouble
            else self.desk.journal.trouble
        )
        self.notice.show(f"NOT SAVED: {error} {kept}")

    def _ask_conflict(self, error: ChangedOnDisk, then: Then | None) -> None:
        body = "\n".join(
            f"  {c.where}: here {_brief(c.mine)}, there {_brief(c.theirs)}" for c in error.conflicts[:6]
        )
        if len(error.conflicts) > 6:
            body += f"\n  and {len(error.conflicts) - 6} more"
        offers = [
            Offer("mine", "Keep mine in these places", "the rest is put together"),
            Offer("theirs", "Take theirs in these places", "the rest is put together"),
            Offer("other", "Save mine as another file"),
            Offer("leave", "Do not save now"),
        ]
        title = f"{error.file} was changed by somebody else, in the same places:"
        self.app.push_screen(Choose(title, offers, body=body), lambda what: self._settle(what, then))

    def _settle(self, what: str | None, then: Then | None) -> None:
        if what == "mine":
            self.save(then, "mine")
        elif what == "theirs":
            self.save(then, "theirs")
        elif what == "other":
            self._ask_path(then)

    def action_save_as(self) -> None:
        """Save under another name, and go on there."""
        self._ask_path(None)

    def _ask_path(self, then: Then | None) -> None:
        from boltend.shell.start_path_dialog import AskPath
        from boltend.shell.start_paths import wrong_to_save

        path = _suggested(self.desk.project.name) if self.desk.untitled else str(self.desk.file.path)
        ask = AskPath("Save as which file?", path, wrong_to_save, wrong_to_save)
        self.app.push_screen(ask, lambda path: self._take_path(path, then))

    def _take_path(self, text: str | None, then: Then | None) -> None:
        from boltend.shell.start_paths import path_of

        if text is None:
            return
        path = path_of(text)
        if path.exists() and (self.desk.untitled or not _same(path, self.desk.file.path)):
            offers = [
                Offer(False, "Take another name"),
                Offer(True, f"Replace {path.name}", "its last version is kept beside it"),
            ]
            choose = Choose(f"There is a file {path} already.", offers)
            self.app.push_screen(
                choose, lambda yes: self._save_as(path, then) if yes else self._ask_path(then)
            )
        else:
            self._save_as(path, then)

    def _save_as(self, path: Path, then: Then | None) -> None:
        try:
            said = self.desk.save_as(path)
        except (SaveFailed, ProjectUnreadable) as error:
            self._not_saved(error)
            return
        self._saved(said, then)

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
        if len(self.app.screen_stack) > 2:
            self.app.pop_screen()  # a dialog is open: leave that first
            return
        if not self.desk.changed:
            self._leave()
            return
        offers = [
            Offer("save", "Save and quit"),
            Offer("keep", "Quit without saving", "it is offered again at the next start"),
            Offer("stay", "Stay"),
            Offer("drop", "Quit and throw the changes away"),
        ]
        title = f"{shown(self.desk.project.name) or 'The project'} has changes that are not saved."
        self.app.push_screen(Choose(title, offers), self._leave_as)

    def _leave_as(self, what: str | None) -> None:
        if what == "save":
            self.save(self._leave)
        elif what in ("keep", "drop"):
            self._leave(keep=what == "keep")

    def _leave(self, *, keep: bool = True) -> None:
        self.desk.close(keep=keep)
        self.app.exit(return_code=0)


def _brief(value: object) -> str:
    text = "nothing" if value is None else shown(str(value))
    return text if len(text) <= 40 else text[:39] + "…"


def _suggested(name: str) -> str:
    letters = "".join(c if c.isalnum() else "-" for c in name.casefold()).strip("-")
    return f"{letters or 'quilt'}.toml"


def _same(one: Path, other: Path) -> bool:
    return os.path.realpath(one) == os.path.realpath(other)
