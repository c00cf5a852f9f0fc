"""Every sum that a calculator tells in its working comes out when it is worked again from its own words.

The reader of sums knows no calculator. The givens are invented, and reach each way of telling.
"""

from collections.abc import Mapping
from importlib.metadata import entry_points
from typing import Any

import pytest
from told_sums import sums

from boltend.plugin import Calculator, Table
from boltend.testing import Worked, work

MODULES = [e.load() for e in entry_points(group="boltend.plugins") if e.dist and e.dist.name == "boltend"]
CALCULATORS: Mapping[str, Calculator] = {
    made.spec.name: made for module in MODULES for made in module.boltend_calculators()
}
TABLES: list[Table] = [t for m in MODULES if hasattr(m, "boltend_tables") for t in m.boltend_tables()]

BLOCKS = {"block_width": "9 in", "block_height": "7 1/2 in", "across": 4, "down": 5}
TOP = {"width": "61 in", "height": "83 in"}
INNER = {"top_width": "61 in", "top_height": "83 in"}
POINT = {"block": "9 in", "across": 3, "down": 4}
UNIT = {"finished_size": "3 in", "count": 23}
GEESE = {"finished_width": "5 in", "count": 11}
FRAMED = {"centre": "4 1/8 in", "count": 5, "rounds": [{"width": "1 1/4 in"}, {"width": "2 1/8 in"}]}
BORDERS = [{"name": "inner", "width": "2 in"}, {"name": "outer", "width": "5 in", "width_ends": "4 in"}]
THREAD = {"thread": "cotton 50/2, 1300 m", "bobbin": "L", "thickness": "1/16 in"}
SEWN = {**THREAD, **TOP, "spacing": "2 in"}
TARGET = {"target_width": "86 in", "target_height": "103 in"}


def framed(**said: Any) -> dict[str, Any]:
    return {**FRAMED, **said}


def bordered(**said: Any) -> dict[str, Any]:
    return {**INNER, "borders": [{**each, **said} for each in BORDERS]}


TOLD: list[tuple[str, dict[str, Any], int]] = [
    ("straight_set", BLOCKS, 3),
    ("straight_set", {**BLOCKS, "sash": "2 in"}, 5),
    ("straight_set", {**BLOCKS, "sash": "2 in", "sash_all_round": True}, 5),
    ("straight_set", {**BLOCKS, "sash": "2 in", "cornerstones": True}, 4),
    ("straight_set", {**BLOCKS, "sash": "2 in", "cornerstones": True, "sash_all_round": True}, 4),
    ("straight_set", {**BLOCKS, "across": 21, "sash": "1 1/2 in", "sash_all_round": True}, 5),
    ("on_point", POINT, 9),
    ("on_point", {**POINT, "float": "1 in", "oversize": "1/2 in"}, 8),
    ("on_point", {**POINT, "sash": "2 in"}, 9),
    ("on_point", {**POINT, "sash": "2 in", "cornerstones": False}, 9),
    ("on_point", {**POINT, "sash": "2 in", "edge": "points", "float": "1/4 in"}, 9),
    ("on_point", {**POINT, "sash": "2 in", "edge": "sash all round", "oversize": "1/4 in"}, 9),
    ("on_point", {**POINT, "across": 1, "down": 1}, 4),
    ("grid_for_size", {**TARGET, "block_width": "9 in"}, 3),
    ("grid_for_size", {**TARGET, "block_width": "9 in", "block_height": "11 in", "sash": "2 in"}, 3),
    ("grid_for_size", {**TARGET, "block_width": "9 in", "blocks_set": "on point"}, 2),
    ("grid_for_size", {**TARGET, "block_width": "9 in", "blocks_set": "on point", "sash": "1 in"}, 2),
    (
        "grid_for_size",
        {**TARGET, "block_width": "9 in", "reach": "nearest", "sides_and_ends": "may differ", "pick": 2},
        2,
    ),
    ("bed_size", {"bed": "US queen", "drop": "13 in"}, 2),
    ("bed_size", {"bed": "US queen", "drop": "13 in", "tuck": "11 in", "take_up": "5 %"}, 2),
    ("bed_size", {"bed": "US queen", "drop": "13 in", "foot_drop": "0 in", "mattress_depth": "15 in"}, 1),
    ("precut_yield", {"precut": "10 in square pack", "piece_width": "2 1/2 in", "piece_height": "5 in"}, 1),
    ("precut_yield", {"precut": "fat quarter", "piece_width": "5 in", "piece_height": "4 in",
                      "pieces_wanted": 100}, 1),
    ("pieces_in_hand", {"piece_width": "9 in", "fabrics": [{"have": "3 yd"}, {"have": "1 yd"}]}, 3),
    ("pieces_in_hand", {"piece_width": "5 in", "piece_height": "4 in", "fabrics": [
        {"have": "2 yd"}, {"have": "1 yd"}], "precuts": [{"precut": "fat quarter", "how_many": 3}]}, 4),
    ("fabric_in_hand", {"block_width": "9 in", "block_height": "7 in", "blocks": 31}, 3),
    ("fabric_in_hand", {"block_width": "9 in", "block_height": "7 in", "blocks": 31, "sash": "1 in",
                        "border": "3 in"}, 3),
    ("measured_top", {"widths": "60 1/4 in; 60 3/8 in; 60 1/4 in", "heights": "72 in; 72 1/8 in"}, 4),
    ("measured_blocks", {"sizes": "12 1/4 in; 12 1/2 in; 12 5/8 in", "nominal": "12 1/2 in"}, 2),
    ("borders", bordered(), 8),
    ("borders", bordered(corners="ends first"), 8),
    ("borders", bordered(corners="mitred", spare="2 in", width_ends="5 in", width="5 in"), 4),
    ("borders", bordered(corners="cornerstones"), 6),
    ("borders", bordered(grain="lengthwise"), 4),
    ("borders", {**bordered(), "piecing": "each side", "join": "straight"}, 6),
    ("borders", {**bordered(), "target_width": "80 in", "target_height": "97 in"}, 8),
    ("binding", TOP, 3),
    ("binding", {**TOP, "join": "straight", "tail": "12 in", "strip_width": "2 1/4 in"}, 3),
    ("binding", {**TOP, "fold": "single", "strip_width": "1 1/2 in"}, 3),
    ("binding", {**TOP, "grain": "lengthwise"}, 2),
    ("binding", {**TOP, "grain": "bias"}, 2),
    ("binding", {**TOP, "grain": "bias", "bias_loss": "10 %"}, 2),
    ("border_to_size", {**INNER, **TARGET}, 4),
    ("border_to_size", {**INNER, **TARGET, "how_many": 3, "order": "any", "sides_and_ends": "may differ"}, 4),
    ("border_to_size", {**INNER, **TARGET, "reach": "nearest", "step": "3/4 in", "pick": 3}, 4),
    ("border_repeat", {**INNER, "repeat": "6 in", "border_width": "3 in"}, 3),
    ("border_repeat", {**INNER, "repeat": "6 1/4 in", "border_width": "3 in", "ease_most": "1/8 in",
                       "pick": 4}, 3),
    ("border_repeat", {**INNER, "repeat": "6 in", "border_width": "3 in", "repeat_least": "5 in",
                       "pick": 2}, 3),
    ("backing", TOP, 6),
    ("backing", {**TOP, "width": "79 1/2 in", "repeat": "24 in", "prewash_across": "4 %"}, 4),
    ("batting", TOP, 2),
    ("batting", {**TOP, "shrinkage": "5 %"}, 2),
    ("half_square_triangles", UNIT, 3),
    ("half_square_triangles", {**UNIT, "method": "four at a time", "oversize": "1/8 in"}, 3),
    ("half_square_triangles", {**UNIT, "method": "eight at a time", "oversize": "1/4 in"}, 3),
    ("quarter_square_triangles", UNIT, 2),
    ("quarter_square_triangles", {**UNIT, "oversize": "1/8 in"}, 2),
    ("flying_geese", GEESE, 4),
    ("flying_geese", {**GEESE, "oversize": "1/8 in"}, 4),
    ("flying_geese", {**GEESE, "method": "sewn corners", "oversize": "1/8 in"}, 4),
    ("flying_geese", {**GEESE, "method": "loose triangles", "oversize": "1/4 in"}, 3),
    ("square_in_square", UNIT, 3),
    ("square_in_square", {**UNIT, "oversize": "1/8 in"}, 3),
    ("square_in_square", {**UNIT, "method": "from the centre"}, 3),
    ("framed_square", framed(), 8),
    ("framed_square", framed(oversize="1/4 in"), 7),
    ("framed_square", framed(method="trimmed as sewn"), 7),
    ("framed_square", framed(method="halved into corners"), 9),
    ("framed_square", framed(method="halved into corners", oversize="1/8 in"), 9),
    ("framed_square", framed(method="halved into corners", finished_size="15 in"), 8),
    ("framed_square", framed(method="halved into corners", finished_size="15 in", oversize="1/8 in"), 8),
    ("strip_pieced_grid", {"finished_size": "6 in", "count": 23}, 4),
    ("strip_pieced_grid", {"finished_size": "5 in", "count": 23, "patches": 4}, 3),
    ("strip_pieced_grid", {"finished_size": "7 in", "count": 9, "patches": 5, "squaring": "1 in"}, 4),
    ("quilting_thread", {**SEWN, "pattern": "square grid"}, 4),
    ("quilting_thread", {**SEWN, "pattern": "square grid", "unpicked_top": "1.5",
                         "unpicked_bobbin": "1.25"}, 4),
    ("piecing_thread", {**THREAD, "seam_length": "120 yd"}, 4),
    ("piecing_thread", {**THREAD, "seam_length": "3000 yd", "waste": "20 %"}, 4),
]  # fmt: skip
"""Calculator, givens, and how many sums its lines tell at least."""


def worked(name: str, givens: Mapping[str, Any], units: str = "inches") -> Worked:
    return work(CALCULATORS[name], tables=TABLES, units=units, **givens)


@pytest.mark.parametrize(("name", "givens", "least"), TOLD)
def test_the_sums_that_are_told_come_out(name: str, givens: dict[str, Any], least: int) -> None:
    told = [each for said in worked(name, givens).working for each in sums(said)]
    assert [each.text for each in told if not each.holds] == []
    assert len(told) >= least, [each.text for each in told]


def test_the_sum_of_a_corners_legs_counts_the_oversize() -> None:
    # A block of 15 in: legs of 7 1/2 in, 1/8 in oversize, and 1/4 in · (2 + √2) make 8.479 in, as is found.
    said = framed(method="halved into corners", finished_size="15 in", oversize="1/8 in")
    told = [each for line in worked("framed_square", said).working for each in sums(line)]
    assert [each.text for each in told if not each.holds] == []


def test_the_reader_of_sums_reads_and_catches() -> None:
    """Two that are right, two that are not, and what is no sum."""
    right = "width = 4 × 9 in + 3 × 2 in sash = 42 in finished; 9 in × √2 makes ≈ 12.728 in"
    assert [each.holds for each in sums(right)] == [True, True]
    wrong = "width = 4 × 9 in + 2 × 2 in sash = 42 in finished; 9 in × √2 makes ≈ 12.828 in"
    assert [each.holds for each in sums(wrong)] == [False, False]
    assert sums("2 × width × height ÷ spacing = 120 yd; a square foot = 144") == []


def test_a_sum_of_every_calculator_is_read() -> None:
    """But for those that tell none: what they share out is counted, not added."""
    assert set(CALCULATORS) - {name for name, _, _ in TOLD} == {"fabric_mix", "precut_plan"}
