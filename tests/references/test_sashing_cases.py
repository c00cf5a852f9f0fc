"""Published counts of sashes and cornerstones, read from the file of check values when the test runs."""

from typing import Any

import pytest

from boltend.testing import work
from boltend_quilt_setting.straight_set import straight_set
from boltend_shared import Case, cases

SASHING = cases("sashing_count")

NOT_HELD_AGAINST_US: dict[str, str] = {}
"""Cases that do not agree, by id, each with the reason why it is no check value. None at present."""

EDGES: dict[str, dict[str, Any]] = {
    "outer": {"sash_all_round": True, "cornerstones": True},
    "inner": {"sash_all_round": False, "cornerstones": True},
    "inner, vertical only cut to block; long horizontal strips": {
        "sash_all_round": False,
        "cornerstones": False,
    },
}
"""How the file describes the sashing, in our givens. Sashes are counted as short ones only, as printed."""


def named(case: Case) -> str:
    return f"{case.id} ({case.source.title}, {case.source.publisher}, {case.source.year})"


@pytest.mark.outside_check("straight_set", against="published")
@pytest.mark.parametrize("case", [case for case in SASHING if case.agrees], ids=named)
def test_the_printed_count_is_found(case: Case) -> None:
    # The file gives no sizes: a count does not depend on them, so any will do.
    found: Any = work(
        straight_set,
        block_width="9 in",
        block_height="12 in",
        sash="2 in",
        across=case.inputs["across"],
        down=case.inputs["down"],
        **EDGES[case.inputs["edge"]],
    ).found
    ours = {
        "sashes": found["sashes_down"] + found["sashes_across"],
        "cornerstones": found["cornerstone_count"],
    }
    assert set(case.expected) <= set(ours)
    assert {name: ours[name] for name in case.expected} == case.expected


def test_long_strips_that_a_note_counts_are_found_too() -> None:
    (case,) = (case for case in SASHING if "long ones" in case.note)
    found: Any = work(
        straight_set,
        block_width="9 in",
        block_height="9 in",
        sash="2 in",
        across=case.inputs["across"],
        down=case.inputs["down"],
        **EDGES[case.inputs["edge"]],
    ).found
    assert f"{found['sashes_down']} short sashes + {found['long_sashes']} long ones" in case.note


def test_every_case_runs_or_has_its_reason() -> None:
    assert SASHING
    assert {case.id for case in SASHING if not case.agrees} == set(NOT_HELD_AGAINST_US)
    assert {case.inputs["edge"] for case in SASHING if case.agrees} == set(EDGES)
