"""Typing habits: bursts, the last field, grids, linked fields, lists that open where one is, the way back."""

from pathlib import Path
from typing import Any

import pytest
from textual import events
from textual.events import Key

from boltend.shell.looks import Place

Shell = Any

NAMES = {" ": ("space", " "), "\r": ("enter", "\r"), "/": ("slash", "/")}


async def burst(it: Any, *keys: str) -> None:
    """All keys at once, as from a slow terminal or one that was pasted to. `<f6>` is a key's name."""
    for key in keys:
        for name, letter in (
            [(key[1:-1], None)] if key.startswith("<") else [NAMES.get(c, (c, c)) for c in key]
        ):
            it.app.post_message(events.Key(name, letter))
    await it.pilot.pause()


async def test_a_burst_with_enter_fills_one_field_after_another(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await burst(it, "7 1/2 in\r12\r4")
        await it.wait(lambda: it.given("Sheet") == {"size": "7 1/2 in", "across": 12, "down": 4}, "all three")
        assert it.view.place == Place("down")


async def test_a_burst_into_another_tab_stays_out_of_this_one(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await burst(it, "8 in", "<f6>", "<down>", "<down>", "Outer", "<shift+f6>", "9 in\r6")
        await it.wait(lambda: it.given("Sheet") == {"size": "9 in", "across": 6}, "the first tab")
        assert it.given("Frame")["rings"][0] == {"name": "Outer", "width": "2 in"}


async def test_a_burst_through_dialogs(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await burst(it, "<f2>", "Lantern top\r", "<f9>", "dupl\r", "7 in", "<f9>", "frame\r")
        await it.sees("[Frame]")
        assert [tab.name for tab in it.desk.project.tabs] == ["Lantern top", "Lantern top 2", "Frame"]
        assert it.given("Lantern top")["size"] == "6 in"
        assert it.given("Lantern top 2")["size"] == "7 in"


async def test_a_key_after_a_dialog_is_not_held_up(shell: Shell) -> None:
    """What a key closes takes the sign that the key is done with along: nobody must wait for that."""
    async with shell() as it:
        for opens, closes in (
            ("f9", "escape"),
            ("f9", "f9"),
            ("f1", "f1"),
            ("f7", "escape"),
            ("ctrl+f", "escape"),
        ):
            await burst(it, f"<{opens}>")
            await it.wait(lambda: len(it.app.screen_stack) == 3, opens)
            await burst(it, f"<{closes}>")
            await it.wait(lambda: len(it.app.screen_stack) == 2 and not it.app._busy, closes)
            assert it.app._guard is None


@pytest.mark.parametrize("key", ["down", "enter"])
async def test_the_last_field_is_the_last(shell: Shell, key: str) -> None:
    async with shell() as it:
        await it.to("down")
        await it.press(key)
        assert it.view.place == Place("down")
        await it.sees("This is the last field. Tab leads on")
        await it.press("tab")
        assert it.app.focused is it.view.results
        await it.press("shift+tab", "up", "up", "up")
        assert it.app.focused is it.view.bar
        await it.press("down")
        assert it.view.place == Place("size")


async def test_down_and_up_in_a_grid_keep_the_column(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("rings", 0, "width")
        await it.press("down")
        assert it.view.place == Place("rings", 1, "width")
        await it.press("down")
        assert it.view.place == Place("cut")
        await it.press("up")
        assert it.view.place == Place("rings", 1, "name")  # from outside, the first field of the line
        await it.press("up", "up")
        assert it.view.place == Place("rings")
        await it.press("up")
        assert it.view.place == Place("width")
        await it.to("rings", 0, "name")
        # Enter passes over what may stay empty: from width to width, and out of the grid.
        for place in (Place("rings", 0, "width"), Place("rings", 1, "width"), Place("cut")):
            await it.press("enter")
            assert it.view.place == place


async def test_typing_into_a_linked_field_says_that_it_is_linked(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("width")
        before = it.given("Frame")
        for keys in (("7",), ("backspace",), ("delete",)):
            await it.press(*keys)
            await it.sees("! Linked: F4 takes another source, Shift+F4 unlinks it and keeps the value.")
            await it.press("down", "up")
            await it.sees("F3 goes there")
        assert it.given("Frame") == before
        assert it.desk.history.now is it.desk.file.saved


async def test_a_linked_choice_says_so_too(shell: Shell) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "A"\ncalculator = "frame"\n[tab.given]\nwidth = "9 in"\n'
    text += 'washed = { from = "B", take = "twice" }\nway = { from = "B", take = "twice" }\n'
    text += '[[tab]]\nname = "B"\ncalculator = "patch"\n'
    async with shell(text=text) as it:
        for given, keys in (
            ("way", ("right", "space", "backspace", "o")),
            ("washed", ("right", "space", "y")),
        ):
            for key in keys:
                await it.to("cut")
                await it.to(given)
                await it.press(key)
                await it.sees("! Linked: F4 takes another source")
                assert len(it.app.screen_stack) == 2


@pytest.mark.parametrize(("said", "word"), [("", "along"), ('way = "on the bias"\n', "on the bias")])
async def test_a_list_opens_at_what_holds(shell: Shell, said: str, word: str) -> None:
    text = f'boltend = 1\n[[tab]]\nname = "A"\ncalculator = "frame"\n[tab.given]\nwidth = "9 in"\n{said}'
    async with shell(text=text) as it:
        await it.to("way")
        await it.press("space")
        await it.sees("(default)")
        choose = it.app.screen
        assert choose.in_sight[choose._list.highlighted].value == word
        await it.press("enter")
        await it.wait(lambda: it.given("A")["way"] == word)


async def test_a_fabric_list_opens_at_the_one_that_is_named(sewing: Shell) -> None:
    text = "boltend = 1\n" + "".join(f'[[fabric]]\nname = "Cloth {n}"\n' for n in range(20))
    text += '[[tab]]\nname = "Bag"\ncalculator = "sew"\n'
    text += '[tab.given]\nsize = "4 in"\nmany = 3\ncloth = "Cloth 17"\n'
    async with sewing(text=text) as it:
        await it.to("cloth")
        await it.press("space")
        await it.sees("Cloth 17")
        await it.press("down", "enter")
        await it.wait(lambda: it.given("Bag")["cloth"] == "Cloth 18")


async def test_esc_from_a_list_leads_back_to_the_field(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("rings", 1, "width")
        for keys in (("f8", "escape"), ("f5", "f8", "f8"), ("f5", "f8", "escape")):
            await it.press(*keys)
            await it.sees("[Frame]", "Given ·")
            await it.wait(lambda: it.view.place == Place("rings", 1, "width"), f"the way back after {keys}")


async def test_help_is_for_where_one_is(shell: Shell) -> None:
    async with shell() as it:
        for keys, about in (
            ((), "Size of a patch\n  One side"),
            (("escape", "tab", "tab", "tab"), "What is found. ↑ ↓ PgUp PgDn scroll."),
            (("escape", "tab"), "Tabs: ← → go to another"),
            (
                ("escape", "f8"),
                "To buy: the whole project's shopping list. ↑ ↓ choose a line, PgUp PgDn a page.",
            ),
            (("escape", "escape", "shift+f1"), "Name"),
        ):
            await it.press(*keys, "f1")
            await it.wait(lambda about=about: it.app.screen.text.startswith(about), about)  # type: ignore[misc]  # mypy cannot infer a lambda with a default


async def test_notes_and_long_texts_take_a_burst_as_well(shell: Shell, project_file: Path) -> None:
    async with shell() as it:
        await burst(it, "<ctrl+n>", "grey ruler", "<escape>", "<f6>", "<down>", "<down>", "A b\r3 in")
        await it.wait(lambda: it.desk.project.tab("Frame").given["rings"][0]["width"] == "3 in", "the row")
        assert it.desk.project.tab("Sheet").note == "grey ruler"
        assert it.given("Frame")["rings"][0]["name"] == "A b"


async def test_a_letter_with_alt_is_a_key_and_no_letter(shell: Shell) -> None:
    """A terminal sends Alt+M as Escape and m, of which Textual makes a key with a letter in it."""
    async with shell() as it:
        await it.to("size")
        before = it.given("Sheet")["size"]
        it.app.post_message(Key("alt+m", "m"))
        await it.wait(lambda: it.view.list_in_sight == "map", "the map")
        assert it.given("Sheet")["size"] == before
