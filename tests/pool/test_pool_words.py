"""The lists as a person reads them at the table, and as a program does."""

import json
import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given

from boltend.core.contract import Goods, cut, line
from boltend.core.cutting import Stack, Strip
from boltend.core.pool import Lists
from boltend.core.report.list_json import KEYS, lists_json
from boltend.core.report.list_markdown import lists_markdown
from boltend.core.report.list_steps import cut_steps
from boltend.core.report.list_text import lists_text
from boltend.core.report.list_words import CutSheet, buy_sheet, cut_sheets, list_notes
from boltend.core.values import Notation, Price

from .kit import Made, lists, piece, run, usual
from .test_pool_plans import cloths, tabs

HOW = Notation()
SLATE = {"name": "Slate"}


def sheet(*made: Made, fabrics: Sequence[Any] = (SLATE,), **project: Any) -> CutSheet:
    (found,) = cut_sheets(lists(*made, fabrics=list(fabrics), **project), HOW)
    return found


def test_whole_strips_are_not_cut_again() -> None:
    steps = sheet(Made("Binding", runs=[run("binding", "5/2", "289")])).steps
    assert steps == (
        "Take the 5/8 yd that you buy. Square its end: 1/2 in is lost.",
        "Cut 8 strips 2 1/2 in wide from selvage to selvage. 7 stay whole: binding. "
        "From one strip cut: 1 of 12 1/2 in × 2 1/2 in (binding).",
    )


def test_one_whole_strip() -> None:
    assert sheet(Made("A", [piece("band", "42", "3", 1)])).steps[1] == (
        "Cut 1 strip 3 in wide from selvage to selvage. It stays whole: band."
    )


def test_a_stack_is_explained_where_there_is_one_and_only_there() -> None:
    words = "A stack is layers of cloth, laid upon each other and cut through at once."
    assert words in sheet(Made("A", [piece("brick", "6", "3", 14, grain="crosswise")])).facts
    assert words not in sheet(Made("A", [piece("band", "42", "3", 1)])).facts


def test_what_is_cut_large_is_trimmed_later_and_told_last() -> None:
    later = line("trim each unit to {}", cut(Fraction(7, 2)))
    one = Made("A", [piece("light", "4", "4", 3, later=later), piece("dark", "5", "5", 2, later=later)])
    other = Made("B", [piece("patch", "6", "6", 2), piece("x", "4", "4", 1, later="trim the top")])
    steps = sheet(one, other).steps
    assert steps[-2:] == (
        "Later, for “A”: trim each unit to 3 1/2 in.", "Later, for “B”: trim the top.",
    )  # fmt: skip
    assert sum("Later" in step for step in steps) == 2
    sewn = Made("A", runs=[run("frame", "3", "20", later="trim it even")])
    assert sheet(sewn).steps[-1] == "Later, for “A”: trim it even."


def test_sixteen_layers_are_cut_in_two_stacks_of_eight() -> None:
    """Common practice, no source."""
    made = Made("A", [piece("brick", "6", "3", 16 * 7, grain="crosswise")])
    assert sheet(made).steps[1] == (
        "Cut 16 strips 3 in wide from selvage to selvage. "
        "Lay the strips in 2 stacks of at most 8 layers and cut from each: 7 of 6 in × 3 in (brick)."
    )
    tens = [{"name": "Slate", "form": "small square", "have": 3}]
    steps = sheet(Made("A", [piece("five", "5", "5", 64)]), fabrics=tens).steps
    assert steps == (
        "Take 16 pieces (3 of them in hand), 10 in × 10 in, in 2 stacks of at most 8 layers. "
        "Cut all of them alike.",
        "Cut 2 strips 5 in wide and 10 in long. From each strip cut: 2 of 5 in × 5 in (five).",
    )
    data = lists_json(lists(Made("A", [piece("five", "5", "5", 64)]), fabrics=tens), HOW)
    assert [(s["kind"], s["stacks"]) for s in data["to_cut"][0]["steps"]][:2] == [("take", 2), ("strip", 2)]


def test_some_of_the_strips_are_laid_in_a_stack_or_cut_one_by_one() -> None:
    made = Made("A", [piece("a", "20", "3", 6, grain="crosswise"), piece("b", "30", "3", 1)])
    assert "Lay 3 strips in one stack and cut from each: 2 of 20 in × 3 in (a)." in sheet(made).steps[1]
    single = sheet(made, layers=1).steps[1]
    assert "From each of 3 strips cut: 2 of 20 in × 3 in (a)." in single
    assert "From one strip cut: 1 of 30 in × 3 in (b)." in single


def test_fewer_layers_make_more_stacks() -> None:
    made = Made("A", [piece("brick", "6", "3", 16 * 7, grain="crosswise")])
    assert "in 4 stacks of at most 4 layers" in sheet(made, layers=4).steps[1]
    assert "in one stack" in sheet(Made("A", [piece("brick", "6", "3", 14, grain="crosswise")])).steps[1]


def test_what_is_in_hand_is_taken_first_squared_too_and_its_rest_named() -> None:
    found = sheet(Made("A", [piece("band", "42", "2", 5)]), fabrics=[{**SLATE, "have": "1/4 yd"}])
    assert found.steps[0] == (
        "Take what is in hand. Square its end: 1/2 in is lost, and 42 in × 8 1/2 in is left."
    )
    assert found.steps[2] == "Take the 1/8 yd that you buy. Square its end: 1/2 in is lost."
    assert found.leftovers == (
        "42 in × 2 in, at the end of the bought length",
        "42 in × 1/2 in, of what was in hand",
    )
    bare = sheet(
        Made("A", [piece("band", "42", "2", 4)]), fabrics=[{**SLATE, "have": "1/4 yd"}], squaring="0 in"
    )
    assert bare.steps[0] == "Take what is in hand: 42 in × 9 in."
    assert bare.notes == ("All of it comes out of what is in hand.",)


def test_pieces_say_whose_they_are_what_becomes_of_them_and_what_is_spare() -> None:
    made = [
        Made("Geese", [piece("goose", "4", "4", 3, made_from="quarter"), piece("sky", "4", "4", 2)]),
        Made("Stars", [piece("sky", "4", "4", 4, made_from="half")]),
    ]
    found = sheet(*made)
    assert found.pieces == (
        "4 in × 4 in: 3 × goose for “Geese”, each then cut twice on the diagonal; 2 × sky for “Geese”; "
        "4 × sky for “Stars”, each then cut once on the diagonal",
    )
    assert "(goose or sky for “Geese” or sky for “Stars”)" in found.steps[1]


def test_long_pieces_are_cut_in_lengths_and_strips_alike_in_one_step() -> None:
    panels = [piece("panel", "42", "145/2", 1), piece("panel", "83/2", "145/2", 1)]
    assert sheet(Made("Back", panels)).steps[1] == (
        "Cut 2 lengths of 72 1/2 in from selvage to selvage. 1 stays whole: panel. "
        "From one length cut: 1 of 41 1/2 in × 72 1/2 in (panel)."
    )
    bands = [piece("a", "42", "3", 2), piece("b", "25", "3", 1), piece("c", "26", "3", 1)]
    step = sheet(Made("A", bands)).steps[1]  # which of the two comes first is the engine's affair
    assert step.startswith("Cut 4 strips 3 in wide from selvage to selvage. 2 stay whole: a. From one strip")
    assert step.count("From another strip cut: 1 of ") == 1


def test_stacks_in_a_strip_and_trims_are_said() -> None:
    """A plan made by hand: one strip of 4 in with whole, stacked and trimmed pieces, and one kept whole."""
    pieces = [piece("tall", "3", "4", 5), piece("low", "5", "2", 6), piece("mid", "6", "3", 1)]
    found = lists(Made("A", [*pieces, piece("band", "42", "4", 1)]), fabrics=[SLATE])
    (fabric,) = found.fabrics
    assert fabric.plan is not None
    bolt = next(each for each in fabric.plan.sheetplans if each.along is None)
    tall, low, mid, band = (kind.label for kind in fabric.plan.kinds)
    strip = Strip(
        Fraction(4),
        (
            Stack(tall, Fraction(3), Fraction(4), times=5),
            Stack(low, Fraction(5), Fraction(2), high=2, times=3),
            Stack(mid, Fraction(6), Fraction(3)),
        ),
    )
    whole = Strip(Fraction(4), (Stack(band, Fraction(42), Fraction(4)),))
    plan = replace(fabric.plan, sheetplans=(replace(bolt, strips=(strip, whole)),))
    assert cut_steps(replace(fabric, plan=plan), HOW)[1] == (
        "Cut 2 strips 4 in wide from selvage to selvage. 1 stays whole: band. "
        "From one strip cut: 5 of 3 in × 4 in (tall); "
        "3 parts of 5 in, each cut into 2 of 5 in × 2 in (low); 1 of 6 in, trimmed to 6 in × 3 in (mid)."
    )


@usual
@given(tabs(), cloths())
def test_the_steps_cut_every_piece_of_the_plan(made: list[Made], cloth: dict[str, Any]) -> None:
    """Read the sentences as a person would, count what they make, and hold it against the plan."""
    found = lists(*made, fabrics=[cloth])
    (fabric,) = found.fabrics
    assert fabric.plan is not None
    cut = sum(map(_pieces_of, cut_sheets(found, HOW)[0].steps))
    assert cut == sum(fabric.plan.cut_counts.values())


def _pieces_of(step: str) -> int:
    head, _, rest = step.partition(" from selvage to selvage")
    strips = re.match(r"Cut (\d+) (?:strips?|lengths?) ", head)
    if strips is None:
        return 0
    total = 0
    for clause in re.split(r"\. (?=[A-Z0-9])", rest)[1:]:
        whole = re.match(r"(?:(\d+) stays?|It stays|They stay) whole:", clause)
        if whole:
            total += int(whole[1] or strips[1])
            continue
        which = re.match(
            r"From (?:it|(?:one|another) (?:strip|length)) cut: |"
            r"(?:From each(?: of (?P<of>\d+))?|Lay (?P<laid>the|\d+)) (?:strips?|lengths?) (?:.*and )?cut",
            clause,
        )  # fmt: skip
        assert which is not None, clause
        many = which["of"] or which["laid"] or ("the" if clause.startswith("From each") else "1")
        times = int(strips[1] if many == "the" else many)
        for part in clause.split(": ", 1)[1].split("; "):
            most = re.match(r"(\d+) (?:parts? )?of [^(]*?(?:, each cut into (\d+) of .*)?\(", part)
            assert most is not None, part
            total += times * int(most[1]) * int(most[2] or 1)
    return total


def everything() -> Lists:
    goods = [Goods("batting", Fraction(3, 2), "yard", Price(Fraction(20), "USD"))]
    return lists(
        Made("A", [piece("a", "5", "7", 8), piece("wide", "50", "50", 1)], [run("r", "2", "100")], goods),
        Made("B", [piece("b", "3", "4", 11, "Tens")]),
        Made("C", [piece("c", "3", "4", 11, "Odd")]),
        Made("D", [piece("d", "3", "4", 11, None)]),
        Made("E", why="no width."),
        fabrics=[
            {**SLATE, "price": "12.50", "printed": "5 in", "have": "3 in"},
            {"name": "Tens", "form": "small square", "have": 1},
            {"name": "Odd", "form": "odd"},
        ],
    )


def test_every_row_of_json_has_the_same_keys() -> None:
    data = json.loads(json.dumps(lists_json(everything(), HOW)))
    assert {tuple(row) for row in data["to_buy"]} == {KEYS}
    assert len({tuple(sorted(row)) for row in data["to_cut"]}) == 1
    for name in ("steps", "pieces", "leftovers"):
        assert len({tuple(sorted(row)) for fabric in data["to_cut"] for row in fabric[name]}) == 1, name


def test_numbers_in_json_agree_with_the_plan() -> None:
    found = everything()
    data = lists_json(found, HOW)
    slate = found.fabrics[0]
    assert slate.plan is not None
    row, cut = data["to_buy"][0], data["to_cut"][0]
    assert Fraction(row["length"]["inches"]) == slate.buy.length
    assert Fraction(cut["answer"]["inches"]) == slate.plan.length_used
    assert sum(step["pieces"] for step in cut["steps"]) == sum(slate.plan.cut_counts.values())
    assert sum(p["count"] - p["not_cut"] for p in cut["pieces"]) == sum(slate.plan.cut_counts.values())
    assert {p["name"] for p in cut["pieces"] if p["not_cut"]} == {"wide"}
    assert (row["printed"], row["whole"], cut["whole"]) == (None, False, False)  # "wide" fits no width
    short = lists(Made("A", [piece("a", "5", "7", 8)]), fabrics=[{**SLATE, "printed": "5 in"}])
    printed = lists_json(short, HOW)["to_buy"][0]["printed"]
    assert (printed["verdict"], Fraction(printed["by"]["inches"])) == ("short", Fraction(5, 2))
    assert set(printed) == {"length", "verdict", "by", "would_do_at", "tried_to"}
    tens = data["to_buy"][1]
    assert (tens["packs"], tens["pieces"], tens["have_used_pieces"], tens["length"]) == (1, 1, 1, None)
    odd = data["to_buy"][2]
    assert (odd["length"], odd["cost"], odd["whole"]) == (None, None, False)
    assert Fraction(data["total"]["amount"]) == Fraction(row["cost"]["amount"]) + 30
    assert data["list_notes"] == list(list_notes(found))


def test_what_is_not_whole_is_said_in_every_form() -> None:
    found = everything()
    for text in (lists_text(found, HOW), lists_markdown(found, HOW)):
        flat = " ".join(text.split())
        assert "Not whole: not all of Slate is planned" in flat
        assert "Not whole: not all of Odd is planned" in flat
        assert "Not whole: “E” is not worked out" in flat
        assert "This fabric cannot be planned:" in flat
        assert "Not cut: 1 × wide of “A”, 50 in × 50 in: wider than the cloth" in flat
        assert ".." not in flat


def test_the_total_and_each_price_stand_in_the_text() -> None:
    # Slate: a strip of 2 in from hand; 7 in, twice 2 in and 1/2 in to square are 11 1/2 in, up to 3/8 yd.
    text = lists_text(everything(), HOW)
    bought = text[text.index("To buy") :]
    assert re.search(r"^Slate +3/8 yd +\$12.50 per yard +\$4.69$", bought, re.MULTILINE)
    assert re.search(r"^batting +1.5 yards +\$20.00 +\$30.00$", bought, re.MULTILINE)
    assert re.search(r"^Total +not whole +\$34.69$", bought, re.MULTILINE)
    assert max(map(len, text.splitlines())) <= 78


def test_a_long_name_does_not_spoil_the_table() -> None:
    name = "A cloth with a name that goes on " * 4
    text = lists_text(
        lists(Made("A", [piece("a", "5", "7", 8, name.strip())]), fabrics=[{"name": name.strip()}]), HOW
    )
    (line,) = [line for line in text.splitlines() if line.strip() == "1/4 yd"]
    assert len(line) <= 78


@pytest.mark.parametrize(
    "evil", ["*bold*", "<b>x</b>", "a|b", "[link](x)", "# head", "`code`", "one\ntwo", "\x1b[31m"]
)
def test_names_are_shown_as_text(evil: str) -> None:
    goods = [Goods(evil, Fraction(1), evil)]
    found = lists(Made(evil, [piece(evil, "5", "7", 8, None)], [run(evil, "2", "100", fabric=None)], goods))
    markdown, text = lists_markdown(found, HOW), lists_text(found, HOW)
    assert "\x1b" not in markdown + text
    for raw in ("*bold*", "<b>", "[link]", "`code`"):
        assert raw not in markdown
    rows = [line for line in markdown.splitlines() if line.startswith("|")]
    assert {len(re.findall(r"(?<!\\)\|", row)) for row in rows} == {6}
    assert not [line for line in markdown.splitlines() if line.startswith("# ")]


def test_a_metric_project_speaks_metric() -> None:
    found = lists(
        Made("A", [piece("a", "5", "7", 8)]), fabrics=[{**SLATE, "price": "10"}], units="centimetres"
    )
    how = Notation(system="cm")
    text = lists_text(found, how)
    assert re.search(r"^Slate +0.2 m +\$10.00 per metre +\$2.00$", text, re.MULTILINE)
    assert buy_sheet(found, how).rows[0].notes[0] == "18.98 cm needed, 1.2 cm of it to square the end"
    assert " in" not in re.sub(r"in (hand|one stack|\d+ stacks)|of it|in pieces", "", text).replace(
        "in it", ""
    )


def test_empty_lists_say_nothing() -> None:
    found = lists(Made("A"))
    assert lists_text(found, HOW) == ""
    assert lists_markdown(found, HOW) == ""
    data = lists_json(found, HOW)
    assert (data["to_cut"], data["to_buy"], data["total"]) == ([], [], None)


def test_whole_strips_are_said_as_strips() -> None:
    # Seven of 42 in, 4 1/2 in wide; twelve squares of 6 7/8 in, six a strip: as the trade cuts them.
    made = Made("A", [piece("sky", "42", "9/2", 7), piece("square", "55/8", "55/8", 12)])
    (sheet,) = cut_sheets(lists(made, fabrics=[SLATE]), HOW)
    assert list(sheet.steps[1:]) == [
        "Cut 2 strips 6 7/8 in wide from selvage to selvage. "
        "Lay the strips in one stack and cut from each: 6 of 6 7/8 in × 6 7/8 in (square).",
        "Cut 7 strips 4 1/2 in wide from selvage to selvage. They stay whole: sky.",
    ]


def test_what_is_done_first_stands_before_all_cloth() -> None:
    """Also where nothing else is cut; of a tab that is done nothing is left to do."""
    trim = line("trim all {} blocks to {}", 12, cut(Fraction(97, 8)))
    made = (
        Made("Swap", first=[trim]),
        Made("Sewn", first=["trim all"], flags={"done": True}),
    )
    for more in ((), (Made("Binding", runs=[run("binding", "5/2", "289")]),)):
        found = lists(*made, *more, fabrics=[SLATE])
        first, *others = cut_sheets(found, HOW)
        assert (first.title, first.steps) == (
            "Before anything is cut", ("For “Swap”: trim all 12 blocks to 12 1/8 in.",)
        )  # fmt: skip
        assert [each.title for each in others] == ["Slate"] * len(more)
        assert lists_json(found, HOW)["first"] == ["For “Swap”: trim all 12 blocks to 12 1/8 in."]
        for text in (lists_text(found, HOW), lists_markdown(found, HOW)):
            assert text.index("To cut") < text.index("1. For “Swap”: trim all 12 blocks")
