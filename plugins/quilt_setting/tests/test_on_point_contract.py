"""A set on point through the whole platform: typed, read, limited, rounded, and held against the contract."""

from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from boltend.plugin import Cannot
from boltend.testing import check, work
from boltend_quilt_setting.on_point import on_point

PLAIN: dict[str, Any] = {"block": "9 in", "across": 3, "down": 4}


@pytest.mark.parametrize(
    "more",
    [
        {}, {"sash": "2 in", "sash_fabric": "oat"}, {"sash": "1 in", "cornerstones": False},
        {"sash": "1 1/2 in", "edge": "points", "float": "1/2 in"},
    ],
)  # fmt: skip
def test_it_keeps_the_contract(more: dict[str, Any]) -> None:
    check(on_point, examples=15, **PLAIN, **more)


@pytest.mark.parametrize("cornerstones", [False, True])
@pytest.mark.parametrize("edge", ["points", "cornerstone centres", "sash all round"])
def test_inches_and_centimetres_answer_alike(edge: str, cornerstones: bool) -> None:
    steps = {"seam": "1/4 in", "usable_width": "42 in", "cutting_step": "1/8 in", "size_step": "1/16 in"}
    said: dict[str, Any] = {
        "across": 5, "down": 4, "edge": edge, "cornerstones": cornerstones, "settings": steps
    }  # fmt: skip
    inches = work(on_point, block="10 in", sash="1 in", float="1/2 in", oversize="1/4 in", **said)
    metric = work(
        on_point,
        units="centimetres",
        block="25.4 cm",
        sash="2.54 cm",
        float="1.27 cm",
        oversize="6.35 mm",
        **said,
    )
    assert inches.found == metric.found
    assert (inches.answer.pieces, inches.answer.runs) == (metric.answer.pieces, metric.answer.runs)


@pytest.mark.parametrize(
    ("said", "named"),
    [({"across": 0}, "across"), ({"down": 501}, "down"), ({"sash": "-1/2 in"}, "sash"),
     ({"float": "40 in"}, "float"), ({"block": "200 in"}, "block"), ({"block": None}, "block"),
     ({"edge": "middle"}, "edge"), ({"oversize": "-1/8 in"}, "oversize")],
)  # fmt: skip
def test_beyond_the_limits_the_given_is_named(said: dict[str, Any], named: str) -> None:
    with pytest.raises(Cannot) as caught:
        work(on_point, **{name: value for name, value in {**PLAIN, **said}.items() if value is not None})
    assert caught.value.given == named


def cannot_of(said: dict[str, Any], project: dict[str, str]) -> Cannot | None:
    """Work it out; a broken contract is an AssertionError and goes through."""
    try:
        work(on_point, settings=project, **said)
    except Cannot as cannot:
        return cannot
    return None


@settings(max_examples=80, deadline=None)
@given(
    said=st.fixed_dictionaries({
        "block": st.sampled_from(["1/2 in", "9 1/3 in", "120 in", "23.7 cm"]),
        "across": st.integers(1, 500), "down": st.integers(1, 500),
        "sash": st.sampled_from(["0 in", "1/100 in", "1 1/2 in", "36 in"]),
        "edge": st.sampled_from(["points", "cornerstone centres", "sash all round"]),
        "cornerstones": st.booleans(), "float": st.sampled_from(["0 in", "1/7 in", "36 in"]),
        "oversize": st.sampled_from(["0 in", "12 in"]),
    }),
    project=st.fixed_dictionaries({}, optional={
        "seam": st.sampled_from(["0 in", "3/8 in", "1000 in"]),
        "usable_width": st.sampled_from(["1/8 in", "2 in", "118 in"]),
        "prewash_across": st.sampled_from(["5 %", "99 %"]),
        "cutting_step": st.sampled_from(["1/16 in", "7 in"]),
    }),
)  # fmt: skip
@example(
    said={"block": "120 in", "across": 500, "down": 500, "sash": "36 in", "edge": "sash all round",
          "cornerstones": True, "float": "36 in", "oversize": "12 in"},
    project={},
)  # fmt: skip
@example(
    said={"block": "1/2 in", "across": 500, "down": 500, "sash": "1/8 in", "edge": "cornerstone centres",
          "cornerstones": True, "float": "0 in", "oversize": "0 in"},
    project={},
)  # fmt: skip
def test_within_the_limits_there_is_an_answer_or_a_cannot(
    said: dict[str, Any], project: dict[str, str]
) -> None:
    cannot = cannot_of(said, project)
    assert cannot is None or cannot.given in ("across", "sash", "float")
    assert cannot is None or cannot.way_out


def test_a_top_as_large_as_its_seams_may_be_is_answered() -> None:
    found: Any = work(on_point, block="9 in", across=500, down=500).found
    assert 9 * 10**6 < found["seam_length"] < 10**7
