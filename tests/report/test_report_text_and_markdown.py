"""A worked project as text and as Markdown: what stands there, and what may not get through."""

import re
import unicodedata
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.contract import Shown
from boltend.core.flow import Workbook
from boltend.core.project import edits
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project, Tab, new_key
from boltend.core.report.json import project_json
from boltend.core.report.markdown import escape, print_markdown
from boltend.core.report.safety import CUTTING_CAUTION
from boltend.core.report.text import WIDTH, print_text
from boltend.core.report.words import rounding_lines, say_line, told
from boltend.core.values import Notation
from boltend.plugin import ROOT2, Line, cut, line, percent, yards
from boltend.shell.result_lines import result_lines

NASTY = "[/x] <script>alert(1)</script> | *b* _i_ `c` \\ # \x1b[31m\x07\u202e\u200b\x9b2J"
"""Markup of several kinds, control and direction characters."""


def sheets(bench: Any, made: Project) -> tuple[str, str]:
    book = Workbook(bench, made)
    return print_text(book, made.tabs), print_markdown(book, made.tabs)


def test_a_whole_sheet_in_text(small: Any, bench: Any) -> None:
    made = small.project(
        ("Half", "square", {"width": "8 in"}),
        ("Panel", "panel", {"width": small.link("Half", "width"), "spaced": True}),
        name="Trial",
    )
    made = edits.set_tab_flag(
        edits.set_tab_flag(made, made.tab("Panel").key, "aside", True),
        made.tab("Panel").key,
        "note",
        "Twice?",
    )
    text, _ = sheets(bench, made)
    _, _, panel = text.partition("Panel (aside) · panel\n")
    assert text.startswith(
        "Trial\n=====\n\nHalf · square\n-------------\nWhat is half of a cut square?\nGiven\n"
    )
    assert [re.sub(r"  +", "  ", said.strip()) for said in panel.splitlines()] == [
        "---------------------",
        "How wide is a panel?",
        "Note: Twice?",
        "Given",
        "Width  7 1/2 in finished  ≈ 19.1 cm  (from “Half” · Width)",
        "Wider by  1 in finished  ≈ 2.5 cm  (default)",
        "With a spacer  yes",
        "Found",
        "Width  8 1/2 in finished  ≈ 21.6 cm",
        "Square to cut  12 3/4 in cut  ≈ 32.4 cm",
        "Length  8 1/2 in  ≈ 21.6 cm",
        "Pieces  8",
        "Spacer  1 in cut  ≈ 2.5 cm",
        "Patches",
        "Width  Cut across",
        "8 1/2 in finished  9 in cut",
        "1 in finished  1 1/8 in cut",
        "Working",
        "Width: “Half” gives 8 in cut; finished = cut − 2 seams = 7 1/2 in",
        "Width: 7 1/2 in and 1 in make 8 1/2 in",
        "Square to cut: ≈ 12.728 in, up to the next 1/8 in: 12 3/4 in cut",
        "",
        *re.sub(r"(.{1,78})(?: |$)", r"\1\n", CUTTING_CAUTION).splitlines(),
    ]
    assert (
        max(map(len, text.splitlines())) <= WIDTH + 20
    )  # a value and its origin may pass the edge, prose may not


def test_a_found_without_a_value_is_left_out_unless_somebody_waits_for_it(small: Any, bench: Any) -> None:
    made = small.project(("Panel", "panel", {"width": "8 in"}))
    for printed in sheets(bench, made):
        assert "Spacer" not in printed
        assert "Without a spacer there is none to cut; at 9 1/2 in it is seen." in printed
    book = Workbook(bench, made)
    assert book.result("Panel").found["spacer"] is None
    assert project_json(book, made.tabs)["tabs"][0]["found"]["spacer"] is None  # JSON keeps its keys
    linked = small.project(
        ("Panel", "panel", {"width": "8 in"}), ("Half", "square", {"width": small.link("Panel", "spacer")})
    )
    text, marked = sheets(bench, linked)
    assert re.search(r"\n  Spacer +–\n", text)
    assert "| Spacer | – |" in marked
    shown = ["".join(text for text, _ in each.parts).split()
             for each in result_lines(Workbook(bench, linked), linked.tabs[0], 80)]  # fmt: skip
    assert ["Spacer", "–", "→", "Half"] in shown
    alone = ["".join(text for text, _ in each.parts) for each in result_lines(book, made.tabs[0], 80)]
    assert not any(each.startswith("Spacer") for each in alone)


def test_a_tab_that_is_not_worked_out_says_why_in_both(small: Any, bench: Any) -> None:
    made = small.project(
        ("A", "panel", {"width": "x", "by": "2 in"}),
        ("B", "panel", {"width": small.link("A", "width")}),
        ("C", "nobody", {}),
    )
    text, marked = sheets(bench, made)
    assert "CANNOT:\n  - Width: “x”: " in text
    assert "WAITING:\n  - Width: waits for “A”. Put “A” right first." in text
    assert "  - nobody brings nobody. Bring it." in text
    assert re.search(r"Width +x\n", text)  # what stands there is shown as it stands there
    assert "**cannot**\n\n- Width: “x”" in marked
    assert "**waiting**" in marked
    assert CUTTING_CAUTION not in text + marked  # nothing to cut


def test_a_text_that_cannot_be_read_is_shown_short(small: Any, bench: Any) -> None:
    text, marked = sheets(bench, small.project(("A", "panel", {"width": "9" * 100_000})))
    assert len(text) < 2000
    assert len(marked) < 2000


def test_an_empty_project_says_so(bench: Any) -> None:
    text, marked = sheets(bench, Project(settings={"name": "New"}))
    assert text == "New\n===\n\nThere are no tabs yet.\n"
    assert marked == "# New\n\nThere are no tabs yet.\n"


def nasty_project(small: Any) -> Project:
    made = add_fabric(small.project(("S", "square", {"width": "8 in"}), name=NASTY), "Moss")
    tab = Tab(
        new_key(),
        {"name": NASTY, "calculator": "panel", "note": NASTY, "given": {"width": small.link("S", "width")}},
    )
    unknown = Tab(new_key(), {"name": "U", "calculator": NASTY})
    wrong = Tab(
        new_key(),
        {
            "name": "W",
            "calculator": "panel",
            "given": {"width": NASTY, NASTY: NASTY, "by": small.link(NASTY, NASTY)},
        },
    )
    return replace(made, tabs=(*made.tabs, tab, unknown, wrong))


def test_no_control_or_direction_character_gets_through(small: Any, bench: Any) -> None:
    for printed in sheets(bench, nasty_project(small)):
        unseen = {
            c for c in printed if c != "\n" and unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp")
        }
        assert unseen == set()
        assert "U+001B" in printed  # shown by its number, not dropped


def test_markdown_shows_a_persons_text_as_text(small: Any, bench: Any) -> None:
    _, marked = sheets(bench, nasty_project(small))
    assert re.search(r"(?<!\\)<script", marked) is None
    assert re.search(r"(?<!\\)\[/x", marked) is None
    for said in marked.splitlines():
        if said.startswith("|"):
            bars = re.findall(r"(?<!\\)\|", said)
            assert len(bars) in (3, 4, 5)  # the table's own: two, three or four columns


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("[/x]", r"\[/x\]"),
        ("<script>", r"\<script\>"),
        ("a | b", r"a \| b"),
        ("a\n\n# b", r"a \# b"),
        ("- item", r"\- item"),
        ("12. item", r"12\. item"),
        ("12 in", "12 in"),
        ("1/2 in", "1/2 in"),
        ("= = =", r"\= = ="),
        ("&amp;", r"\&amp;"),
        ("\x1b[0m", r"\<U+001B\>\[0m"),
        ("a \\| b", "a \\\\\\| b"),
        ("$x$", r"\$x\$"),
    ],
)
def test_markdown_escaping(text: str, shown: str) -> None:
    assert escape(text) == shown


def test_rows_too_wide_for_a_line_stand_below_each_other(small: Any, bench: Any) -> None:
    name = "a very long name of a patch that would not fit beside its width on any line of a terminal"
    text, _ = sheets(bench, small.project(("W", "patchwork", {"patches": [{"name": name, "width": "3 in"}]})))
    assert re.search(r"^  1\.\n    Name +a very long name", text, re.M)


def test_values_in_a_line_of_words() -> None:
    how = Notation()
    assert say_line(line("{} and {}", cut(Fraction(5, 2)), 3), how) == "2 1/2 in and 3"
    assert say_line(line("{}", yards(Fraction(45, 2))), how) == "5/8 yd"
    assert say_line(line("{}", yards(Fraction(5000, 127))), Notation("cm")) == "1 m"
    assert say_line(line("{}", percent(10)), how) == "10 %"
    assert say_line(line("{}", cut(9 * ROOT2)), how) == "≈ 12.728 in"
    assert say_line(line("{}", cut(Fraction(1, 3))), how) == "1/3 in"
    assert say_line(line("{}", cut(Fraction(100, 129))), how) == "≈ 0.775 in"  # finer than a ruler reads
    # 2985.84 in are no whole sixteenths of anything: 82.94 of the 36 in that they are asked for in.
    assert say_line(line("{}", yards(Fraction(298584, 100))), how) == "82.94 yd"
    assert say_line(line("{}", yards(Fraction(1000, 7))), how) == "≈ 3.968 yd"
    assert say_line(line("{}", yards(Fraction(1239, 16))), how) == "77 7/16 in"  # a ruler has them
    assert say_line(line("{}", cut(Fraction(298584, 100))), how) == "2985 21/25 in"  # asked for in inches
    minutes = Fraction(166553, 4096)  # 40 and 2713/4096, which is 0.662
    assert say_line(line("{}", Shown("time", minutes)), how) == "≈ 40.7 min"
    assert say_line(line("{}", Shown("time", 60 + minutes)), how) == "≈ 1 h 40.7 min"
    assert say_line(line("{} of {}", Fraction(100, 129), Fraction(2, 7)), how) == "≈ 0.775 of 2/7"
    assert say_line(line("{}", percent(Fraction(100, 129))), how) == "≈ 0.775 %"
    assert say_line("plain {", how) == "plain {"
    assert say_line(line("{a} {}", "{}"), how) == "{a} {}"  # braces of a text are text


@pytest.mark.parametrize("words", ["{} {}", "{name}", "{", "{0.x}", "{!z}", "{:>9999999999}", "none"])
def test_a_slip_in_a_line_costs_only_its_looks(words: str) -> None:
    assert "7" in say_line(line(words, 7), Notation())


def test_a_shown_value_of_no_kind_is_shown_plain() -> None:

    assert say_line(Line("{}", (Shown("colour of the moon", 7),)), Notation()) == "7"
    assert say_line(Line("{}", (Shown("cut", "7"),)), Notation()) == "7"


def test_roundings_are_told_exact_and_rounded_and_only_where_something_changed(
    small: Any, bench: Any
) -> None:
    book = Workbook(bench, small.project(("P", "panel", {"width": "10 5/16 in"})))
    assert rounding_lines(book.result("P")) == [
        "Square to cut: ≈ 16.705 in, up to the next 1/8 in: 16 3/4 in cut",
        "Length: 11 5/16 in, up to the next 1/2 in: 11 1/2 in",
    ]
    metric = Workbook(bench, small.project(("P", "panel", {"width": "26.14 cm"}), units="centimetres"))
    assert rounding_lines(metric.result("P"))[0] == "Width: 28.14 cm, to the nearest 0.1 cm: 28.1 cm finished"


def test_a_found_that_the_calculators_own_line_leads_to_is_not_told_once_more() -> None:
    said = ["To buy: 41 in + 4 in to square the end makes 45 in, so the shop cuts 1 1/4 yd."]
    assert told("To buy: 45 in, up to the next 1/8 yd: 1 1/4 yd", said)
    assert not told("To buy: 35 in, up to the next 1/8 yd: 1 yd", said)
    assert not told("To buy: 35 in, up to the next 1/8 yd: 1/4 yd", said), "no part of another value"
    assert not told("Bought: 45 in, up to the next 1/8 yd: 1 1/4 yd", said)
