"""Typing a name at a choice: all that was typed counts, and nothing else is ever taken."""

from typing import Any

import pytest

from boltend.shell.type_ahead import TypeAhead, beginning

Shell = Any


def bag(*fabrics: str) -> str:
    head = "boltend = 1\n" + "".join(f'[[fabric]]\nname = "{name}"\n' for name in fabrics)
    tab = '[[tab]]\nname = "Bag"\ncalculator = "sew"\n[tab.given]\nsize = "4 in"\nmany = 3\n'
    return f"{head}{tab}"


TWO = bag("Border", "Backing", "Deep water", "Deep red")


async def test_of_two_names_with_one_initial_the_one_that_was_typed(sewing: Shell) -> None:
    async with sewing(text=TWO) as it:
        await it.to("cloth")
        await it.type("B")
        assert it.given("Bag")["cloth"] == "Border"
        await it.sees("Typed “B”: Border, 1 of 2 that begin so.")
        await it.type("acking")
        assert it.given("Bag")["cloth"] == "Backing"
        await it.sees("«Backing»", "Typed “Backing”: Backing.")
        await it.press("enter")
        assert it.given("Bag")["cloth"] == "Backing"
        assert it.view.place.given != "cloth", "Enter leads on"


async def test_a_name_typed_slowly_is_one_name(sewing: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("boltend.shell.type_ahead.PAUSE", 0.0)
    async with sewing(text=bag("Border", "Red", "Olive")) as it:
        await it.to("cloth")
        await it.type("bord")
        assert it.given("Bag")["cloth"] == "Border"
        await it.type("o")  # begins nothing that goes on so, after a pause: another name
        assert it.given("Bag")["cloth"] == "Olive"


async def test_a_blank_within_a_name_is_typed_too(sewing: Shell) -> None:
    async with sewing(text=TWO) as it:
        await it.to("cloth")
        await it.type("deep r")
        assert it.given("Bag")["cloth"] == "Deep red"
        assert len(it.app.screen_stack) == 2, "Space opened no list"
        await it.press("space")
        assert len(it.app.screen_stack) == 3, "no name goes on so: Space lists them"


async def test_what_fits_nothing_is_told_and_never_taken(sewing: Shell) -> None:
    async with sewing(text=TWO) as it:
        await it.to("cloth")
        await it.press("right", "right")
        assert it.given("Bag")["cloth"] == "Backing"
        await it.type("borx")
        await it.sees("Nothing begins so: Backspace goes back, ↓ Enter adds it.", "(a new fabric …)")
        await it.press("enter")
        assert len(it.app.screen_stack) == 3, "Enter takes nothing that was not typed"
        assert it.given("Bag")["cloth"] == "Backing", "as before the typing"
        await it.press("backspace")
        await it.wait(lambda: it.app.screen.in_sight[0].value == "Border", "the list again")
        await it.press("enter")
        await it.wait(lambda: it.given("Bag")["cloth"] == "Border")


async def test_a_name_that_is_new_is_added_from_the_list(sewing: Shell) -> None:
    async with sewing(text=bag()) as it:
        await it.to("cloth")
        await it.type("Slate")
        await it.sees("(a new fabric …)")
        await it.press("down", "enter")
        await it.sees("A name for the new fabric")
        await it.press("enter")
        await it.wait(lambda: it.given("Bag").get("cloth") == "Slate")
        assert [row.name for row in it.desk.project.fabrics] == ["Slate"]


async def test_backspace_takes_letters_back_and_then_all(sewing: Shell) -> None:
    async with sewing(text=TWO) as it:
        await it.to("cloth")
        await it.press("right", "right", "right")
        assert it.given("Bag")["cloth"] == "Deep water"
        await it.type("ba")
        assert it.given("Bag")["cloth"] == "Backing"
        await it.press("backspace")
        assert it.given("Bag")["cloth"] == "Backing", "B is left, and fits"
        await it.type("o")
        assert it.given("Bag")["cloth"] == "Border"
        await it.press("backspace", "backspace")
        assert it.given("Bag")["cloth"] == "Deep water", "as before the typing"
        await it.press("backspace")
        assert "cloth" not in it.given("Bag")


async def test_what_was_typed_ends_with_an_arrow_and_with_the_field(sewing: Shell) -> None:
    async with sewing(text=TWO) as it:
        await it.to("cloth")
        await it.type("b")
        await it.press("right")
        assert it.given("Bag")["cloth"] == "Backing"
        await it.type("d")
        assert it.given("Bag")["cloth"] == "Deep water"
        await it.press("up")
        await it.to("cloth")
        await it.press("backspace")
        assert "cloth" not in it.given("Bag")


async def test_in_the_open_list_typing_narrows_to_all_that_was_typed(sewing: Shell) -> None:
    async with sewing(text=TWO) as it:
        await it.to("cloth")
        await it.press("space")
        await it.sees("Deep water")
        await it.type("Backing")
        await it.wait(lambda: [o.value for o in it.app.screen.in_sight][:-1] == ["Backing"], "one left")
        assert "Border" not in it.text()
        await it.press("enter")
        await it.wait(lambda: it.given("Bag").get("cloth") == "Backing")
        await it.to("cloth")
        await it.press("space")
        await it.type("redd")
        await it.sees("Nothing begins so")
        await it.press("enter", "enter")
        assert len(it.app.screen_stack) == 3
        await it.press("backspace")
        await it.sees("Deep red")  # a word within the name
        await it.press("escape")
        assert it.given("Bag")["cloth"] == "Backing"


async def test_of_many_names_the_list_takes_every_letter(sewing: Shell) -> None:
    names = [f"{first}{n}" for first in ("Bark ", "Bale ") for n in range(9)]
    async with sewing(text=bag(*names)) as it:
        await it.to("cloth")
        await it.type("bale 7")
        await it.wait(lambda: [o.value for o in it.app.screen.in_sight][:-1] == ["Bale 7"], "one left")
        await it.press("enter")
        await it.wait(lambda: it.given("Bag").get("cloth") == "Bale 7")


async def test_plain_choices_and_tables_alike(shell: Shell, sewing: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("way")
        await it.type("on the b")
        assert it.given("Frame")["way"] == "on the bias"
        await it.to("washed")
        await it.type("y")
        assert it.given("Frame")["washed"] is True
        await it.type("x")
        await it.sees("y or n, or Space for the other one.")
        assert len(it.app.screen_stack) == 2
        await it.to("way")
        await it.type("alx")
        await it.sees("Nothing begins so")
        await it.press("enter")
        assert it.given("Frame")["way"] == "on the bias"


async def test_the_settings_and_the_fabrics_alike(sewing: Shell) -> None:
    async with sewing(text=TWO) as it:
        it.view.action_settings()
        await it.sees("Project settings")
        await it.press("down")
        await it.type("cent")
        assert it.desk.project.settings["units"] == "centimetres"
        await it.type("x")
        await it.sees("Nothing begins so")


def test_the_same_letter_again_goes_to_the_next_name() -> None:
    names, ahead = ["mitred", "mitred wide", "butted"], TypeAhead()
    assert ahead.add("m", names, "butted", "") == "mitred"
    assert ahead.add("m", names, "mitred", "mitred") == "mitred wide"
    assert ahead.add("i", names, "mitred wide", "mitred wide") == "mitred wide"
    assert ahead.add("q", names, "mitred wide", "mitred wide") is None
    assert ahead.typed == "miq"
    assert ahead.take_back(names, "butted") == "mitred"
    assert (ahead.take_back(names, "mitred"), ahead.take_back(names, "mitred")) == ("mitred", "")


def test_a_name_that_is_called_just_so_comes_first() -> None:
    assert beginning(["Border 2", "Border", "Bo"], "border") == ["Border", "Border 2"]
    assert beginning(["Été", "Etude"], "ÉT") == ["Été"]


async def test_a_link_is_taken_only_where_it_has_every_word_that_was_typed(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await it.to("width")
        await it.press("f4")
        await it.sees("Where does “Width” come from?")
        await it.type("height of the frame")
        await it.sees("Nothing here fits.")
        await it.press("enter")
        assert len(it.app.screen_stack) == 3
        assert it.given("Frame")["width"] == {"from": "Sheet", "take": "width"}
        it.app.screen.query_one("#filter").value = ""
        await it.type("sheet hei")
        await it.wait(lambda: [o.value for o in it.app.screen.in_sight] == [("Sheet", "height")], "one left")
        await it.press("enter")
        await it.wait(lambda: it.given("Frame")["width"] == {"from": "Sheet", "take": "height"})
