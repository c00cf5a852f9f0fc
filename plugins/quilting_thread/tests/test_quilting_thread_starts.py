"""The questions that this plugin puts on the start screen: each links to a top that has what it takes."""

from importlib.metadata import entry_points
from typing import Any

import boltend_quilting_thread as plugin
from boltend.core.contract import CalculatorSpec


def known() -> dict[str, CalculatorSpec]:
    modules: list[Any] = [
        e.load() for e in entry_points(group="boltend.plugins") if e.dist and e.dist.name == "boltend"
    ]
    return {c.spec.name: c.spec for module in modules for c in module.boltend_calculators()}


def test_a_start_names_real_calculators_givens_and_founds() -> None:
    specs = known()
    assert plugin.boltend_starts()[0].question == "How much thread will the quilting take, and how long?"
    for start in plugin.boltend_starts():
        before: dict[str, str] = {}
        for tab, calculator, givens in start.tabs:
            for name, value in givens.items():
                assert isinstance(value, dict)
                given = specs[calculator].given(name)
                found = specs[before[value["from"]]].found(value["take"])
                assert given is not None
                assert found is not None
                assert given.kind == found.kind
            before[tab] = calculator
