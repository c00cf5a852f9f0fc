"""Quilts for beds as they are printed, read from the standards when the test runs."""

from typing import Any

import pytest

from boltend.testing import work
from boltend_quilt_setting.bed_size import bed_size
from boltend_quilt_setting.beds import BEDS
from boltend_shared import source_line, standards

CHECKS = {row["id"]: row for row in standards()["bed_check"]}

NOT_HELD_AGAINST_US = {
    "D05": "What drop a writer advises for a bed's height: the drop is for the person to say.",
    "D06": "How far a corner may hang: no calculator finds corners.",
    "D07": "How far a corner hangs, √2 of the drop: no calculator finds corners.",
}
"""Rows that are no check value for us, each with the reason."""


def named(key: str) -> str:
    return f"{key} ({source_line(CHECKS[key]['source'])})"


@pytest.mark.outside_check("bed_size", against="published")
@pytest.mark.parametrize("key", [key for key in CHECKS if key not in NOT_HELD_AGAINST_US], ids=named)
def test_a_quilt_is_as_large_as_printed(key: str) -> None:
    """The inverse rows print the drop and the tuck of a quilt: put in, they must give its size back."""
    inputs, expected = CHECKS[key]["inputs"], CHECKS[key]["expected"]
    width, length = inputs["mattress"]
    drop = inputs.get("depth") or expected["side_and_foot_drop"]
    tuck = inputs.get("tuck") or expected.get("tuck", 0)
    worked = work(
        bed_size,
        tables=[BEDS],
        mattress_width=f"{width} in",
        mattress_length=f"{length} in",
        drop=f"{drop} in",
        tuck=f"{tuck} in",
    )
    quilt: Any = inputs.get("quilt") or expected["quilt"]
    assert [worked.found["width"], worked.found["height"]] == quilt


def test_every_row_runs_or_has_its_reason() -> None:
    assert set(NOT_HELD_AGAINST_US) < set(CHECKS)
