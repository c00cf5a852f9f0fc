"""The menu: what can be done and where one can go, in one list that typing narrows."""

from pathlib import Path
from typing import Any

import pytest

from boltend.shell.actions import ACTIONS
from boltend.shell.hits import Hit, Written, folded, matching
from boltend.shell.looks import Place
from boltend.shell.other_words import OTHER_WORDS
from boltend.shell.palette import HitList, Palette

Shell = Any

MANY = "boltend = 1\n" + "".join(
    f'[[tab]]\nname = "Number {n}"\ncalculator = "patch"\n[tab.given]\nsize = "6 in"\nacross = {n + 1}\n'
    for n in range(200)
)


def words(it: Any) -> list[str]:
    """What the list offers, in order."""
    return [hit.words for hit in it.app.screen.query_one(HitList).hits]


async def opened(it: Any, typed: str) -> None:
    await it.press("f9")
    await it.sees("What to do, or where to go")
    await it.type(typed)


async def test_the_menu_offers_actions_tabs_givens_founds_calculators_and_examples(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "")
        offered = words(it)
        actions = [a.words for a in ACTIONS if a.name != "menu" and not a.in_ladders]
        assert offered[: len(actions)] == actions
        assert offered[len(actions) : len(actions) + 2] == ["Sheet", "Frame"]
        assert "Sheet: Size of a patch = 6 in finished" in offered
        assert "Sheet: Width = 30 in finished" in offered
        assert "Frame: Rings 2 · Corner = mitred" in offered
        assert "Frame: Cloth" in offered  # nothing is said there yet
        assert "Add: How large is a sheet of patches?" in offered
        assert "Add: A framed sheet, from the start?" in offered
        assert any(offer.startswith("Open: Lantern Row") for offer in offered)
        assert len(offered) == len(it.app.screen.hits)


async def test_a_row_is_found_by_its_name_and_bears_it(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "inner width")
        assert words(it)[0].startswith("Frame: Inner · Width = 2 in")
        await it.press("enter")
        await it.wait(lambda: it.view.place == Place("rings", 0, "width"), "the cell")
        await opened(it, "rings 1 width")
        assert words(it)[0].startswith("Frame: Inner · Width = 2 in"), "and by its number still"


async def test_the_price_of_several_sizes_leads_to_the_ladders(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "cost crib throw queen")
        assert words(it)[0].startswith("Ladders: one given through several values, side by side")
        await it.press("escape")
        await opened(it, "cost")
        assert "To buy" in words(it)[0]


async def test_typing_narrows_and_enter_goes_to_a_given_of_another_tab(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "rings 2 corner")
        assert words(it)[0] == "Frame: Rings 2 · Corner = mitred"
        await it.press("enter")
        await it.sees("[Frame]")
        await it.wait(lambda: it.view.place == Place("rings", 1, "corner"), "the cell")


async def test_enter_goes_to_a_found_and_marks_its_line(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "framed width")
        await it.press("enter")
        await it.sees("[Frame]")
        await it.wait(lambda: it.view.results.marked is not None, "the mark")
        line = it.view.results.lines[it.view.results.marked]
        assert "".join(text for text, _ in line.parts).startswith("Framed width")
        assert it.app.focused is it.view.results
        await it.press("shift+tab")
        await it.wait(lambda: it.view.results.marked is None, "the mark gone with the focus")


async def test_a_tab_by_its_name_an_action_by_its_words_a_calculator_by_its_question(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "frame")
        assert words(it)[0] == "Frame"  # just so, before what only begins so
        await it.press("enter")
        await it.sees("[Frame]")
        await opened(it, "dupl")
        assert words(it) == ["Duplicate this tab"]
        await it.press("enter")
        await it.sees("[Frame 2]")
        await opened(it, "twice slowly")
        await it.press("enter")
        await it.sees("Slow]")


async def test_an_example_is_opened_as_a_copy(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "open lantern row")
        await it.press("enter")
        await it.sees("Lantern Row")
        assert it.app.desk.untitled


async def test_what_needs_a_tab_is_not_offered_over_a_list(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f5")
        await it.sees("To cut ·")
        await opened(it, "rename")
        assert "Rename this tab" not in words(it)


@pytest.mark.parametrize("keys", [("escape",), ("f9",), ("ctrl+p",)])
async def test_it_is_left_as_it_came(shell: Shell, keys: tuple[str, ...]) -> None:
    async with shell() as it:
        await it.press("ctrl+p")
        await it.sees("What to do")
        await it.press(*keys)
        await it.wait(lambda: not isinstance(it.app.screen, Palette), "the menu gone")
        assert it.view.place == Place("size")


async def test_the_list_by_mouse_and_by_page(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "")
        hits = it.app.screen.query_one(HitList)
        await it.press("pagedown", "down", "up", "pageup", "up")
        assert hits.at == 0
        await it.press("pagedown", "pagedown")
        assert hits.at == 20
        await it.sees(f"> {hits.chosen.words[:30]}")
        await it.type("sheet height")
        await it.click_on("Sheet: Height")
        await it.wait(lambda: it.view.results.marked is not None, "the found")


async def test_two_hundred_tabs_are_read_in_parts_and_found(shell: Shell, project_file: Path) -> None:
    async with shell(text=MANY) as it:
        written = Written()
        assert not written.read(it.desk.book, 0)  # no time: no more than is begun
        assert len([hit for hit in written.places(it.desk.book) if hit.note == "tab"]) == 200
        assert written.read(it.desk.book)
        assert len(written.places(it.desk.book)) == 200 * (1 + 3 + 3)
        await opened(it, "number 137 width")
        await it.wait(lambda: it.app.screen.whole, "all read")
        assert words(it)[0] == "Number 137: Width = 828 in finished"
        await it.press("enter")
        await it.sees("[Number 137]")


async def test_only_what_changed_is_put_into_words_anew(shell: Shell) -> None:
    async with shell() as it:
        written = Written()
        written.read(it.desk.book)
        before = written.places(it.desk.book)
        await it.to("across")
        await it.clear()
        await it.type("7")
        assert "Sheet: Across = 5" in [hit.words for hit in written.places(it.desk.book)]
        written.read(it.desk.book)
        after = written.places(it.desk.book)
        assert "Sheet: Across = 7" in [hit.words for hit in after]
        assert "Frame: Width = 42 in finished" in [hit.words for hit in after]
        assert not any(hit is other for hit in after for other in before)  # Frame takes from Sheet
        await it.press("f6")
        await it.to("cut")
        await it.type("3 in")
        written.read(it.desk.book)
        kept = {id(hit) for hit in after if hit.words.startswith("Sheet:")}
        now = {hit.words: id(hit) for hit in written.places(it.desk.book)}
        assert kept == {at for text, at in now.items() if text.startswith("Sheet:")}
        assert now["Frame: A cut size = 3 in cut"] not in {id(hit) for hit in after}


def hits(*texts: str) -> list[Hit]:
    return [Hit(text, "note", None, "elsewhere") for text in texts]


@pytest.mark.parametrize(
    ("typed", "order"),
    [
        (
            "border",
            ["Border", "Border two", "Borders: Width = 6 in", "My border", "All borders", "Crossborder"],
        ),
        (
            "BORDER",
            ["Border", "Border two", "Borders: Width = 6 in", "My border", "All borders", "Crossborder"],
        ),
        ("width borders", ["Borders: Width = 6 in"]),
        ("6 in", ["Borders: Width = 6 in"]),
        ("elsewhere two", ["Border two"]),
        ("  ", ["Crossborder", "All borders", "My border", "Borders: Width = 6 in", "Border two", "Border"]),
        ("nothing", []),
    ],
)
def test_the_order_of_what_is_found(typed: str, order: list[str]) -> None:
    offered = hits("Crossborder", "All borders", "My border", "Borders: Width = 6 in", "Border two", "Border")
    assert [hit.words for hit in matching(offered, typed)] == order


def test_lengths_are_searched_as_they_are_written() -> None:
    offered = hits("A: Width = 60 1/4 in cut", "B: Width = 160 in", "C: Width = 60 in")
    assert [hit.words[0] for hit in matching(offered, "60")] == ["A", "C", "B"]
    assert [hit.words[0] for hit in matching(offered, "1/4")] == ["A"]


SAID = {
    "back": "back",
    "backwards": "back",
    "budget": "back",
    "how wide": "back",
    "print": "export",
    "paper": "export",
    "pdf": "export",
    "mail": "export",
    "share": "export",
    "customer": "customer",
    "quote": "customer",
    "problems": "problems",
    "errors": "problems",
    "cost": "to_buy",
    "price": "to_buy",
    "how much does it cost": "to_buy",
    "compare": "ladder",
    "side by side": "ladder",
    "sizes": "ladder",
    "undo": "undo",
    "take back": "undo",
    "copy": "copy",
    "clipboard": "copy",
    "metric": "settings",
    "search": "find",
    "dark mode": "look",
    "delete": "remove_tab",
    "new project": "start",
}
"""What a person types, and the action that must be among the first five. From memory, common speech."""


async def test_actions_are_found_by_the_words_that_people_use(shell: Shell) -> None:
    async with shell() as it:
        hits = [*it.view._menu_hits()]
        for said, name in SAID.items():
            first = [getattr(hit.to, "name", "") for hit in matching(hits, said)[:5]]
            assert name in first, (said, first)


async def test_how_wide_leads_to_widths_too(shell: Shell) -> None:
    async with shell() as it:
        await opened(it, "how wide")
        assert "Sheet: Width = 30 in finished" in words(it)


def test_each_action_has_other_words_and_none_twice() -> None:
    assert set(OTHER_WORDS) == {action.name for action in ACTIONS if action.name != "menu"}
    for action in ACTIONS:
        said = [*map(folded, OTHER_WORDS.get(action.name, ()))]
        assert len(set(said)) == len(said), action.name
        assert folded(action.words) not in said, action.name
