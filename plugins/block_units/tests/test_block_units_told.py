"""What the units say of their own arithmetic: each number of a line worked by hand, √2 = 1.41421356."""

from math import sqrt
from typing import Any

import pytest

from boltend.plugin import Cannot
from boltend.testing import Worked, work
from boltend_block_units.framed import framed_square
from boltend_block_units.geese import flying_geese
from boltend_block_units.half_square import half_square_triangles
from boltend_block_units.quarter_square import quarter_square_triangles
from boltend_block_units.square_in_square import square_in_square
from boltend_block_units.strip_grid import strip_pieced_grid


def framed(*widths: str, **said: Any) -> Worked:
    rounds = [{"width": width} for width in widths or ("1 1/4 in", "2 1/8 in")]
    return work(framed_square, **{"centre": "4 1/8 in", "count": 5, "rounds": rounds, **said})


def test_a_framed_square_tells_its_rounds() -> None:
    # 4 1/8, then 2 · 1 1/4 makes 6 5/8, then 2 · 2 1/8 makes 10 7/8, and a seam all round 11 3/8.
    assert framed().working[:8] == [
        "centre: 4 1/8 in + 2 × 1/4 in makes 4 5/8 in",
        "round 1, strip: 1 1/4 in + 2 × 1/4 in makes 1 3/4 in",
        "round 1, sides: as long as the square so far, 4 1/8 in + 2 × 1/4 in makes 4 5/8 in",
        "round 1, ends: longer by two finished strips, 4 5/8 in + 2 × 1 1/4 in makes 7 1/8 in",
        "the square is then 7 1/8 in raw, 6 5/8 in finished",
        "round 2, strip: 2 1/8 in + 2 × 1/4 in makes 2 5/8 in",
        "round 2, sides: as long as the square so far, 6 5/8 in + 2 × 1/4 in makes 7 1/8 in",
        "round 2, ends: longer by two finished strips, 7 1/8 in + 2 × 2 1/8 in makes 11 3/8 in",
    ]
    assert "as sewn it is 11 3/8 in: finished + 2 seams of 1/4 in, with nothing to trim" in framed().working


def test_an_oversize_framed_square_tells_what_is_trimmed() -> None:
    # Half of 1/4 in on each side goes to the last round: 2 1/4 finished, 11 5/8 as sewn, 11 3/8 trimmed.
    worked = framed(oversize="1/4 in")
    assert "round 2, strip: 2 1/8 in + 1/8 in oversize + 2 × 1/4 in makes 2 3/4 in" in worked.working
    assert "as sewn it is 11 5/8 in: trim to 11 3/8 in, half of 1/4 in off each side" in worked.working
    raw = [said for said in worked.working if said.startswith("the square is then")]
    assert raw == [
        "the square is then 7 1/8 in raw, 6 5/8 in finished"
    ]  # only of the round that is not trimmed


def test_strips_to_be_trimmed_tell_by_how_much_they_are_longer() -> None:
    said = "every side and end is cut 3/4 in longer, sewn, and trimmed even with the square"
    worked = framed(method="trimmed as sewn", spare="3/4 in")
    assert said in worked.working
    wants = [run.wants for run in worked.answer.runs]
    # Ten sides of 4 5/8 + 3/4 and ten ends of 7 1/8 + 3/4; then 7 1/8 and 11 3/8.
    assert [sorted({float(each) for each in run}) for run in wants] == [[5.375, 7.875], [7.875, 12.125]]
    assert [len(run) for run in wants] == [20, 20]
    assert not any("longer, sewn" in said for said in framed().working)


def test_a_halved_square_tells_its_corners() -> None:
    # Three squares give six corners. Legs: 11.375 − 0.25 · 3.41421356 = 10.52144661, on point · √2 =
    # 14.87957.
    worked = framed(method="halved into corners")
    assert "as sewn it is 11 3/8 in, and is cut so" in worked.working
    assert "a corner's finished legs: 11 3/8 in − 1/4 in × (2 + √2) makes ≈ 10.521 in" in worked.working
    assert "the block: ≈ 14.880 in × √2 for the centre on point makes ≈ 21.043 in" in worked.working
    assert "squares cut once: 3 give 6 corners, 1 more than wanted" in worked.working
    assert float(worked.unrounded["block"]) == pytest.approx(2 * (11.375 - 0.25 * (2 + sqrt(2))))  # type: ignore[arg-type]  # a length


def test_a_halved_square_for_a_block_tells_what_trimming_leaves() -> None:
    # 7.5 + 0.8536 = 8.3536, cut 8 3/8: 3 in less than 11 3/8, half of it off the last round of 2 1/8.
    worked = framed(method="halved into corners", finished_size="15 in")
    said = "as sewn it is 11 3/8 in: trim it evenly to 8 3/8 in, which leaves 5/8 in of the last round"
    assert said in worked.working


def test_an_oversize_halved_square_tells_its_oversize() -> None:
    # Legs of 7.5, 0.125 oversize and 0.8536: 8.4786, cut 8 1/2. Without a block 10.5214 − 0.125 = 10.3964.
    said = {"method": "halved into corners", "oversize": "1/8 in"}
    (legs,) = [told for told in framed(**said, finished_size="15 in").working if told.startswith("legs of")]
    assert legs.startswith(
        "legs of a corner, half of the block, with their seams: "
        "15 in ÷ 2 + 1/8 in oversize + 1/4 in × (2 + √2) makes ≈ 8.479 in; cut 8 1/2 in, "
    )
    largest = "a corner's finished legs: 11 3/8 in − 1/4 in × (2 + √2) − 1/8 in oversize makes ≈ 10.396 in"
    assert largest in framed(**said).working


def test_a_halved_square_is_refused_where_trimming_takes_the_last_round() -> None:
    # A block of 12 1/2 in: 6.25 + 0.8536 = 7.1036, cut 7 1/8: 4 1/4 in less, just all of 2 · 2 1/8.
    with pytest.raises(Cannot, match="takes the whole last round"):
        framed(method="halved into corners", finished_size="12 1/2 in")


def test_a_halved_square_that_is_too_small_says_by_how_much() -> None:
    # A block of 22 in: 11 + 0.8536, cut 11 7/8: half an inch more than 11 3/8, a quarter on each side.
    with pytest.raises(Cannot, match=r"0\.5 in \(12\.7 mm\) too small") as caught:
        framed(method="halved into corners", finished_size="22 in")
    assert "0.25 in (6.35 mm) wider" in caught.value.way_out


def test_twenty_rounds_are_worked_out_and_no_more() -> None:
    assert framed(*["1 in"] * 20).unrounded["trim_to"] == pytest.approx(4.125 + 40 + 0.5)
    with pytest.raises(Cannot, match="more than 20"):
        framed(*["1 in"] * 21)


@pytest.mark.parametrize(
    ("centre", "width", "warned"),
    [("4 in", "1 1/4 in", False), ("4 in", "1 3/16 in", True), ("4 1/16 in", "1 1/4 in", True)],
)
def test_sizes_that_are_rounded_are_cautioned(centre: str, width: str, warned: bool) -> None:
    said = "Sizes are rounded up to 1/8 in: trim to the raw size after the centre and each round."
    assert (said in framed(width, centre=centre).cautions) == warned


def geese(method: str = "four at a time", **said: Any) -> Worked:
    return work(flying_geese, **{"finished_width": "4 in", "count": 10, "method": method, **said})


@pytest.mark.parametrize(
    ("method", "width", "trim", "room"),
    [
        # 5 1/4 − 0.7071 wide; 2 5/8 + 1/4 − 0.3536 high.
        ("four at a time", "4 in", "4 1/2 in × 2 1/2 in", "≈ 4.543 in × ≈ 2.521 in"),
        ("sewn corners", "4 in", "4 1/2 in × 2 1/2 in", "4 1/2 in × 2 1/2 in"),
        # 5 1/16 + 1/2 is cut 5 5/8, and its half with a seam 3 1/16.
        ("sewn corners", "5 1/16 in", "5 9/16 in × 3 1/32 in", "5 5/8 in × 3 1/16 in"),
        # 2 · (2 7/8 − 0.3536) − 1/2 wide; half of 5 1/4, less 0.3536 and a seam more, high.
        ("loose triangles", "4 in", "4 1/2 in × 2 1/2 in", "≈ 4.543 in × ≈ 2.521 in"),
    ],
)
def test_geese_tell_what_they_are_trimmed_from(method: str, width: str, trim: str, room: str) -> None:
    said = f"trim to {trim}: finished + 2 seams of 1/4 in, the point a seam below the edge, from {room}"
    assert said in geese(method, finished_width=width).working


def test_geese_tell_how_many_come_out() -> None:
    assert "large squares × geese: 3 × 4 = 12 units, 2 more than wanted" in geese().working
    assert "small squares: 3 × 4 = 12" in geese().working
    assert "small squares: 10 × 2 = 20" in geese("sewn corners").working
    loose = geese("loose triangles").working
    assert "large squares, cut twice: 3 give 12 middles, 2 more than wanted" in loose
    assert "small squares, cut once: 10 give 20 wings, two for each goose" in loose


@pytest.mark.parametrize(
    ("method", "seams"),
    [
        # Three sets: two chords of 5 1/4 and four of 2 7/8, each less two seams.
        ("four at a time", 3 * (2 * (5.25 * sqrt(2) - 0.5) + 4 * (2.875 * sqrt(2) - 0.5))),
        (
            "sewn corners",
            20 * 2.5 * sqrt(2),
        ),  # the diagonal of a square as high as the rectangle, two a goose
        # The second wing's seam is a chord of 2 7/8; the first one's ends a quarter inch above the middle's
        # point and not where the wing does, √2 − 1 quarters sooner.
        ("loose triangles", 10 * (2 * (2.875 * sqrt(2) - 0.5) - 0.25 * (sqrt(2) - 1))),
    ],
)
def test_the_seams_of_geese(method: str, seams: float) -> None:
    assert float(geese(method).unrounded["seam_length"]) == pytest.approx(seams)  # type: ignore[arg-type]  # a length


def test_oversize_geese_tell_it_twice_of_the_width() -> None:
    # 1/8 in higher is 1/4 in wider: 4 + 1/4 + 1.2071 = 5.457; 4 3/4 × (2 3/8 + 1/4); 2 + 1/8 + 0.8536 =
    # 2.979.
    large = "large square: 4 in + 2 × 1/8 in oversize + 2 × 1/4 in × (1 + √2) makes ≈ 5.457 in"
    assert any(said.startswith(large) for said in geese(oversize="1/8 in").working)
    sewn = geese("sewn corners", oversize="1/8 in").working
    assert "rectangle, width: 4 in + 2 × 1/8 in oversize + 2 × 1/4 in makes 4 3/4 in" in sewn
    assert "rectangle, height: half of 4 3/4 in + 1/4 in, a seam above the point makes 2 5/8 in" in sewn
    loose = geese("loose triangles", oversize="1/8 in").working
    small = (
        "small square: 2 in + 1/8 in oversize + 1/4 in × (2 + √2) makes ≈ 2.979 in; cut 3 in, ≈ 0.021 in over"
    )
    assert small in loose


def test_geese_say_which_cuts_have_no_value() -> None:
    four, sewn = geese().cautions, geese("sewn corners").cautions
    assert "No rectangle has a value: four at a time cuts squares only." in four
    assert not any("rectangle has a value" in said for said in sewn)
    assert any("No large square has a value" in said for said in sewn)
    assert not any("No large square" in said for said in four)
    assert [
        any("on the bias" in said for said in geese(m).cautions) for m in ("sewn corners", "loose triangles")
    ] == [
        False,
        True,
    ]


def test_a_square_in_a_square_tells_how_far_its_points_lie_past_the_edge() -> None:
    # 5 ÷ √2 + 1/2 = 4.0355, cut 4 1/8: 0.0895 over, ÷ √2 = 0.0633; trimmed to the sixteenth 4 1/16.
    five = work(square_in_square, finished_size="5 in", count=3)
    assert (
        "the centre is ≈ 0.089 in larger than its exact size, so its points lie ≈ 0.063 in past the "
        "finished edge" in five.working
    )
    said = (
        "The seam takes ≈ 0.063 in off each point of the centre: trim the centre to 4 1/16 in before it "
        "is sewn."
    )
    assert said in five.cautions
    # 4 ÷ √2 + 1/2 = 3.3284, cut 3 3/8, which is a sixteenth too: 0.0329 past, but nothing to trim.
    assert not any(
        "trim the centre" in said for said in work(square_in_square, finished_size="4 in", count=3).cautions
    )
    # 3 ÷ √2 + 1/2 = 2.6213, cut 2 5/8: a hair of 0.0026.
    assert not any(
        "trim the centre" in said for said in work(square_in_square, finished_size="3 in", count=3).cautions
    )
    # A centre of 5 in is cut 5 1/2, exactly.
    exact = work(square_in_square, finished_size="5 in", count=3, method="from the centre")
    assert not any("points lie" in said for said in exact.working)


def test_a_square_from_its_centre_tells_the_whole() -> None:
    worked = work(square_in_square, finished_size="5 in", count=3, method="from the centre")
    assert "the whole finishes at 5 in × √2 = ≈ 7.071 in" in worked.working
    assert "four corners from two squares, cut once: 3 × 2 = 6 squares" in worked.working


def test_a_strip_grid_tells_its_sets() -> None:
    # 6 ÷ 3 + 1/2 = 2 1/2; 41 1/2 ÷ 2 1/2 = 16.6; 40 segments are 16 + 16 + 8, and 8 · 2 1/2 + 1/2 = 20 1/2.
    worked = work(strip_pieced_grid, finished_size="6 in", count=20)
    assert worked.working[1:7] == [
        "segments from a set: (42 in − 1/2 in to square it) ÷ 2 1/2 in = 16 whole ones",
        "ABA: 2 a unit × 20 = 40 segments, ÷ 16 up = 3 sets",
        "the last set of ABA gives only 8, so its strips are 20 1/2 in long",
        "BAB: 1 a unit × 20 = 20 segments, ÷ 16 up = 2 sets",
        "the last set of BAB gives only 4, so its strips are 10 1/2 in long",
        "dark strips (A): 8, light strips (B): 7",
    ]
    # Two seams a set: 16 · 2 1/2 + 1/2 = 40 1/2 three times, 20 1/2 and 10 1/2: 152 1/2.
    seams = (
        "seams, raw edge to raw edge: 2 × (152 1/2 in along the sets + 20 × 6 1/2 in in the units) makes "
        "565 in"
    )
    assert seams in worked.working
    assert not any("turned end for end" in said for said in worked.working)
    even = work(strip_pieced_grid, finished_size="6 in", count=8, patches=4)
    # 6 ÷ 4 + 1/2 = 2; 41 1/2 ÷ 2 = 20; 32 segments of ABAB.
    assert "ABAB: 4 a unit × 8 = 32 segments, ÷ 20 up = 2 sets" in even.working
    assert "every second segment of a unit is turned end for end" in even.working


def test_a_last_set_that_is_full_is_not_told() -> None:
    # 8 nine patches: 16 segments of ABA, one full set; 8 of BAB.
    said = work(strip_pieced_grid, finished_size="6 in", count=8).working
    assert not any(each.startswith("the last set of ABA") for each in said)
    assert "the last set of BAB gives only 8, so its strips are 20 1/2 in long" in said


def test_patches_that_are_no_whole_step_are_cautioned() -> None:
    # 5 ÷ 3 + 1/2 = 2 1/6, cut 2 1/4: patches of 1 3/4, each 1/12 too wide; the outer ones lose 1/8.
    three = work(strip_pieced_grid, finished_size="5 in", count=4).cautions
    assert (
        "Rounded up to 1/8 in, patches finish at 1 3/4 in in place of 1 2/3 in, and trimming leaves "
        "the outer "
        "ones 1 5/8 in; a size that divides evenly avoids it." in three
    )
    # 5 1/8 ÷ 2 + 1/2 = 3 1/16, cut 3 1/8.
    two = work(strip_pieced_grid, finished_size="5 1/8 in", count=4, patches=2).cautions
    assert (
        "Rounded up to 1/8 in, patches finish at 2 5/8 in in place of 2 9/16 in; trimming makes them even "
        "again, if as much is cut off all round." in two
    )
    assert work(strip_pieced_grid, finished_size="6 in", count=4).cautions == []


@pytest.mark.parametrize(
    ("method", "square", "each"),
    [
        # The square exact and as cut, and the seams of a pair of squares.
        ("two at a time", 3 + 0.25 * (2 + sqrt(2)), 2 * (3.875 * sqrt(2) - 0.5)),
        ("four at a time", 3.5 * sqrt(2) + 0.5, 4 * 5.5),
        ("eight at a time", 6 + 0.5 * (2 + sqrt(2)), 4 * (7.75 * sqrt(2) - 0.5)),
    ],
)
def test_half_square_triangles_each_way(method: str, square: float, each: float) -> None:
    units = {"two at a time": 2, "four at a time": 4, "eight at a time": 8}[method]
    worked = work(half_square_triangles, finished_size="3 in", count=2 * units, method=method)
    assert float(worked.unrounded["square"]) == pytest.approx(square)  # type: ignore[arg-type]  # a length
    assert float(worked.unrounded["seam_length"]) == pytest.approx(2 * each)  # type: ignore[arg-type]  # a length
    assert (worked.found["squares"], worked.found["made"]) == (2, 2 * units)


def test_hourglass_units_tell_their_seams() -> None:
    # 3 + 1.2071 = 4.2071, cut 4 1/4. A pair: two chords of it, two of the halves: 4 · 4 1/4 · √2 − 12 · 1/4.
    worked = work(quarter_square_triangles, finished_size="3 in", count=5, method="hourglass two at a time")
    assert "pairs of squares × units: 3 × 2 = 6 units, 1 more than wanted" in worked.working
    seams = 3 * (4 * 4.25 * sqrt(2) - 12 * 0.25)
    assert float(worked.unrounded["seam_length"]) == pytest.approx(seams)  # type: ignore[arg-type]  # a length
    # As sewn 4 1/4 − 2 · 1/4 · √2 = 3.543.
    trim = "trim to 3 1/2 in: finished + 2 seams of 1/4 in; as sewn it is ≈ 3.543 in, ≈ 0.043 in to spare"
    assert trim in worked.working


def test_a_square_in_a_square_tells_what_it_is_trimmed_from() -> None:
    # (2 5/8 − 1/2) ÷ √2 + 2 3/8 − 0.3536 = 3.524. Twenty units of two seams as long as the
    # centre, 2 5/8, and two as long as a corner is 1/4 in below its long side: 2 3/8 · √2 − 1/2 = 2.859.
    worked = work(square_in_square, finished_size="3 in", count=20)
    trim = "trim to 3 1/2 in: finished + 2 seams of 1/4 in; as sewn it is ≈ 3.524 in, ≈ 0.024 in to spare"
    assert trim in worked.working
    seams = 20 * (2 * 2.625 + 2 * (2.375 * sqrt(2) - 0.5))
    assert float(worked.unrounded["seam_length"]) == pytest.approx(seams)  # type: ignore[arg-type]  # a length
    assert not any("the whole finishes" in said for said in worked.working)


def test_ten_million_inches_of_seam_are_the_most() -> None:
    # Round k: 2 · (60 1/2 + 72 · (k − 1)) + 2 · (60 1/2 + 72 · k); twenty of them make 62 440 in a square.
    giant = {"centre": "60 in", "rounds": [{"width": "36 in"}] * 20}
    assert work(framed_square, count=160, **giant).unrounded["seam_length"] == 160 * 62_440
    with pytest.raises(Cannot, match="10 000 000 in") as caught:
        work(framed_square, count=161, **giant)
    assert caught.value.given == "count"


def test_a_square_that_is_not_halved_is_not_warned_of_what_nobody_asked_for() -> None:
    whole = framed("1 in")
    assert (whole.found["centre_on_point"], whole.found["block"]) == (None, None)
    assert whole.cautions == []
