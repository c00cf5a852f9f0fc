"""Blocks that are only counted: To buy says that their fabric is not in it."""

import tomllib

import pytest

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.model import project_from_plain
from boltend.core.report.list_words import BLOCKS_UNCUT, buy_sheet
from boltend.core.values import Notation

ROWS = """
[[tab]]
name = "Rows"
calculator = "straight_set"
[tab.given]
block_width = "9 in"
block_height = "9 in"
across = 3
down = 4
[[tab]]
name = "Edge"
calculator = "borders"
[tab.given]
top_width = { from = "Rows", take = "width" }
top_height = { from = "Rows", take = "height" }
borders = [{ width = "4 in" }]
"""


def units(count: str, flag: str = "") -> str:
    """A tab that cuts units, so many."""
    tab = '[[tab]]\nname = "Units"\ncalculator = "half_square_triangles"'
    return f'{tab}\n{flag}\n[tab.given]\nfinished_size = "9 in"\ncount = {count}\n'


COUNTED = '{ from = "Rows", take = "blocks" }'


@pytest.mark.parametrize(
    ("more", "uncut"),
    [
        ("", True),  # a border takes the size of the top, and cuts nothing for the blocks
        (units(COUNTED), False),
        (units("12"), False),  # it has nothing to do with the top
        (units(COUNTED, "aside = true"), True),
    ],
)
def test_blocks_that_no_tab_cuts_are_told(more: str, uncut: bool) -> None:
    with Host.load() as host:
        book = Workbook(host, project_from_plain({"boltend": 1, **tomllib.loads(ROWS + more)}))
        assert all(result.answer is not None for result in book.results.values())
        lists = Pool().lists(book)
    assert lists.blocks_uncut == uncut
    assert (BLOCKS_UNCUT in buy_sheet(lists, Notation()).notes) == uncut
