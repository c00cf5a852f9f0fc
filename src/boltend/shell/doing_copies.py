"""Taking it along: what is in sight to the clipboard, the whole plan into a file (a browser downloads it)."""

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future
from dataclasses import dataclass
from functools import cached_property, partial
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from textual.message import Message

from boltend.core.project.whole_file import put_whole
from boltend.shell.actions import key_of
from boltend.shell.dialogs import AskText, Choose, Offer
from boltend.shell.doing_sheets import SheetView
from boltend.shell.lanes import Lane
from boltend.shell.start_paths import short_path
from boltend.shell.tab_bar import LISTS
from boltend.shell.texts import shown

if TYPE_CHECKING:  # imported when first used: no part of the first paint
    from boltend.core.pool import Lists, Pool, Snapshot
    from boltend.core.report.ladder_forms import Done


class ListsReady(Message):
    """The lists for an export, or why there are none. Posted from a thread, where posting is safe."""

    def __init__(
        self, wanted: "Wanted", snapshot: "Snapshot", lists: "Lists | None", fault: str = ""
    ) -> None:
        self.wanted, self.snapshot, self.lists, self.fault = wanted, snapshot, lists, fault
        super().__init__()


class Set(Message):
    """What is to be written, set for paper, or why it is not. Posted from a thread."""

    def __init__(self, path: Path, data: bytes, fault: str = "") -> None:
        self.path, self.data, self.fault = path, data, fault
        super().__init__()


@dataclass(frozen=True)
class Wanted:
    """An export that somebody asked for: which sheet, and where to."""

    path: Path
    sheet: Literal["plan", "customer"] = "plan"


class CopyView(SheetView):
    """A view from which things are copied and exported."""

    def action_copy(self) -> None:
        """Send what is chosen, else all that is in sight, to the terminal's clipboard, as plain text."""
        picked = self.results.picked_found if self.focused is self.results else ""
        if self.list_in_sight:
            lines = ("".join(part for part, _ in line.parts) for line in self.whole_list())
            self.send("\n".join(line.rstrip() for line in lines), LISTS[self.list_in_sight])
        elif picked:
            self._copy_found(picked)
        else:
            self.action_copy_tab()

    def _copy_found(self, name: str) -> None:
        """What was found under a name: a value, or a table as its rows."""
        from boltend.core.report.tab_sheet import tab_sheet

        tab, book = self.tab, self.desk.book
        if tab is None or book is None:
            return
        sheet = tab_sheet(book, tab, given=False)
        for entry in sheet.found:
            if entry.name == name:
                self.send(entry.value, entry.value)
        for grid in sheet.grids:
            if grid.name == name:
                count = len(grid.rows)
                self.send(grid.text, f"{grid.label}, {count} row{'s' if count != 1 else ''}")

    def action_copy_tab(self) -> None:
        """Send all of the tab in sight to the terminal's clipboard, as plain text."""
        from boltend.core.report.text import print_text

        tab, book = self.tab, self.desk.book
        if tab is not None and book is not None:
            self.send(print_text(book, (tab,)), f"all of “{tab.name}”")

    def send(self, text: str, what: str) -> None:
        """Send a text to the terminal's clipboard, and say `what` was sent."""
        self.app.copy_to_clipboard(text)
        where = "browser" if self.app.is_web else "terminal"
        self.tell(f"Sent to the {where}'s clipboard: {what}")

    def ladders_done(self) -> "Sequence[Done]":
        """The ladders that are worked out whole: they go into a plan in plain text."""
        return ()

    def action_export(self) -> None:
        """Ask for a file, and write the whole plan there."""
        if self.desk.book is None:
            return
        from boltend.core.paper.choices import ONE_FILE

        body = (
            f"All tabs, To cut and To buy. The name's end says the form: {', '.join(ONE_FILE.values())}.\n"
            f"A page for the customer instead, without the working: Esc, then {key_of('customer')}."
        )
        self.ask_file("the plan", self._beside("plan", ".pdf"), ONE_FILE, body, self._export)

    def action_customer(self) -> None:
        """Ask for a file, and write a page for a customer there."""
        if self.desk.book is None:
            return
        from boltend.core.paper.choices import SET

        body = (
            "One page: the quilt, its size, what to buy and what it costs. No working. .pdf or .html.\n"
            f"The whole plan instead, with To cut and all tabs: Esc, then {key_of('export')}."
        )
        path = self._beside("customer", ".pdf")
        self.ask_file("the customer's page", path, SET, body, lambda to: self._export(to, "customer"))

    def _beside(self, name: str, ending: str) -> str:
        """A file beside the project's own, or where the shell was started."""
        if self.desk.untitled:
            return f"{name}{ending}"
        own = Path(self.desk.file.path)
        return str(own.with_name(f"{own.stem}-{name}{ending}"))

    def ask_file(
        self, what: str, path: str, forms: Mapping[str, str], body: str, then: Callable[[Path], None]
    ) -> None:
        """Ask for the file that `what` goes to, and go on with it; in a browser it is a download.

        Before a file is replaced it is asked once more.
        """
        if self.app.is_web:
            name = Path(path).stem
            offers: list[Offer[str | None]] = [
                Offer(f"{name}{end}", f"{name}{end}", form) for form, end in forms.items()
            ]
            where = f"{body} It goes where your browser puts downloads."
            download: Choose[str | None] = Choose(f"Download {what} as which file?", offers, body=where)
            self.app.push_screen(download, lambda chosen: then(Path(chosen)) if chosen else None)
            return

        def take(text: str | None) -> None:
            if text is None:
                return
            path = Path(text.strip()).expanduser()
            if not path.exists():
                then(path)
                return
            offers = [Offer(False, "Leave it"), Offer(True, f"Replace {path.name}")]
            choose = Choose(f"There is a file {path} already.", offers)
            self.app.push_screen(choose, lambda yes: then(path) if yes else None)

        ask = AskText(
            f"Write {what} to which file?", path, partial(wrong_file, forms=forms), body=body, whole=False
        )
        self.app.push_screen(ask, take)

    @cached_property
    def _papers(self) -> Lane:
        # Of its own: what is written to may be a pipe that nobody reads, and saves must not wait for that.
        return Lane("paper")

    def hand_over(self, path: Path, data: bytes) -> None:
        """Write a file, or hand it to the browser."""
        try:
            if self.app.is_web:
                self.app.deliver_binary(BytesIO(data), save_filename=path.name)
                self.tell(f"Handed to the browser as {shown(path.name)}")
                return
        except OSError as error:
            self._tell_not_written(path, error)
            return
        writing = self._papers.do(lambda: put_whole(path, data))
        self.once_done(writing, lambda: self._written_out(path, writing))

    def _written_out(self, path: Path, writing: Future[None]) -> None:
        try:
            writing.result()
        except OSError as error:
            self._tell_not_written(path, error)
            return
        self.tell(f"Written to {shown(short_path(path.absolute()))}")

    def _tell_not_written(self, path: Path, error: OSError) -> None:
        self.tell(f"Not written: {path}: {error.strerror}. Choose another place.", bad=True)

    def _export(self, path: Path, sheet: Literal["plan", "customer"] = "plan") -> None:
        from boltend.core.pool import snapshot_of
        from boltend.shell.planning import new_pool

        assert self.desk.book is not None  # asked before
        self.tell("Working out the lists …")
        work = partial(_lists, new_pool(), snapshot_of(self.desk.book), Wanted(path, sheet), self)
        self.run_worker(work, thread=True, group="export", description="lists")

    def on_lists_ready(self, event: ListsReady) -> None:
        """Set the sheet for paper in a thread, unless the project has changed since."""
        from boltend.core.paper.choices import Paper, form_of
        from boltend.core.paper.forms import setting

        book, wanted = self.desk.book, event.wanted
        if event.lists is None or book is None:
            self.tell(f"Not written: {event.fault}", bad=True)
            return
        if book.project is not event.snapshot.project:
            self._export(wanted.path, wanted.sheet)  # what is on paper is what holds now
            return
        called = "" if self.desk.untitled else Path(self.desk.file.path).stem
        paper = Paper(sheet=wanted.sheet, called=called)
        made = setting(book, book.project.tabs, event.lists, form_of(wanted.path) or "text", paper,
                       self.ladders_done())  # fmt: skip
        self.run_worker(
            partial(_set, made, wanted.path, self), thread=True, group="export", description="paper"
        )

    def on_set(self, event: Set) -> None:
        """Write the file."""
        if event.fault:
            self.tell(f"Not written: {event.fault}", bad=True)
        else:
            self.hand_over(event.path, event.data)


def _lists(pool: "Pool", snapshot: "Snapshot", wanted: Wanted, view: CopyView) -> None:
    try:
        view.post_message(ListsReady(wanted, snapshot, pool.lists_of(snapshot)))
    except Exception as error:  # a fault of ours is told: it must not take the form along
        view.post_message(ListsReady(wanted, snapshot, None, f"{type(error).__name__}: {error}"))
    finally:
        pool.close()


def _set(made: Callable[[], bytes], path: Path, view: CopyView) -> None:
    try:
        view.post_message(Set(path, made()))
    except Exception as error:  # as above
        view.post_message(Set(path, b"", f"{type(error).__name__}: {error}"))


def wrong_file(text: str, forms: Mapping[str, str]) -> str:
    """What is wrong with the name of a file that is to be written in one of some forms, or nothing."""
    path = Path(text.strip()).expanduser()
    if not text.strip() or "\0" in text:
        return f"Write a file name, as plan{next(iter(forms.values()))}."
    if path.is_dir():
        return f"{path} is a folder. Write a file name behind it."
    if not path.parent.is_dir():
        return f"There is no folder {path.parent}."
    if path.suffix.lower() not in forms.values():
        return f"Let the name end in {', '.join(forms.values())}."
    return ""
