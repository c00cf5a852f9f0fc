"""A fabric's colour as a calculator sees it: `setting.on(fabric).colour`."""

from typing import Any

import pytest

from boltend.core.flow.basis import read_basis
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project


def of(colour: object, **more: object) -> Project:
    return add_fabric(Project(), "Moss", {"colour": colour, **more})


@pytest.mark.parametrize(
    ("written", "seen"),
    [("#5D6B4A", "#5d6b4a"), ("#fff", "#ffffff"), ("navy", "#000080"), (" Navy ", "#000080")],
)
def test_a_colour_is_seen_in_one_spelling(written: str, seen: str) -> None:
    assert read_basis(of(written)).settings.on("Moss").colour == seen


@pytest.mark.parametrize("written", ["no colour", "", "#12", "#1234567", 5, True, [], {}])
def test_a_colour_that_cannot_be_read_is_none_and_hinders_no_tab(written: Any) -> None:
    basis = read_basis(of(written, usable_width="40 in"))
    assert basis.settings.on("Moss").colour == ""
    assert basis.settings.on("Moss").usable_width == 40
    assert basis.fabric_troubles == {}
    assert basis.troubles == ()


def test_a_colour_alone_changes_no_other_setting() -> None:
    plain = read_basis(add_fabric(Project(), "Moss")).settings
    coloured = read_basis(of("navy")).settings
    assert {k: v for k, v in vars(coloured.on("Moss")).items() if k not in ("colour", "fabrics")} == {
        k: v for k, v in vars(plain.on("Moss")).items() if k not in ("colour", "fabrics")
    }


def test_of_two_fabrics_with_one_name_the_first_is_meant() -> None:
    project = of("navy")
    twin = Project(fabrics=(*project.fabrics, *of("red").fabrics))
    assert read_basis(twin).settings.on("Moss").colour == "#000080"
