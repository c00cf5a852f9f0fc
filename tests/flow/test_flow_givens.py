"""Reading what a tab says: typed, left empty, unknown, outside its limits; and who speaks for a setting."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.flow import Workbook
from boltend.core.project import edits
from boltend.core.project.edits_fabrics import add_fabric, rename_fabric, set_fabric
from boltend.core.project.model import FabricRow, Project, new_key


def why(bench: Any, made: Project, name: str = "T") -> list[str]:
    return [str(t) for t in Workbook(bench, made).result(name).troubles]


@pytest.mark.parametrize(
    ("calculator", "given_", "said"),
    [
        ("panel", {"width": "10 in", "wdith": "3 in"}, "panel has no given 'wdith'. Did you mean width?"),
        ("panel", {"width": "10 in", "qq": 1}, "panel has no given 'qq'. It takes width, by, spaced."),
        ("panel", {}, "Width: nothing is given yet. Type it, as 12 in, or link it to another tab."),
        ("panel", {"width": " "},
         "Width: nothing is given yet. Type it, as 12 in, or link it to another tab."),
        ("square", {}, "Cut width: nothing is given yet. Type it, as 2 1/2 in, or link it to another tab."),
        ("patchwork", {}, "Patches: nothing is given yet. Add a row."),
        ("patchwork", {"patches": []}, "Patches: nothing is given yet. Add a row."),
        ("patchwork", {"patches": "3 in"},
         "Patches: these are rows: write each under [[tab.given.patches]]."),
        ("panel", {"width": "1/4 in"}, "Width: 1/4 in is less than 1/2 in, the least that makes sense."),
        ("panel", {"width": "501 in"}, "Width: 501 in is more than 500 in, the most that is worked out."),
        ("top", {"widths": "30 in; 1/2 in; 31 in"},
         "Widths: 1/2 in is less than 1 in, the least that makes sense."),
        ("naughty", {"how": 12}, "How: 12 is more than 9, the most that is worked out."),
        ("patchwork", {"patches": [{"width": "2 in"}, {"widht": "2 in"}]},
         "row 2 has an unknown column 'widht'. Did you mean width?"),
        ("patchwork", {"patches": [{"width": "2 in"}, {"widht": "2 in"}]},
         "row 2, Width: nothing is given yet. Type it, as 12 in, or link it to another tab."),
        ("patchwork", {"patches": [{"width": "60 in"}]},
         "row 1, Width: 60 in is more than 50 in, the most that is worked out."),
        ("mood", {"button": "lrge"}, "Button: the table of buttons has no “lrge”. Did you mean “large”?"),
        ("mood", {"button": "zzz"}, "Button: the table of buttons has no “zzz”. Choose one of small, large."),
        ("cloth", {"fabric": "Moos"}, "Fabric: the project has no fabric “Moos”. Did you mean “Moss”?"),
        ("cloth", {"fabric": "Zz"},
         "Fabric: the project has no fabric “Zz”. Add it to the project's fabrics first."),
        ("cloth", {"usable_width": "0 in"}, "Usable width: it must be more than nothing."),
        ("cloth", {"usable_width": "1200 in"},
         "Usable width: it must be at most 150 in (381 cm): the widest cloth, for backings, is some 118 in "
         "(3 m)."),
        ("cloth", {"prewash_along": "100 %"}, "Loss in the wash: it must be from 0 to 99 %."),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_with_a_way_out(
    small: Any, bench: Any, calculator: str, given_: dict[str, Any], said: str
) -> None:
    made = add_fabric(small.project(("T", calculator, given_)), "Moss")
    assert said in why(bench, made)
    assert bench.calls == []


def test_every_trouble_of_a_tab_is_told_at_once(small: Any, bench: Any) -> None:
    wrong = {"width": "x", "spaced": "maybe", "by": small.link("P", "count")}
    made = small.project(("P", "panel", {"width": "9 in"}), ("T", "panel", wrong))
    result = Workbook(bench, made).result("T")
    assert sorted(t.given for t in result.troubles) == ["by", "spaced", "width"]


def test_in_a_metric_project_limits_defaults_and_examples_are_metric(small: Any, bench: Any) -> None:
    made = small.project(
        ("T", "panel", {"width": "1 cm"}),
        ("U", "panel", {}),
        ("V", "panel", {"width": 30}),
        units="centimetres",
    )
    book = Workbook(bench, made)
    assert why(bench, made) == ["Width: 1 cm is less than 1.27 cm, the least that makes sense."]
    assert "Type it, as 30 cm" in book.result("U").why
    assert book.result("V").args == {
        "width": Fraction(30 * 50, 127),
        "by": Fraction(100, 127),
        "spaced": False,
    }


def test_a_former_name_still_speaks_for_a_given_and_the_new_name_wins(small: Any, bench: Any) -> None:
    made = add_fabric(add_fabric(small.project(("T", "cloth", {"cloth": "Moss"})), "Moss"), "Slate")
    assert Workbook(bench, made).result("T").found["name"] == "Moss"
    made = edits.set_given(made, made.tab("T").key, "fabric", "Slate")
    result = Workbook(bench, made).result("T")
    assert result.troubles[0].why == "cloth has no given 'cloth'."
    made = edits.set_given(made, made.tab("T").key, "cloth", None)
    assert Workbook(bench, made).result("T").found["name"] == "Slate"


def speaks(book: Workbook, given_: str) -> tuple[str, Any]:
    prepared = book.prepared(book.project.tab("T").key)
    assert prepared is not None
    return prepared.states[given_].speaks, prepared.states[given_].value


def test_tab_over_fabric_over_project_over_calculator_over_boltend(small: Any, bench: Any) -> None:
    made = small.project(("T", "cloth", {}))
    key = made.tab("T").key
    book = Workbook(bench, made)
    assert speaks(book, "usable_width") == ("boltend", 42)
    assert speaks(book, "layers") == ("calculator", 4)
    assert speaks(book, "fabric") == ("empty", None)
    made = edits.set_setting(edits.set_setting(made, "usable_width", "41 in"), "layers", 6)
    book.update(made)
    assert speaks(book, "usable_width") == ("project", 41)
    assert speaks(book, "layers") == ("project", 6)
    made = add_fabric(made, "Moss", {"usable_width": "40 in", "prewash_along": "3 %"})
    made = edits.set_given(made, key, "fabric", "moss")
    book.update(made)
    assert speaks(book, "usable_width") == ("fabric", 40)
    assert speaks(book, "prewash_along") == ("fabric", 3)
    made = edits.set_given(made, key, "usable_width", "39 in")
    book.update(made)
    assert speaks(book, "usable_width") == ("typed", 39)
    found = book.result("T").found
    assert (found["width"], found["layers"], found["loss"], found["name"]) == (39, 6, 3, "Moss")
    book.update(edits.set_given(made, key, "usable_width", ""))
    assert speaks(book, "usable_width") == ("fabric", 40)


def test_with_two_fabrics_each_speaks_for_itself_but_the_tab_speaks_over_both(small: Any, bench: Any) -> None:
    made = small.project(("T", "cloth", {"fabric": "Moss", "other": "Slate"}))
    made = add_fabric(add_fabric(made, "Moss", {"usable_width": "40 in"}), "Slate", {"usable_width": "44 in"})
    book = Workbook(bench, made)
    assert speaks(book, "usable_width") == ("boltend", 42)
    assert book.result("T").found["width"] == 40  # asked of the first fabric by the calculator itself
    book.update(edits.set_given(made, made.tab("T").key, "usable_width", "45 in"))
    assert book.result("T").found["width"] == 45


def test_a_precut_loses_nothing_to_squaring_unless_it_says_so(small: Any, bench: Any) -> None:
    made = small.project(("T", "cloth", {"fabric": "Strips"}), squaring="1 in")
    made = add_fabric(made, "Strips", {"form": "strips"})
    book = Workbook(bench, made)
    assert book.result("T").found["squaring"] == 0
    row = made.find_fabric("Strips")
    assert row is not None
    book.update(set_fabric(made, row.key, "squaring", "1/8 in"))
    assert book.result("T").found["squaring"] == Fraction(1, 8)
    book.update(set_fabric(made, row.key, "form", "bolt"))
    assert book.result("T").found["squaring"] == 1


@pytest.mark.parametrize(
    ("name", "raw", "said"),
    [
        ("seam", "1/4 zz", "the project's seam “1/4 zz”"),
        ("seam", 0.25, 'write it in quotes: "1/4 in"'),
        ("seam", "-1/4 in", "the project's seam is -1/4 in: it must not be negative. Change it there."),
        ("usable_width", "0 in", "the project's usable width is 0 in: it must be more than nothing."),
        (
            "usable_width",
            "10000 in",
            "the project's usable width is 10000 in: it must be at most 150 in (381 cm): the widest cloth",
        ),
        ("prewash_along", "100 %", "the project's prewash along is 100 %: it must be from 0 to 99 %."),
        ("size_step", "0 in", "the project's size step is 0 in: it must be more than nothing."),
        (
            "units",
            "furlongs",
            'the project\'s units are \'furlongs\'. Write units = "inches" or "centimetres".',
        ),
        ("units", ["inches"], "the project's units are ['inches']."),
        ("currency", "dollars", "the project's currency is 'dollars'. Write its three letters"),
    ],
)
def test_a_wrong_setting_of_the_project_stops_every_tab_with_its_reason(
    small: Any, bench: Any, name: str, raw: object, said: str
) -> None:
    made = edits.set_setting(small.chain(2), name, raw)
    book = Workbook(bench, made)
    assert [r.state for r in book.results.values()] == ["cannot", "cannot"]
    assert said in book.result("P1").why
    assert book.basis.troubles[0].given == name
    book.update(edits.set_setting(made, name, None))
    assert book.result("P2").found["width"] == 12


def test_a_wrong_setting_of_a_fabric_harms_only_the_tabs_on_that_fabric(small: Any, bench: Any) -> None:
    made = small.project(
        ("T", "cloth", {"fabric": "Moss"}), ("U", "cloth", {"fabric": "Slate"}), ("V", "cloth", {})
    )
    made = add_fabric(add_fabric(made, "Moss", {"usable_width": "wide"}), "Slate", {"usable_width": "40 in"})
    book = Workbook(bench, made)
    assert [r.state for r in book.results.values()] == ["cannot", "worked out", "worked out"]
    assert book.result("T").why.startswith("Fabric: fabric “Moss”: usable width “wide”")


@pytest.mark.parametrize(
    ("units", "raw", "state"),
    [
        ("inches", "118 in", "worked out"),
        ("inches", "150 in", "worked out"),
        ("inches", "150 1/8 in", "cannot"),
        ("centimetres", "381 cm", "worked out"),
        ("centimetres", "4200 mm", "cannot"),
    ],
)
def test_no_cloth_is_wider_than_any_that_is_sold(
    small: Any, bench: Any, units: str, raw: str, state: str
) -> None:
    made = small.project(("T", "cloth", {"fabric": "Moss"}), units=units)
    result = Workbook(bench, add_fabric(made, "Moss", {"usable_width": raw})).result("T")
    assert result.state == state
    assert ("it must be at most 150 in (381 cm)" in result.why) == (state == "cannot")


def test_a_key_that_no_fabric_has_is_no_setting_of_it(small: Any, bench: Any) -> None:
    made = add_fabric(
        small.project(("T", "cloth", {"fabric": "Moss"})), "Moss", {"seam": "1 in", "layers": 2}
    )
    found = Workbook(bench, made).result("T").found
    assert (found["seam"], found["layers"]) == (Fraction(1, 4), 4)


def test_of_two_fabrics_with_one_name_the_first_is_meant(small: Any, bench: Any) -> None:
    made = add_fabric(small.project(("T", "cloth", {"fabric": "moss"})), "Moss", {"usable_width": "40 in"})
    twins = (*made.fabrics, FabricRow(new_key(), {"name": "Moss", "usable_width": "44 in"}))
    twins = (*twins, FabricRow(new_key(), {"name": "MOSS", "usable_width": "45 in"}))
    assert Workbook(bench, replace(made, fabrics=twins)).result("T").found["width"] == 40


def test_a_name_is_found_in_whatever_form_its_accents_were_typed(small: Any, bench: Any) -> None:
    made = add_fabric(
        small.project(("T", "cloth", {"fabric": "A\u0308rmel"})), "\u00c4rmel", {"usable_width": "40 in"}
    )
    assert Workbook(bench, made).result("T").found["width"] == 40
    made = add_fabric(
        small.project(("T", "cloth", {"fabric": "\u00e4rmel"})), "A\u0308rmel", {"usable_width": "40 in"}
    )
    assert Workbook(bench, made).result("T").found["width"] == 40


def test_renaming_a_fabric_is_carried_into_the_tabs_that_name_it(small: Any, bench: Any) -> None:
    made = add_fabric(small.project(("T", "cloth", {"fabric": "moss"})), "Moss", {"usable_width": "40 in"})
    book = Workbook(bench, made)
    row = made.find_fabric("Moss")
    assert row is not None
    after = rename_fabric(made, row.key, "Fern", [(made.tab("T").key, "fabric", None)])
    book.update(after)
    found = book.result("T").found
    assert (found["name"], found["width"]) == ("Fern", 40)
    book.update(rename_fabric(made, row.key, "Fern"))  # not told where it is used: then the tab says so
    assert "no fabric “moss”" in book.result("T").why


def test_a_size_typed_as_the_other_kind_is_converted_by_the_projects_seam(small: Any, bench: Any) -> None:
    made = small.project(("T", "panel", {"width": "12 1/2 in cut"}), seam="3/8 in")
    assert Workbook(bench, made).result("T").args["width"] == Fraction(47, 4)
