"""A price said on a line of To buy: where it goes, and that the line then has it."""

from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.model import project_from_plain
from boltend.core.report.list_words import BuyRow, BuySheet, buy_sheet
from boltend.core.report.price_places import with_prices, wrong_price

SIZE = {"width": "60 in", "height": "72 in"}
BINDING = {"name": "Binding", "calculator": "binding", "given": SIZE}
BATTING = {"name": "Wadding", "calculator": "batting", "given": SIZE}
BORDERS = {
    "name": "Borders",
    "calculator": "borders",
    "given": {
        "top_width": "50 in",
        "top_height": "60 in",
        "borders": [{"width": "2 in"}, {"width": "3 in", "fabric": "Slate"}],
    },
}


@pytest.fixture(scope="module")
def host() -> Iterator[Host]:
    with Host.load() as made:
        yield made


def opened(host: Host, *tabs: Mapping[str, Any], fabrics: Any = (), **project: Any) -> Workbook:
    plain = {"boltend": 1, "project": project, "fabric": list(fabrics), "tab": list(tabs)}
    return Workbook(host, project_from_plain({key: value for key, value in plain.items() if value != []}))


def bought(book: Workbook) -> BuySheet:
    return buy_sheet(Pool().lists(book), book.basis.how)


def row_of(book: Workbook, what: str) -> BuyRow:
    return next(row for row in bought(book).rows if row.what.startswith(what))


def priced(host: Host, book: Workbook, what: str, text: str) -> Workbook:
    place = row_of(book, what).priced
    assert place is not None
    assert wrong_price(place, text, book) == ""
    return Workbook(host, with_prices((place,), text, book))


def test_a_part_without_a_fabric_gets_one_of_its_name(host: Host) -> None:
    book = opened(host, BINDING)
    after = priced(host, book, "Binding", "12.50")
    assert [row.data for row in after.project.fabrics] == [{"name": "Binding", "price": "12.50"}]
    assert after.project.tab("Binding").given["fabric"] == "Binding"
    # 7 strips of 2 1/2 in and 1/2 in to square: 18 in, 1/2 yd at $12.50.
    (row,) = bought(after).rows
    assert (row.what, row.amount, row.cost) == ("Binding", "1/2 yd", "$6.25")


def test_the_name_is_free_and_what_was_chosen_stays(host: Host) -> None:
    book = opened(host, BORDERS, fabrics=[{"name": "Slate", "price": "9"}, {"name": "borders"}])
    after = priced(host, book, "Borders", "10 per yard")
    assert [row.name for row in after.project.fabrics] == ["Slate", "borders", "Borders 2"]
    first, second = after.project.tab("Borders").given["borders"]
    assert (first["fabric"], second["fabric"]) == ("Borders 2", "Slate")
    assert not any("not named" in row.what for row in bought(after).rows)


def test_a_fabric_of_the_project_keeps_its_name(host: Host) -> None:
    named = {**BINDING, "given": {**SIZE, "fabric": "Slate"}}
    after = priced(host, opened(host, named, fabrics=[{"name": "Slate", "have": "1 in"}]), "Slate", "8")
    assert [row.data for row in after.project.fabrics] == [{"name": "Slate", "have": "1 in", "price": "8"}]


def test_goods_get_it_in_the_tabs_that_take_it(host: Host) -> None:
    book = opened(host, BATTING, {**BATTING, "name": "More"})
    after = priced(host, book, "batting", "31.50")
    assert [tab.given["price"] for tab in after.project.tabs] == ["31.50", "31.50"]
    assert row_of(after, "batting").cost == "$63.00"


@pytest.mark.parametrize("text", ["", "much", "12.50 each", "-3", "1,5"])
def test_what_is_no_price_of_a_bolt_is_refused(host: Host, text: str) -> None:
    book = opened(host, BINDING)
    place = row_of(book, "Binding").priced
    assert place is not None
    assert wrong_price(place, text, book)


def test_by_the_metre_and_by_the_piece(host: Host) -> None:
    metric = opened(host, {**BINDING, "given": {"width": "150 cm", "height": "180 cm"}}, units="centimetres")
    place = row_of(metric, "Binding").priced
    assert place is not None
    assert place.per == "a metre"
    pack = opened(
        host,
        {**BINDING, "given": {**SIZE, "fabric": "Roll"}},
        fabrics=[{"name": "Roll", "form": "2 1/2 in strip roll"}],
    )
    place = row_of(pack, "Roll").priced
    assert place is not None
    assert place.per == "each"
    assert wrong_price(place, "12 per yard", pack)
    assert row_of(priced(host, pack, "Roll", "40"), "Roll").cost == "$40.00"


def test_only_what_could_be_bought_and_is_not_is_said_to_be_measured(host: Host) -> None:
    slate = [{"name": "Slate", "price": "9"}]
    edge = {**BINDING, "given": {**SIZE, "fabric": "Slate"}}
    thread = {"name": "Sewing", "calculator": "piecing_thread", "given": {"seam_length": "100 yd"}}
    assert not any("measured" in note for note in bought(opened(host, edge, fabrics=slate)).notes)
    notes = bought(opened(host, edge, thread, fabrics=slate)).notes
    assert any(note.startswith("Only measured, so not in the total: “Sewing”.") for note in notes)


def test_one_price_for_all_fabrics_that_have_none(host: Host) -> None:
    book = opened(host, BINDING, BORDERS, BATTING, fabrics=[{"name": "Slate", "price": "9"}])
    sheet = bought(book)
    first = row_of(book, "Binding")
    others = sheet.without_price(first)
    # Slate has a price, and a package of batting is not priced a yard.
    assert [row.what for row in others] == ["Borders (fabric not named)"]
    places = [row.priced for row in (first, *others) if row.priced is not None]
    after = Workbook(host, with_prices(places, "12.50", book))
    assert [row.data for row in after.project.fabrics] == [
        {"name": "Slate", "price": "9"},
        {"name": "Binding", "price": "12.50"},
        {"name": "Borders", "price": "12.50"},
    ]
    assert not bought(after).without_price(row_of(after, "Binding"))


def test_what_need_not_be_bought_is_not_priced_along(host: Host) -> None:
    book = opened(host, BINDING, BORDERS, fabrics=[{"name": "Slate", "have": "9 yd"}])
    assert [row.what for row in bought(book).without_price(row_of(book, "Binding"))] == [
        "Borders (fabric not named)"
    ]
