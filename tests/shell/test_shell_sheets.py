"""Fabrics, project settings and notes, edited in their dialogs."""

from pathlib import Path
from typing import Any

import pytest
from textual import events

Shell = Any
Golden = Any
SIZES = {"80x24": (80, 24), "120x40": (120, 40)}

QUILT = """boltend = 1
[project]
name = "Lantern [/x]"
notes = '''For Ada.
Second line \u202e\u05e9.'''
seam = "1/4 on"
[[fabric]]
name = "Night [/x]"   # the dark one
price = "12.50 per yard"
have = "1 yd"
[[fabric]]
name = "Squares"
form = "ten inch square"
have = 12
price = "3o"
[[tab]]
name = "Bag"
calculator = "sew"
note = "one"
[tab.given]
size = "4 1/2 in"
many = 10
cloth = "night [/X]"
edge_cloth = "Squares"
edge = "60 in"
[[tab]]
name = "Ghost"
calculator = "absent"
[tab.given]
cloth = "Night [/x]"
"""
GOOD = QUILT.replace("1/4 on", "1/4 in").replace("3o", "30")


def fabric(it: Any, name: str) -> dict[str, Any]:
    row = it.desk.project.find_fabric(name)
    assert row is not None, name
    return dict(row.data)


async def open_sheet(it: Any, key: str) -> None:
    await it.press(key)
    await it.sees("Kept as you type")


async def to_cell(it: Any, name: str) -> None:
    field = it.app.screen.form.rows[name].field
    field.focus()
    await it.wait(lambda: it.app.focused is field, f"focus on {name}")


@pytest.mark.parametrize("size", list(SIZES))
async def test_screens(sewing: Shell, golden: Golden, size: str) -> None:
    async with sewing(text=QUILT, size=SIZES[size]) as it:
        await open_sheet(it, "shift+f5")
        golden(it, f"fabrics-{size}")
        await it.press("down")
        await to_cell(it, "price")
        golden(it, f"fabrics-precut-{size}")
        await it.press("escape")
        await open_sheet(it, "shift+f1")
        await to_cell(it, "seam")
        golden(it, f"settings-{size}")
        await it.press("escape", "ctrl+n")
        await it.sees("Note of Bag")
        golden(it, f"note-{size}")


async def test_a_price_typed_is_kept_checked_and_bought_with(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        await it.press("alt+u")
        await open_sheet(it, "shift+f5")
        await it.press("enter")
        await to_cell(it, "price")
        await it.clear()
        assert "price" not in fabric(it, "Night [/x]")
        await it.type("8,50")
        assert fabric(it, "Night [/x]")["price"] == "8,50"
        row = next(r for r in it.rows() if "Price  " in r and "8,50" in r)
        assert "! Price" in row
        assert any(r.startswith("│ > Night [/x]") and "! 8,50" in r for r in it.rows()), (
            "told in the list, too"
        )
        await it.press("left", "left", "backspace")
        await it.type(".")
        assert fabric(it, "Night [/x]")["price"] == "8.50"
        await it.sees("≈ $9.30 per metre")  # 8.50 / 0.9144 m
        await to_cell(it, "have")
        await it.clear()  # nothing in hand any more: it is bought, and priced
        await it.press("escape", "f8")
        await it.sees("$8.50 per yard")


async def test_plain_names_of_colours_are_listed(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        await open_sheet(it, "shift+f5")
        await it.press("enter")
        await to_cell(it, "colour")
        await it.clear()
        await it.sees("A plain name, which Space lists")
        await it.press("space")
        await it.sees("type to search", "maroon")
        await it.type("nav")
        await it.press("enter")
        await it.wait(lambda: fabric(it, "Night [/x]").get("colour") == "navy")


async def test_all_cells_are_kept_as_the_file_wants_them(sewing: Shell, project_file: Path) -> None:
    async with sewing(text=GOOD) as it:
        await open_sheet(it, "shift+f5")
        for name, keys in {
            "form": ["right"], "usable_width": list("40"), "one_way": ["space"],
            "colour": ["number_sign", *"1f4e79"],
            "printed": ["3"], "prewash_along": ["5"],
        }.items():  # fmt: skip
            await to_cell(it, name)
            await it.press(*keys)
        await to_cell(it, "have")
        await it.clear()
        await it.press("7")
        assert fabric(it, "Night [/x]") == {
            "name": "Night [/x]", "price": "12.50 per yard", "have": 7, "form": "ten inch square",
            "usable_width": "40", "one_way": True, "colour": "#1f4e79", "printed": "3", "prewash_along": "5",
        }  # fmt: skip
        await it.sees("! Price", "a precut is priced each")
        await to_cell(it, "form")
        await it.press("backspace")
        assert "form" not in fabric(it, "Night [/x]")
        assert "! Price" not in it.text()
        await it.press("ctrl+s")
        await it.sees("Saved in lantern.toml.")
        text = project_file.read_text(encoding="utf-8")
        assert 'name = "Night [/x]"   # the dark one' in text
        assert "one_way = true" in text


async def test_what_must_not_be_is_pointed_at(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        await open_sheet(it, "shift+f5")
        for name, typed, said in (
            ("have", ["1", "home", "minus"], "less than nothing"),
            ("usable_width", ["0"], "more than nothing"),
            ("prewash_along", ["1", "0", "0"], "from 0 to 99 %"),
            ("printed", ["0"], "more than nothing"),
            ("price", list("12each"), "a bolt by the yard or metre"),
        ):
            await to_cell(it, name)
            await it.clear()
            await it.press(*typed)
            await it.sees(f"! {it.app.screen.form.rows[name].spec.label}", said)


async def test_fabrics_are_added_renamed_and_removed(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        await open_sheet(it, "shift+f5")
        await it.press("f7")
        await it.sees("A name for the new fabric")
        await it.type("SQUARES")
        await it.sees("There is a fabric called")
        await it.press("enter")
        assert len(it.desk.project.fabrics) == 2
        await it.clear()
        await it.type("Moss")
        await it.press("enter")
        await it.sees("> Moss")
        assert it.app.focused is it.app.screen.form.rows["form"].field, "ready to say what it is"
        await to_cell(it, "price")
        await it.type("9")
        assert fabric(it, "Moss") == {"name": "Moss", "price": "9"}
        await it.press("shift+f2")
        assert it.desk.project.find_fabric("Moss") is None, "no tab names it: no question"
        await it.sees("Removed “Moss”. ^z brings it back.", "> Squares")
        await it.press("ctrl+z")
        assert fabric(it, "Moss")["price"] == "9"
        await it.sees("Undone: removing Moss")
        it.app.screen.list.focus()
        await it.press("home", "f2")
        await it.sees("Rename the fabric")
        await it.clear()
        await it.type("Dusk ½")
        await it.press("enter")
        await it.sees("> Dusk ½")
        assert it.given("Bag")["cloth"] == "Dusk ½", "carried to where it stood, in whatever case"
        assert it.given("Ghost")["cloth"] == "Night [/x]", (
            "what an absent calculator means by it nobody knows"
        )
        assert it.state("Bag") == "worked out"
        await it.press("shift+f2")
        await it.sees("Remove “Dusk ½”?", "“Bag”")
        await it.press("enter")
        assert it.desk.project.find_fabric("Dusk ½") is not None, "the first offer keeps it"
        await it.press("shift+f2", "down", "enter")
        await it.wait(lambda: it.desk.project.find_fabric("Dusk ½") is None)
        assert it.state("Bag") == "cannot"
        await it.press("ctrl+z")
        assert it.state("Bag") == "worked out"


async def test_fabrics_by_mouse(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        await open_sheet(it, "shift+f5")
        await it.sees("Named by “Bag”.")
        await it.click_on("Squares")
        await it.sees("> Squares", "«ten inch square»")  # its cells have the focus
        await it.click_on("Prewash along")
        await it.click_on("Rename F2")
        await it.sees("Rename the fabric")
        await it.press("escape")
        await it.click_on("Add F7")
        await it.sees("A name for the new fabric")
        await it.press("escape")
        await it.click_on("Remove Shift+F2")
        await it.sees("Remove “Squares”?")
        await it.press("escape")
        await it.click_on("‹ten inch square›")
        await it.sees("bolt", "↑ ↓ and Enter choose")
        await it.press("up", "enter")  # it opens at what the fabric is
        await it.wait(lambda: fabric(it, "Squares")["form"] == "bolt")


async def test_a_project_without_fabrics(sewing: Shell) -> None:
    async with sewing(text="boltend = 1\n") as it:
        await open_sheet(it, "shift+f5")
        await it.sees("No fabric yet. F7 adds one.")
        await it.press("f2", "shift+f2", "f7")
        await it.type("Red")
        await it.press("enter")
        await it.sees("> Red")
        await it.press("ctrl+z")
        await it.sees("Undone: adding Red")
        assert it.desk.project.fabrics == ()


async def test_settings_are_kept_checked_and_work(sewing: Shell) -> None:
    async with sewing(text=QUILT) as it:
        assert it.state("Bag") == "cannot"
        await open_sheet(it, "shift+f1")
        await to_cell(it, "seam")
        await it.sees("! Seam", "1/4 on")
        await it.press("end", "left", "backspace")
        await it.type("i")
        assert it.desk.project.settings["seam"] == "1/4 in"
        assert it.state("Bag") == "worked out"
        await it.clear()
        assert "seam" not in it.desk.project.settings
        row = next(r for r in it.rows() if " Seam " in r)
        assert "1/4 in" in row, "the default stands there faintly"
        assert "default" in row
        await to_cell(it, "copies")
        await it.clear()
        await it.type("0")
        await it.sees("! it must be 1 or more")
        await it.press("backspace", "3")
        assert it.desk.project.settings["copies"] == 3
        await to_cell(it, "currency")
        await it.type("eu")
        await it.sees("! a currency is three capital letters, as EUR")
        await it.clear()
        await it.type("EUR")
        await to_cell(it, "units")
        await it.press("right")
        assert it.desk.project.settings["units"] == "centimetres"
        await it.sees("6 mm", "106 cm", "10 cm")  # the metric defaults
        await it.press("backspace")
        await it.press("escape")
        await it.sees("· changed")
        await it.press("f8")
        await it.sees("For 3 copies of the quilt.")


async def test_undo_in_a_sheet_and_its_repaint_below(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        before = it.desk.project
        await it.click_on("Lantern [/x]")
        await it.sees("Project settings")
        await it.clear()
        await it.type("Two")
        await to_cell(it, "copies")
        await it.type("2")
        assert dict(it.desk.project.settings)["name"] == "Two"
        await it.press("ctrl+z")
        await it.sees("Undone: the project's copies")
        await it.press("ctrl+z")
        await it.sees("Undone: the project's name", "Lantern [/x]")
        assert it.desk.project is before
        await it.press("ctrl+z")
        await it.sees("There is nothing to undo.")
        await it.press("ctrl+y")
        await it.sees("Redone: the project's name")
        await it.press("escape")
        await it.wait(lambda: it.rows()[0].startswith(" Two · "), "the head")


async def test_notes_of_several_lines_stay_whole(sewing: Shell, project_file: Path) -> None:
    async with sewing(text=GOOD) as it:
        await open_sheet(it, "shift+f1")
        await to_cell(it, "notes")
        await it.sees("For Ada. …")
        await it.press("backspace")
        assert it.desk.project.settings["notes"].startswith("For Ada."), "no key but its own takes them out"
        await it.press("space")
        await it.sees("Notes of the project", "Second line <U+202E>")
        assert not it.desk.changed, "to look is no edit"
        await it.press("enter", "x", "escape")
        await it.sees("Project settings")
        assert it.desk.project.settings["notes"].endswith("\u05e9.\nx")
        assert it.desk.project.settings["notes"].startswith("For Ada.\nSecond line")
        await it.press("ctrl+s")
        await it.sees("Saved in")


async def test_the_note_of_a_tab(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        await it.press("ctrl+n")
        await it.sees("Note of Bag", "one")
        await it.press("enter", "t", "w", "o")
        assert it.desk.project.tab("Bag").note == "one\ntwo"
        it.app.post_message(events.Paste("\x1b[31mred\x07\u202e"))
        await it.wait(lambda: "red" in it.desk.project.tab("Bag").note, "the paste")
        assert it.desk.project.tab("Bag").note == "one\ntwo<U+001B>[31mred<U+0007><U+202E>"
        await it.press("escape")
        await it.sees("Note: one", "two<U+001B>[31mred")
        await it.press("ctrl+z")
        assert it.desk.project.tab("Bag").note == "one", "one burst of typing, one step"
        await it.press("f9")
        await it.type("note of")
        await it.press("enter")
        await it.sees("Note of Bag")
        await it.press("backspace", "backspace", "backspace", "escape")
        assert "note" not in it.desk.project.tab("Bag").data


async def test_quitting_from_a_sheet_asks(sewing: Shell) -> None:
    async with sewing(text=GOOD) as it:
        await open_sheet(it, "shift+f1")
        await it.type("x")
        await it.press("ctrl+q")
        await it.sees("Given ·", "· changed")
        await it.press("ctrl+q")
        await it.sees("has changes that are not saved")


async def test_a_very_small_terminal(sewing: Shell) -> None:
    async with sewing(text=GOOD, size=(50, 14)) as it:
        await open_sheet(it, "shift+f5")
        await it.press("enter")
        await to_cell(it, "printed")
        await it.type("2 yd")
        await it.sees("Printed", "2 yd", "Kept as you type")
        assert fabric(it, "Night [/x]")["printed"] == "2 yd"


async def test_a_fabric_that_nothing_uses_says_so_and_del_removes_it(sewing: Shell) -> None:
    text = QUILT.replace("[[tab]]", '[[fabric]]\nname = "Border 3"\n\n[[tab]]', 1)
    async with sewing(text=text) as it:
        await it.press("shift+f5")
        await it.sees("Border 3", "used by nothing")
        await it.press("delete")
        await it.sees("Remove “", "These tabs name it")  # the first one is in use
        await it.press("escape", "end")
        await it.sees("Used by nothing: Del removes it.")
        await it.press("delete")
        await it.sees("Removed “Border 3”.")
        assert "Border 3" not in [row.name for row in it.desk.project.fabrics]
        await it.press("tab", "tab", "tab", "delete")
        assert it.app.screen.list.display, "in a cell the key is for its text"
