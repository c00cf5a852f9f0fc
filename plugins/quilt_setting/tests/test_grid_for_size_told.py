"""What the search for a grid rests on, and what it says of its own arithmetic, worked by hand."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Cannot, Settings
from boltend.testing import Worked, work
from boltend_quilt_setting.grid_for_size import grid_for_size
from boltend_quilt_setting.grid_for_size_axis import Scale
from boltend_quilt_setting.grid_for_size_say import say, size_of


@pytest.mark.parametrize("largest", [10, 100, 1000, 4321])
def test_the_scale_tells_the_nearest_fractions_of_root_two_from_it(largest: int) -> None:
    """The nearest are 1/1, 3/2, 7/5 … (p + 2q)/(p + q), by turns below and above √2: p² − 2q² is −1 or 1."""
    scale = Scale.holding([Fr(1), Fr(3, 8)], largest)
    assert scale.unit == 8
    p, q = 1, 1
    while q < 16 * (largest * scale.unit) ** 2:
        assert (scale.of(Fr(p)) > scale.rooted(Fr(q))) == (p * p > 2 * q * q), (p, q)
        p, q = p + 2 * q, p + q


def grid(width: str, height: str, **said: Any) -> Worked:
    return work(grid_for_size, target_width=width, target_height=height, **{"block_width": "9 in", **said})


def test_a_straight_grid_is_told() -> None:
    # 81 + 5 = 86 just reaches; 90 + 5 = 95.
    assert grid("86 in", "93 in").working[:5] == [
        "blocks = 9 across × 10 down = 90",
        "width = 9 × 9 in + 2 × 2 1/2 in border = 86 in finished",
        "the width wanted is 86 in: reached exactly",
        "height = 10 × 9 in + 2 × 2 1/2 in border = 95 in finished",
        "the height wanted is 93 in: 2 in over",
    ]


def test_what_covers_without_a_border_is_told() -> None:
    # 10 · 9 = 90, 4 over 86; 11 · 9 = 99, 6 over 93.
    said = "without a border 10 × 11 blocks cover it: 90 in × 99 in finished, 4 in and 6 in over"
    assert said in grid("86 in", "93 in", border_least="1 in").working


def test_a_grid_on_point_is_told() -> None:
    # 9 · √2 = 12.728: four are 50.912, five 63.640. With an inch of sash 14.142: four are 56.569.
    told = grid("50 in", "60 in", blocks_set="on point", border_most="0 in").working
    assert told[:5] == [
        "blocks = 4 across × 5 down + 3 × 4 inner ones = 32",
        "width = 4 × 9 in × √2 = ≈ 50.912 in finished",
        "the width wanted is 50 in: ≈ 0.912 in over",
        "height = 5 × 9 in × √2 = ≈ 63.640 in finished",
        "the height wanted is 60 in: ≈ 3.640 in over",
    ]
    sashed = grid("50 in", "50 in", blocks_set="on point", border_most="0 in", sash="1 in").working
    assert "width = 4 × (9 in + 1 in sash) × √2 = ≈ 56.569 in finished" in sashed


def test_the_nearest_that_is_too_small_is_told() -> None:
    # Four on point are 50.912, 1.088 short of 52; five are 11.6 over. Five are 63.640 and over 60.
    worked = grid("52 in", "60 in", blocks_set="on point", border_most="0 in", reach="nearest")
    assert "the width wanted is 52 in: ≈ 1.088 in short" in worked.working
    assert worked.cautions == ["The quilt is ≈ 1.088 in narrower than wanted."]
    straight = grid("54 in", "48 in", border_most="0 in", reach="nearest")
    assert straight.cautions == ["The quilt is 3 in shorter than wanted."]
    assert grid("54 in", "48 in", border_most="0 in").cautions == []


def test_what_comes_nearest_to_exactly_is_told() -> None:
    # Five of 9 in are 45, six 54. The larger miss least: 4 and 4, then 5 with 4, fewer across first.
    with pytest.raises(Cannot) as caught:
        grid("50 in", "50 in", border_most="0 in", reach="exactly")
    assert caught.value.why == (
        "No blocks with a border of whole steps make 50 in × 50 in exactly. Nearest: 6 × 6 with a "
        "border of 0 in, "
        "4 in too wide and 4 in too long; 5 × 6 with a border of 0 in, 5 in too narrow and 4 in too "
        "long; 6 × 5 "
        "with a border of 0 in, 4 in too wide and 5 in too short."
    )
    assert caught.value.way_out == "Reach at least or nearest, or take a finer step or wider limits."


def test_borders_that_differ_are_told_where_they_would_do() -> None:
    # 45 + 5 and 54 + 6: no one border does both, for 10 is no multiple of 9.
    with pytest.raises(Cannot) as caught:
        grid("50 in", "60 in", reach="exactly")
    do = "5 × 6 with a border of 2 1/2 in at the sides and 3 in at the ends"
    assert caught.value.way_out == f"Let sides and ends differ: {do}. Or reach at least, or nearest."


@pytest.mark.parametrize(
    ("inches", "said"),
    [
        (Fr(25, 2), "12 1/2 in"),
        (Fr(3, 8), "3/8 in"),
        (Fr(0), "0 in"),
        (Fr(7), "7 in"),
        (Fr(1, 3), "≈ 5/16 in"),
    ],
)
def test_a_miss_is_told_to_the_size_step_and_without_its_sign(inches: Fr, said: str) -> None:
    assert say(inches, Settings()) == said
    assert (size_of(inches), size_of(-inches)) == (inches, inches)
