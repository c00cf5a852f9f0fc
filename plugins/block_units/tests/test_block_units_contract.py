"""Every calculator of the plugin keeps the contract, and its starts lead somewhere."""

from collections.abc import Mapping
from typing import Any

import pytest

from boltend.testing import Worked, check
from boltend_block_units import boltend_calculators, boltend_starts

UNIT: dict[str, Any] = {"finished_size": "3 in", "count": 20}
EXAMPLES: dict[str, dict[str, Any]] = {
    "half_square_triangles": UNIT,
    "quarter_square_triangles": UNIT,
    "flying_geese": {"finished_width": "4 in", "count": 10},
    "square_in_square": UNIT,
    "framed_square": {"centre": "4 in", "count": 4, "rounds": [{"width": "1 1/4 in"}]},
    "strip_pieced_grid": {"finished_size": "6 in", "count": 20},
}
CALCULATORS = {calculator.spec.name: calculator for calculator in boltend_calculators()}


def units_come_out(raw: Mapping[str, object], worked: Worked) -> None:
    """At least the units wanted come out, at most a set more; every piece is as large as its found."""
    found: Any = worked.found
    wanted: Any = raw["count"]
    assert wanted <= found["made"] < wanted + 8
    for name in ("square", "large_square", "small_square", "centre_square", "corner_square", "strip_width"):
        if found.get(name) is not None:
            assert found[name] >= worked.unrounded[name]
            cuts = [p.across for p in worked.answer.pieces] + [r.width for r in worked.answer.runs]
            assert found[name] in cuts


@pytest.mark.parametrize("name", CALCULATORS)
def test_it_keeps_the_contract(name: str) -> None:
    check(CALCULATORS[name], covers=units_come_out, examples=25, **EXAMPLES[name])


def test_all_six_stand() -> None:
    assert set(CALCULATORS) == set(EXAMPLES)


def test_starts_name_calculators_and_founds_that_are() -> None:
    from boltend_quilt_setting import boltend_calculators as setting

    known = {**CALCULATORS, **{c.spec.name: c for c in setting()}}
    for start in boltend_starts():
        tabs = {name: known[calculator].spec for name, calculator, _ in start.tabs}
        for name, _, givens in start.tabs:
            for given, value in givens.items():
                assert tabs[name].given(given)
                if isinstance(value, dict):
                    assert tabs[value["from"]].found(value["take"])
