"""Every built-in calculator passes the kit, and is held against something outside the program."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from every import SUBJECTS, calculators, subject

from boltend.testing.kit import CHECKS


@pytest.mark.parametrize("check", CHECKS)
@pytest.mark.parametrize("name", SUBJECTS)
def test_it_keeps_the_contract(name: str, check: str) -> None:
    CHECKS[check](subject(name))


def test_no_calculator_is_left_out() -> None:
    assert set(SUBJECTS) == set(calculators())


def test_whoever_sells_says_how_it_covers() -> None:
    """A calculator with an amount that may not shrink has a check of its own that the amount covers."""
    sells = {n for n, c in calculators().items() if any(f.grows_with for f in c.spec.founds)}
    assert sorted(name for name in sells if "covers" not in SUBJECTS[name]) == []


ROOT = Path(__file__).parents[2]
ORACLES = {"published": "boltend_shared", "geometry": "shapely", "brute force": "def brute"}
"""What a calculator may be held against, and what a file that does so has in it."""


def outside_checks() -> Iterator[tuple[str, str, Path]]:
    """Every `outside_check(calculator, against=…)` that marks a test: calculator, oracle, file."""
    for file in sorted([*ROOT.glob("tests/**/test_*.py"), *ROOT.glob("plugins/*/tests/test_*.py")]):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "attr", "") == "outside_check":
                (against,) = (k.value for k in node.keywords if k.arg == "against")
                for name in node.args:
                    yield ast.literal_eval(name), ast.literal_eval(against), file


def test_every_calculator_is_held_against_something_outside() -> None:
    checked = {name for name, _, _ in outside_checks()}
    assert sorted(set(calculators()) - checked) == [], "mark what holds it with outside_check"
    assert sorted(checked - set(calculators())) == []


def test_a_mark_says_what_the_file_does() -> None:
    for name, against, file in outside_checks():
        text = file.read_text(encoding="utf-8")
        assert ORACLES[against] in text, f"{file.name} marks {name} as held against {against!r}, but is it?"
        assert name in text.replace(f'outside_check("{name}"', ""), f"{file.name} never works {name} out"
