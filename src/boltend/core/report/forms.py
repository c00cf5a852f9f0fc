"""A worked project in one of the printed forms."""

from pathlib import PurePath

from boltend.core.flow import Workbook
from boltend.core.pool import Lists
from boltend.core.project.model import Tab
from boltend.core.report.json import dump, project_json
from boltend.core.report.list_json import lists_json
from boltend.core.report.list_markdown import lists_markdown
from boltend.core.report.list_text import lists_text
from boltend.core.report.markdown import print_markdown
from boltend.core.report.pictures import Look
from boltend.core.report.text import print_text

_LOOK = Look()

FORMS = {"text": ".txt", "markdown": ".md", "json": ".json"}
"""The forms by name, each with the ending of its files."""


def printed(book: Workbook, tabs: tuple[Tab, ...], lists: Lists, form: str, look: Look | None = _LOOK) -> str:
    """The tabs, and what they need cut and bought, in one of `FORMS`; pictures as `look` says, if at all."""
    how = book.basis.settings.notation
    if form == "json":
        return dump({**project_json(book, tabs), **lists_json(lists, how)})
    if form == "markdown":
        return print_markdown(book, tabs, lists_markdown(lists, how, look), look)
    return print_text(book, tabs, lists=lists_text(lists, how, look), look=look)


def form_of(path: PurePath) -> str | None:
    """The form that a file's ending names."""
    return next((form for form, ending in FORMS.items() if path.suffix.lower() == ending), None)
