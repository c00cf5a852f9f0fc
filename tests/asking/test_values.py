"""The values of a ladder as typed; what a ladder could take, and what a found hangs on."""

from typing import Any

import pytest

from boltend.core.asking import AskError, Spot
from boltend.core.asking.ladder import Take, present_rung, read_ladder
from boltend.core.asking.offers import feeders, take_offers
from boltend.core.asking.spots import spot_of
from boltend.core.asking.values import chosen, options_of, read_values, suggested
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.reading import read_bytes
from boltend.core.report.quilt_size import size_founds
from boltend_shared.examples import path


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


def opened(host: Host, name: str) -> Workbook:
    return Workbook(host, read_bytes(path(name).read_bytes(), f"{name}.toml").project)


def at(book: Workbook, tab: str, given: str) -> Spot:
    return spot_of(book, book.project.tab(tab), given)


@pytest.mark.parametrize(
    ("tab", "given", "text", "raws"),
    [
        ("Binding", "strip_width", "2; 2 1/4 in ;3", ["2 in", "2 1/4 in", "3 in"]),
        ("Binding", "strip_width", "from 2 in to 3 in by 1/2 in", ["2 in", "2 1/2 in", "3 in"]),
        ("Binding", "strip_width", "2 to 2 1/2 by 1/4; 5", ["2 in", "2 1/4 in", "2 1/2 in", "5 in"]),
        ("Binding", "strip_width", "3 in to 2 in by 3/8 in", ["3 in", "2 5/8 in", "2 1/4 in"]),
        ("Binding", "strip_width", "2 to 2 1/4", ["2 in", "2 1/8 in", "2 1/4 in"]),
        ("Binding", "strip_width", "2; 2 in; 2", ["2 in"]),
        ("How many", "pick", "from 1 to 4", [1, 2, 3, 4]),
        ("Window bed", "take_up", "3; 5 %", ["3 %", "5 %"]),
        ("Window bed", "bed", "crib; queen; us king", ["US crib", "US queen", "US king"]),
        ("Window bed", "bed", "uk king; JP queen", ["UK king", "JP queen"]),
        ("Binding", "grain", "bias; lengthwise", ["bias", "lengthwise"]),
        ("Binding", "fabric", "deep; Foam", ["Deep", "Foam"]),
        ("Shoreline", "borders.2.corners", "mitred; sides", ["mitred", "sides first"]),
    ],
)  # fmt: skip
def test_values_as_they_are_typed(host: Host, tab: str, given: str, text: str, raws: list[Any]) -> None:
    book = opened(host, "tidewater")
    assert read_values(book, at(book, tab, given), text) == raws


@pytest.mark.parametrize(
    ("tab", "given", "text", "said"),
    [
        ("Binding", "strip_width", " ; ", "a ladder needs values. Write them with ; between."),
        ("Binding", "strip_width", "2; wide", "“wide”: "),
        ("Binding", "strip_width", "from 2 to 3 by 0", "the stride is nothing."),
        ("Binding", "strip_width", "from 2 to 3 by x", "“x”: "),
        ("Binding", "strip_width", "from 1 to 100 by 1/8", "these are 793 values. Take a wider stride"),
        ("Binding", "strip_width", "-2", "“-2”: "),
        ("Window bed", "bed", "hammock", "“hammock” is none of the choices."),
        ("Window bed", "bed", "small", "“small” could be UK small single or UK small double or EU"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_told(host: Host, tab: str, given: str, text: str, said: str) -> None:
    book = opened(host, "tidewater")
    with pytest.raises(AskError) as told:
        read_values(book, at(book, tab, given), text)
    assert said in str(told.value)


def test_too_many_in_all(host: Host) -> None:
    book = opened(host, "tidewater")
    with pytest.raises(AskError, match="more than 200"):
        read_values(book, at(book, "How many", "pick"), "1 to 150; 151 to 300")


def test_a_choice_is_found_by_its_words() -> None:
    options = ["US queen", "US king", "US California king", "AU queen", "queen size throw"]
    assert chosen("king", options, "US twin") == "US king"
    assert chosen("cal king", options) == "US California king"
    assert chosen("queen", options, "AU queen") == "AU queen"
    assert chosen("US QUEEN", options) == "US queen"
    with pytest.raises(AskError, match=r"US queen or AU queen"):
        chosen("queen", options)


@pytest.mark.parametrize(
    ("name", "tab", "given", "text"),
    [
        ("tidewater", "Binding", "strip_width", "from 2 in to 3 in by 1/4 in"),  # now 2 1/2 in
        ("tidewater", "Window bed", "drop", "from 10 in to 18 in by 2 in"),  # now 14 in
        ("tidewater", "How many", "pick", "from 1 to 3 by 1"),  # now 1, and no less
        ("tidewater", "Window bed", "take_up", "from 2 % to 6 % by 1 %"),  # now 4 %
        ("tidewater", "Binding", "grain", "crosswise; lengthwise; bias"),
        ("tidewater", "Shoreline", "borders.1.fabric", "Foam; Tide; Shoal; Deep"),
        ("orchard-cloth", "Plum edge", "strip_width", "from 4 cm to 8 cm by 1 cm"),  # now 6 cm
    ],
)
def test_what_is_suggested_lies_round_the_present_value(
    host: Host, name: str, tab: str, given: str, text: str
) -> None:
    book = opened(host, name)
    spot = at(book, tab, given)
    assert suggested(book, spot) == text
    raws = read_values(book, spot, text)
    assert present_rung(book, read_ladder(book, {"tab": tab, "given": given, "values": raws})) is not None


def test_whatever_has_a_value_is_suggested_something_that_reads(host: Host) -> None:
    """Every given of three whole quilts."""
    count = 0
    for name in ("lantern-row", "tidewater", "short-measure"):
        book = opened(host, name)
        for tab in book.project.tabs:
            prepared = book.prepared(tab.key)
            assert prepared is not None
            for state in prepared.states.values():
                spot = Spot(tab.key, state.spec)
                if state.spec.kind == "rows" or not suggested(book, spot):
                    continue
                assert read_values(book, spot, suggested(book, spot)), (tab.name, state.spec.name)
                count += 1
    assert count > 100


def test_options_are_those_of_the_table_and_of_the_project(host: Host) -> None:
    book = opened(host, "tidewater")
    assert "US twin" in options_of(book, at(book, "Window bed", "bed").spec)
    assert options_of(book, at(book, "Binding", "fabric").spec) == ("Foam", "Tide", "Shoal", "Deep")


def test_a_ladder_takes_what_its_given_reaches(host: Host) -> None:
    book = opened(host, "tidewater")
    offers = take_offers(book, at(book, "Binding", "strip_width"))
    assert offers[0].raw == "to buy"
    assert [offer for offer in offers if isinstance(offer.raw, dict)] == [], "binding feeds no tab"
    first = take_offers(book, at(book, "Window bed", "bed"))
    assert [offer.words for offer in first if offer.usual] == [
        "To buy: the total, and each fabric", "Width of the quilt", "Height of the quilt",
    ]  # fmt: skip
    assert {"from": "Backing", "take": "length_to_buy"} in [offer.raw for offer in first]
    for offer in first:
        assert read_ladder(
            book, {"tab": "Window bed", "given": "bed", "values": ["US twin"], "take": [offer.raw]}
        )


def test_the_size_of_the_quilt_stands_first_and_is_taken(host: Host) -> None:
    book = opened(host, "harbour-steps")
    size = size_founds(book)
    steps = take_offers(book, at(book, "Steps", "across"), size)
    assert [(offer.words, offer.usual) for offer in steps[:4]] == [
        ("To buy: the total, and each fabric", True),
        ("Binding: Width once bound", True),
        ("Binding: Height once bound", True),
        ("Width of the top", False),
    ]
    # The binding's own: its size is the quilt's.
    own = [offer.raw for offer in take_offers(book, at(book, "Binding", "strip_width"), size) if offer.usual]
    assert own == ["to buy", "bound_width", "bound_height"]
    # What does not reach the quilt takes its own tab's as before.
    backing = take_offers(book, at(book, "Backing", "overage"), size)
    assert next(offer.raw for offer in backing if offer.usual) == "to buy"
    assert all(not isinstance(offer.raw, dict) for offer in backing if offer.usual)


def test_what_a_found_hangs_on_nearest_first(host: Host) -> None:
    book = opened(host, "tidewater")
    key = book.project.tab("Shoreline").key
    spec = book.result("Shoreline").spec
    assert spec is not None
    take = Take("Width", key, spec.found("width"))
    found = [spot for spot in feeders(book, take) if not spot.spec.setting]
    spots = [(book.project.tab(spot.tab).name, spot.name) for spot in found]
    tabs = list(dict.fromkeys(tab for tab, _ in spots))
    # Its own, then the tabs that it takes from, in the order of its links, then those behind them.
    assert tabs == ["Shoreline", "Top, measured", "Border widths", "Window bed", "On point", "How many"]
    assert ("Border widths", "step") in spots
    assert ("Window bed", "drop") in spots
    assert ("On point", "across") not in spots, "a link is asked for where it comes from"
    assert not any(tab in ("Binding", "Pools") for tab in tabs), "they hang on it, not it on them"
    everything = feeders(book, Take("To buy"))
    assert {"Binding", "Pools", "Quilting"} <= {book.project.tab(spot.tab).name for spot in everything}


def test_a_cell_of_rows_is_a_spot(host: Host) -> None:
    book = opened(host, "lantern-row")
    spot = at(book, "Borders", "borders.2.width")
    assert (spot.name, spot.label, spot.number(book)) == ("borders.2.width", "Width of “Sky”", 4)
    assert spot.put(book.project, "5 in").tab("Borders").given["borders"][1]["width"] == "5 in"
    assert spot in feeders(book, Take("Width", spot.tab, book.result("Borders").spec.found("width")))
    for wrong, said in {
        "borders": "Take one cell, as borders.1.name.",
        "borders.3.width": "has no row '3'. Rows count from 1 to 2.",
        "borders.x.width": "has no row 'x'.",
        "borders.1.widt": "has no column 'widt'. Did you mean “width”?",
        "join.1.width": "has no rows. Write join.",
    }.items():
        with pytest.raises(AskError) as told:
            at(book, "Borders", wrong)
        assert said in str(told.value)
