"""Settings as one tab sees them, and steps in one project."""

import copy
import pickle
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.contract import (
    DEFAULTS,
    SETTING_KINDS,
    STEP_SETTINGS,
    ContractError,
    Settings,
    Step,
    step_size,
)
from boltend.core.flow.basis import default_of, read_basis
from boltend.core.project.model import Project
from boltend.core.values import KINDS, ROOT2, Notation

MM = Fraction(5, 127)  # 25.4 mm are an inch (international yard and pound agreement, 1959)


def test_on_a_fabric_its_own_settings_speak() -> None:
    base = Settings(fabrics={"Moss": {"usable_width": Fraction(40), "squaring": Fraction(1)}})
    assert (base.on("Moss").usable_width, base.on("Moss").squaring) == (40, 1)
    assert base.on("Moss").overage == base.overage
    assert base.on("Slate") is base
    assert base.on(None) is base


def test_what_the_tab_says_no_fabric_changes() -> None:
    base = Settings(
        usable_width=Fraction(39),
        fabrics={"Moss": {"usable_width": Fraction(40), "squaring": Fraction(1)}},
        fixed=frozenset({"usable_width"}),
    )
    assert (base.on("Moss").usable_width, base.on("Moss").squaring) == (39, 1)


def test_cut_and_buy_round_up_to_their_steps_exactly() -> None:
    settings = Settings()
    assert settings.cut_up(Fraction(9)) == 9
    assert settings.cut_up(9 * ROOT2) == Fraction(102, 8)  # 12.7279 in
    assert settings.cut_up(Fraction(9) + Fraction(1, 10**12)) == Fraction(73, 8)
    assert settings.buy_up(22) == Fraction(45, 2)  # 5/8 yd
    assert settings.buy_up(Fraction(45, 2)) == Fraction(45, 2)


def test_defaults_are_those_of_the_settings_in_inches_and_their_metric_twins() -> None:
    plain = Settings()
    for name in (*SETTING_KINDS, *STEP_SETTINGS):
        assert default_of(name, Notation("in")) == getattr(plain, name)
    metric = read_basis(Project(settings={"units": "centimetres"})).settings
    assert (metric.seam, metric.usable_width, metric.overage) == (6 * MM, 1060 * MM, 100 * MM)
    assert (metric.squaring, metric.size_step, metric.cutting_step) == (12 * MM, MM, MM)
    assert metric.buying_step == 100 * MM
    assert DEFAULTS.keys() == {*SETTING_KINDS, *STEP_SETTINGS}


def test_settings_cross_a_process() -> None:
    settings = Settings(fabrics={"Moss": {"usable_width": Fraction(40)}}, fixed=frozenset({"seam"}))
    assert pickle.loads(pickle.dumps(settings)) == settings
    assert settings.notation == Notation("in", Fraction(1, 4), "USD")


@pytest.mark.parametrize(
    ("step", "kind", "system", "size"),
    [
        (None, "cut", "in", None),
        (Step(name="cutting"), "cut", "in", Fraction(1, 8)),
        (Step(inches="1/2 in", metric="1 cm"), "cut", "in", Fraction(1, 2)),
        (Step(inches="1/2 in", metric="1 cm"), "cut", "cm", 10 * MM),
        (Step(inches="1/8 yd", metric="10 cm"), "length", "in", Fraction(9, 2)),
        (Step(inches="0.1 %", metric="0.1 %"), "percent", "cm", Fraction(1, 10)),
        (Step(inches="5 min", metric="5 min"), "time", "in", 5),
    ],
)
def test_the_size_of_a_step(step: Step | None, kind: str, system: str, size: Fraction | None) -> None:
    how = Notation("cm" if system == "cm" else "in")
    assert step_size(step, KINDS[kind], how, Settings().steps) == size


def test_a_step_that_is_no_number_is_refused() -> None:
    with pytest.raises(ContractError, match="is no number"):
        step_size(Step(inches="3 USD", metric="3 USD"), KINDS["price"], Notation(), {})


def test_on_a_fabric_its_colour_is_known_and_elsewhere_there_is_none() -> None:
    base = Settings(fabrics={"Moss": {"colour": "#5d6b4a"}, "Slate": {"usable_width": Fraction(40)}})
    assert base.on("Moss").colour == "#5d6b4a"
    assert base.colour == base.on(None).colour == base.on("Slate").colour == base.on("Fern").colour == ""
    of_moss = replace(base.on("Moss"), plain=base)  # a tab of which Moss speaks
    assert (of_moss.colour, of_moss.on("Slate").colour, of_moss.on(None).colour) == ("#5d6b4a", "", "")


def test_a_misspelt_setting_is_told_with_the_nearest_right_one() -> None:
    setting: Any = Settings()  # mypy tells it before, where a plugin is checked
    with pytest.raises(AttributeError, match=r"setting\.cuting_step\. Did you mean setting\.cutting_step\?"):
        _ = setting.cuting_step
    with pytest.raises(AttributeError, match=r"^there is no setting\.zzz\.$"):
        _ = setting.zzz
    assert pickle.loads(pickle.dumps(setting)) == copy.deepcopy(setting) == setting
