"""What the searches for a repeat and for borders of a size say of their choices and misses, by hand."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Cannot
from boltend.testing import Worked, work
from boltend_borders_binding.border_repeat import border_repeat
from boltend_borders_binding.border_to_size import border_to_size
from boltend_borders_binding.borders import borders
from boltend_borders_binding.measured_top import measured_top

BORDER = {"repeat": "6 in", "border_width": "3 in"}


def repeated(**said: Any) -> Worked:
    return work(border_repeat, **{"top_width": "61 in", "top_height": "83 in", **BORDER, **said})


def test_only_a_list_that_is_cut_short_is_the_best_of_more() -> None:
    # Without easing 61 + 2 s is a multiple of 6 for a spacer of 2 1/2 in, 83 + 2 s for 1/2 and 3 1/2 in: two.
    assert "choice 1 of 2" in repeated(ease_most="0 in").working
    # Up to 24 in: 2 1/2, 5 1/2 … 23 1/2, eight of them, and 1/2, 3 1/2 … 21 1/2, eight too; 64 pairs.
    assert "choice 1 of 40, the best of more" in repeated(ease_most="0 in", spacer_most="24 in").working


def test_a_miss_is_told_in_the_projects_own_unit() -> None:
    # 61 cm are ten of 6 cm and a centimetre, 83 fourteen less a centimetre.
    metric = {"top_width": "61 cm", "top_height": "83 cm", "repeat": "6 cm", "border_width": "3 cm"}
    with pytest.raises(Cannot) as caught:
        work(border_repeat, units="centimetres", spacer_most="0 cm", ease_most="0 cm", **metric)
    across, down = "10 repeats across with ≈ 0.1 cm", "14 repeats down with ≈ 0.071 cm"
    assert f"Nearest: {across} to ease in each, {down} to ease in each." in caught.value.why


def reached(**said: Any) -> Worked:
    top = {"top_width": "60 in", "top_height": "72 in", "target_width": "84 in", "target_height": "100 in"}
    return work(border_to_size, **{**top, **said})


def test_borders_that_miss_are_told_with_their_misses() -> None:
    # 13 in on each side: 60 + 26 is 2 over 84, 72 + 26 is 2 short of 100. Then 13 1/2 and 12 1/2.
    # Thirds of them by halves: 4 1/3 is nearer to 4 1/2 than to 4; 4 1/2; 4 1/6 is nearer to 4.
    with pytest.raises(Cannot) as caught:
        reached(reach="exactly")
    assert (
        "Nearest: 4 1/2 in + 8 1/2 in (2 in over in width, 2 in short in height); 4 1/2 in + 9 in (3 in over "
        "in width, 1 in short in height); 4 in + 8 1/2 in (1 in over in width, 3 in short in height)."
        in caught.value.why
    )
    # 12 in on each side: 84 just so, and 96 half an inch short.
    with pytest.raises(Cannot) as caught:
        reached(reach="exactly", target_height="96 1/2 in", how_many=1)
    assert "Nearest: 12 in (just so in width, 1/2 in short in height);" in caught.value.why


def test_in_centimetres_they_are_told_to_the_millimetre() -> None:
    sizes = {"top_width": "60 cm", "top_height": "72 cm", "target_width": "84 cm", "target_height": "100 cm"}
    steps = {"step": "0.5 cm", "least": "1 cm", "most": "12 cm"}
    with pytest.raises(Cannot) as caught:
        work(border_to_size, units="centimetres", reach="exactly", **sizes, **steps)
    assert (
        "Nearest: 4.5 cm + 8.5 cm (2 cm over in width, 2 cm short in height); 4.5 cm + 9 cm (3 cm over "
        "in width, 1 cm short in height); 4 cm + 8.5 cm (1 cm over in width, 3 cm short in height)."
        in caught.value.why
    )


def test_a_step_that_leaves_no_width_is_refused() -> None:
    # Halves of an inch: from 1 1/2 up, but down to 1.
    with pytest.raises(Cannot, match="no width on the step lies between") as caught:
        reached(least="1 1/8 in", most="1 3/8 in", step="1/2 in")
    assert caught.value.given == "most"


@pytest.mark.parametrize(
    ("corners", "sides", "ends"),
    [
        (
            "sides first",
            "+ 2 in to spare make 85 1/2 in.",
            "+ 4 in for the two sides + 2 in to spare make 67 1/2 in.",
        ),
        (
            "ends first",
            "+ 4 in for the two ends + 2 in to spare make 89 1/2 in.",
            "+ 2 in to spare make 63 1/2 in.",
        ),
        ("cornerstones", "+ 2 in to spare make 85 1/2 in.", "+ 2 in to spare make 63 1/2 in."),
    ],
)
def test_each_corner_tells_its_strips(corners: str, sides: str, ends: str) -> None:
    row = {"name": "inner", "width": "2 in", "corners": corners, "spare": "2 in"}
    said = work(borders, top_width="61 in", top_height="83 in", borders=[row]).working
    assert said[0] == f"inner, {corners}: sides 83 in finished + 1/2 in for two seams {sides}"
    assert said[1] == f"inner, {corners}: ends 61 in finished + 1/2 in for two seams {ends}"


def test_a_top_is_more_than_its_two_seams() -> None:
    assert work(measured_top, widths="5/8 in", heights="9 in").unrounded["width"] == Fr(1, 8)
    with pytest.raises(Cannot, match="no more than the two seam allowances"):
        work(measured_top, widths="1/2 in", heights="9 in")
