"""What may be chosen about paper, by the names that a person writes: light, for every call reads it."""

from dataclasses import dataclass
from pathlib import PurePath
from typing import Literal

from boltend.core.report.forms import FORMS as TEXT_FORMS

FORMS = {**TEXT_FORMS, "html": ".html", "svg": ".svg", "pdf": ".pdf"}
"""The forms by name, each with the ending of its files."""

ONE_FILE = {form: ending for form, ending in FORMS.items() if form != "svg"}
"""Those that come as one file."""

SET = {form: FORMS[form] for form in ("pdf", "html")}
"""Those that are set for paper."""

SHEETS, SIZES = ("plan", "customer"), ("a4", "letter")


class NoPaper(Exception):
    """This cannot be put on paper so: `why` and the way out are in its text."""


@dataclass(frozen=True)
class Paper:
    """What is put on paper, and on which.

    `sheet` is the plan for the cutting table or the customer's page; `size` "" takes what the project's money
    suggests. The plan has the `working` only where it is asked for, the customer's page never. `called` is
    the title where the project has no name: that of its file.
    """

    sheet: Literal["plan", "customer"] = "plan"
    size: Literal["a4", "letter", ""] = ""
    pictures: bool = True
    working: bool = False
    called: str = ""


def form_of(path: PurePath) -> str | None:
    """The form that a file's ending names."""
    return next((form for form, ending in FORMS.items() if path.suffix.lower() == ending), None)
