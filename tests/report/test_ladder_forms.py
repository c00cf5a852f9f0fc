"""A ladder as CSV and Markdown: read back by others' means."""

import csv
import io
from fractions import Fraction
from pathlib import Path

from boltend.core.asking import Cell, Ladder, Rung, Spot, Take
from boltend.core.contract import FoundSpec, GivenSpec
from boltend.core.report.ladder_forms import form_of, ladders_printed
from boltend.core.report.ladder_text import some_values

WIDE = FoundSpec("width", "finished", "Width | of [it]")
LADDER = Ladder(
    Spot(1, GivenSpec("bed", "table_row", "Bed")),
    ("crib", "=queen"),
    (Take("Width | of [it]", 1, WIDE), Take("To buy")),
    "Two, “beds”",
)
_CRIB = {"Width | of [it]": Cell("40 in", Fraction(40)), "Slate": Cell("1 yd"), "Total": Cell("$9.00")}
_QUEEN = {
    "Width | of [it]": Cell("", None, "no *queen*."),
    "Rust; red": Cell("2 yd"),
    "Total": Cell("$12.50"),
}
RUNGS = [Rung("crib", _CRIB), Rung("=queen", _QUEEN)]


def test_csv_reads_back() -> None:
    read = list(csv.reader(io.StringIO(ladders_printed([(LADDER, RUNGS)], "csv"), newline="")))
    assert read == [
        ["Bed", "Width | of [it]", "Total", "Slate", "Rust; red"],
        ["crib", "40 in", "$9.00", "1 yd", "–"],
        ["'=queen", "!", "$12.50", "–", "2 yd"],
    ]


def test_markdown_is_a_table_of_plain_text() -> None:
    lines = ladders_printed([(LADDER, RUNGS)], "markdown").split("\n")
    assert lines[0].startswith("## Two, ")
    rows = [line for line in lines if line.startswith("|")]
    assert len(rows) == 4
    assert {row.replace("\\|", "").count("|") for row in rows} == {6}
    assert r"no \*queen\*" in lines[-2]


def test_forms_by_their_endings() -> None:
    assert form_of(Path("a.CSV")) == "csv"
    assert form_of(Path("a.md")) == "markdown"
    assert form_of(Path("a.json")) is None


def test_values_with_a_comma_of_their_own_stand_apart() -> None:
    assert some_values(["4 in", "5 in"]) == "4 in, 5 in"
    assert some_values(["crib, no drop", "throw"]) == "“crib, no drop”, “throw”"
