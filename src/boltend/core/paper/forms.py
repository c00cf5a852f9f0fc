"""Every form in which a worked project leaves the house: as a text, or on paper; one door to write a file."""

import re
import unicodedata
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Literal

from boltend.core.flow import Workbook
from boltend.core.paper.choices import FORMS, ONE_FILE, SET, SHEETS, SIZES, NoPaper, Paper, form_of
from boltend.core.paper.customer_sheet import customer_sheet
from boltend.core.paper.html import html_file
from boltend.core.paper.model import Picture, Sheet
from boltend.core.paper.plan_sheet import colours_of, cut_picture, plan_sheet, tab_picture
from boltend.core.paper.svg_alone import svg_file
from boltend.core.pool import Lists
from boltend.core.project.model import Tab
from boltend.core.project.whole_file import put_whole
from boltend.core.report.forms import printed
from boltend.core.report.ladder_forms import Done
from boltend.core.report.list_words import cut_sheets
from boltend.core.report.pictures import Look
from boltend.core.report.tab_sheet import tab_sheet

__all__ = [
    "FORMS",
    "ONE_FILE",
    "SET",
    "SHEETS",
    "SIZES",
    "NoPaper",
    "Paper",
    "form_of",
    "on_paper",
    "pictures",
    "setting",
    "size_for",
    "tab_svg",
    "write",
]

_LETTER_LANDS = ("USD", "CAD")  # where paper is sold as letter; common practice, no source
_LONGEST_NAME = 40
_LOOK = Look()
_PLAN = Paper()


def write(
    path: Path,
    book: Workbook,
    tabs: Sequence[Tab],
    lists: Lists,
    form: str | None = None,
    paper: Paper = _PLAN,
    ladders: Sequence[Done] = (),
) -> tuple[Path, ...]:
    """Write these tabs and their lists to a path, in the form that its ending names unless one is given.

    For `svg` the path is a folder, made where there is none, unless it ends in .svg: then there must be one
    picture. Returns the files written. Raises OSError, and NoPaper for what cannot be had in this form.
    """
    form = form or form_of(path) or "text"
    if form == "svg":
        return _write_pictures(path, pictures(book, tabs, lists))
    made = on_paper(book, tabs, lists, form, paper, ladders)
    put_whole(path, made)
    return (path,)


def on_paper(
    book: Workbook,
    tabs: Sequence[Tab],
    lists: Lists,
    form: str,
    paper: Paper = _PLAN,
    ladders: Sequence[Done] = (),
) -> bytes:
    """The same as the bytes of one file, in any form but `svg`."""
    return setting(book, tabs, lists, form, paper, ladders)()


def setting(
    book: Workbook,
    tabs: Sequence[Tab],
    lists: Lists,
    form: str,
    paper: Paper = _PLAN,
    ladders: Sequence[Done] = (),
) -> Callable[[], bytes]:
    """Read all that goes on paper now, and set it when called: that may take half a second, and any thread.

    `ladders` are those that the project keeps, worked out; the customer's sheet has none.

    Raises NoPaper for what cannot be had in this form.
    """
    if form not in ("html", "pdf"):
        if paper.sheet == "customer":
            raise NoPaper("The customer's sheet comes as html or pdf.")
        text = printed(book, tuple(tabs), lists, form, _LOOK if paper.pictures else None, ladders)
        return lambda: text.encode("utf-8")
    sheet, size = _sheet(book, tabs, lists, paper, ladders), paper.size or size_for(book)
    return partial(_html if form == "html" else _pdf, sheet, size)


def _html(sheet: Sheet, size: str) -> bytes:
    return html_file(sheet, size).encode("utf-8")


def _pdf(sheet: Sheet, size: str) -> bytes:
    from boltend.core.paper.pdf import pdf_bytes  # reportlab takes 60 ms and 8 MB to import: only when asked

    return pdf_bytes(sheet, size)


def size_for(book: Workbook) -> Literal["a4", "letter"]:
    """The paper of the land whose money the project counts in."""
    return "letter" if book.basis.settings.currency in _LETTER_LANDS else "a4"


def _sheet(book: Workbook, tabs: Sequence[Tab], lists: Lists, paper: Paper, ladders: Sequence[Done]) -> Sheet:
    if paper.sheet == "customer":
        return customer_sheet(book, tabs, lists, pictures=paper.pictures, called=paper.called)
    working, called = paper.working, paper.called
    return plan_sheet(
        book, tabs, lists, pictures=paper.pictures, working=working, called=called, ladders=ladders
    )


def pictures(book: Workbook, tabs: Sequence[Tab], lists: Lists) -> dict[str, str]:
    """Every picture of these tabs as SVG by its file name: the tabs', then how each cloth is cut."""
    colours = colours_of(lists)
    places = {tab.key: n for n, tab in enumerate(book.project.tabs, 1)}
    found: dict[str, str] = {}
    for tab in tabs:
        sheet = tab_sheet(book, tab)
        if sheet.shapes:
            _keep(found, f"{places[tab.key]:02d}-{_slug(tab.name)}", tab_picture(sheet, colours))
    for number, cut in enumerate(cut_sheets(lists, book.basis.settings.notation), 1):
        for n, picture in enumerate(cut.pictures, 1):
            several = f"-{n}" if len(cut.pictures) > 1 else ""
            _keep(found, f"cut-{number:02d}-{_slug(cut.title)}{several}", cut_picture(picture, colours))
    return found


def tab_svg(book: Workbook, tab: Tab, lists: Lists) -> str:
    """The picture of one tab as SVG."""
    sheet = tab_sheet(book, tab)
    made = svg_file(tab_picture(sheet, colours_of(lists))) if sheet.shapes else None
    if made is None:
        raise NoPaper(f"“{tab.name}” has no picture.")
    return made


def _keep(found: dict[str, str], name: str, picture: Picture) -> None:
    made = svg_file(picture)
    if made is not None:
        found[f"{name}.svg"] = made


def _slug(name: str) -> str:
    """A name as part of a file's, in letters that every system takes."""
    letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").casefold()
    return re.sub(r"[^a-z0-9]+", "-", letters)[:_LONGEST_NAME].strip("-") or "picture"


def _write_pictures(path: Path, made: dict[str, str]) -> tuple[Path, ...]:
    if not made:
        raise NoPaper("There is no picture to write.")
    if path.suffix.lower() == FORMS["svg"] and not path.is_dir():
        if len(made) > 1:
            raise NoPaper(f"There are {len(made)} pictures: name a folder for them, or take one tab.")
        put_whole(path, next(iter(made.values())).encode("utf-8"))
        return (path,)
    path.mkdir(parents=True, exist_ok=True)
    for name, text in made.items():
        put_whole(path / name, text.encode("utf-8"))
    return tuple(path / name for name in made)
