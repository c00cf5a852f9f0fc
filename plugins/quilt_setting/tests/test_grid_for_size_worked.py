"""A grid for a size as a person meets it: by hand, in words, in both systems, and within its limits."""

from fractions import Fraction as Fr
from time import perf_counter
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from boltend.plugin import Cannot, Polygon, Rect, Settings
from boltend.testing import Worked, check, work
from boltend_quilt_setting.grid_for_size import MOST_CHOICES, grid_for_size
from boltend_quilt_setting.grid_for_size_say import say
from boltend_quilt_setting.on_point import on_point
from boltend_quilt_setting.straight_set import straight_set

QUEEN: dict[str, Any] = {"target_width": "86 in", "target_height": "93 in", "block_width": "9 in"}


def choices(worked: Worked) -> list[tuple[Any, ...]]:
    rows: Any = worked.found["choices"]
    return [tuple(row[n] for n in ("across", "down", "border_sides", "border_ends")) for row in rows]


def test_a_queen_bed_of_nine_inch_blocks() -> None:
    """86 × 93 in. 9 · 9 + 5 = 86 and 10 · 9 + 5 = 95: 2 in over one way; then 93 × 93; then no border."""
    worked = work(grid_for_size, **QUEEN)
    assert choices(worked) == [
        (9, 10, Fr(5, 2), Fr(5, 2)), (8, 9, 7, 7), (7, 8, Fr(23, 2), Fr(23, 2)),
        (10, 10, Fr(3, 2), Fr(3, 2)), (9, 9, 6, 6), (8, 8, Fr(21, 2), Fr(21, 2)), (10, 11, 0, 0),
    ]  # fmt: skip
    found = worked.found
    assert (found["width"], found["height"], found["over_width"], found["over_height"]) == (86, 95, 0, 2)
    assert found["blocks"] == 90
    assert worked.cautions == []
    said = " ".join(worked.working)
    assert "width = 9 × 9 in + 2 × 2 1/2 in border = 86 in finished" in said
    assert "the width wanted is 86 in: reached exactly" in said
    assert "the height wanted is 93 in: 2 in over" in said
    assert "choice 1 of 7" in said
    assert "least area over the target first" in said


def test_who_named_no_border_is_answered_too() -> None:
    """A start sets a narrowest border of 1 in. 9 · 9 = 81 and 10 · 9 = 90 fall short; 90 and 99 do not."""
    found = work(grid_for_size, **QUEEN, border_least="1 in").found
    assert found["without_border"] == "110 blocks, 10 × 11"
    assert (found["bare_width"], found["bare_height"]) == (90, 99)
    assert found["blocks"] == 90  # with the border that was allowed


def test_sides_and_ends_that_differ_reach_it_exactly() -> None:
    """86 − 81 = 5 and 93 − 90 = 3: 2 1/2 at the sides, 1 1/2 at the ends. The most alike come first."""
    worked = work(grid_for_size, **QUEEN, reach="exactly", sides_and_ends="may differ")
    halves = [(9, 10, Fr(5, 2), Fr(3, 2)), (8, 9, 7, 6), (7, 8, Fr(23, 2), Fr(21, 2))]
    assert choices(worked)[:3] == halves
    assert len(choices(worked)) == 9
    at_least = work(grid_for_size, **QUEEN, sides_and_ends="may differ")
    assert choices(at_least)[:9] == choices(worked)


def test_pick_goes_on_with_another_choice() -> None:
    found = work(grid_for_size, **QUEEN, pick=2).found
    assert (found["across"], found["down"], found["blocks"], found["border_sides"]) == (8, 9, 72, 7)


def test_a_wider_least_border_asks_for_fewer_blocks() -> None:
    assert choices(work(grid_for_size, **QUEEN, border_least="6 in"))[0] == (8, 9, 7, 7)


def test_a_sash_lies_between_blocks_only() -> None:
    # 7 · 10 + 6 · 2 + 2 · 2 = 86; 8 · 10 + 7 · 2 + 2 · 2 = 98.
    given_: dict[str, Any] = {**QUEEN, "block_width": "10 in", "sash": "2 in", "target_height": "98 in"}
    worked = work(grid_for_size, **given_, reach="exactly")
    assert choices(worked)[0] == (7, 8, 2, 2)
    assert "width = 7 × 10 in + 6 × 2 in sash + 2 × 2 in border = 86 in finished" in " ".join(worked.working)


def test_oblong_blocks() -> None:
    # 4 · 6 + 2 · 3 = 30 and 3 · 10 + 2 · 3 = 36.
    worked = work(
        grid_for_size, target_width="30 in", target_height="36 in", block_width="6 in", block_height="10 in",
        border_least="3 in", border_most="3 in",
    )  # fmt: skip
    assert choices(worked) == [(4, 3, 3, 3)]


def test_nothing_exact_names_the_nearest_and_what_would_do() -> None:
    with pytest.raises(Cannot) as caught:
        work(grid_for_size, **QUEEN, reach="exactly")
    assert caught.value.given == "reach"
    assert "86 in × 93 in" in caught.value.why
    assert "9 × 10 with a border of 2 in, 1 in too narrow and 1 in too long" in caught.value.why
    assert "9 × 10 with a border of 2 1/2 in at the sides and 1 1/2 in at the ends" in caught.value.way_out


def test_where_other_ends_do_not_help_nobody_is_sent_there() -> None:
    with pytest.raises(Cannot) as caught:
        work(grid_for_size, **{**QUEEN, "target_width": "86 1/16 in"}, reach="exactly")
    assert caught.value.way_out == "Reach at least or nearest, or take a finer step or wider limits."
    assert "1/16 in" in caught.value.why


def test_nothing_exact_speaks_in_centimetres_too() -> None:
    metric: dict[str, Any] = {"target_width": "100 cm", "target_height": "101 cm", "block_width": "30 cm"}
    with pytest.raises(Cannot) as caught:
        work(grid_for_size, units="centimetres", **metric, reach="exactly", border_most="4 cm")
    assert "100 cm × 101 cm" in caught.value.why
    assert "3 × 3 with a border of 5 cm" not in caught.value.why
    assert "3 × 3 with a border of 4 cm, 2 cm too narrow and 3 cm too short" in caught.value.why


def test_the_nearest_says_what_is_missing() -> None:
    worked = work(grid_for_size, **QUEEN, reach="nearest")
    assert choices(worked)[0] == (9, 10, 2, 2)
    assert (worked.found["over_width"], worked.found["over_height"]) == (-1, 1)
    assert worked.cautions == ["The quilt is 1 in narrower than wanted."]
    low = work(grid_for_size, **{**QUEEN, "target_height": "92 in"}, reach="nearest", border_most="0 in")
    assert choices(low)[0] == (10, 10, 0, 0)
    assert low.cautions == ["The quilt is 2 in shorter than wanted."]


def test_on_point_exactly_means_to_the_step_that_is_shown() -> None:
    """2 · 12 · √2 + 2 · 4 = 41.941 in: that is 41 15/16 (41.9375) as sizes are shown, and not 42."""
    said: dict[str, Any] = {"block_width": "12 in", "blocks_set": "on point", "reach": "exactly"}
    worked = work(grid_for_size, target_width="41 15/16 in", target_height="41 15/16 in", **said)
    assert choices(worked) == [(2, 2, 4, 4)]
    assert (worked.found["width"], worked.found["over_width"]) == (Fr(671, 16), 0)
    assert "exactly means within 1/32 in, half the step" in " ".join(worked.working)
    with pytest.raises(Cannot, match="≈ 1/16 in too narrow"):
        work(grid_for_size, target_width="42 in", target_height="42 in", **said)
    coarse = {"size_step": "1/8 in"}
    assert work(grid_for_size, target_width="42 in", target_height="42 in", **said, settings=coarse)


def test_the_name_of_the_vocabulary_is_taken_too() -> None:
    by_name = work(grid_for_size, **QUEEN, setting="on point").found
    assert by_name == work(grid_for_size, **QUEEN, blocks_set="on point").found
    assert by_name["across"] == 6


@pytest.mark.parametrize("sash", ["0 in", "1 1/2 in"])
def test_the_size_is_that_of_the_set_with_its_borders(sash: str) -> None:
    """What the calculators of the sets make of the found blocks, and twice the border: to a hair the same."""
    for how, set_, block in (("straight", straight_set, "block_width"), ("on point", on_point, "block")):
        found = work(grid_for_size, **QUEEN, sash=sash, blocks_set=how).unrounded
        more = {"block_height": "9 in"} if how == "straight" else {}
        top = work(
            set_, **{block: "9 in"}, **more, across=found["across"], down=found["down"], sash=sash
        ).unrounded
        sizes: Any = [(found[n], top[n]) for n in ("width", "height")]
        borders: Any = found["border_sides"], found["border_ends"]
        for (whole, inner), border in zip(sizes, borders, strict=True):
            assert whole == inner + 2 * border
        assert found["blocks"] == top["blocks"]


@pytest.mark.parametrize("how", ["straight", "on point"])
def test_the_picture_lies_within_the_border(how: str) -> None:
    worked = work(grid_for_size, **QUEEN, blocks_set=how)
    border, *inside = worked.answer.picture
    assert isinstance(border, Rect)
    assert (border.fill, border.width, border.height) == (
        "border", worked.unrounded["width"], worked.unrounded["height"]
    )  # fmt: skip
    wide: Any = worked.found["border_sides"]
    xs: list[Any] = []
    for shape in inside:
        if isinstance(shape, Rect):
            xs += [shape.x, shape.x + shape.width]
        elif isinstance(shape, Polygon):
            xs += [x for x, _ in shape.corners]
    assert (min(xs), max(xs)) == (wide, border.width - wide)
    fills = [shape.fill for shape in inside if isinstance(shape, Rect | Polygon)]
    assert fills.count("block") + fills.count("inner block") == worked.found["blocks"]


@pytest.mark.parametrize(
    ("said", "named"),
    [({"target_width": "0 in"}, "target_width"), ({"target_height": "1001 in"}, "target_height"),
     ({"block_width": "1/4 in"}, "block_width"), ({"sash": "-1 in"}, "sash"), ({"step": "0 in"}, "step"),
     ({"border_most": "37 in"}, "border_most"), ({"reach": "about"}, "reach"), ({"pick": 0}, "pick"),
     ({"border_least": "2 1/8 in", "border_most": "2 1/4 in"}, "border_most"),
     ({"border_least": "12 1/2 in"}, "border_most"),
     ({"pick": 8}, "pick"), ({"blocks_set": "on point", "block_height": "8 in"}, "block_height"),
     ({"target_width": "900 in", "block_width": "1/2 in"}, "block_width"),
     ({"target_height": "900 in", "block_height": "1/2 in"}, "block_height")],
)  # fmt: skip
def test_beyond_the_limits_the_given_is_named(said: dict[str, Any], named: str) -> None:
    with pytest.raises(Cannot) as caught:
        work(grid_for_size, **{**QUEEN, **said})
    assert caught.value.given == named
    assert caught.value.why


def test_more_choices_than_are_listed_are_counted() -> None:
    worked = work(
        grid_for_size, target_width="60 in", target_height="70 in", block_width="1 in", border_most="12 in",
        sides_and_ends="may differ",
    )  # fmt: skip
    rows: Any = worked.found["choices"]
    assert len(rows) == MOST_CHOICES
    # Each way 60 or 70 to 24 fewer blocks, with the border that makes up for them to the half inch.
    assert f"choice 1 of {25 * 25}, of which the first 50 are listed" in " ".join(worked.working)
    with pytest.raises(Cannot, match="the first 50 of 625 choices are listed"):
        work(
            grid_for_size, target_width="60 in", target_height="70 in", block_width="1 in", pick=51,
            sides_and_ends="may differ",
        )  # fmt: skip


@pytest.mark.parametrize("reach", ["at least", "nearest", "exactly"])
@pytest.mark.parametrize("how", ["straight", "on point"])
def test_inches_and_centimetres_answer_alike(how: str, reach: str) -> None:
    said: dict[str, Any] = {"blocks_set": how, "reach": reach, "sides_and_ends": "may differ"}
    steps = {"size_step": "1/4 in" if how == "on point" else "1 mm"}
    inches = work(
        grid_for_size, target_width="85 in", target_height="101 in", block_width="10 in", sash="1 in",
        border_most="10 in", step="1/8 in", settings=steps, **said,
    )  # fmt: skip
    metric = work(
        grid_for_size, units="centimetres", target_width="215.9 cm", target_height="256.54 cm",
        block_width="25.4 cm", sash="2.54 cm", border_most="25.4 cm", step="3.175 mm", settings=steps, **said,
    )  # fmt: skip
    assert inches.found == metric.found


def test_it_keeps_the_contract() -> None:
    check(grid_for_size, may_be_zero=("border_sides", "border_ends"), **QUEEN)


@settings(max_examples=40, deadline=None)
@given(
    said=st.fixed_dictionaries({
        "target_width": st.sampled_from(["1 in", "86 in", "100 1/3 in", "1000 in"]),
        "target_height": st.sampled_from(["1 in", "93 in", "1000 in"]),
        "block_width": st.sampled_from(["1/2 in", "9 1/7 in", "120 in"]),
        "blocks_set": st.sampled_from(["straight", "on point"]), "sash": st.sampled_from(["0 in", "36 in"]),
        "border_least": st.sampled_from(["0 in", "3/16 in"]),
        "border_most": st.sampled_from(["36 in", "1 in"]),
        "step": st.sampled_from(["1/16 in", "1/3 in", "12 in"]),
        "reach": st.sampled_from(["exactly", "at least", "nearest"]),
        "sides_and_ends": st.sampled_from(["alike", "may differ"]),
    }),
)  # fmt: skip
@example(  # some twenty thousand grids, on point: the most there can be
    said={
        "target_width": "240 in", "target_height": "240 in", "block_width": "1/2 in", "sash": "0 in",
        "blocks_set": "on point", "border_least": "0 in", "border_most": "36 in", "step": "1/16 in",
        "reach": "nearest", "sides_and_ends": "alike",
    }
)  # fmt: skip
def test_within_the_limits_there_is_an_answer_in_bounded_time(said: dict[str, Any]) -> None:
    begin = perf_counter()
    cannot: Cannot | None = None
    try:
        work(grid_for_size, **said)
    except Cannot as refused:
        cannot = refused
    assert perf_counter() - begin < 10  # some tenths of a second here, alone
    assert cannot is None or (cannot.given in ("reach", "block_width", "border_most") and cannot.way_out)


@pytest.mark.parametrize(
    ("inches", "system", "step", "text"),
    [(Fr(25, 2), "in", Fr(1, 16), "12 1/2 in"), (Fr(3, 4), "in", Fr(1, 16), "3/4 in"),
     (Fr(0), "in", Fr(1, 16), "0 in"),
     (Fr(50, 127), "cm", Fr(5, 127), "1 cm"), (Fr(1, 3), "in", Fr(1, 16), "≈ 5/16 in"),
     (Fr(1, 100), "in", Fr(1, 100), "≈ 0.01 in"), (Fr(1), "cm", Fr(5, 127), "≈ 2.5 cm")],
)  # fmt: skip
def test_lengths_in_a_refusal(inches: Fr, system: Any, step: Fr, text: str) -> None:
    assert say(inches, Settings(system=system, size_step=step)) == text


def test_five_hundred_blocks_in_a_row_are_the_most() -> None:
    said: dict[str, Any] = {"target_height": "1 in", "block_width": "1/2 in", "border_most": "0 in"}
    assert work(grid_for_size, target_width="250 in", **said).found["across"] == 500
    with pytest.raises(Cannot, match="more than 500 blocks"):
        work(grid_for_size, target_width="250 1/2 in", **said)
