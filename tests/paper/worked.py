"""Projects worked out for the tests of paper: the examples, and one whose names mean harm."""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from boltend.commands.opened import open_project
from boltend.core.contract import Shape
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.paper.model import Items, Sheet, Table
from boltend.core.paper.plan_sheet import plan_sheet
from boltend.core.pool import Lists, Pool

EXAMPLES = Path(__file__).parents[2] / "shared/boltend_shared/examples"
NAMES = ("harbour-steps", "lantern-row", "tidewater", "short-measure", "orchard-cloth", "mistakes")

LONG = "long " * 99 + "end"
HEBREW, ARABIC, EMOJI, CJK = (
    "\u05e9\u05dc\u05d5\u05dd",
    "\u0633\u0644\u0627\u0645",
    "\U0001f9f5",
    "\u6885\u82b1",
)
MARKUP = "</title><script>alert(1)</script>\"&amp;'<b>"
FRACTIONS = "\u00bd \u00bc \u00be \u215b \u215c \u215d \u215e \u2153 \u2154"

HOSTILE = f"""\
boltend = 1

[project]
name = {json.dumps(MARKUP)}
notes = "{FRACTIONS}\\n{LONG}\\n{HEBREW} 12 (x)\\nbell \\u0007 and \\u202e turned"

[[fabric]]
name = "{HEBREW} 7"
form = "bolt"
price = "12.50 USD per yard"
colour = "#102030"

[[fabric]]
name = "{EMOJI} {CJK} {ARABIC} <i>"
form = "bolt"

[[tab]]
name = "<img src=x onerror=alert(1)> {LONG}"
calculator = "straight_set"
note = "</p><a href='http://example.org'>x</a>"
[tab.given]
block_width = "12 in"
block_height = "12 in"
across = 4
down = 4
sash = "2 in"
sash_fabric = "{HEBREW} 7"

[[tab]]
name = "{HEBREW}"
calculator = "binding"
[tab.given]
width = "60 in"
height = "72 1/2 in"
fabric = "{EMOJI} {CJK} {ARABIC} <i>"

[[tab]]
name = "missing & absent"
calculator = "no <such> calculator"
"""


class Worked(NamedTuple):
    """A project and its lists."""

    book: Workbook
    lists: Lists

    def plan(self, *, working: bool = False) -> Sheet:
        """The plan of all its tabs."""
        return plan_sheet(self.book, self.book.project.tabs, self.lists, working=working)


@cache
def worked(name: str) -> Worked:
    """An example by its name."""
    return worked_at(EXAMPLES / f"{name}.toml")


def worked_at(file: Path) -> Worked:
    """A project file."""
    with Host.load() as host:
        opened = open_project(str(file), host)
    return Worked(opened.book, Pool().lists(opened.book, opened.book.project.tabs))


def list_lines(sheet: Sheet) -> Iterator[str]:
    """Every text of To buy and To cut on a sheet, cell by cell and line by line."""
    for block in sheet.blocks:
        if isinstance(block, Table):
            for row in (*block.rows, *([block.total] if block.total else [])):
                yield from filter(None, (*row.cells, *row.notes))
        elif isinstance(block, Items):
            yield from block.lines


def pictures_of(book: Workbook) -> Iterator[tuple[str, tuple[Shape, ...]]]:
    """Every tab's name and picture."""
    for tab in book.project.tabs:
        answer = book.results[tab.key].answer
        if answer is not None and answer.picture:
            yield tab.name, tuple(answer.picture)
