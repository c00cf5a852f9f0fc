"""The question that this plugin puts on the start screen."""

import boltend_borders_binding as plugin


def test_a_start_names_real_calculators_givens_and_founds() -> None:
    known = {calculator.spec.name: calculator.spec for calculator in plugin.boltend_calculators()}
    for start in plugin.boltend_starts():
        before: dict[str, str] = {}
        for tab, calculator, givens in start.tabs:
            for name, value in givens.items():
                assert known[calculator].given(name) is not None
                if isinstance(value, dict):
                    assert known[before[value["from"]]].found(value["take"]) is not None
            before[tab] = calculator
