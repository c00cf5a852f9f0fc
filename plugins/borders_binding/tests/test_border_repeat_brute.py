"""A repeat that must fit, against a plain search through every spacer; blocks that came out unequal."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.plugin import Cannot
from boltend.testing import work
from boltend_borders_binding.border_repeat import MOST_CHOICES, border_repeat
from boltend_borders_binding.measured_blocks import measured_blocks

EIGHTHS = st.integers(80, 300).map(lambda n: Fr(n, 8))


def brute(top: Any, repeats: list[Fr], spacers: list[Fr], ease: Fr) -> list[tuple[Fr, Fr, int, int, Fr]]:
    """Every (sides, ends, across, down, repeat) within the easing, in the stated order."""
    found = []
    for u in repeats:
        for x in spacers:
            for y in spacers:
                inside = top[0] + 2 * x, top[1] + 2 * y
                # the whole number of repeats that leaves least, tried one by one
                counts = [min(range(1, 400), key=lambda m, t=t, u=u: (abs(t - m * u), -m)) for t in inside]
                left = [abs(t - m * u) / m for t, m in zip(inside, counts, strict=True)]
                if max(left) <= ease:
                    key = (max(left) > 0, max(x, y), abs(x - y), -u, max(left), x, y)
                    found.append((key, (x, y, counts[0], counts[1], u)))
    return [fit for _, fit in sorted(found)]


@pytest.mark.outside_check("border_repeat", against="brute force")
@settings(max_examples=150, deadline=None)
@given(
    top=st.tuples(EIGHTHS, EIGHTHS),
    repeat=st.integers(8, 48).map(lambda n: Fr(n, 4)),
    smaller=st.integers(0, 3),
    most=st.integers(0, 4),
    low=st.integers(0, 3),
    step=st.sampled_from([Fr(1, 16), Fr(1, 8), Fr(1, 2)]),
    ease=st.sampled_from([Fr(0), Fr(1, 16), Fr(1, 4)]),
)
def test_all_in_the_stated_order(
    top: Any, repeat: Fr, smaller: int, most: int, low: int, step: Fr, ease: Fr
) -> None:
    # None, or one that a border can be: 1/4 in.
    spacers = [Fr(0), *(n * step for n in range(low, 2 * most + 1) if n * step >= Fr(1, 4))]
    least = repeat - smaller * step
    repeats = [repeat, *(n * step for n in range(1, 200) if least <= n * step < repeat)]
    said = {
        "top_width": f"{top[0]} in", "top_height": f"{top[1]} in", "repeat": f"{repeat} in",
        "border_width": "3 in", "spacer_least": f"{low * step} in", "spacer_most": f"{2 * most * step} in",
        "step": f"{step} in", "ease_most": f"{ease} in",
        **({"repeat_least": f"{least} in"} if smaller else {}),
    }  # fmt: skip
    if least <= 0 or low > 2 * most:
        return
    want = brute(top, repeats, spacers, ease)
    if not want:
        with pytest.raises(Cannot, match="Nearest"):
            work(border_repeat, **said)
        return
    worked = work(border_repeat, **said)
    choices: Any = worked.found["choices"]
    names = ("spacer_sides", "spacer_ends", "repeats_across", "repeats_down", "repeat_used")
    assert [tuple(row[name] for name in names) for row in choices] == want[:MOST_CHOICES]
    assert worked.found["width"] == top[0] + 2 * want[0][0] + 6


def test_a_top_that_needs_a_spacer() -> None:
    # 50 = 8 × 6 + 2, so 2 more on each side make 54; 62 = 10 × 6 + 2 likewise makes 66
    worked = work(border_repeat, top_width="50 in", top_height="62 in", repeat="6 in", border_width="3 in")
    found: Any = worked.found
    assert (found["spacer_sides"], found["spacer_ends"]) == (2, 2)
    assert (found["repeats_across"], found["repeats_down"]) == (9, 11)
    assert (found["left_over_across"], found["left_over_down"]) == (0, 0)
    assert worked.cautions == []


def test_an_on_point_top_is_eased() -> None:
    # 43.84 in wide: no step fits exactly, so what is left over is told for every repeat
    worked = work(
        border_repeat, top_width="43 13/16 in", top_height="43 13/16 in", repeat="4 in", border_width="4 in"
    )
    assert any("ease" in said for said in worked.cautions)


def test_the_finest_steps_stay_bounded() -> None:
    with pytest.raises(Cannot) as told:
        work(
            border_repeat,
            top_width="900 in", top_height="800 in",
            repeat="60 in", repeat_least="1/4 in", border_width="3 in",
            step="1/16 in", spacer_most="24 in",
        )  # fmt: skip
    assert told.value.given == "step"


def test_blocks_trimmed_to_the_smallest() -> None:
    worked = work(measured_blocks, sizes="12 1/4 in; 12 1/2 in; 12 5/8 in", nominal="12 1/2 in")
    found: Any = worked.found
    assert (found["trim_to"], found["finished_size"]) == (Fr(49, 4), Fr(47, 4))
    assert (found["short"], found["long"], found["coping_strip"]) == (1, 1, Fr(1, 8))
    assert found["spread"] == Fr(3, 8)
    # the largest loses (12 5/8 − 12 1/4) ÷ 2
    assert any("loses 3/16 in on each side" in said for said in worked.cautions)


def test_blocks_brought_up_to_the_nominal_size() -> None:
    worked = work(
        measured_blocks, sizes="12 in; 12 1/2 in", nominal="12 1/2 in", trim="nominal", coping_most="1/8 in"
    )
    assert (worked.found["trim_to"], worked.found["finished_size"]) == (Fr(25, 2), 12)
    assert worked.found["coping_strip"] == Fr(1, 4)
    assert any("Short blocks (1) get a coping strip" in said for said in worked.cautions)
    assert any("it shows" in said for said in worked.cautions)


def brute_blocks(sizes: list[Fr], nominal: Fr) -> tuple[int, int, Fr]:
    short = long = 0
    strip = Fr(0)
    for size in sizes:
        short += size < nominal
        long += size > nominal
        while size + 2 * strip < nominal:
            strip += Fr(1, 32)
    return short, long, strip


@pytest.mark.outside_check("measured_blocks", against="brute force")
@given(
    sizes=st.lists(st.integers(160, 240).map(lambda n: Fr(n, 16)), min_size=1, max_size=8),
    nominal=st.integers(160, 240).map(lambda n: Fr(n, 16)),
    trim=st.sampled_from(["smallest", "nominal"]),
)
def test_counted_one_by_one(sizes: list[Fr], nominal: Fr, trim: str) -> None:
    worked = work(
        measured_blocks, sizes="; ".join(f"{s} in" for s in sizes), nominal=f"{nominal} in", trim=trim
    )
    short, long, strip = brute_blocks(sizes, nominal)
    assert (worked.found["short"], worked.found["long"]) == (short, long)
    assert worked.unrounded["coping_strip"] == strip
    assert worked.found["trim_to"] == (sorted(sizes)[0] if trim == "smallest" else nominal)
