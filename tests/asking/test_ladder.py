"""A ladder against bare runs: each rung is the project with that value, worked out alone."""

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from boltend.core.asking import AskError, climb, read_ladder
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.edits import set_given
from boltend.core.project.model import Project
from boltend.core.project.reading import read_bytes
from boltend.core.report.ladder_text import ladder_text, plot
from boltend_shared.examples import path


def project(name: str) -> Project:
    return read_bytes(path(name).read_bytes(), f"{name}.toml").project


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


HARBOUR: dict[str, Any] = {
    "tab": "Squares in hand",
    "given": "precuts",
    "values": ["8", "16", 24, "40"],
    "take": ["blocks", {"from": "Steps", "take": "width"}, {"from": "Borders", "take": "height"}, "to buy"],
}
SHORT: dict[str, Any] = {
    "tab": "Binding",
    "given": "strip_width",
    "values": ["2 in", "2 1/4 in", "2 1/2 in", "3 in"],
    "take": ["strips", "to buy"],
}
LANTERN: dict[str, Any] = {
    "tab": "Borders",
    "given": "borders.2.width",
    "values": ["3 in", "4 1/2 in"],
    "take": ["width", {"from": "Binding", "take": "length"}, "to buy"],
}
TIDE: dict[str, Any] = {
    "tab": "Window bed",
    "given": "bed",
    "values": ["US crib", "US queen"],
    "take": ["height", {"from": "Pools", "take": "corner_squares"}, "to buy"],
}


@pytest.mark.parametrize(
    ("name", "asked"),
    [("harbour-steps", HARBOUR), ("short-measure", SHORT), ("lantern-row", LANTERN), ("tidewater", TIDE)],
)
def test_every_rung_is_a_bare_run(host: Host, name: str, asked: dict[str, Any]) -> None:
    book = Workbook(host, project(name))
    before = dict(book.results)
    ladder = read_ladder(book, asked)
    rungs = list(climb(book, ladder))
    assert [rung.value for rung in rungs] == [str(value) for value in asked["values"]]
    for raw, rung in zip(asked["values"], rungs, strict=True):
        fresh = project(name)
        key = fresh.tab(asked["tab"]).key
        bare = Workbook(host, changed(fresh, key, asked["given"], raw))
        for take in ladder.takes:
            if take.found is not None:
                tab = take.label.partition(": ")[0] if ": " in take.label else asked["tab"]
                assert rung.cells[take.label].amount == bare.result(tab).found[take.found.name]
        lists = Pool().lists(bare)
        assert lists.total is not None
        assert rung.cells["Total"].amount == lists.total.amount
        for fabric in lists.fabrics:
            buys = fabric.buy.packs if fabric.cloth.precut else fabric.buy.length
            assert rung.cells[fabric.cloth.name].amount == buys
    assert book.results == before, "the person's own workbook is not touched"


def changed(project: Project, key: int, name: str, raw: Any) -> Project:
    """Set a given, or a cell of rows, by plain means."""
    given, _, cell = name.partition(".")
    if not cell:
        return set_given(project, key, given, raw)
    rows = [dict(row) for row in project.tab(key).given[given]]
    number, _, column = cell.partition(".")
    rows[int(number) - 1][column] = raw
    return set_given(project, key, given, rows)


def test_a_rung_that_cannot_be_worked_out_says_why(host: Host) -> None:
    book = Workbook(host, project("harbour-steps"))
    ladder = read_ladder(book, {**HARBOUR, "values": ["8", "many"], "take": "blocks"})
    good, bad = climb(book, ladder)
    assert good.cells["Blocks"].amount == 8
    assert bad.cells["Blocks"].text == ""
    assert "many" in bad.cells["Blocks"].why
    text = ladder_text(ladder, [good, bad])
    assert "! many, Blocks: " in text


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"tab": "Step"}, "there is no tab “Step”. Did you mean “Steps”?"),
        ({"tab": None}, "there is no tab “”."),
        ({"given": "precut s"}, "has no given 'precut s'. Did you mean “precuts”?"),
        ({"given": "cuts"}, "is a list of rows. Take one cell, as cuts.1.name."),
        ({"values": []}, "a ladder needs values."),
        ({"values": ["1"] * 201}, "a ladder of 201 values is too long. Take at most 200."),
        ({"take": "block"}, "finds no 'block'. Did you mean “blocks”?"),
        ({"take": [3]}, "finds no '3'."),
        ({"take": {"from": "Nowhere", "take": "width"}}, "there is no tab “Nowhere”."),
    ],
)
def test_what_cannot_be_read_is_told(host: Host, change: dict[str, Any], said: str) -> None:
    book = Workbook(host, project("harbour-steps"))
    with pytest.raises(AskError) as told:
        read_ladder(book, {**HARBOUR, **change})
    assert said in str(told.value)


def test_the_plot_runs_from_the_least_to_the_most() -> None:
    assert plot([Fraction(0), Fraction(7), Fraction(14), None]) == "▁▅█ "  # 7 is 3 1/2 of 7 steps: to even
    assert plot([Fraction(1), Fraction(1), Fraction(1)]) == ""
    assert plot([Fraction(1), Fraction(2)]) == ""


def test_the_text_keeps_to_its_width(host: Host) -> None:
    book = Workbook(host, project("harbour-steps"))
    ladder = read_ladder(book, {**HARBOUR, "values": [str(n) for n in range(8, 33, 4)], "name": "How many?"})
    text = ladder_text(ladder, list(climb(book, ladder)), 72)
    assert text.startswith("How many?\n\n")
    assert max(len(line.rstrip("▁▂▃▄▅▆▇█").rstrip()) for line in text.split("\n")) <= 72
    assert text.count("Precuts in hand") > 1


def test_a_ladder_of_the_project_is_read_the_same(host: Host, tmp_path: Path) -> None:
    text = path("harbour-steps").read_text(encoding="utf-8")
    text += '\n[[ladder]]\nname = "Blocks"\ntab = "Squares in hand"\ngiven = "precuts"\n'
    text += 'values = [8, 16]\ntake = "blocks"\n'
    read = read_bytes(text.encode(), "q.toml")
    assert read.problems == ()
    book = Workbook(host, read.project)
    (row,) = read.project.ladders
    assert [rung.cells["Blocks"].amount for rung in climb(book, read_ladder(book, row))] == [8, 16]
