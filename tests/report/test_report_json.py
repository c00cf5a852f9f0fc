"""JSON by the forms of the vocabulary, which never change from one run to another."""

import json
from fractions import Fraction
from typing import Any, Literal

from boltend.core.contract import Answer
from boltend.core.flow import Workbook
from boltend.core.flow.results import Result
from boltend.core.report.json import dump, project_json, result_json, schema_json
from boltend.core.values import Rate as RateValue
from boltend.core.values import ThreadNumber as ThreadValue
from boltend.plugin import (
    ROOT2,
    Area,
    Colour,
    Count,
    Cut,
    Fabric,
    Finished,
    Goods,
    Length,
    Measured,
    Money,
    Percent,
    PlainNumber,
    Price,
    Rate,
    Rows,
    Text,
    ThreadNumber,
    Time,
    YesNo,
    calculator,
    found,
    given,
    row,
)


@row
class Cell:
    width: Finished = found("Width", nearest="size")
    name: Text | None = found("Name")


class Found:
    finished: Finished = found("Finished", nearest="size")
    cut: Cut | None = found("Cut", up="cutting")
    length: Length = found("Length", up="buying", unit="yd")
    sizes: Measured = found("Sizes")
    area: Area = found("Area", nearest="1 sq in")
    count: Count = found("Count")
    percent: Percent = found("Percent", nearest="0.1 %")
    number: PlainNumber = found("Number")
    time: Time = found("Time", up="1 min")
    flat: Money = found("Price")
    price: Money = found("Price of cloth", unit="yd")
    rate: Rate = found("Rate")
    thread: ThreadNumber = found("Thread")
    fold: Literal["double", "single"] = found("Fold")
    yes: YesNo = found("Yes")
    fabric: Fabric = found("Fabric")
    text: Text = found("Text")
    colour: Colour = found("Colour")
    cells: Rows[Cell] = found("Cells")


@calculator("every", asks="?", found=Found)
def every(x: Count = given("X"), y: Cut | None = given("Y")) -> Answer:
    """Finds one of each kind."""
    return Answer(
        found={
            "finished": Fraction(73, 4), "cut": None if x else 9 * ROOT2, "length": Fraction(37),
            "sizes": (Fraction(3), Fraction(7, 2)), "area": Fraction(25, 2), "count": 16,
            "percent": Fraction(200, 3), "number": Fraction(5, 2), "time": Fraction(90),
            "flat": Price(Fraction(25, 2), "USD"), "price": Price(Fraction(12), "USD", "yard"),
            "rate": RateValue(Fraction(10), "per in"), "thread": ThreadValue(Fraction(50), "Ne"),
            "fold": "double", "yes": False, "fabric": "Moss", "text": "words", "colour": "#5a6672",
            "cells": [{"width": Fraction(1, 3), "name": None}],
        },
        goods=[Goods("batting", Fraction(1), "pack", Price(Fraction(30), "USD"))],
        cautions=["There is no cut."],
    )  # fmt: skip


def worked(small: Any, **given_: Any) -> tuple[Workbook, Result]:
    book = Workbook(small.Bench([every]), small.project(("E", "every", given_)))
    return book, book.result("E")


def test_every_kind_has_the_form_of_the_vocabulary(small: Any) -> None:
    _, result = worked(small, x=0, y="2 1/2 in")
    data = json.loads(dump(result_json(result)))
    found_ = data["found"]
    assert found_["finished"] == {
        "text": "18 1/4 in", "inches": "73/4", "unrounded": "73/4", "exact": True, "kind": "finished",
    }  # fmt: skip
    root = found_["cut"]
    assert (root["text"], root["inches"], root["exact"], root["kind"]) == ("12 3/4 in", "51/4", False, "cut")
    assert root["unrounded"].startswith("12.727922061357855")  # 9 × 1.41421356237309505
    assert (found_["length"]["text"], found_["length"]["unrounded"]) == ("1 1/8 yd", "37")
    assert [size["text"] for size in found_["sizes"]] == ["3 in", "3 1/2 in"]
    assert all(size.keys() == root.keys() and size["kind"] == "cut" for size in found_["sizes"])
    assert found_["area"] == {"text": "13 sq in", "square_inches": "13"}
    assert (found_["count"], found_["percent"], found_["number"], found_["time"]) == (16, 66.7, 2.5, 90)
    assert found_["flat"] == {"text": "$12.50", "amount": "12.50", "currency": "USD"}
    assert found_["price"] == {"text": "$12.00 per yard", "amount": "12.00", "currency": "USD", "per": "yard"}
    assert found_["rate"] == {"text": "10 per in", "value": "10", "unit": "per in"}
    assert found_["thread"].keys() == {"text", "value", "convention"}
    assert (found_["thread"]["value"], found_["thread"]["convention"]) == ("50", "Ne")
    assert [found_[k] for k in ("fold", "yes", "fabric", "text", "colour")] == [
        "double", False, "Moss", "words", "#5a6672",
    ]  # fmt: skip
    assert data["goods"] == [
        {"name": "batting", "amount": 1, "unit": "pack", "part": None,
         "price_each": {"text": "$30.00", "amount": "30.00", "currency": "USD"}}
    ]  # fmt: skip
    assert data["given"]["x"] == 0
    assert data["given"]["y"]["text"] == "2 1/2 in"


def test_a_length_in_rows_tells_what_it_was_before_its_rounding(small: Any) -> None:
    _, result = worked(small, x=1)
    (cell,) = result_json(result)["found"]["cells"]
    assert cell["name"] is None
    assert (cell["width"]["inches"], cell["width"]["unrounded"]) == ("5/16", "1/3")
    assert cell["width"].keys() == {"text", "inches", "unrounded", "exact", "kind"}


def test_a_found_without_a_value_is_null(small: Any) -> None:
    _, result = worked(small, x=1)
    data = result_json(result)
    assert data["found"]["cut"] is None
    assert data["cautions"] == ["There is no cut."]


def shape(value: Any) -> Any:
    """The keys of a document at every depth, without its values."""
    if isinstance(value, dict):
        return {key: shape(inner) for key, inner in value.items()}
    return "…"


def test_keys_are_the_same_worked_out_working_waiting_or_not(small: Any) -> None:
    link = small.link
    made = small.project(
        ("Out", "panel", {"width": "10 in", "spaced": True}),
        ("Cannot", "panel", {"width": "x"}),
        ("Waiting", "panel", {"width": link("Cannot", "width")}),
    )
    book = Workbook(small.Bench(), made)
    late = Workbook(small.Bench(later=True), made)
    data = project_json(book, made.tabs)
    assert list(data) == ["project", "tabs"]
    out, cannot, waiting = data["tabs"]
    (working, *_) = project_json(late, made.tabs)["tabs"]
    keys = [
        "name",
        "calculator",
        "state",
        "why",
        "given",
        "found",
        "working",
        "pieces",
        "runs",
        "goods",
        "first",
        "cautions",
    ]
    for tab in (out, cannot, waiting, working):
        assert list(tab) == keys
        assert tab["given"].keys() == out["given"].keys() == {"width", "by", "spaced"}
        assert tab["found"].keys() == out["found"].keys()
        assert all(
            isinstance(tab[key], list)
            for key in ("why", "working", "pieces", "runs", "goods", "first", "cautions")
        )
    assert [t["state"] for t in (out, cannot, waiting, working)] == [
        "worked out",
        "cannot",
        "waiting",
        "working",
    ]
    assert cannot["why"][0].startswith("Width: “x”")
    assert waiting["why"] == ["Width: waits for “Cannot”. Put “Cannot” right first."]
    assert out["why"] == []
    assert set(cannot["found"].values()) == {None}
    assert cannot["given"]["by"]["text"] == "1 in"  # what can be read is told
    assert cannot["given"]["width"] is None


def test_an_absent_calculator_keeps_the_keys_too(small: Any) -> None:
    book = Workbook(small.Bench(), small.project(("A", "nobody", {"x": 1})))
    (tab,) = project_json(book, book.project.tabs)["tabs"]
    assert (tab["given"], tab["found"], tab["state"]) == ({}, {}, "cannot")
    assert len(tab) == 12


def test_pieces_and_runs(small: Any) -> None:
    book = Workbook(
        small.Bench(), small.project(("P", "panel", {"width": "10 in"}), ("Q", "panel", {"width": "3 in"}))
    )
    one, two = project_json(book, book.project.tabs)["tabs"]
    assert shape(one["pieces"]) == shape(two["pieces"])
    (piece,), (run,) = one["pieces"], one["runs"]
    assert list(piece) == ["name", "across", "along", "count", "fabric", "grain", "made_from", "may_turn"]
    assert piece["across"]["text"] == "11 1/2 in"
    assert (piece["count"], piece["fabric"], piece["grain"], piece["made_from"], piece["may_turn"]) == (
        2, None, "any", "whole", True,
    )  # fmt: skip
    assert list(run) == ["name", "width", "wants", "join", "grain", "fabric"]
    assert [want["text"] for want in run["wants"]] == ["11 in"]
    assert (run["join"], run["grain"]) == ("diagonal", "crosswise")


def test_the_projects_own_part(small: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "30 cm"}), name="Trial", units="centimetres", currency="EUR"
    )
    data = project_json(Workbook(small.Bench(), made), made.tabs)
    assert data["project"] == {"name": "Trial", "units": "centimetres", "currency": "EUR"}
    assert data["tabs"][0]["found"]["width"]["text"] == "32 cm"
    assert data["tabs"][0]["found"]["width"]["inches"] == "1600/127"


def test_no_control_or_direction_character_stands_bare_and_all_come_back() -> None:
    said = "a\x1b\x9b\u202e\u200b\ud800\U000e0041é≈"
    text = dump({"name": said})
    assert not any(c in text for c in "\x1b\x9b\u202e\u200b\ud800\U000e0041")
    assert "é≈" in text
    assert json.loads(text) == {"name": said}


def test_the_schema_tells_all_that_is_known(small: Any) -> None:
    schema = schema_json(small.patchwork.spec)
    assert list(schema) == [
        "calculator", "asks", "plugin", "distribution", "contract", "searches", "help", "given", "found",
    ]  # fmt: skip
    given_keys = {
        "name", "kind", "label", "unit", "help", "default", "metric_default", "required", "least", "most",
        "step", "choices", "table", "setting", "example", "empty", "meanings", "columns",
    }  # fmt: skip
    found_keys = {
        "name",
        "kind",
        "label",
        "unit",
        "help",
        "direction",
        "step",
        "grows_with",
        "bounded",
        "empty",
        "choices",
        "columns",
    }
    for one in schema["given"]:
        assert {frozenset(c) for c in (one, *one["columns"])} == {frozenset(given_keys)}
    for one in schema["found"]:
        assert {frozenset(c) for c in (one, *one["columns"])} == {frozenset(found_keys)}
    width = schema["given"][0]["columns"][1]
    assert (width["name"], width["kind"], width["least"], width["required"]) == (
        "width",
        "finished",
        "1/4 in",
        True,
    )
    assert json.loads(dump(schema)) == schema
