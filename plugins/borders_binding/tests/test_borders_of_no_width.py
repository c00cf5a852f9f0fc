"""Borders of no width: left out and said, whole or on two edges; further ones that nobody asks for."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Cannot
from boltend.testing import Worked, work
from boltend_borders_binding.border_repeat import border_repeat
from boltend_borders_binding.border_to_size import border_to_size
from boltend_borders_binding.borders import borders

OUTER = {"name": "outer", "width": "5 in"}


def bordered(*rows: dict[str, Any], **said: Any) -> Worked:
    return work(borders, **{"top_width": "61 in", "top_height": "83 in", "borders": list(rows), **said})


def repeated(**said: Any) -> Worked:
    plain = {"top_width": "61 in", "top_height": "83 in", "repeat": "6 in", "border_width": "3 in"}
    return work(border_repeat, **{**plain, **said})


def test_a_border_without_a_width_is_left_out_and_said() -> None:
    none = {"name": "spacer", "width": "0 in", "fabric": "Slate"}
    with_it, without = bordered(none, OUTER), bordered(OUTER)
    assert with_it.working[0] == "spacer has no width: left out."
    assert with_it.working[1:] == without.working
    assert (with_it.found, with_it.cautions) == (without.found, without.cautions)
    assert with_it.answer.runs == without.answer.runs
    unnamed = bordered({"width": "2 in"}, {"width": "0 in"})
    assert unnamed.working[0] == "Border 2 has no width: left out."
    # Alone it leaves the top as it is, and nothing to cut.
    alone = bordered(none)
    assert (alone.found["width"], alone.found["height"]) == (61, 83)
    assert (alone.found["strips"], alone.found["length_to_buy"], alone.found["each"]) == (0, 0, ())
    assert (alone.answer.runs, alone.answer.pieces) == ([], [])
    assert alone.cautions == []


@pytest.mark.parametrize("corners", ["sides first", "ends first", "cornerstones"])
def test_a_border_on_two_edges_only(corners: str) -> None:
    # No sides: the ends go on a top 61 in wide, 61 1/2 raw, two of them 123: three strips of 3 1/2 less two
    # joins are 119, four less three 157 1/2. The quilt grows in height alone.
    ends = bordered({"name": "it", "width": "0 in", "width_ends": "3 in", "corners": corners})
    assert (ends.found["width"], ends.found["height"]) == (61, 89)
    (row,) = ends.found["each"]  # type: ignore[misc]  # rows
    assert (row["sides_cut"], row["ends_cut"], row["strip_width"]) == (None, Fr(123, 2), None)
    assert (row["strip_width_ends"], row["strips"], row["cornerstones"]) == (Fr(7, 2), 4, 0)
    assert [(run.name, run.wants) for run in ends.answer.runs] == [("it, ends", (Fr(123),))]
    assert ends.answer.pieces == []
    assert "The sides of it have no width, so they are left out." in ends.cautions
    assert ends.cautions == ["The sides of it have no width, so they are left out."]
    assert not any("sides" in said.replace("sides first", "") for said in ends.working)
    # No ends: the sides are 83 1/2; 167 in take five strips (four less three joins are 157 1/2).
    sides = bordered({"name": "it", "width": "3 in", "width_ends": "0 in", "corners": corners})
    assert (sides.found["width"], sides.found["height"], sides.found["strips"]) == (67, 83, 5)
    assert (sides.found["sides_cut"], sides.found["ends_cut"]) == (Fr(167, 2), None)
    assert "The ends of it have no width, so they are left out." in sides.cautions
    # Lengthwise there are two strips, not four.
    long = bordered({"width": "3 in", "width_ends": "0 in", "corners": corners, "grain": "lengthwise"})
    assert (long.found["strips"], long.unrounded["length_to_buy"]) == (2, Fr(167, 2))


def test_a_found_spacer_of_none_goes_on_to_the_borders() -> None:
    # 60 is ten of 6 and 84 fourteen: no spacer.
    fit = repeated(top_width="60 in", top_height="84 in").found
    assert (fit["spacer_sides"], fit["spacer_ends"]) == (0, 0)
    spacer = {"width": f"{fit['spacer_sides']} in", "width_ends": f"{fit['spacer_ends']} in"}
    laid = bordered(spacer, {"width": "3 in"}, top_width="60 in", top_height="84 in")
    assert (laid.found["width"], laid.found["height"]) == (66, 90)


def test_no_found_spacer_is_one_that_the_borders_refuse() -> None:
    # Spacers of 1/8 in would make 59 3/4 by 83 3/4 just 60 by 84; the next that do are 3 in wider: 66 by 90.
    fit = repeated(top_width="59 3/4 in", top_height="83 3/4 in")
    assert (fit.found["spacer_sides"], fit.found["spacer_ends"]) == (Fr(25, 8), Fr(25, 8))
    rows: Any = fit.found["choices"]
    assert {row["spacer_sides"] for row in rows} >= {0, Fr(1, 4)}  # eased: 1/4 in in each of ten
    spacers = {row[name] for row in rows for name in ("spacer_sides", "spacer_ends")}
    assert not [each for each in spacers if 0 < each < Fr(1, 4)]
    # 1/4 in itself makes 59 1/2 by 83 1/2 fit, and goes on.
    least = repeated(top_width="59 1/2 in", top_height="83 1/2 in", spacer_least="1/8 in").found
    assert (least["spacer_sides"], least["spacer_ends"]) == (Fr(1, 4), Fr(1, 4))
    spacer = {"width": f"{least['spacer_sides']} in", "width_ends": f"{least['spacer_ends']} in"}
    laid = bordered(spacer, {"width": "3 in"}, top_width="59 1/2 in", top_height="83 1/2 in")
    assert (laid.found["width"], laid.found["height"]) == (66, 90)


def test_a_spacer_is_no_less_than_a_border_once_it_is_rounded() -> None:
    # 98.72 cm and two of 6.4 mm are ten repeats of 10 cm, but 6.4 mm goes on as 6 mm, and 1/4 in is 6.35 mm.
    # 98.4 cm and two of 8 mm are ten as well.
    said = {"units": "centimetres", "repeat": "10 cm", "step": "1.6 mm", "ease_most": "0 mm"}
    with pytest.raises(Cannot, match="no spacer makes it fit"):
        repeated(top_width="98.72 cm", top_height="98.72 cm", **said)
    fit = repeated(top_width="98.4 cm", top_height="98.4 cm", **said).found
    assert fit["spacer_sides"] == fit["spacer_ends"] == Fr(8, 10) / Fr(254, 100)


@pytest.mark.parametrize("width", ["1/8 in", "1/4 in"])
def test_a_border_is_a_quarter_inch_or_none(width: str) -> None:
    if width == "1/4 in":
        assert bordered({"width": width}).found["width"] == Fr(123, 2)
        return
    with pytest.raises(Cannot, match="Border 1 has a finished width of less than 1/4 in") as caught:
        bordered({"width": width})
    assert "or 0 where there is no border" in caught.value.way_out


@pytest.mark.parametrize("many", [1, 2, 3, 4])
def test_of_borders_that_are_not_asked_for_only_who_links_to_them_is_told(many: int) -> None:
    worked = work(border_to_size, top_width="60 in", top_height="60 in", target_width="80 in",
                  target_height="80 in", how_many=many)  # fmt: skip
    assert worked.cautions == []
    empty = [found for found in border_to_size.spec.founds if worked.found[found.name] is None]
    assert len(empty) == 2 * (4 - many)
    assert all("not asked for" in found.empty for found in empty)
