"""Taking it along: what is in sight to the clipboard, the whole plan into a file (a browser downloads it)."""

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
        self.app.copy_to_clipboard(text)
        where = "browser" if self.app.is_web else "terminal"
        self.tell(f"Sent to the {where}'s clipboard; whether it took it, a {where} does not say.")

    def action_export(self) -> None:
        """Ask for a file, and write the whole plan there."""
        if self.desk.book is None:
            return
        if self.app.is_web:
            self._ask_download()
            return
        path = "plan.txt" if self.desk.untitled else str(Path(self.desk.file.path).with_suffix(".txt"))
        body = "All tabs, To cut and To buy; .txt, .md (Markdown) or .json, as the file's name ends."
        ask = AskText("Write the plan to which file?", path, _wrong_export, body=body)
        self.app.push_screen(ask, self._take)

    def _ask_download(self) -> None:
        from boltend.core.report.forms import FORMS

        name = "plan" if self.desk.untitled else self.desk.file.path.stem
        offers: list[Offer[str | None]] = [
            Offer(f"{name}{end}", f"{name}{end}", form) for form, end in FORMS.items()
        ]
        body = "All tabs, To cut and To buy. It goes where your browser puts downloads."
        choose: Choose[str | None] = Choose("Download the plan as which file?", offers, body=body)
        self.app.push_screen(choose, lambda chosen: self._export(Path(chosen)) if chosen else None)

    def _take(self, text: str | None) -> None:
        if text is None:
            return
        path = Path(text.strip()).expanduser()
        if not path.exists():
            self._export(path)
            return
        offers = [Offer(False, "Leave it"), Offer(True, f"Replace {path.name}")]
        choose = Choose(f"There is a file {path} already.", offers)
        self.app.push_screen(choose, lambda yes: self._export(path) if yes else None)

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
        try:
            text = printed(book, book.project.tabs, event.lists, form_of(event.path) or "text")
            if self.app.is_web:
                self.app.deliver_text(StringIO(text), save_filename=event.path.name, encoding="utf-8")
                self.tell(f"Handed to the browser as {shown(event.path.name)}")
                return
            event.path.write_text(text, encoding="utf-8")
        except OSError as error:
            self.tell(f"Not written: {event.path}: {error.strerror}. Choose another place.", bad=True)
            return
        self.tell(f"Written to {shown(str(event.path))}")


def _lists(pool: "Pool", snapshot: "Snapshot", path: Path, view: CopyView) -> None:
    try:
        view.post_message(ListsReady(path, snapshot, pool.lists_of(snapshot)))
    except Exception as error:  # a fault of ours is told: it must not take the form along
        view.post_message(ListsReady(path, snapshot, None, f"{type(error).__name__}: {error}"))
    finally:
        pool.close()


def _wrong_export(text: str) -> str:
    from boltend.core.report.forms import FORMS, form_of

    path = Path(text.strip()).expanduser()
    if not text.strip() or "\0" in text:
        return "Write a file name, as plan.txt."
    if path.is_dir():
        return f"{path} is a folder. Write a file name behind it."
    if not path.parent.is_dir():
        return f"There is no folder {path.parent}."
    if form_of(path) is None:
        return f"Let the name end in {', '.join(FORMS.values())}."
    return ""
