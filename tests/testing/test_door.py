"""`boltend.testing.load`: what comes through the real door, and the reason where it does not."""

import sys
from pathlib import Path

import pytest

from boltend.core.host import switch_off
from boltend.testing import load, work

SOURCE = """
from boltend.plugin import *
boltend_contract = {contract}
{before}

class Made:
    made: Count = found("Made")

@calculator("{name}", asks="How many are made?", found=Made)
def {name}(many: Count = given("How many")) -> Answer:
    return Answer(found={{"made": 2 * many}}, working=[line("2 × {{}}", many)])

@hookimpl
def {hook}():
    return [{name}]
"""


class Doors:
    """Makes a distribution in a folder on the path."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __call__(
        self, name: str, before: str = "", contract: object = 1, hook: str = "boltend_calculators"
    ) -> str:
        source = SOURCE.format(name=name, before=before, contract=contract, hook=hook)
        (self.folder / f"door_{name}.py").write_text(source, encoding="utf-8")
        info = self.folder / f"door_of_{name}-0.3.dist-info"
        info.mkdir()
        (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: door-of-{name}\nVersion: 0.3\n")
        (info / "entry_points.txt").write_text(f"[boltend.plugins]\n{name}_plugin = door_{name}\n")
        return f"door-of-{name}"


@pytest.fixture
def door(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Doors:
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setenv("BOLTEND_CONFIG", str(tmp_path / "config"))
    return Doors(tmp_path)


@pytest.mark.parametrize("called", ["door-of-knot", "Door.of_knot", "door_knot", "knot_plugin"])
def test_by_distribution_by_module_or_by_its_own_name(door: Doors, called: str) -> None:
    door("knot")
    try:
        found = load(called)
        assert list(found) == ["knot"]
        assert work(found["knot"], many=3).found == {"made": 6}
    finally:
        sys.modules.pop("door_knot", None)


def test_a_built_in_distribution_brings_all_of_its_own() -> None:
    assert {"binding", "straight_set", "quilting_thread"} <= set(load("boltend"))
    assert "binding" not in load("boltend_quilt_setting")


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"name": "torn", "before": "raise RuntimeError('the shuttle broke')"}, "the shuttle broke"),
        ({"name": "newer", "contract": 2}, "is refused: it is written for contract 2"),
        ({"name": "mistyped", "hook": "boltend_calculator"}, "Did it mean boltend_calculators?"),
        ({"name": "binding"}, "Boltend brings a calculator binding of its own"),
    ],
)
def test_the_reason_is_told(door: Doors, how: dict[str, str], said: str) -> None:
    with pytest.raises(AssertionError, match=r"plugin \w+_plugin \(of door-of-\w+ 0\.3\) is ") as raised:
        load(door(**how))
    assert said in str(raised.value)


def test_a_fault_comes_with_its_traceback(door: Doors) -> None:
    with pytest.raises(AssertionError, match="Traceback") as raised:
        load(door("torn", "raise RuntimeError('the shuttle broke')"))
    assert "door_torn.py" in str(raised.value)


def test_nothing_of_that_name(door: Doors) -> None:
    with pytest.raises(AssertionError, match="no installed distribution brings a plugin 'nobody'") as raised:
        load("nobody")
    assert "pip install -e ." in str(raised.value)
    assert "boltend" in str(raised.value)


def test_one_that_is_switched_off(door: Doors) -> None:
    name = door("knot")
    switch_off("knot_plugin", ["knot"])
    with pytest.raises(AssertionError, match="boltend plugins --on knot_plugin"):
        load(name)
