"""What may feed what, and what the working says of a value that changed on its way."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.flow import Workbook
from boltend.core.flow.links import fit
from boltend.core.project import edits
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.report.words import working_lines
from boltend.plugin import ROOT2


def test_finished_into_cut_adds_two_seams_and_says_so(small: Any, bench: Any) -> None:
    made = small.project(
        ("Panel", "panel", {"width": "10 in"}), ("Half", "square", {"width": small.link("Panel", "width")})
    )
    half = Workbook(bench, made).result("Half")
    assert half.found["width"] == Fraction(23, 2)  # 11 in and two seams of 1/4 in
    assert "Cut width: “Panel” gives 11 in finished; cut = finished + 2 seams = 11 1/2 in" in working_lines(
        half
    )


def test_cut_into_finished_takes_two_seams_of_the_project(small: Any, bench: Any) -> None:
    made = small.project(
        ("Half", "square", {"width": "8 in"}),
        ("Panel", "panel", {"width": small.link("Half", "width")}),
        seam="3/8 in",
    )
    panel = Workbook(bench, made).result("Panel")
    assert panel.args["width"] == Fraction(29, 4)
    assert "Width: “Half” gives 8 in cut; finished = cut − 2 seams = 7 1/4 in" in working_lines(panel)


def test_a_link_and_a_typed_value_agree_also_where_a_tab_has_a_seam_of_its_own(
    small: Any, bench: Any
) -> None:
    """One quilt, one seam: a tab's own seam is for its arithmetic, not for reading sizes."""
    made = small.project(("Half", "square", {"width": "8 in"}))
    for name, width in (("Typed", "8 in cut"), ("Linked", small.link("Half", "width"))):
        made = edits.add_tab(made, name, "patchwork", {"patches": [{"width": width}]})
    book = Workbook(bench, made)
    assert book.result("Typed").found == book.result("Linked").found
    assert book.result("Linked").found["width"] == 15  # two of 7 1/2 in


def test_the_conversion_follows_the_projects_seam(small: Any, bench: Any) -> None:
    made = small.project(
        ("Half", "square", {"width": "8 in"}), ("P", "panel", {"width": small.link("Half", "width")})
    )
    book = Workbook(bench, made)
    book.update(edits.set_setting(book.project, "seam", "1 in"))
    assert book.result("P").args["width"] == 6


@pytest.mark.parametrize(
    ("source", "take", "calculator", "given_", "why"),
    [
        ("panel", "long", "panel", "width", "a length without a kind cannot feed a finished size"),
        ("panel", "long", "square", "width", "a length without a kind cannot feed a cut size"),
        ("panel", "long", "top", "widths", "a length cannot feed a list of measurements"),
        ("panel", "count", "panel", "width", "a count cannot feed a finished size"),
        ("panel", "width", "square", "parts", "a finished size cannot feed a number"),
        ("panel", "patches", "panel", "width", "rows cannot feed a finished size"),
        ("panel", "width", "patchwork", "patches", "a finished size cannot feed rows"),
        ("mood", "mood", "mood", "button", "a choice cannot feed a choice from a table"),
        ("mood", "pace", "panel", "spaced", "a rate cannot feed a yes or no"),
    ],
)
def test_a_misfit_is_refused_in_plain_words(
    small: Any, bench: Any, source: str, take: str, calculator: str, given_: str, why: str
) -> None:
    givens = {"width": "10 in"} if source == "panel" else {}
    made = small.project(("S", source, givens), ("T", calculator, {given_: small.link("S", take)}))
    result = Workbook(bench, made).result("T")
    assert result.state == "cannot"
    trouble = next(t for t in result.troubles if t.given == given_)
    assert why in trouble.why
    assert "“S”" in trouble.why
    assert trouble.way_out == "Link to another found, or type the value."


def test_any_length_may_become_one_without_a_kind(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "10 in"}), ("C", "cloth", {"usable_width": small.link("P", "square")})
    )
    found = Workbook(bench, made).result("C").found
    assert found["width"] == Fraction(131, 8)  # 11 1/2 × √2 = 16.263, up to the next 1/8 in


def test_one_found_stands_for_a_list_of_one_measurement(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "10 in"}),
        ("Finished", "top", {"widths": small.link("P", "width")}),
        ("Cut", "top", {"widths": small.link("P", "square")}),
    )
    book = Workbook(bench, made)
    assert book.result("Finished").args["widths"] == (Fraction(23, 2),)
    assert book.result("Finished").found["width"] == 11  # there and back
    assert any(
        "cut = finished + 2 seams = 11 1/2 in" in said for said in working_lines(book.result("Finished"))
    )
    assert book.result("Cut").args["widths"] == (Fraction(131, 8),)
    assert book.result("Cut").notes == ()


def test_a_count_feeds_a_number(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "3 in"}),
        ("S", "square", {"width": "8 in", "parts": small.link("P", "count")}),
    )
    value = Workbook(bench, made).result("S").args["parts"]
    assert (value, type(value)) == (4, Fraction)


def test_rows_feed_rows_of_the_same_columns_and_what_they_lack_takes_its_default(
    small: Any, bench: Any
) -> None:
    """The patches found have no name and no count: the count's default is 2, the name may be empty."""
    made = small.project(
        ("P", "panel", {"width": "10 in"}), ("W", "patchwork", {"patches": small.link("P", "patches")})
    )
    result = Workbook(bench, made).result("W")
    assert result.args["patches"] == (
        {"name": None, "width": 11, "count": 2},
        {"name": None, "width": 1, "count": 2},
    )
    assert result.found["width"] == 24
    assert result.found["count"] == 4


def test_rows_that_lack_a_needed_column_are_refused(small: Any, bench: Any) -> None:
    found, given_ = bench.spec("panel").found("patches"), bench.spec("patchwork").given("patches")
    bare = replace(found, columns=tuple(c for c in found.columns if c.name != "width"))
    assert fit(bare, given_).misfit == "its rows lack the column width"
    other = replace(found, columns=tuple(replace(c, kind="cut") for c in found.columns))
    assert fit(other, given_).misfit == "its column width is a cut size, not a finished size"


def test_the_cells_of_linked_rows_are_held_against_the_limits(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "60 in"}), ("W", "patchwork", {"patches": small.link("P", "patches")})
    )
    (trouble,) = Workbook(bench, made).result("W").troubles
    assert trouble.why == (
        "Patches: from “P”: row 1, Width: 61 in is more than 50 in, the most that is worked out."
    )
    assert "“P”" in trouble.way_out


def test_a_cell_of_a_row_may_be_a_link(small: Any, bench: Any) -> None:
    patches = [{"width": "3 in"}, {"width": small.link("S", "width"), "count": small.link("P", "count")}]
    made = small.project(
        ("P", "panel", {"width": "3 in"}),
        ("S", "square", {"width": "8 in"}),
        ("W", "patchwork", {"patches": patches}),
    )
    book = Workbook(bench, made)
    assert book.result("W").found["width"] == 2 * 3 + 4 * Fraction(15, 2)
    assert "row 2, Width: “S” gives 8 in cut; finished = cut − 2 seams = 7 1/2 in" in working_lines(
        book.result("W")
    )
    book.update(edits.remove_tab(made, made.tab("S").key))
    (trouble,) = book.result("W").troubles
    assert trouble.why == "row 2, Width: there is no tab “S” to take it from."
    assert (trouble.given, book.result("W").state) == ("patches", "waiting")


def test_a_setting_may_come_by_a_link_and_then_no_fabric_changes_it(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "30 in"}),
        ("C", "cloth", {"usable_width": small.link("P", "width"), "fabric": "Moss", "other": "Slate"}),
    )
    made = add_fabric(add_fabric(made, "Moss", {"usable_width": "40 in"}), "Slate")
    result = Workbook(bench, made).result("C")
    assert result.found["width"] == 31
    assert result.settings.usable_width == 31
    assert "usable_width" in result.settings.fixed


def test_a_linked_setting_is_held_against_what_the_setting_can_be(small: Any, bench: Any) -> None:
    made = small.project(
        ("T", "top", {"widths": "3 in; 3 in"}), ("C", "cloth", {"usable_width": small.link("T", "spread")})
    )
    (trouble,) = Workbook(bench, made).result("C").troubles
    assert trouble.why == "Usable width: from “T”: 0 in: it must be more than nothing."


def test_linked_values_are_held_against_the_limits(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "500 in"}), ("Q", "panel", {"width": small.link("P", "width")})
    )
    (trouble,) = Workbook(bench, made).result("Q").troubles
    assert trouble.why == "Width: from “P”: 501 in is more than 500 in, the most that is worked out."


def test_nothing_is_left_of_a_cut_size_as_small_as_its_seams(small: Any, bench: Any) -> None:
    made = small.project(
        ("S", "square", {"width": "2 in"}),
        ("N", "naughty", {"how": 7, "link": small.link("S", "width")}),
        seam="1 in",
    )
    (trouble,) = Workbook(bench, made).result("N").troubles
    assert trouble.why == "Link: from “S”: nothing is left of it once its seams are taken off."


def test_a_found_without_a_value_is_told_with_where_to_look(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "3 in"}), ("S", "square", {"width": small.link("P", "spacer")})
    )
    (trouble,) = Workbook(bench, made).result("S").troubles
    assert trouble.why == "Cut width: “P” finds no spacer as it stands."
    assert trouble.way_out == "The cautions of “P” say why."


def test_choices_fit_where_every_one_is_known_and_rates_where_they_measure_the_same(
    small: Any, bench: Any
) -> None:
    made = small.project(
        ("M", "mood", {"mood": "bold", "pace": "4 per cm"}),
        ("N", "mood", {"mood": small.link("M", "mood"), "pace": small.link("M", "pace"), "button": "LARGE"}),
    )
    found = Workbook(bench, made).result("N").found
    assert (found["mood"], found["price"]) == ("bold", 9)
    assert found["pace"].value == Fraction(254, 25)  # 4 per cm are 10.16 per in
    found_spec, given_spec = bench.spec("mood").found("mood"), bench.spec("mood").given("mood")
    more = replace(found_spec, options=("calm", "merry"))
    assert fit(more, given_spec).misfit == "'merry' is no choice here"
    speed = replace(bench.spec("mood").found("pace"), unit="per min")
    assert "cannot be one per in" in fit(speed, bench.spec("mood").given("pace")).misfit


def test_a_link_keeps_what_is_shown_not_what_was_before_rounding(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "10 in"}), ("S", "square", {"width": small.link("P", "square")})
    )
    book = Workbook(bench, made)
    assert book.result("P").unrounded["square"] == Fraction(23, 2) * ROOT2
    assert book.result("S").args["width"] == Fraction(131, 8)


def test_the_note_of_a_link_follows_the_name_of_its_source(small: Any, bench: Any) -> None:
    made = small.project(
        ("P", "panel", {"width": "10 in"}), ("S", "square", {"width": small.link("P", "width")})
    )
    book = Workbook(bench, made)
    bench.counted()
    book.update(
        edits.rename_tab(made, made.tab("P").key, "{Lantern}")
    )  # braces are text, not a place for a value
    assert bench.counted() == 0
    assert any("“{Lantern}” gives 11 in" in said for said in working_lines(book.result("S")))
