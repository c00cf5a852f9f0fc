"""What borders and bindings say of their own arithmetic: each number of a line worked by hand."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Cannot, Settings
from boltend.testing import Worked, work
from boltend_borders_binding.binding import binding
from boltend_borders_binding.border_repeat import border_repeat
from boltend_borders_binding.border_size_words import said_length
from boltend_borders_binding.borders import borders
from boltend_borders_binding.measured_blocks import measured_blocks


def bound(**said: Any) -> Worked:
    return work(binding, **{"width": "60 in", "height": "80 in", **said})


def test_a_binding_tells_its_length_and_its_strips() -> None:
    # 2 · 60 1/2 + 2 · 80 1/2 + 10 = 292; 8 · 42 − 7 · 2 1/2 = 318 1/2, 7 · 42 − 6 · 2 1/2 = 279.
    assert bound().working[:8] == [
        "Raw edges: 60 1/2 in and 80 1/2 in, a seam of 1/4 in round the finished size.",
        "Length: 2 × 60 1/2 in + 2 × 80 1/2 in + 10 in tail makes 292 in.",
        "Binding's finished width: (2 1/2 in strip − 2 × 1/8 in thickness) ÷ 6 makes 3/8 in, the "
        "seam as wide.",
        "Sewn with a seam of 1/4 in: 1/4 in shows in front and 5/8 in behind (strip ÷ 2 − 2 seams − "
        "thickness); "
        "points at that seam stay whole.",
        "A diagonal join takes 2 1/2 in: the strip's cut width.",
        "8 × 42 in − 7 × 2 1/2 in makes 318 1/2 in, for the 292 in wanted.",
        "7 would make 279 in.",
        "8 strips × 2 1/2 in = 20 in of cloth.",
    ]
    assert "A straight join takes 1/2 in: two seams." in bound(join="straight").working


def test_a_binding_of_one_strip_tells_no_fewer() -> None:
    worked = bound(width="5 in", height="5 in", tail="0 in", strip_width="1 1/2 in")
    assert "1 × 42 in − 0 × 1 1/2 in makes 42 in, for the 22 in wanted." in worked.working
    assert not any("would make" in said for said in worked.working)


def test_a_single_fold_tells_its_widths() -> None:
    # (1 1/2 − 1/8) ÷ 4 = 11/32; behind 1 1/2 − 3/4 − 1/8 = 5/8.
    said = bound(fold="single", strip_width="1 1/2 in").working
    width = "(1 1/2 in strip − 1 × 1/8 in thickness) ÷ 4 makes 11/32 in, the seam as wide."
    assert f"Binding's finished width: {width}" in said
    behind = "1/4 in shows in front and 5/8 in behind (strip − 3 seams − thickness, a seam turned under)"
    assert any(behind in each for each in said)


@pytest.mark.parametrize(("strip", "told"), [("1 1/4 in", False), ("1 3/8 in", True), ("1 in", False)])
def test_nothing_is_told_of_a_fold_that_shows_nothing_behind(strip: str, told: bool) -> None:
    # Half of 1 1/4 is 5/8, which two seams and 1/8 in use up; 1 3/8 leaves 1/16.
    said = bound(strip_width=strip).working
    assert any(each.startswith("Sewn with a seam") for each in said) == told


def test_strips_along_the_selvage_are_told() -> None:
    # 16 lie side by side; 289 1/2 ÷ 16 + 2 1/2 = 20 19/32, in the shop 22 1/2; 289 1/2 ÷ 20 is 14.5: 15
    # strips.
    said = bound(grain="lengthwise").working
    assert said[4:10] == [
        "A diagonal join takes 2 1/2 in: the strip's cut width.",
        "16 strips of 2 1/2 in lie side by side in 42 in.",
        "Shortest length: (292 in − 2 1/2 in) ÷ 16 + 2 1/2 in makes 20 19/32 in.",
        "The shop's step makes that 22 1/2 in to cut from.",
        "15 × 22 1/2 in − 14 × 2 1/2 in makes 302 1/2 in, for the 292 in wanted.",
        "14 would make 282 1/2 in.",
    ]


def test_a_bias_square_by_whole_turns_is_told() -> None:
    # Area: 292 · 2 1/2 = 730, 28 · 28 = 784. 28 in: 7 turns of 38.18 are 267; 29: 8 of √2 · 28 are 316.784.
    worked = bound(grain="bias")
    assert worked.unrounded["bias_square"] == 29
    assert worked.working[4:7] == [
        "By area alone: a square of 28 in, and nothing lost.",
        "A square of 29 in: 8 whole turns of √2 × (29 in − 4 × 1/4 in seam) give ≈ 316.784 in.",
        "In single bias strips instead, each join takes ≈ 0.707 in.",
    ]
    assert not any("curved or scalloped" in said for said in worked.working)
    assert any("curved or scalloped" in said for said in bound().working)


def test_a_bias_square_less_a_tenth_is_told() -> None:
    # 730 ÷ 0.9 = 811.1, 29 · 29 = 841; 841 ÷ 2 1/2 = 336.4, less a tenth 302.76.
    said = "A square of 29 in: 336 2/5 in by area, less 10 % is 302 19/25 in."
    assert said in bound(grain="bias", bias_loss="10 %").working


def test_a_binding_may_not_cover_the_whole_quilt() -> None:
    # A quilt of 1 in is 1 1/2 raw. (4 3/4 − 1/4) ÷ 6 = 3/4 on each side covers it; 4 5/8 leaves a hair.
    with pytest.raises(Cannot, match="cover the whole quilt"):
        bound(width="1 in", height="1 in", strip_width="4 3/4 in")
    assert bound(width="1 in", height="1 in", strip_width="4 5/8 in").unrounded["finished_width"] == Fr(
        35, 48
    )
    with pytest.raises(Cannot, match="none of it shows"):
        bound(strip_width="1 in", thickness="1/2 in")


OUTER = {"name": "outer", "width": "5 in"}


def bordered(*rows: dict[str, Any], **said: Any) -> Worked:
    return work(borders, **{"top_width": "61 in", "top_height": "83 in", "borders": list(rows), **said})


def test_two_borders_tell_their_strips() -> None:
    worked = bordered({"name": "inner", "width": "2 in"}, {**OUTER, "width_ends": "4 in"})
    assert worked.working[:15] == [
        "inner, sides first: sides 83 in finished + 1/2 in for two seams make 83 1/2 in.",
        "inner, sides first: ends 61 in finished + 1/2 in for two seams + 4 in for the two sides "
        "make 65 1/2 in.",
        "inner: strips 2 in finished + 2 × 1/4 in seam = 2 1/2 in wide.",
        "inner: 61 in × 83 in finished before it, 65 in × 87 in after it.",
        # 2 · 83 1/2 + 2 · 65 1/2 = 298.
        "inner: 8 × 42 in − 7 × 2 1/2 in for joins makes 318 1/2 in, for the 298 in wanted; 7 would "
        "make 279 in.",
        "inner: 8 strips × 2 1/2 in = 20 in.",
        "outer, sides first: sides 87 in finished + 1/2 in for two seams make 87 1/2 in.",
        "outer, sides first: ends 65 in finished + 1/2 in for two seams + 10 in for the two sides "
        "make 75 1/2 in.",
        "outer: strips 5 in finished + 2 × 1/4 in seam = 5 1/2 in wide.",
        "outer: strips of the ends 4 in finished + 2 × 1/4 in seam = 4 1/2 in wide.",
        "outer: 65 in × 87 in finished before it, 75 in × 95 in after it.",
        # 2 · 87 1/2 = 175 of one width, 2 · 75 1/2 = 151 of the other.
        "outer, sides: 5 × 42 in − 4 × 5 1/2 in for joins makes 188 in, for the 175 in wanted; 4 would make "
        "151 1/2 in.",
        "outer, sides: 5 strips × 5 1/2 in = 27 1/2 in.",
        "outer, ends: 4 × 42 in − 3 × 4 1/2 in for joins makes 154 1/2 in, for the 151 in wanted; 3 "
        "would make "
        "117 in.",
        "outer, ends: 4 strips × 4 1/2 in = 18 in.",
    ]
    assert worked.found["strips"] == 8 + 5 + 4
    assert worked.unrounded["length_to_buy"] == Fr(131, 2)  # 20 + 27 1/2 + 18
    assert worked.found["sides_cut"] is None
    assert worked.cautions == []
    assert "each border has its own" in borders.spec.found("sides_cut").empty


def test_ends_first_and_a_mitre_are_told() -> None:
    said = bordered({**OUTER, "width_ends": "4 in", "corners": "ends first"}).working
    sides = "sides 83 in finished + 1/2 in for two seams + 8 in for the two ends make 91 1/2 in."
    assert said[0] == f"outer, ends first: {sides}"
    assert said[1] == "outer, ends first: ends 61 in finished + 1/2 in for two seams make 61 1/2 in."
    # 83 + 1/2 + 2 · 5 + 1/2 · √2 + 2 = 96.207.
    said = bordered({**OUTER, "corners": "mitred", "spare": "2 in"}).working
    mitre = "10 in for two mitres + ≈ 0.707 in for their seams + 2 in to spare make ≈ 96.207 in."
    assert said[0] == f"outer, mitred: sides 83 in finished + 1/2 in for two seams + {mitre}"


def test_borders_mitred_together_count_as_one() -> None:
    rows = [
        {"name": name, "width": width, "corners": "mitred"} for name, width in (("a", "2 in"), ("b", "3 in"))
    ]
    worked = bordered(*rows)
    # Both are 83 + 10 + 1/2 · (1 + √2) long, though only the outer one reaches so far.
    mitre = "sides 83 in finished + 1/2 in for two seams + 10 in for two mitres + ≈ 0.707 in for their seams"
    for name in ("a", "b"):
        assert f"{name}, mitred: {mitre} make ≈ 94.207 in." in worked.working
    without = "A mitred strip without a spare is the exact least; a little more sews easier."
    assert without in worked.cautions
    spared = bordered(*({**row, "spare": "1 in"} for row in rows)).cautions
    assert without not in spared
    assert "The edge of a mitre lies on the bias and stretches: press, do not pull." in spared
    assert not any("mitre" in said for said in bordered(OUTER).cautions)


def test_a_strip_between_steps_tells_both_widths() -> None:
    said = bordered({**OUTER, "width": "2 1/16 in"}).working
    words = (
        "strips 2 1/16 in finished + 2 × 1/4 in seam = 2 9/16 in wide; cut 2 5/8 in, the next cutting step"
    )
    assert f"outer: {words}, and trim." in said


def test_each_side_by_itself_is_told() -> None:
    # 83 1/2 takes three, for two make 81 1/2; 65 1/2 takes two. Ten strips in all.
    said = bordered({"name": "inner", "width": "2 in"}, piecing="each side").working
    assert said[4:7] == [
        "inner: 3 × 42 in − 2 × 2 1/2 in for joins makes 121 in, for the 83 1/2 in wanted; 2 would "
        "make 81 1/2 in.",
        "inner: 2 × 42 in − 1 × 2 1/2 in for joins makes 81 1/2 in, for the 65 1/2 in wanted; 1 "
        "would make 42 in.",
        "inner: 10 strips × 2 1/2 in = 25 in.",
    ]
    small = bordered(
        {"name": "it", "width": "2 in"}, piecing="each side", top_width="20 in", top_height="20 in"
    )
    assert "it: one strip of 42 in gives the 20 1/2 in wanted." in small.working


def test_lengthwise_strips_are_told() -> None:
    said = bordered({"name": "inner", "width": "2 in", "grain": "lengthwise"}).working
    words = "side by side across 42 in as they fit, the longest 83 1/2 in: 83 1/2 in of fabric."
    assert f"inner: 4 strips without a join, {words}" in said
    # Strips 20 1/2 in wide, two side by side: the ends, 61 + 1/2 + 40 in long, then the sides of 83 1/2.
    wide = bordered({"name": "wide", "width": "20 in", "grain": "lengthwise"}).working
    words = "side by side across 42 in as they fit, the longest 101 1/2 in: 185 in of fabric."
    assert f"wide: 4 strips without a join, {words}" in wide


def test_cornerstones_are_told() -> None:
    row = {"name": "inner", "width": "2 in", "corners": "cornerstones"}
    same = "inner, cornerstone: 4 of 2 1/2 in × 2 1/2 in, from 2 1/2 in of the same fabric"
    assert any(said.startswith(same) for said in bordered(row).working)
    # Three of 12 1/2 in lie across 42, so four take two rows.
    wide = "inner, cornerstone: 4 of 12 1/2 in × 12 1/2 in, from 25 in of the same fabric"
    assert any(said.startswith(wide) for said in bordered({**row, "width": "12 in"}).working)
    own = bordered({**row, "fabric": "Slate", "cornerstone_fabric": "Chalk"})
    assert "inner, cornerstone: 4 of 2 1/2 in × 2 1/2 in, from their own fabric." in own.working
    assert own.found["length_to_buy"] is None
    (piece,) = own.answer.pieces
    assert (piece.count, piece.fabric) == (4, "Chalk")


@pytest.mark.parametrize(
    ("across", "along", "said"),
    [
        (
            "10 %",
            "5 %",
            "Washing first takes 10 % of the width (42 in leaves 37 4/5 in) and 5 % of the length.",
        ),
        ("0 %", "5 %", "Washing first takes 0 % of the width (42 in leaves 42 in) and 5 % of the length."),
        ("0 %", "0 %", None),
    ],
)
def test_washing_is_told(across: str, along: str, said: str | None) -> None:
    worked = bordered(OUTER, settings={"prewash_across": across, "prewash_along": along})
    assert [each for each in worked.working if "Washing" in each] == ([said] if said else [])


@pytest.mark.parametrize(("wanted", "short"), [("65 1/8 in", None), ("65 3/16 in", "3/16 in")])
def test_a_border_that_does_not_reach_tells_by_how_much(wanted: str, short: str | None) -> None:
    # 61 + 2 · 2 = 65; two sixteenths are what rounding may have cost on two sides.
    said = bordered({"name": "inner", "width": "2 in"}, target_width=wanted).cautions
    words = (
        f"The quilt is 65 in wide where {wanted} is wanted, {short} short: a border is missing, or too "
        "narrow."
    )
    assert (words in said) == (short is not None)
    assert any("is missing" in each for each in said) == (short is not None)


def test_fifty_borders_are_the_most() -> None:
    # Each of 1 in adds 2 in: 61 + 100.
    assert bordered(*[{"width": "1 in"}] * 50).unrounded["width"] == 161
    with pytest.raises(Cannot, match="more than 50"):
        bordered(*[{"width": "1 in"}] * 51)


def repeated(**said: Any) -> Worked:
    plain = {"top_width": "61 in", "top_height": "83 in", "repeat": "6 in", "border_width": "3 in"}
    return work(border_repeat, **{**plain, **said})


def test_a_repeat_that_fits_exactly_is_told() -> None:
    # 61 + 5 = 66 is eleven of 6; 83 + 1 = 84 is fourteen.
    assert repeated().working[:4] == [
        "across: 61 in + 2 × 2 1/2 in spacer = 66 in finished; 11 repeats of 6 in = 66 in, exactly",
        "down: 83 in + 2 × 1/2 in spacer = 84 in finished; 14 repeats of 6 in = 84 in, exactly",
        "repeats in all: 2 × (11 + 14) = 50, and 4 corners of 3 in square",
        "with the corners: 50 + 4 = 54",
    ]
    assert (repeated().found["repeats"], repeated().found["repeats_and_corners"]) == (50, 54)
    assert repeated().cautions == []
    assert (repeated().unrounded["width"], repeated().unrounded["height"]) == (
        72,
        90,
    )  # and 3 in on each side


def test_a_repeat_that_is_eased_is_told() -> None:
    # Without a spacer 60 1/2 is ten and half an inch, 83 1/2 fourteen less half an inch.
    worked = repeated(top_width="60 1/2 in", top_height="83 1/2 in", spacer_most="0 in")
    across, down = "60 1/2 in + 2 × 0 in spacer = 60 1/2 in", "83 1/2 in + 2 × 0 in spacer = 83 1/2 in"
    assert worked.working[:2] == [
        f"across: {across} finished; 10 repeats of 6 in = 60 in, 1/2 in left over, 1/20 in a repeat",
        f"down: {down} finished; 14 repeats of 6 in = 84 in, 1/2 in too little, 1/28 in a repeat",
    ]
    said = "It does not fit exactly: ease 1/20 in into every repeat, or take it from a few seams."
    assert worked.cautions == [said]


def test_a_smaller_repeat_is_told() -> None:
    # 60 and 85 are twelve and seventeen of 5, and of no other eighth from there to 6.
    worked = repeated(
        top_width="60 in", top_height="85 in", spacer_most="0 in", ease_most="0 in", repeat_least="5 in"
    )
    assert worked.unrounded["repeat_used"] == 5
    assert worked.cautions == ["The repeat is made 5 in instead of 6 in: all its units are cut anew."]


def test_a_repeat_that_fits_nowhere_tells_the_nearest() -> None:
    # 61 is ten of 6 and an inch, 83 fourteen less an inch.
    with pytest.raises(Cannot) as caught:
        repeated(spacer_most="0 in", ease_most="0 in")
    near = "10 repeats across with ≈ 0.1 in to ease in each, 14 repeats down with ≈ 0.071 in to ease in each"
    assert caught.value.why == f"no spacer makes it fit. Nearest: {near}."


@pytest.mark.parametrize(
    ("inches", "said"),
    [(Fr(5, 2), "2 1/2 in"), (Fr(1, 2), "1/2 in"), (Fr(3), "3 in"), (Fr(0), "0 in"), (Fr(65, 64), "≈ 1 in")],
)
def test_a_miss_is_told_in_sixteenths(inches: Fr, said: str) -> None:
    assert said_length(inches, Settings()) == said


def test_unequal_blocks_are_told() -> None:
    worked = work(measured_blocks, sizes="12 1/4 in; 12 1/2 in; 12 5/8 in", nominal="12 1/2 in")
    assert worked.working == [
        "3 blocks measured, from 12 1/4 in to 12 5/8 in: they differ by 3/8 in.",
        "1 below 12 1/2 in, 1 above it, 1 just so.",
        "Trim to the smallest: 12 1/4 in; finished 12 1/4 in − 2 seams of 1/4 in = 11 3/4 in.",
        "A coping strip on each side of the smallest: (12 1/2 in − 12 1/4 in) ÷ 2 = 1/8 in finished.",
    ]
    lost = "points that end 1/4 in from its edge lose their seam."
    assert worked.cautions == [f"The largest loses 3/16 in on each side: {lost}"]
    nominal = work(
        measured_blocks, sizes="12 1/4 in; 12 1/2 in; 12 5/8 in", nominal="12 1/2 in", trim="nominal",
        coping_most="1/16 in",
    )  # fmt: skip
    assert nominal.cautions == [
        "Short blocks (1) get a coping strip before they are trimmed; the smallest one of 1/8 in a side.",
        "A coping strip of 1/8 in is wider than 1/16 in: it shows. Make the block anew, or trim to "
        "the smallest.",
        f"The largest loses 1/16 in on each side: {lost}",
    ]
    even = work(measured_blocks, sizes="12 1/2 in; 12 1/2 in", nominal="12 1/2 in", coping_most="0 in")
    assert even.working[-1] == "None is short, so no coping strip is needed."
    assert even.cautions == []
