"""Grids from strips: the strips of the answer sewn into sets, cut across, and sewn into units."""

from collections import Counter
from fractions import Fraction as Fr
from math import floor
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sewn import Line, Patch, Work, alike, flipped, sew, shown
from shapely.affinity import translate  # type: ignore[import-untyped]  # it ships no types
from shapely.geometry import box  # type: ignore[import-untyped]  # it ships no types

from boltend.plugin import Cannot
from boltend.testing import Worked, work
from boltend_block_units.strip_grid import strip_pieced_grid

SIZES = st.integers(8, 200).map(lambda n: Fr(n, 8))
SEAMS = st.sampled_from((Fr(1, 4), Fr(3, 8), Fr(3, 16), Fr(30, 127)))
PATCHES = st.integers(2, 6)


def grid(size: Fr, patches: int, count: int, seam: Fr = Fr(1, 4), **more: Any) -> Worked:
    said = {"settings": {"seam": f"{seam} in", "cutting_step": "1/16 in"}, **more}
    return work(strip_pieced_grid, finished_size=size, patches=patches, count=count, **said)


def strip_set(kind: str, wide: float, long: float, s: float) -> Work:
    """Strips of fabrics A and B one above the other, sewn along their long edges."""
    done = [Patch(box(0, 0, long, wide), kind[0])]
    top = wide
    for letter in kind[1:]:
        over = [Patch(box(0, top - wide, long, top), letter)]
        done = sew(done, over, Line((long, top), (0, top)).aside(s))
        top += wide - 2 * s
    return done


def unit_of(segments: list[str], wide: float, s: float) -> Work:
    """Segments cut from such sets, side by side."""
    done: Work = []
    right = 0.0
    for kind in segments:
        segment = strip_set(kind, wide, wide, s)
        if not done:
            done, right = segment, wide
            continue
        lying = [Patch(translate(p.shape, right - wide), p.fabric) for p in segment]
        middle = Line((right - wide / 2, 1), (right - wide / 2, 0))
        done = sew(done, flipped(lying, middle), Line((right, 0), (right, 1)).aside(s))
        right += wide - 2 * s
    return done


@pytest.mark.outside_check("strip_pieced_grid", against="geometry")
@settings(max_examples=60, deadline=None)
@given(size=SIZES, patches=PATCHES, seam=SEAMS)
def test_a_unit_of_segments_comes_out_exact(size: Fr, patches: int, seam: Fr) -> None:
    answer = grid(size, patches, 4, seam)
    s, f, n = float(seam), float(size), patches
    exact: Any = answer.unrounded["strip_width"]
    first = "".join("AB"[k % 2] for k in range(n))
    second = "".join("BA"[k % 2] for k in range(n))
    unit = unit_of([first if k % 2 == 0 else second for k in range(n)], float(exact), s)
    side = box(0, 0, f + 2 * s, f + 2 * s)
    cloth = shown(unit, "A", side.buffer(9)).union(shown(unit, "B", side.buffer(9)))
    assert alike(cloth, side), "it is not the finished size and its seams"
    p = f / n
    for y in range(n):
        for x in range(n):
            patch = box(s + x * p, s + y * p, s + (x + 1) * p, s + (y + 1) * p)
            assert alike(shown(unit, "AB"[(x + y) % 2], patch), patch)
    if n % 2 == 0:  # one kind of set does: turned end for end, the first kind is the second
        assert first[::-1] == second


def brute_sets(patches: int, count: int, each: int) -> dict[str, list[int]]:
    """Cut segments one after the other; a new set is begun when the last is used up. Segments in each set."""
    sets: dict[str, list[int]] = {}
    for _ in range(count):
        for row in range(patches):
            kind = "AB"[row % 2] if patches % 2 else "A"
            of_kind = sets.setdefault(kind, [])
            if not of_kind or of_kind[-1] == each:
                of_kind.append(0)
            of_kind[-1] += 1
    return sets


@settings(max_examples=150, deadline=None)
@given(
    size=SIZES,
    patches=PATCHES,
    count=st.integers(1, 90),
    usable=st.integers(20, 44),
    squared=st.integers(0, 6),
)
def test_strips_are_enough_and_not_one_more(
    size: Fr, patches: int, count: int, usable: int, squared: int
) -> None:
    try:
        answer = grid(size, patches, count, usable_width=Fr(usable), squaring=Fr(squared, 4))
    except Cannot as cannot:
        if cannot.given != "usable_width" or size / patches + Fr(1, 2) <= usable - Fr(squared, 4) - Fr(1, 16):
            raise
        return
    found: Any = answer.found
    wide = found["strip_width"]
    each = floor((usable - Fr(squared, 4)) / wide)
    assert found["segments_each"] == each
    sets = brute_sets(patches, count, each)
    assert found["segments"] == patches * count == sum(sum(s) for s in sets.values())
    assert found["dark_sets"] == len(sets["A"])
    assert found["light_sets"] == len(sets.get("B", ()))

    many, few = -(-patches // 2), patches // 2
    dark, light = Counter[Fr](), Counter[Fr]()
    for kind, of_kind in sets.items():
        for segments in of_kind:
            long = segments * wide + Fr(squared, 4)
            dark[long] += many if kind == "A" else few
            light[long] += few if kind == "A" else many
    runs = {run.name: Counter(run.wants) for run in answer.answer.runs}
    assert runs == {"dark strip": dark, "light strip": light}
    assert (found["dark_strips"], found["light_strips"]) == (dark.total(), light.total())
    assert max(dark) <= usable
    assert {run.width for run in answer.answer.runs} == {wide}
    seams = (patches - 1) * (
        sum(s * wide + Fr(squared, 4) for of_kind in sets.values() for s in of_kind)
        + count * (patches * wide - (patches - 1) * Fr(1, 2))
    )
    assert answer.unrounded["seam_length"] == seams


def test_twenty_nine_patches() -> None:
    """20 of 6 in at 42 in: 16 segments a set, 3 sets ABA and 2 BAB. Common practice, no source."""
    found: Any = work(strip_pieced_grid, finished_size="6 in", count=20).found
    assert (found["strip_width"], found["segments_each"]) == (Fr(5, 2), 16)
    assert (found["dark_sets"], found["light_sets"]) == (3, 2)
    assert (found["dark_strips"], found["light_strips"], found["trim_to"]) == (8, 7, Fr(13, 2))


def test_four_patches_take_one_kind_of_set() -> None:
    found: Any = work(strip_pieced_grid, finished_size="4 in", count=16, patches=2).found
    # two segments of 2 1/2 in a unit, 32 in all: two sets of 16
    assert (found["dark_sets"], found["light_sets"], found["dark_strips"], found["light_strips"]) == (
        2,
        0,
        2,
        2,
    )


def test_a_metric_nine_patch() -> None:
    found: Any = work(strip_pieced_grid, finished_size="15 cm", count=20, units="centimetres").found
    mm = Fr(5, 127)
    assert found["strip_width"] == 62 * mm  # 50 mm and two seams of 6 mm
    assert found["segments_each"] == 16  # (1060 − 12) ÷ 62 = 16.9


def test_the_narrower_and_the_washed_fabric_count() -> None:
    from boltend.plugin import Settings

    setting = Settings(fabrics={"Moss": {"usable_width": Fr(40)}, "Chalk": {"prewash_across": Fr(10)}})
    givens: dict[str, Any] = {
        "finished_size": Fr(6), "count": 20, "patches": 3, "usable_width": Fr(42), "squaring": Fr(1, 2),
    }  # fmt: skip
    plain = strip_pieced_grid(**givens, dark_fabric=None, light_fabric=None, setting=setting).found
    moss = strip_pieced_grid(**givens, dark_fabric="Moss", light_fabric=None, setting=setting).found
    chalk = strip_pieced_grid(**givens, dark_fabric="Moss", light_fabric="Chalk", setting=setting).found
    # 41 1/2, 39 1/2 and 37.8 − 1/2, each ÷ 2 1/2
    assert [each["segments_each"] for each in (plain, moss, chalk)] == [16, 15, 14]


def test_a_size_that_does_not_divide_says_what_becomes_of_the_patches() -> None:
    answer = work(strip_pieced_grid, finished_size="7 in", count=4)
    # 7 ÷ 3 = 2.3333, + 1/2 = 2.8333, up to 2 7/8: 2 3/8 inside; 7 − 2 3/8 = 4 5/8 for the two outer ones
    (caution,) = answer.cautions
    assert "2 3/8 in" in caution
    assert "2 5/16 in" in caution
    assert not work(strip_pieced_grid, finished_size="6 in", count=4).cautions


def test_no_segment_fits() -> None:
    with pytest.raises(Cannot) as refused:
        work(strip_pieced_grid, finished_size="100 in", count=1, patches=2)
    assert refused.value.given == "usable_width"
