"""Saving beside the screen: keys are answered while the disk takes its time; what is saved is said after it.

A save that is quick ends within its own key. Of those asked for while one is on its way the last one follows.
"""

import os
from collections.abc import Callable
from concurrent.futures import Future
from pathlib import Path
from typing import Any

from textual import on
from textual.message import Message

from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.saving import ChangedOnDisk, ProjectFile, Side
from boltend.core.project.whole_file import SaveFailed
from boltend.shell.actions import key_of
from boltend.shell.dialogs import Choose, Offer
from boltend.shell.doing_givens import GivenView
from boltend.shell.in_turn import KeysInTurn
from boltend.shell.keeping import Save
from boltend.shell.lanes import done_within
from boltend.shell.texts import shown
from boltend.shell.writing import SLOW

Then = Callable[[], None]

AT_ONCE = 0.03
"""Seconds that a key waits for what it asked of the disk; most saves take less."""


class Written(Message):
    """Something that the disk kept waiting is done; `then` goes on. Posted from a lane."""

    def __init__(self, then: Then) -> None:
        self.then = then
        super().__init__()


class SaveView(GivenView):
    """A view whose project can be saved."""

    _writes: Save | None = None
    """The save that is on its way."""
    _next: Then | None = None
    """What was asked for meanwhile."""
    _slow = False
    """Whether it takes so long that the head says so."""
    _looks = False
    """Whether the file is being looked at."""

    def on_mount(self) -> None:
        """A journal that comes late is heard of, for it may have trouble."""
        self.desk.keeper.late = self._journal_came

    def _journal_came(self) -> None:
        self.post_message(Written(self._paint_frame))

    @on(Written)
    def _go_on_after(self, event: Written) -> None:
        event.then()

    def once_done(self, work: Future[Any], then: Then) -> None:
        """Go on once the disk has done something: at once, where that is quick."""
        if done_within(AT_ONCE, work):
            then()
        else:
            work.add_done_callback(lambda _: self.post_message(Written(then)))

    @property
    def file_state(self) -> str:
        """Whether the file holds what is in sight, in a word."""
        return "saving" if self._slow else super().file_state

    # The file on the disk -------------------------------------------------------------------------

    def look_at_file(self) -> None:
        """The person is back from elsewhere: say so where somebody else changed the file."""
        if self.desk.untitled or self.desk.file.data is None or self._writes is not None or self._looks:
            return
        file = self.desk.file.aside()
        look = self.desk.keeper.after(lambda: _changed(file))
        self._looks = True

        def told() -> None:
            self._looks = False
            if self.desk.file.data is file.data and self._writes is None:
                self._tell_changed(look.result())

        self.once_done(look, told)

    def _tell_changed(self, how: str) -> None:
        name, key = self.desk.file_name, key_of("save")
        if how == "changed":
            self.notice.show(f"{name} was changed by somebody else. {key} takes that in.", passing=True)
        elif how == "gone":
            self.notice.show(f"{name} is not there any more. {key} writes it again.", passing=True)

    def remember_file(self) -> None:
        """The file in sight is the one that was open last."""

    def note_file(self) -> None:
        """Remember the file, beside the screen: that is written, too."""
        done_within(AT_ONCE, self.desk.keeper.after(self.remember_file))

    # Saving ---------------------------------------------------------------------------------------

    def action_save(self) -> None:
        """Save."""
        self.save()

    def save(self, then: Then | None = None, on_conflict: Side = "ask") -> None:
        """Save, asking for what is needed; `then` is done only once all that is in sight is saved."""
        if self.desk.untitled and self._writes is None:
            self._ask_path(then)
        else:
            self._begin_save(lambda: self.desk.save(on_conflict), then)

    def when_written(self, then: Then) -> bool:
        """Do something once the save on its way is done; False where there is none."""
        if self._writes is None:
            return False
        self._next = then
        return True

    def _begin_save(self, begin: Callable[[], Save], then: Then | None) -> None:
        if self._writes is not None:
            # Where more is asked for already, that looks itself whether all is saved.
            if then is not None or self._next is None:
                self._next = lambda: self._begin_save(begin, then)
            return
        save = self._writes = begin()
        keys = self._keys_taken
        if done_within(AT_ONCE, save.done):
            self._came_back(save, then)
            return
        back = Written(lambda: self._came_back(save, then, keys))
        save.done.add_done_callback(lambda _: self.post_message(back))
        self.set_timer(SLOW, lambda: self._say_slow(save))

    @property
    def _keys_taken(self) -> int:
        return self.app.keys_taken if isinstance(self.app, KeysInTurn) else 0

    def _say_slow(self, save: Save) -> None:
        if self._writes is save:
            self._slow = True
            self._paint_frame()

    def _came_back(self, save: Save, then: Then | None, late: int | None = None) -> None:
        """A save is done, well or not; `late`: after its key, when so many keys had been taken."""
        self._writes, self._slow = None, False
        following, self._next = self._next, None
        try:
            said = self.desk.saved(save)
        except ChangedOnDisk as error:
            self._paint_frame()
            if late in (None, self._keys_taken):
                self._ask_conflict(error, then)
            else:  # the next key may be on its way: it must not choose
                self._not_saved(f"{error} {key_of('save')} asks which of them to keep.")
            return
        except (SaveFailed, ProjectUnreadable) as error:
            self._paint_frame()
            self._not_saved(str(error))
            return
        self.notice.show("")
        self.note_file()
        if then is not None and self.desk.changed:
            self.save(then)  # typed meanwhile
        elif then is not None:
            then()
        elif following is not None:
            following()
        else:
            self._tell_saved(said, late is not None)

    def _tell_saved(self, said: str, late: bool) -> None:
        came_in = self._painted is not self.desk.project
        if not late or (came_in and self.app.screen is self):
            self.show_again(self.place)
        else:  # somebody may be typing here
            self._paint_frame()
            if came_in:
                self._painted = None  # all is painted when the dialog is gone
        self.tell(said)

    def _not_saved(self, why: str) -> None:
        kept = self.desk.journal.trouble or "What you typed is kept for the next start."
        self.notice.show(f"NOT SAVED: {why} {kept}")

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
        self._begin_save(lambda: self.desk.save_as(path), then)


def _changed(file: ProjectFile) -> str:
    """How a file stands to what was last read or written: "same", "changed" or "gone"."""
    if not file.changed_on_disk():
        return "same"
    return "changed" if file.path.exists() else "gone"


def _brief(value: object) -> str:
    text = "nothing" if value is None else shown(str(value))
    return text if len(text) <= 40 else text[:39] + "…"


def _suggested(name: str) -> str:
    letters = "".join(c if c.isalnum() else "-" for c in name.casefold()).strip("-")
    return f"{letters or 'quilt'}.toml"


def _same(one: Path, other: Path) -> bool:
    return os.path.realpath(one) == os.path.realpath(other)
