"""A worked project in one of the printed forms."""

from collections.abc import Sequence
from pathlib import PurePath

from boltend.core.flow import Workbook
from boltend.core.pool import Lists
from boltend.core.project.model import Tab
from boltend.core.report.json import dump, project_json
from boltend.core.report.ladder_forms import Done, ladder_markdown, ladders_not_done
from boltend.core.report.ladder_text import ladder_json, ladder_text
from boltend.core.report.list_json import lists_json
from boltend.core.report.list_markdown import lists_markdown
from boltend.core.report.list_text import lists_text
from boltend.core.report.markdown import escape, print_markdown
from boltend.core.report.pictures import Look
from boltend.core.report.text import WIDTH, print_text, wrapped

_LOOK = Look()

FORMS = {"text": ".txt", "markdown": ".md", "json": ".json"}
"""The forms by name, each with the ending of its files."""


def printed(
    book: Workbook,
    tabs: tuple[Tab, ...],
    lists: Lists,
    form: str,
    look: Look | None = _LOOK,
    ladders: Sequence[Done] = (),
) -> str:
    """The tabs, and what they need cut and bought, in one of `FORMS`; pictures as `look` says, if at all.

    `ladders` are those that the project keeps, as far as they are worked out; of the others it is said.
    """
    how = book.basis.settings.notation
    if form == "json":
        kept = {"ladders": [ladder_json(*each) for each in ladders]} if ladders else {}
        return dump({**project_json(book, tabs), **lists_json(lists, how), **kept})
    if form == "markdown":
        said = _ladders(book, tabs, ladders, "markdown")
        return print_markdown(book, tabs, lists_markdown(lists, how, look), look, said)
    said = _ladders(book, tabs, ladders, "text")
    return print_text(book, tabs, lists=lists_text(lists, how, look), look=look, ladders=said)


def _ladders(book: Workbook, tabs: Sequence[Tab], ladders: Sequence[Done], form: str) -> str:
    """The ladders that a project keeps; of some of its tabs alone none is printed."""
    if len(tabs) != len(book.project.tabs):
        return ""
    texts = [
        ladder_markdown(*each) if form == "markdown" else ladder_text(*each, width=WIDTH) for each in ladders
    ]
    said = ladders_not_done(book, tabs, ladders)
    if said:
        texts.append("\n".join(wrapped(said, "")) if form == "text" else escape(said))
    return "\n".join(texts)


def form_of(path: PurePath) -> str | None:
    """The form that a file's ending names."""
    return next((form for form, ending in FORMS.items() if path.suffix.lower() == ending), None)
