"""All borders together: one column of several rows that gets one value."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.core.asking import AskError, back, read_wish
from boltend.core.asking.ladder import Take
from boltend.core.asking.offers import feeders
from boltend.core.asking.spots import spot_of
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.reading import read_bytes

QUILT = """boltend = 1

[[tab]]
name = "Frame"
calculator = "borders"

[tab.given]
top_width = "60 in"
top_height = "72 in"
borders = [{}]
"""
INNER = '{ name = "Inner", width = "2 in" }'
OUTER = '{ name = "Outer", width = "5 in" }'


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


def opened(host: Host, *borders: str) -> Workbook:
    return Workbook(host, read_bytes(QUILT.format(", ".join(borders)).encode(), "quilt.toml").project)


def asked(book: Workbook, wanted: str, **said: Any) -> Any:
    plain = {"tab": "Frame", "given": "borders.all.width", "take": "width", "wanted": wanted}
    wish = read_wish(book, {**plain, **said})
    return wish, back(book, wish)


def test_all_rows_get_the_value_together(host: Host) -> None:
    # Two borders of b make 60 + 4 b: 80 in at b = 5.
    book = opened(host, INNER, OUTER)
    wish, told = asked(book, "80 in", reach="exactly")
    assert [one.value for one in told.hits] == [5]
    after = Workbook(host, wish.spot.put(book.project, told.hits[0].typed)).result("Frame")
    assert (after.found["width"], after.found["height"]) == (80, 92)
    wish, told = asked(book, "70 1/2 in", reach="exactly")  # 2 5/8 in, between the halves
    assert [one.value for one in told.best] == [Fr(21, 8)]


def test_it_is_named_by_its_rows(host: Host) -> None:
    def spot(*borders: str) -> Any:
        book = opened(host, *borders)
        return book, spot_of(book, book.project.tab("Frame"), "borders.all.width")

    book, two = spot(INNER, OUTER)
    assert (two.name, two.label) == ("borders.all.width", "Width of “Inner” and “Outer” alike")
    assert (two.value(book), two.number(book)) == (None, 5)  # they differ; it is looked for from the last
    book, same = spot(INNER, INNER.replace("Inner", "Second"))
    assert (same.value(book), same.number(book)) == (2, 2)
    assert spot(*[INNER] * 4)[1].label == "Width of all 4 rows alike"


def test_a_row_that_takes_a_link_keeps_it(host: Host) -> None:
    linked = '{ name = "Spacer", width = { from = "Frame", take = "width" } }'
    book = opened(host, INNER, linked, OUTER)
    spot = spot_of(book, book.project.tab("Frame"), "borders.all.width")
    assert spot.alike == (0, 2)
    rows: Any = spot.put(book.project, "3 in").tab("Frame").given["borders"]
    assert [row["width"] for row in rows] == ["3 in", {"from": "Frame", "take": "width"}, "3 in"]


def test_one_row_has_none_to_be_alike(host: Host) -> None:
    with pytest.raises(AskError, match="no two rows"):
        asked(opened(host, INNER), "80 in")


def test_it_is_offered_behind_the_rows_themselves(host: Host) -> None:
    book = opened(host, INNER, OUTER)
    spec = book.result("Frame").spec
    assert spec is not None
    take = Take("Width", book.project.tab("Frame").key, spec.found("width"))
    names = [spot.name for spot in feeders(book, take) if spot.rows]
    rows = ["borders.2.width", "borders.1.width", "borders.all.width"]
    assert [name for name in names if name.endswith(".width")] == rows
    assert "borders.all.spare" not in names  # what a row may leave out is no border's own
