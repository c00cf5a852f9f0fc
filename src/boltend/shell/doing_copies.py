"""Taking it along: what is in sight to the clipboard, the whole plan into a file (a browser downloads it)."""

from collections.abc import Callable, Mapping
from functools import partial
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

from textual.message import Message

from boltend.shell.dialogs import AskText, Choose, Offer
from boltend.shell.doing_sheets import SheetView
from boltend.shell.texts import shown

if TYPE_CHECKING:  # imported when first used: no part of the first paint
    from boltend.core.pool import Lists, Pool, Snapshot


class ListsReady(Message):
    """The lists for an export, or why there are none. Posted from a thread, where posting is safe."""

    def __init__(self, path: Path, snapshot: "Snapshot", lists: "Lists | None", fault: str = "") -> None:
        self.path, self.snapshot, self.lists, self.fault = path, snapshot, lists, fault
        super().__init__()


class CopyView(SheetView):
    """A view from which things are copied and exported."""

    def action_copy(self) -> None:
        """Send what is in sight to the terminal's clipboard, as plain text."""
        from boltend.core.report.text import print_text

        tab, book = self.tab, self.desk.book
        if self.list_in_sight:
            lines = ("".join(part for part, _ in line.parts) for line in self.pane.lines.lines)
            text = "\n".join(line.rstrip() for line in lines)
        elif tab is not None and book is not None:
            text = print_text(book, (tab,))
        else:
            return
        self.send(text)

    def send(self, text: str) -> None:
        """Send a text to the terminal's clipboard."""
        self.app.copy_to_clipboard(text)
        where = "browser" if self.app.is_web else "terminal"
        self.tell(f"Sent to the {where}'s clipboard; whether it took it, a {where} does not say.")

    def action_export(self) -> None:
        """Ask for a file, and write the whole plan there."""
        if self.desk.book is None:
            return
        from boltend.core.report.forms import FORMS

        path = "plan.txt" if self.desk.untitled else str(Path(self.desk.file.path).with_suffix(".txt"))
        body = "All tabs, To cut and To buy; .txt, .md (Markdown) or .json, as the file's name ends."
        self.ask_file("the plan", path, FORMS, body, self._export)

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

        ask = AskText(f"Write {what} to which file?", path, partial(wrong_file, forms=forms), body=body)
        self.app.push_screen(ask, take)

    def hand_over(self, path: Path, text: str) -> None:
        """Write a file, or hand it to the browser."""
        try:
            if self.app.is_web:
                self.app.deliver_text(StringIO(text), save_filename=path.name, encoding="utf-8")
                self.tell(f"Handed to the browser as {shown(path.name)}")
                return
            path.write_text(text, encoding="utf-8", newline="")
        except OSError as error:
            self.tell(f"Not written: {path}: {error.strerror}. Choose another place.", bad=True)
            return
        self.tell(f"Written to {shown(str(path))}")

    def _export(self, path: Path) -> None:
        from boltend.core.pool import snapshot_of
        from boltend.shell.planning import new_pool

        assert self.desk.book is not None  # asked in `action_export`
        self.tell("Working out the lists …")
        work = partial(_lists, new_pool(), snapshot_of(self.desk.book), path, self)
        self.run_worker(work, thread=True, group="export")

    def on_lists_ready(self, event: ListsReady) -> None:
        """Write the file, unless the project has changed since."""
        from boltend.core.report.forms import form_of, printed

        book = self.desk.book
        if event.lists is None or book is None:
            self.tell(f"Not written: {event.fault}", bad=True)
            return
        if book.project is not event.snapshot.project:
            self._export(event.path)  # the plan on paper is the one of now
            return
        form = form_of(event.path) or "text"
        self.hand_over(event.path, printed(book, book.project.tabs, event.lists, form))


def _lists(pool: "Pool", snapshot: "Snapshot", path: Path, view: CopyView) -> None:
    try:
        view.post_message(ListsReady(path, snapshot, pool.lists_of(snapshot)))
    except Exception as error:  # a fault of ours is told: it must not take the form along
        view.post_message(ListsReady(path, snapshot, None, f"{type(error).__name__}: {error}"))
    finally:
        pool.close()


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
