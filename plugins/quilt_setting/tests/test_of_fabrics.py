"""A setting is drawn in the fabrics that are chosen for its parts; the other parts keep their role."""

from collections import Counter
from typing import Any

from boltend.plugin import Polygon, Rect
from boltend.testing import Worked, work
from boltend_quilt_setting.on_point import on_point
from boltend_quilt_setting.straight_set import straight_set


def drawn(worked: Worked) -> Counter[tuple[str, str]]:
    return Counter((s.fill, s.label) for s in worked.answer.picture if isinstance(s, Rect | Polygon))


def test_sashes_and_cornerstones_of_a_straight_set() -> None:
    given: dict[str, Any] = {
        "block_width": "6 in",
        "across": 3,
        "down": 2,
        "sash": "1 in",
        "cornerstones": True,
    }
    # 3 × 2 blocks: 2 · 2 + 3 sashes between them, 2 cornerstones.
    plain = {("block", ""): 6, ("sash", ""): 7, ("cornerstone", ""): 2}
    assert drawn(work(straight_set, **given)) == plain
    chosen = drawn(work(straight_set, **given, sash_fabric="Slate"))
    assert chosen == {("block", ""): 6, ("Slate", "sash"): 7, ("cornerstone", ""): 2}


def test_plain_blocks_and_triangles_on_point() -> None:
    given: dict[str, Any] = {"block": "6 in", "across": 2, "down": 2}
    fabrics = {"setting_fabric": "Fog", "inner_fabric": "Sky"}
    # One plain block between four, four side triangles and four corners.
    plain = drawn(work(on_point, **given))
    assert plain == {("block", ""): 4, ("inner block", ""): 1, ("setting", ""): 8}
    chosen = drawn(work(on_point, **given, **fabrics))
    assert chosen == {("block", ""): 4, ("Sky", "inner block"): 1, ("Fog", "setting"): 8}
