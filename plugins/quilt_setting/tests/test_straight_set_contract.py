"""A straight set through the whole platform: typed, read, limited, rounded."""

from fractions import Fraction as Fr
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from boltend.plugin import Cannot
from boltend.testing import work
from boltend_quilt_setting.straight_set import straight_set


def test_the_defaults_are_no_sash_at_all() -> None:
    worked = work(straight_set, block_width="12 in", block_height="12 in", across="4", down="4")
    assert (worked.found["width"], worked.found["height"]) == (48, 48)
    assert any(
        "12 1/2 in" in said and "6 1/4 in from its centre both ways" in said for said in worked.working
    )


def test_a_block_without_a_height_is_square() -> None:
    found = work(straight_set, block_width="9 in", across="5", down="6").found
    # 5 · 9 = 45; 6 · 9 = 54.
    assert (found["width"], found["height"]) == (45, 54)


def test_a_sash_in_thirds_is_rounded_once_and_the_working_starts_from_the_exact() -> None:
    worked = work(straight_set, block_width=Fr(10), block_height=Fr(10), across=3, down=3, sash=Fr(4, 3))
    assert worked.unrounded["width"] == 30 + 2 * Fr(4, 3)
    assert worked.found["width"] == 32 + Fr(11, 16)  # 32 2/3 to the nearest sixteenth
    # 33 1/6 cut must cover: up to the eighth.
    assert worked.found["long_sash_length"] == 33 + Fr(1, 4)


@pytest.mark.parametrize("cornerstones", [False, True])
@pytest.mark.parametrize("all_round", [False, True])
def test_inches_and_centimetres_answer_alike(cornerstones: bool, all_round: bool) -> None:
    steps = {"seam": "1/4 in", "usable_width": "42 in", "cutting_step": "1/8 in", "size_step": "1/16 in"}
    said: dict[str, Any] = {
        "across": 5, "down": 4, "sash_all_round": all_round, "cornerstones": cornerstones, "settings": steps
    }  # fmt: skip
    inches = work(straight_set, block_width="10 in", block_height="7 1/2 in", sash="1 in", **said)
    metric = work(
        straight_set,
        units="centimetres",
        block_width="25.4 cm",
        block_height="19.05 cm",
        sash="2.54 cm",
        **said,
    )
    assert inches.found == metric.found
    assert inches.answer.pieces == metric.answer.pieces


@pytest.mark.parametrize(
    ("said", "named"),
    [({"across": 0}, "across"), ({"down": 501}, "down"), ({"sash": "-1/2 in"}, "sash"),
     ({"block_height": "200 in"}, "block_height"), ({"block_width": None}, "block_width")],
)  # fmt: skip
def test_beyond_the_limits_the_given_is_named(said: dict[str, Any], named: str) -> None:
    plain: dict[str, Any] = {"block_width": "9 in", "block_height": "9 in", "across": 4, "down": 5}
    with pytest.raises(Cannot) as caught:
        work(straight_set, **{name: value for name, value in {**plain, **said}.items() if value is not None})
    assert caught.value.given == named


def cannot_of(said: dict[str, Any], project: dict[str, str]) -> Cannot | None:
    """Work it out; a broken contract is an AssertionError and goes through."""
    try:
        work(straight_set, settings=project, **said)
    except Cannot as cannot:
        return cannot
    return None


@settings(max_examples=80, deadline=None)
@given(
    said=st.fixed_dictionaries({
        "block_width": st.sampled_from(["1/2 in", "9 1/3 in", "120 in", "23.7 cm"]),
        "block_height": st.sampled_from(["1/2 in", "11 in", "120 in"]),
        "across": st.integers(1, 500), "down": st.integers(1, 500),
        "sash": st.sampled_from(["0 in", "1/100 in", "1 1/2 in", "36 in"]),
        "sash_all_round": st.booleans(), "cornerstones": st.booleans(),
    }),
    project=st.fixed_dictionaries({}, optional={
        "seam": st.sampled_from(["0 in", "3/8 in", "1000 in"]),
        "usable_width": st.sampled_from(["1/8 in", "2 in", "118 in"]),
        "prewash_across": st.sampled_from(["5 %", "99 %"]),
        "cutting_step": st.sampled_from(["1/16 in", "7 in"]),
    }),
)  # fmt: skip
@example(
    said={"block_width": "120 in", "block_height": "120 in", "across": 500, "down": 500, "sash": "36 in",
          "sash_all_round": True, "cornerstones": True},
    project={},
)  # fmt: skip
def test_within_the_limits_there_is_an_answer_or_a_cannot(
    said: dict[str, Any], project: dict[str, str]
) -> None:
    cannot = cannot_of(said, project)
    assert cannot is None or cannot.given in ("across", "sash")
    assert cannot is None or cannot.way_out
