"""What To buy says would give a price, where there is none."""

from typing import Any

import pytest

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.model import project_from_plain
from boltend.core.report.list_words import BuyRow, buy_sheet

SETTING = {
    "name": "Rows",
    "calculator": "straight_set",
    "given": {"block_width": "6 in", "block_height": "6 in", "across": 3, "down": 3, "sash": "1 in",
              "sash_fabric": "Slate", "cornerstones": True},
}  # fmt: skip
BATTING = {"name": "Wadding", "calculator": "batting", "given": {"width": "60 in", "height": "80 in"}}
SEWING = {
    "name": "Sewing",
    "calculator": "piecing_thread",
    "given": {"seam_length": "100 yd", "spool_length": "500 yd"},
}


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as made:
        yield made


def bought(host: Any, *tabs: dict[str, Any]) -> dict[str, BuyRow]:
    fabrics = [{"name": "Slate", "price": "12.00 per yard"}]
    plain = {"boltend": 1, "project": {}, "fabric": fabrics, "tab": list(tabs)}
    book = Workbook(host, project_from_plain(plain))
    sheet = buy_sheet(Pool().lists(book), book.basis.settings.notation)
    return {row.what: row for row in sheet.rows}


def test_the_tab_that_takes_the_price_is_named(host: Any) -> None:
    rows = bought(host, BATTING, SEWING, {**SEWING, "name": "More"})
    assert rows["batting, twin"].notes[-1] == "no price yet: the tab “Wadding” takes its price"
    two = rows["thread, 500 yd a spool"].notes[-1]
    assert two == "no price yet: the tabs “Sewing” and “More” take its price"


def test_what_has_its_price_needs_no_words(host: Any) -> None:
    said = {**BATTING, "given": {**BATTING["given"], "price": "31.50"}}
    row = bought(host, said)["batting, twin"]
    assert row.cost == "$31.50"
    assert not any("price" in note for note in row.notes)


def test_where_the_fabric_of_pieces_is_chosen(host: Any) -> None:
    rows = bought(host, SETTING)
    # The sash has its fabric; the cornerstones' given is the one that is empty.
    words = "no price, for no fabric is chosen: choose it in the tab, as its “Cornerstone fabric”"
    assert rows["Rows (fabric not named)"].notes[-1] == words
    assert not any("choose" in note for note in rows["Slate"].notes)
    both = {key: value for key, value in SETTING["given"].items() if key != "sash_fabric"}
    rows = bought(host, {**SETTING, "given": both})
    assert rows["Rows (fabric not named)"].notes[-1].endswith("its “Sash fabric” or “Cornerstone fabric”")
