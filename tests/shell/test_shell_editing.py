"""Givens edited with checks while typing; rows; undo and redo."""

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from boltend.shell.looks import Place

Shell = Any


async def test_typing_is_worked_out_and_kept_on_every_key(shell: Shell) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("backspace", "8")
        assert it.given("Sheet")["across"] == 8
        assert type(it.given("Sheet")["across"]) is int
        assert it.desk.book.result("Sheet").found["width"] == Fraction(48)
        # and through the link
        assert it.desk.book.result("Frame").found["width"] == Fraction(59)
        await it.sees("48 in finished", "changed")


async def test_typing_and_its_result_are_in_one_repaint(shell: Shell) -> None:
    """The result must be there as soon as the value is: no message in between."""
    async with shell() as it:
        await it.to("across")
        it.app.focused.insert_text_at_cursor("0")
        assert it.desk.book.result("Sheet").found["patches"] == 150
        assert any("150" in part for line in it.view.results.lines for part, _ in line.parts)


async def test_what_does_not_read_is_kept_and_pointed_at(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await it.clear()
        await it.type("6 1/x")
        assert it.given("Sheet")["size"] == "6 1/x"
        assert it.state("Sheet") == "cannot"
        assert it.state("Frame") == "waiting"
        await it.sees("[! Sheet]", "… Frame", "CANNOT")
        await it.sees("at “x”: the lower number of the fraction is missing", "“6 1/x”")
        marked = {segment.text for segment in it.app.focused.render_line(0) if segment.style.reverse}
        assert "x" in marked, "the character at fault is marked in the field"
        await it.press("backspace", "2")
        await it.sees("[Sheet]", "32 1/2 in finished")
        assert it.given("Sheet")["size"] == "6 1/2"


async def test_nothing_moves_while_somebody_types(shell: Shell) -> None:
    """A half-typed fraction cannot be read: the fields below must not jump for that moment."""
    async with shell() as it:
        await it.to("size")
        await it.clear()
        await it.type("6")

        def where() -> list[int]:
            return [n for n, row in enumerate(it.rows()) if "Across" in row or "Down  " in row or "──" in row]

        before = where()
        states = set()
        for letter in " 1/2 in":
            await it.type(letter)
            states.add(it.state("Sheet"))
            assert where() == before, it.text()
        assert states == {"cannot", "worked out"}
        await it.press("f6")
        await it.to("rings", 0, "width")
        await it.sees("Way ", "Washed")
        below = [n for n, row in enumerate(it.rows()) if "Way " in row or "Washed" in row]
        await it.type("/")
        await it.sees("! Width")
        assert [n for n, row in enumerate(it.rows()) if "Way " in row or "Washed" in row] == below


async def test_an_emptied_field_clears_the_given(shell: Shell) -> None:
    async with shell() as it:
        await it.to("across")
        await it.clear()
        assert "across" not in it.given("Sheet")
        await it.sees("! Across", "needed")


async def test_a_cannot_of_the_calculator_stands_beside_its_given(shell: Shell) -> None:
    async with shell() as it:
        await it.to("across")
        await it.clear()
        await it.type("500")
        await it.to("down")
        await it.type("5")
        rows = it.rows()
        at = next(i for i, r in enumerate(rows) if r.startswith("! Across"))
        assert "more than 2000 patches" in rows[at]


async def test_kinds_are_stored_as_the_file_wants_them(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("sizes")
        await it.type("30 1/4;30")
        assert it.given("Frame")["sizes"] == ["30 1/4", "30"]
        assert it.app.focused.value == "30 1/4;30"  # left as typed
        await it.press("semicolon")
        assert it.given("Frame")["sizes"] == "30 1/4;30;"
        await it.to("washed")
        await it.press("space")
        assert it.given("Frame")["washed"] is True
        await it.press("right")
        assert it.given("Frame")["washed"] is False
        await it.press("backspace")
        assert "washed" not in it.given("Frame")
        await it.to("way")
        await it.press("right")
        assert it.given("Frame")["way"] == "across"
        await it.press("o")
        assert it.given("Frame")["way"] == "on the bias"
        await it.press("left", "left")
        assert it.given("Frame")["way"] == "along"


async def test_a_list_of_sizes_is_kept_as_it_was_typed(shell: Shell, project_file: Path) -> None:
    typed = "6 of 12 1/2; 4 of 12 3/8; 12 1/4"
    async with shell() as it:
        await it.press("f6")
        await it.to("sizes")
        await it.type(typed)
        assert it.given("Frame")["sizes"] == ["6 of 12 1/2", "4 of 12 3/8", "12 1/4"]
        assert it.desk.book is not None
        sizes = it.desk.book.result("Frame").args["sizes"]
        assert sizes == (*[Fraction(25, 2)] * 6, *[Fraction(99, 8)] * 4, Fraction(49, 4))
        await it.press("ctrl+s")
        await it.sees("Saved in lantern.toml.")
    assert 'sizes = ["6 of 12 1/2", "4 of 12 3/8", "12 1/4"]' in project_file.read_text(encoding="utf-8")
    async with shell() as it:
        await it.press("f6")
        await it.to("sizes")
        assert it.app.focused.value == typed
        assert it.desk.book.result("Frame").args["sizes"] == sizes


async def test_equal_sizes_of_a_file_are_counted_in_the_field(shell: Shell) -> None:
    head = 'boltend = 1\n[[tab]]\nname = "A"\ncalculator = "frame"\n[tab.given]\nwidth = "9 in"\n'
    listed = 'sizes = ["12 1/2 in", "12 1/2 in", "12 1/2 in", "2 of 9", "2 of 9", 12]\n'
    async with shell(text=head + listed) as it:
        await it.to("sizes")
        assert it.app.focused.value == "3 of 12 1/2 in; 2 of 9; 2 of 9; 12"
        await it.press("end")
        await it.type(" in")
        assert it.given("A")["sizes"] == ["3 of 12 1/2 in", "2 of 9", "2 of 9", "12 in"]


async def test_a_choice_opens_its_list(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("way")
        await it.press("space")
        await it.sees("on the bias")
        await it.press("down", "down", "enter")
        await it.wait(lambda: it.given("Frame").get("way") == "on the bias")
        await it.press("space", "escape")
        assert it.given("Frame")["way"] == "on the bias"


async def test_fabrics_are_chosen_and_added(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("cloth")
        await it.press("space")
        await it.sees("Night sky", "(none)", "(a new fabric …)")
        await it.press("enter")
        await it.wait(lambda: it.given("Frame").get("cloth") == "Night sky")
        await it.to("cloth")
        await it.press("space", "down", "down", "enter")
        await it.sees("A name for the new fabric")
        await it.type("night SKY")
        await it.sees("There is a fabric called")
        await it.press("enter")
        await it.clear()
        await it.type("Red")
        await it.press("enter")
        await it.wait(lambda: it.given("Frame").get("cloth") == "Red")
        assert [f.name for f in it.desk.project.fabrics] == ["Night sky", "Red"]
        assert it.state("Frame") == "worked out"


async def test_an_inherited_setting_says_who_speaks(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("usable_width")
        await it.sees("Usable width")
        row = next(r for r in it.rows() if "Usable width" in r)
        assert "42 in" in row
        assert "default" in row
        await it.type("40")
        assert it.given("Frame")["usable_width"] == "40"


async def test_a_value_too_long_for_its_field_shows_its_beginning_when_one_comes_back(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await it.clear()
        await it.type("first; " + "60 1/4; " * 9 + "last")
        await it.sees("last")
        await it.to("across")
        await it.to("size")
        await it.wait(lambda: any(">first; 60 1/4" in row for row in it.rows()))
        await it.type("6")
        assert it.given("Sheet")["size"] == "6", "typing takes the place of all of it, as ever"


async def test_undo_goes_back_by_bursts_and_to_the_tab(shell: Shell) -> None:
    async with shell() as it:
        before = it.desk.project
        await it.to("across")
        await it.press("end")
        await it.type("12")
        await it.to("down")
        await it.type("7")
        await it.press("f6")
        await it.press("ctrl+z")
        assert it.view.tab.name == "Sheet"
        assert "down" not in it.given("Sheet")
        await it.press("ctrl+z")
        assert it.given("Sheet")["across"] == 5
        assert it.desk.project is before
        assert not it.desk.changed
        await it.sees("saved")
        await it.press("ctrl+y", "ctrl+y")
        assert (it.given("Sheet")["across"], it.given("Sheet")["down"]) == (512, 7)
        await it.to("across")
        assert it.app.focused.value == "512"


async def test_undo_puts_the_cursor_where_the_edit_was(shell: Shell) -> None:
    async with shell() as it:
        await it.to("down")
        await it.type("7")
        await it.press("f6")
        await it.to("rings", 1, "width")
        await it.type("4")
        await it.to("width")
        await it.press("ctrl+z")
        await it.wait(lambda: it.app.focused is not None and it.view.place == Place("rings", 1, "width"))
        await it.press("ctrl+z")
        await it.wait(lambda: it.view.tab.name == "Sheet" and it.view.place == Place("down"))
        await it.press("ctrl+y", "ctrl+y")
        await it.wait(lambda: it.view.tab.name == "Frame" and it.view.place == Place("rings", 1, "width"))
        await it.press("ctrl+o")
        await it.to("width")
        await it.press("ctrl+z")
        await it.wait(lambda: it.view.place is not None, "a place, whatever became of the row")


async def test_typing_in_a_field_that_was_gone_to_replaces_its_value(shell: Shell) -> None:
    async with shell() as it:
        await it.to("across")
        await it.type("42")
        assert it.given("Sheet")["across"] == 42  # it was 5
        await it.press("ctrl+z")
        assert it.given("Sheet")["across"] == 5


async def test_rows_are_added_moved_removed_edited_and_linked(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("rings", 0, "width")
        await it.press("end")
        await it.type("5")
        assert it.given("Frame")["rings"][0]["width"] == "2 in5"
        assert it.state("Frame") == "cannot"
        await it.press("backspace")
        await it.press("ctrl+o")
        assert it.given("Frame")["rings"] == [
            {"name": "Inner", "width": "2 in"}, {}, {"width": "3 1/2 in", "corner": "mitred"},
        ]  # fmt: skip
        await it.to("rings", 1, "width")
        await it.type("1")
        assert it.state("Frame") == "worked out"
        await it.press("alt+up")
        assert [r["width"] for r in it.given("Frame")["rings"]] == ["1", "2 in", "3 1/2 in"]
        await it.wait(lambda: it.view.place.row == 0)
        await it.press("alt+down")
        await it.wait(lambda: it.view.place.row == 1)
        await it.press("f4")
        await it.sees("“Sheet” · Height")
        await it.type("height")
        await it.press("enter")
        await it.wait(lambda: it.given("Frame")["rings"][1]["width"] == {"from": "Sheet", "take": "height"})
        await it.sees("←18 in")
        await it.press("shift+f4")
        assert it.given("Frame")["rings"][1]["width"] == "18 in"
        await it.press("ctrl+t")
        assert [r.get("width") for r in it.given("Frame")["rings"]] == ["2 in", "3 1/2 in"]
        await it.to("rings", 1, "corner")
        await it.press("right")
        assert it.given("Frame")["rings"][1]["corner"] == "butted"


async def test_rows_by_mouse(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.click_on("[+ row]")
        assert len(it.given("Frame")["rings"]) == 3
        await it.click_on("+ ↑ ↓ x")  # the middle: down
        assert [r.get("name") for r in it.given("Frame")["rings"]] == [None, "Inner", None]
        y = next(i for i, r in enumerate(it.rows()) if "+ ↑ ↓ x" in r)
        x = it.rows()[y].index("+ ↑ ↓ x") + 6
        await it.pilot.click(offset=(x, y))
        await it.wait(lambda: len(it.given("Frame")["rings"]) == 2)
        await it.press("ctrl+z", "ctrl+z", "ctrl+z")
        assert [r.get("name") for r in it.given("Frame")["rings"]] == ["Inner", None]


async def test_what_the_calculator_does_not_know_can_be_taken_out(shell: Shell, project_file: Path) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "S"\ncalculator = "patch"\n[tab.given]\n'
    text += 'size = "6 in"\nacross = 3\nacros = 4\n'
    async with shell(text=text) as it:
        await it.wait(lambda: it.state("S") == "cannot")
        await it.sees("has no given 'acros'")
        it.view.action_drop_unknown()
        assert it.given("S") == {"size": "6 in", "across": 3}
        assert it.state("S") == "worked out"


@pytest.mark.parametrize("key", ["enter", "down", "tab"])
async def test_keys_go_from_field_to_field(shell: Shell, key: str) -> None:
    async with shell() as it:
        await it.to("size")
        await it.press(key)
        assert it.view.place.given == "across"
        await it.press("up")
        assert it.view.place.given == "size"


async def test_a_tab_that_cannot_opens_at_what_is_wrong(shell: Shell) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "F"\ncalculator = "frame"\n[tab.given]\nwidth = "9 in"\n'
    text += 'usable_width = "4o"\n[[tab.given.rings]]\nwidth = "1 in"\n'
    async with shell(text=text) as it:
        await it.wait(lambda: it.view.place is not None and it.view.place.given == "usable_width")
        await it.sees("! Usable width", "4o")  # scrolled into sight


async def test_ctrl_a_selects_all_in_every_line_and_home_goes_to_its_start(shell: Shell) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("end", "ctrl+a")
        await it.type("7")
        assert it.given("Sheet")["across"] == 7
        await it.press("home")
        await it.type("1")
        assert it.given("Sheet")["across"] == 17
        await it.press("alt+l")
        await it.sees("Values")
        await it.press("end", "ctrl+a")
        await it.type("4; 5")
        assert it.app.focused.value == "4; 5"
        await it.press("escape", "ctrl+f")
        await it.type("many words")
        await it.press("ctrl+a")
        await it.type("x")
        assert it.app.focused.value == "x"
