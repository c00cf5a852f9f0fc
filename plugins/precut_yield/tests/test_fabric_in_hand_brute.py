"""Blocks in hand against every grid there is: the same set in the same order.

The brute force tries every count of blocks across and down, by the words of the docstring alone.
"""

from collections.abc import Callable
from fractions import Fraction as Fr
from typing import Any, NamedTuple

import pytest
from hypothesis import example, given, seed, settings
from hypothesis import strategies as st

from boltend.plugin import Cannot
from boltend.testing import work
from boltend_precut_yield.fabric_in_hand import MOST_CHOICES, fabric_in_hand

OF_SHAPE: dict[str, Callable[[Fr, Fr], bool]] = {
    "any": lambda w, h: True,
    "square": lambda w, h: w == h,
    "near square": lambda w, h: 4 * max(w, h) <= 5 * min(w, h),
    "tall": lambda w, h: h > w,
    "wide": lambda w, h: w > h,
}


class Quilt(NamedTuple):
    """One grid, its finished size and the blocks left over, as a row of the choices."""

    across: int
    down: int
    width: Fr
    height: Fr
    spare: int


def brute(said: dict[str, Any]) -> list[Quilt]:
    """Every grid of the asked shape, each tried, without those that another one covers; best first."""
    blocks, sash, border = said["blocks"], said["sash"], said["border"]
    every = []
    for across in range(1, blocks + 1):
        for down in range(1, blocks + 1):
            if across * down <= blocks:
                width = sum([said["block_width"]] * across) + sum([sash] * (across - 1)) + border + border
                height = sum([said["block_height"]] * down) + sum([sash] * (down - 1)) + border + border
                if OF_SHAPE[said["shape"]](width, height):
                    every.append(Quilt(across, down, width, height, blocks - across * down))
    kept = [
        q for q in every if not any(o.width >= q.width and o.height >= q.height and o != q for o in every)
    ]
    return sorted(kept, key=order)


def order(quilt: Quilt) -> tuple[int, list[Fr | int], bool]:
    """Near squares, up to twice as long, longer; in the first two the fewest left over go first."""
    longer, shorter = max(quilt.width, quilt.height), min(quilt.width, quilt.height)
    wide = quilt.width > quilt.height
    if longer > 2 * shorter:
        return 3, [longer / shorter], wide
    return (1 if 4 * longer <= 5 * shorter else 2), [quilt.spare, longer / shorter], wide


def texts(said: dict[str, Any]) -> dict[str, Any]:
    """As a person types them; what is not said is left out."""
    return {
        name: f"{value} in" if isinstance(value, Fr) else value
        for name, value in said.items()
        if value is not None
    }


INCHES = st.integers(2, 80).map(lambda n: Fr(n, 4))
NONE_OR_INCHES = st.just(Fr(0)) | st.integers(1, 24).map(lambda n: Fr(n, 4))


@pytest.mark.outside_check("fabric_in_hand", against="brute force")
@seed(311)
@settings(max_examples=300, deadline=None)
@given(
    blocks=st.integers(1, 60), block_width=INCHES, block_height=INCHES, sash=NONE_OR_INCHES,
    border=NONE_OR_INCHES, shape=st.sampled_from(sorted(OF_SHAPE)),
    leave_at_most=st.none() | st.integers(0, 6), pick=st.integers(1, 4) | st.integers(1, 20),
)  # fmt: skip
@example(blocks=36, block_width=Fr(6), block_height=Fr(6), sash=Fr(0), border=Fr(0), shape="near square",
         leave_at_most=None, pick=1)  # fmt: skip
def test_all_in_the_stated_order(**said: Any) -> None:
    every = brute(said)
    want = [q for q in every if said["leave_at_most"] is None or q.spare <= said["leave_at_most"]]
    assert len(want) <= MOST_CHOICES
    if not 1 <= said["pick"] <= len(want):
        with pytest.raises(Cannot) as told:
            work(fabric_in_hand, **texts(said))
        if want:
            assert (told.value.given, told.value.way_out) == ("pick", f"Pick 1 to {len(want)}.")
        elif every:
            # the miss is told: how many the best of the asked shape leaves
            least = min(quilt.spare for quilt in every)
            assert told.value.given == "leave_at_most"
            assert f"leaves at least {least} over" in told.value.why
            assert f"Allow {least}" in told.value.way_out
        else:
            assert told.value.given == "shape"
        return
    worked = work(fabric_in_hand, **texts(said))
    rows: Any = worked.found["choices"]
    assert [Quilt(**row) for row in rows] == want
    picked = want[said["pick"] - 1]
    assert {name: worked.found[name] for name in Quilt._fields} == picked._asdict()
    used = f"{picked.across} across × {picked.down} down = {picked.across * picked.down} blocks"
    assert f"{used}, {picked.spare} left over" in worked.working[0]
    assert any(f"choice {said['pick']} of {len(want)};" in line for line in worked.working)


@pytest.mark.parametrize("shape", sorted(OF_SHAPE))
def test_every_pick_of_a_heap_is_the_next_of_the_search(shape: str) -> None:
    said = {
        "blocks": 24, "block_width": Fr(9), "block_height": Fr(6), "sash": Fr(1), "border": Fr(3),
        "shape": shape, "leave_at_most": None,
    }  # fmt: skip
    want = brute(said)
    picked = [work(fabric_in_hand, **texts(said), pick=n).found for n in range(1, len(want) + 1)]
    assert [Quilt(**{name: found[name] for name in Quilt._fields}) for found in picked] == want  # type: ignore[arg-type]  # founds
