"""Whole screens as plain text and how they are painted, against golden files that a person reads in a diff.

80×24, 120×40 and a narrow one. BOLTEND_GOLDEN=write before pytest writes them anew: then look at them.
"""

from pathlib import Path
from typing import Any

import pytest

Shell = Any
Golden = Any
SIZES = {"80x24": (80, 24), "120x40": (120, 40), "40x20": (40, 20)}

WRONG = """boltend = 1
[project]
name = "Wrong on purpose"
[[tab]]
name = "Sheet"
calculator = "patch"
[tab.given]
size = "6 1/x in"
across = 500
[[tab]]
name = "Frame"
calculator = "frame"
[tab.given]
width = { from = "Sheet", take = "width" }
way = "upwards"
[[tab.given.rings]]
width = "3x"
[[tab]]
name = "Waits"
calculator = "frame"
[tab.given]
width = { from = "Sheet", take = "width" }
rings = [{ width = "1 in" }]
"""


@pytest.fixture(params=list(SIZES))
def size(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def own_settings(tmp_path: Path) -> Path:
    folder = tmp_path / "config"
    folder.mkdir()
    return folder / "config.toml"


async def test_worked_out(shell: Shell, golden: Golden, size: str) -> None:
    async with shell(size=SIZES[size]) as it:
        await it.to("size")
        golden(it, f"sheet-{size}")


async def test_rows_and_links(shell: Shell, golden: Golden, size: str) -> None:
    async with shell(size=SIZES[size]) as it:
        await it.press("f6")
        await it.to("width")
        golden(it, f"frame-{size}")
        await it.to("rings", 1, "corner")
        await it.focus_in_sight()
        golden(it, f"frame-row-{size}")


async def test_wrong(shell: Shell, golden: Golden, size: str, project_file: Path) -> None:
    async with shell(text=WRONG, size=SIZES[size]) as it:
        await it.to("size")
        golden(it, f"wrong-{size}")
        await it.press("f6")
        await it.to("rings", 0, "width")
        golden(it, f"wrong-rows-{size}")
        await it.press("f6")
        await it.to("width")
        golden(it, f"waits-{size}")


async def test_dialogs(shell: Shell, golden: Golden) -> None:
    async with shell() as it:
        await it.press("f7")
        await it.sees("What do you want to know?")
        golden(it, "add-80x24")
        await it.press("escape", "f9")
        await it.sees("What to do")
        golden(it, "menu-80x24")
        await it.press("escape", "f1")
        await it.sees("Lengths:")
        golden(it, "help-80x24")
        await it.press("escape", "f6")
        await it.to("cut")
        await it.press("f4")
        await it.sees("Where does")
        golden(it, "link-80x24")


@pytest.mark.parametrize("look", ["dark", "no colour"])
async def test_how_it_is_painted(shell: Shell, golden: Golden, own_settings: Path, look: str) -> None:
    own_settings.write_text(f'look = "{look}"\n', encoding="utf-8")
    async with shell(text=WRONG, size=(60, 20)) as it:
        await it.press("f6")
        await it.to("rings", 0, "width")
        golden(it, f"wrong-{look.replace(' ', '-')}-60x20", painted=True)
        await it.press("f5")
        await it.sees("Not whole")
        golden(it, f"to-cut-{look.replace(' ', '-')}-60x20", painted=True)


async def test_metric(shell: Shell, golden: Golden, project_file: Path) -> None:
    text = 'boltend = 1\n[project]\nname = "Metrisch"\nunits = "centimetres"\n[[tab]]\nname = "Blatt"\ncalculator = "patch"\n[tab.given]\nsize = "15 cm"\nacross = 5\n'  # noqa: E501 - a file
    async with shell(text=text) as it:
        await it.to("size")
        golden(it, "metric-80x24")


async def test_a_very_small_terminal_still_shows_field_and_result(shell: Shell) -> None:
    async with shell(size=(60, 16)) as it:
        await it.to("across")
        await it.press("end")
        await it.type("0")
        await it.sees("Across", "50", "300 in finished")


async def test_turning_the_terminal_changes_the_layout(shell: Shell) -> None:
    async with shell() as it:
        assert not any("│" in row for row in it.rows())
        await it.pilot.resize_terminal(120, 40)
        await it.wait(lambda: any("Given ·" in row and "│ Found" in row for row in it.rows()), "side by side")
        await it.pilot.resize_terminal(80, 24)
        await it.wait(lambda: not any("│" in row for row in it.rows()), "stacked")
