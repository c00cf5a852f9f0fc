"""The picture on the whole screen: in cells, and by the terminal's own graphics for who asks for them."""

import re
import sys
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from boltend.core.contract.shapes import Rect
from boltend.core.paper.model import Picture
from boltend.shell import sharp
from boltend.shell.app import host_bench

Shell = Any

QUILT = """boltend = 1
[[fabric]]
name = "Slate"
colour = "#336699"
[[tab]]
name = "Top [/x]"
calculator = "straight_set"
[tab.given]
block_width = "9 in"
block_height = "9 in"
across = 4
down = 5
sash = "1 in"
[[tab]]
name = "Measured"
calculator = "measured_top"
[tab.given]
widths = "60 in"
heights = "72 in"
"""


@pytest.fixture
def begun(shell: Shell) -> Shell:
    return partial(shell, text=QUILT, bench=host_bench)


def configured(tmp_path: Path, pictures: str) -> None:
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "config.toml").write_text(f'pictures = "{pictures}"\n', encoding="utf-8")


def painted(it: Any) -> str:
    return "".join(segment.text for strip in it.app.screen._compositor.render_strips() for segment in strip)


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (120, 40)])
async def test_it_fills_the_screen_in_cells_and_is_left_again(begun: Shell, size: tuple[int, int]) -> None:
    async with begun(size=size) as it:
        await it.press("alt+v")
        await it.sees("Top [/x]", "Esc leaves.", "39 in" if size[0] > 40 else "39")
        drawn = [row for row in it.rows() if set(row) & set("┏┃┗│─")]
        assert len(drawn) >= size[1] // 2
        await it.press("escape")
        await it.wait(lambda: len(it.app.screen_stack) == 2, "the tab again")


async def test_a_tab_without_one_says_so(begun: Shell) -> None:
    alone = QUILT[: QUILT.index("[[tab]]")] + QUILT[QUILT.rindex("[[tab]]") :]
    async with begun(text=alone, size=(140, 24)) as it:
        assert not it.desk.book.result("Measured").answer.picture, "take another tab here"
        await it.press("alt+v")
        await it.sees("This tab has no picture. No tab draws the whole quilt yet.")


WHOLE = """boltend = 1
[[fabric]]
name = "Paper"
[[fabric]]
name = "Slate"
colour = "#336699"
[[tab]]
name = "Rows"
calculator = "straight_set"
[tab.given]
block_width = "9 in"
block_height = "9 in"
across = 3
down = 4
sash = "1 in"
[[tab]]
name = "Edge"
calculator = "borders"
[tab.given]
top_width = { from = "Rows", take = "width" }
top_height = { from = "Rows", take = "height" }
borders = [{ width = "4 in", fabric = "Slate" }]
[[tab]]
name = "Around"
calculator = "binding"
[tab.given]
width = { from = "Edge", take = "width" }
height = { from = "Edge", take = "height" }
fabric = "Slate"
[[tab]]
name = "Measured"
calculator = "measured_top"
[tab.given]
widths = "38 in"
heights = "48 in"
"""


async def test_the_whole_quilt_has_a_key_and_tells_the_sizes_of_its_parts(begun: Shell) -> None:
    async with begun(text=WHOLE) as it:
        await it.press("alt+q")
        # At 80 columns the size in the other system has no room: no number is cut in its middle.
        await it.sees("The quilt · Finished size", "block (", "sash (", "in wide)")
        title = next(row for row in it.rows() if "The quilt" in row)
        assert "…" not in title
        assert title.rstrip().endswith(" in"), title
        await it.press("alt+q")
        await it.wait(lambda: len(it.app.screen_stack) == 2, "where it was")
        # From a tab's own picture it is the next one.
        await it.press("alt+v")
        await it.sees("1 of 2 · Rows", "← → other pictures")
        await it.press("right")
        await it.sees("2 of 2 · The quilt")


async def test_to_buy_says_what_it_is_for(begun: Shell) -> None:
    """The size is the customer's page's: 29 in of blocks and sashes, 8 in of borders, and the raw edge."""
    async with begun(text=WHOLE.replace("boltend = 1", 'boltend = 1\n[project]\nname = "Shore"', 1)) as it:
        await it.press("f8")
        await it.sees("Shore · Finished size, with its binding on: 37 1/2 in × 47 1/2 in")
        await it.sees("The blocks' own fabric is not in this list: no tab cuts it.")


@pytest.mark.parametrize("where", ["map", "to_buy", "a tab without a picture", "the menu"])
async def test_the_whole_quilt_is_seen_from_everywhere(begun: Shell, where: str) -> None:
    async with begun(text=WHOLE, size=(100, 40)) as it:
        await it.sees("Rows")
        if where == "the menu":
            await it.press("f9")
            await it.type("picture of the whole quilt")
            await it.press("enter")
        else:
            await it.press({"map": "alt+m", "to_buy": "f8"}.get(where, "shift+f6"))
            await it.press("alt+v")
        await it.sees("The quilt · Finished size", "Esc leaves.")
        drawn = it.rows()
        # Three blocks and two sashes across, in a border: its lines, the blocks' and the sashes'.
        busiest = max(sum(sign in "│┃" for sign in row) for row in drawn)
        assert busiest >= 8, drawn
        await it.press("escape")
        await it.wait(lambda: len(it.app.screen_stack) == 2, "where it was")


async def test_while_the_cutting_is_planned_no_other_picture_stands_for_it(begun: Shell) -> None:
    async with begun(text=WHOLE) as it:
        await it.press("f5")
        await it.wait(lambda: it.view._sheets is not None and not it.view._more, "the lists")
        it.view._sheets = None  # as before the first plan
        await it.press("alt+v")
        assert len(it.app.screen_stack) == 2
        await it.sees("still being planned")


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_to_cut_shows_the_pictures_of_cutting_one_by_one(begun: Shell, size: tuple[int, int]) -> None:
    cloth = WHOLE.replace("down = 4", 'sash_fabric = "Paper"\ndown = 4')
    async with begun(text=cloth, size=size) as it:
        await it.press("f5")
        await it.wait(lambda: it.view._sheets is not None and not it.view._more, "the lists")
        count = sum(len(sheet.pictures) for sheet in it.view._sheets.cut)
        assert count > 1, "take a quilt with more to cut"
        await it.press("alt+v")
        await it.sees(f"1 of {count} · ")
        await it.press("left")
        await it.sees(f"{count} of {count} · ")
        await it.press("right")
        await it.sees(f"1 of {count} · ")
        await it.press("escape", "end")
        await it.press("alt+v")
        at = it.app.screen.at
        assert at == it.view.pane.lines.drawn_in_sight > 0


@pytest.mark.parametrize(("way", "sign"), [("sixel", "\x1bP"), ("kitty", "\U0010eeee")])
async def test_the_terminals_own_graphics_for_who_asks(
    begun: Shell, tmp_path: Path, way: str, sign: str
) -> None:
    configured(tmp_path, way)
    async with begun(size=(100, 30)) as it:
        await it.press("alt+v")
        await it.sees("Top [/x]", "Esc leaves.")
        await it.wait(lambda: sign in painted(it), "the picture, or the place where the terminal puts it")
        raster = re.search(r'"1;1;(\d+);(\d+)', painted(it))
        assert (raster is not None) == (way == "sixel")
        if raster is not None:
            assert int(raster[1]) > 900, "98 cells of 10 dots"
        await it.press("escape")
        await it.sees("[Top [/x]]")


async def test_without_the_extra_it_is_told_and_pictures_stay_in_cells(
    begun: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    configured(tmp_path, "sixel")
    monkeypatch.setitem(sys.modules, "textual_image.widget", None)
    async with begun(size=(200, 30)) as it:
        await it.sees("pictures: “sixel” needs pip install 'boltend[sharp]'")
        await it.press("alt+v")
        await it.sees("39 in", "Esc leaves.")


async def test_a_way_that_there_is_not_is_told(begun: Shell, tmp_path: Path) -> None:
    configured(tmp_path, "oil")
    async with begun(size=(200, 30)) as it:
        await it.sees("pictures: “oil” is none of cells, sixel, kitty.")


def test_the_image_has_the_fabrics_colour_where_the_shape_lies() -> None:
    assert sharp.make_ready("sixel") == ""
    shapes = (Rect(0, 0, 10, 10, fill="Slate"), Rect(10, 0, 10, 10, fill="Paper"))
    image = sharp.image_of(Picture("Two", shapes, colours={"Slate": "#336699", "Paper": "#eeddcc"}), 400, 300)
    assert image.size == (400, 300)
    seen = {colour for _, colour in image.convert("RGB").getcolors(100_000)}
    assert {(0x33, 0x66, 0x99), (0xEE, 0xDD, 0xCC)} <= seen
    left, right = (image.convert("RGB").crop(box) for box in ((100, 100, 190, 200), (210, 100, 300, 200)))
    assert (0xEE, 0xDD, 0xCC) not in {c for _, c in left.getcolors(100_000)}
    assert (0x33, 0x66, 0x99) not in {c for _, c in right.getcolors(100_000)}


def test_nothing_to_draw_is_no_image() -> None:
    assert sharp.make_ready("sixel") == ""
    assert sharp.image_of(Picture("Nothing", ()), 400, 300) is None


async def test_the_whole_quilt_and_its_cutting_are_sharp_where_asked_for(
    begun: Shell, tmp_path: Path
) -> None:
    configured(tmp_path, "sixel")
    async with begun(text=WHOLE, size=(100, 30)) as it:
        await it.press("alt+m")
        await it.press("alt+v")
        await it.sees("The quilt · Finished size")
        await it.wait(lambda: "\x1bP" in painted(it), "the picture")
        await it.press("escape", "f5")
        await it.wait(lambda: it.view._sheets is not None and not it.view._more, "the lists")
        await it.press("alt+v")
        await it.sees("1 of ")
        await it.wait(lambda: "\x1bP" in painted(it), "the picture")
