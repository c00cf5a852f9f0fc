"""No length is longer than 10 000 000 in: what comes just there is worked out, what goes beyond refused."""

from typing import Any

import pytest

from boltend.plugin import Cannot
from boltend.testing import Worked, work
from boltend_borders_binding.binding import binding
from boltend_borders_binding.borders import borders

LARGE = {
    "width": "10000 in",
    "height": "10000 in",
    "tail": "1000 in",
    "join": "straight",
    "usable_width": "1 in",
}
"""4 · 10000 1/2 + 1000 are 41 002 in; each strip of 1 in brings 1/2 in more: 82 003 strips."""


def bordered(border: dict[str, Any], top: str = "10 in", **said: Any) -> Worked:
    return work(borders, **{"top_width": top, "top_height": top, "borders": [border], **said})


def test_the_longest_binding() -> None:
    # 4 · 1 + 8 seams of 1 249 998 1/4 in + 10 in of tail are 10 000 000 in.
    small = {"width": "1 in", "height": "1 in"}
    worked = work(binding, **small, settings={"seam": "1249998 1/4 in"})
    assert worked.found["length"] == 10_000_000
    with pytest.raises(Cannot, match="158 miles") as caught:
        work(binding, **small, settings={"seam": "1249998 3/8 in"})
    assert caught.value.given == "width"


def test_the_longest_cloth_for_a_binding() -> None:
    # 82 003 · 121 = 9 922 363; · 122 = 10 004 366.
    assert work(binding, **LARGE, strip_width="121 in").unrounded["length_to_buy"] == 9_922_363
    with pytest.raises(Cannot, match="158 miles") as caught:
        work(binding, **LARGE, strip_width="122 in")
    assert caught.value.given == "strip_width"


def test_a_cloth_for_a_binding_that_only_the_shops_step_makes_too_long() -> None:
    # 82 003 · 121 15/16 = 9 999 240 13/16 in, by steps of 4 1/2 in 9 999 243, of 100 yd 10 000 800.
    worked = work(binding, **LARGE, strip_width="121 15/16 in")
    assert worked.found["length_to_buy"] == 9_999_243
    with pytest.raises(Cannot, match="158 miles"):
        work(binding, **LARGE, strip_width="121 15/16 in", settings={"buying_step": "100 yd"})


def test_the_longest_strip_of_a_border() -> None:
    # Sides first: the ends are 10 1/2 + 2 · 5 in and their spare; with 9 999 979 1/2 in of that 10 000 000.
    worked = bordered({"width": "5 in", "spare": "9999979 1/2 in"})
    assert worked.found["ends_cut"] == 10_000_000
    with pytest.raises(Cannot, match="158 miles") as caught:
        bordered({"width": "5 in", "spare": "9999979 5/8 in"})
    assert caught.value.given == "borders"
    # Ends first it is the sides that are longest.
    with pytest.raises(Cannot, match="158 miles"):
        bordered({"width": "5 in", "spare": "9999979 5/8 in", "corners": "ends first"})


def test_the_longest_cloth_for_a_border() -> None:
    # Four sides of 10000 1/2 in, two of them longer by two borders; each strip of 1 in brings 1/2 in more.
    # 121 in: 40 486 in, 80 971 strips of 121 1/2 in. 124 in: 40 498 in, 80 995 strips of 124 1/2 in.
    narrow = {"top": "10000 in", "join": "straight", "usable_width": "1 in"}
    worked = bordered({"width": "121 in"}, **narrow)
    assert worked.unrounded["length_to_buy"] == 80_971 * 121.5
    with pytest.raises(Cannot, match="158 miles"):  # three steps of 3 600 000 in
        bordered({"width": "121 in"}, **narrow, settings={"buying_step": "100000 yd"})
    with pytest.raises(Cannot, match="158 miles"):  # 10 083 877 1/2 in
        bordered({"width": "124 in"}, **narrow)


def test_the_widest_quilt() -> None:
    # 10 + 2 · 4 999 994 3/4 in and two seams are 10 000 000, raw edge to raw edge; the corners are of
    # their own fabric, and the sides one strip.
    corners = {"corners": "cornerstones", "fabric": "Slate", "cornerstone_fabric": "Ash"}
    worked = bordered(
        {"width": "4999994 3/4 in", "width_ends": "1 in", **corners}, usable_width="150 in", join="straight"
    )
    assert (worked.found["width"], worked.found["raw_width"]) == (9_999_999.5, 10_000_000)
    with pytest.raises(Cannot, match="158 miles"):
        bordered(
            {"width": "4999994 13/16 in", "width_ends": "1 in", **corners},
            usable_width="150 in",
            join="straight",
        )
    with pytest.raises(Cannot, match="158 miles"):
        bordered(
            {"width": "1 in", "width_ends": "4999994 13/16 in", **corners},
            usable_width="150 in",
            join="straight",
        )
