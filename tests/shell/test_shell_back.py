"""Working backwards in the shell: from a found to the given that makes it so."""

import threading
from typing import Any

import pytest

from boltend.core.asking.back import Search
from boltend.core.asking.sift import Sift
from boltend.shell.back_screen import shortened
from boltend.shell.key_line import KeyLine, whole_keys

Shell = Any
Golden = Any
SIZES = {"80x24": (80, 24), "120x40": (120, 40)}

BAG = """boltend = 1
[[fabric]]
name = "Red"
price = "12 per yard"
[[tab]]
name = "Bag"
calculator = "sew"
[tab.given]
size = "4 in"
many = 10
cloth = "Red"
buttons = 3
"""


async def found(it: Any, *steps: str) -> None:
    """To the founds, and to one of them; then ask."""
    await it.press("alt+r", *steps, "alt+w")


@pytest.mark.parametrize("size", list(SIZES))
async def test_screens(shell: Shell, golden: Golden, size: str) -> None:
    async with shell(size=SIZES[size]) as it:
        await it.press("alt+r")
        golden(it, f"founds-{size}")
        await it.press("alt+w")
        await it.type("35")
        await it.sees("Which given makes Width of “Sheet” so?", "left out")
        golden(it, f"back-{size}")
        await it.press("enter")
        await it.sees("that does")
        golden(it, f"back-done-{size}")


async def test_the_chosen_found_is_asked_for(shell: Shell) -> None:
    async with shell() as it:
        await found(it, "down", "down")  # the founds of a sheet: width, height, patches
        await it.sees("Which given makes Patches of “Sheet” so?", "now 15")
        await it.type("33")
        await it.sees("left out: 1 that changes nothing here")  # the size of a patch
        await it.press("tab", "tab", "enter")
        await it.sees("that does", "11   gives 33")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet")["across"] == 11)
        await it.sees("is 11 now; ^z takes it back", "33")
        await it.press("ctrl+z")
        assert it.given("Sheet")["across"] == 5


async def test_through_the_links_to_the_given_of_another_tab(shell: Shell) -> None:
    """30 in, and rings of 2 and 3 1/2 in at both sides: 41 in; 6 in more makes 47 in."""
    async with shell() as it:
        await it.press("f6")
        await found(it)
        await it.sees(
            "Framed width of “Frame”", "“Frame”: Width of “Inner”, now 2 in", "“Sheet”: Across, now 5"
        )
        await it.sees("left out:")
        await it.type("exactly 47")
        await it.sees("(o) exactly")
        # Rings 2 and 1, both alike, size of a patch, across.
        await it.press("tab", "tab", *("down",) * 4)
        await it.sees(">( ) “Sheet”: Across")
        await it.press("enter")
        await it.sees(" does", "6  gives 47 in")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet")["across"] == 6)
        assert it.view.tab.name == "Frame", "and it stays where it was"


async def test_a_cell_of_rows_gets_its_value(shell: Shell) -> None:
    async with shell() as it:
        await it.press("f6")
        await found(it)
        await it.type("exactly 40")
        await it.press("tab", "tab", "down", "enter")  # the outer ring stands first
        await it.sees("1 1/2 in  gives 40 in")
        await it.press("enter")
        await it.wait(lambda: it.given("Frame")["rings"][0]["width"] == "1 1/2 in")


async def test_the_value_that_changes_least_is_ready_to_be_taken(shell: Shell) -> None:
    """5 in a row of 6 in are 30 in; 4 of them are the most within 29 in."""
    async with shell() as it:
        await found(it)
        await it.type("at most 29")
        await it.press("tab", "tab", "down", "enter")
        await it.sees("that does")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet")["across"] == 4)


async def test_none_does_and_the_nearest_are_told(shell: Shell) -> None:
    async with shell() as it:
        await found(it)
        await it.type("exactly 31")
        await it.press("tab")
        await it.type("5 to 6 3/4")
        await it.press("tab", "enter")
        await it.sees(
            "None does. The nearest: 6 3/16 in, which gives 30 15/16 in.",
            "6 1/4 in   gives 31 1/4 in",
            "Looked at from",
        )
        await it.press("escape")
        assert it.given("Sheet")["size"] == "6 in"


async def test_what_is_wrong_is_told(shell: Shell) -> None:
    async with shell() as it:
        await found(it)
        await it.sees("Say what it should be, as 30 in, or as at most 30 in.")
        assert "!" not in it.text(), "nothing is wrong before anything is typed"
        await it.press("enter")
        await it.sees("! what should be reached?")
        await it.type("wide")
        await it.sees("! 'wide'")
        await it.press("enter")
        await it.sees("Which given")
        await it.clear()
        await it.type("30")
        await it.press("tab")
        await it.type("5 inn")
        await it.sees("! “5 inn”: ", "As 1/4 in to 3/4 in by 1/16 in, or 1/4 in; ")
        await it.press("escape")
        assert len(it.app.screen_stack) == 2


async def test_the_values_are_typed_as_those_of_a_ladder_are(shell: Shell) -> None:
    """What the dialog prints of the range may be typed into it; 5 patches of 7 1/4 in are 36 1/4 in."""
    async with shell() as it:
        await found(it)
        await it.type("exactly 36 1/4")
        await it.press("tab")
        for typed, understood in (
            ("from 7 to 8 by 1/8", "9 values, 7 in to 8 in by 1/8 in"),
            ("7 in to 8 in by 1/8 in", "9 values, 7 in to 8 in by 1/8 in"),
            ("7 to 8", "17 values, 7 in to 8 in by 1/16 in"),
            ("7 1/4 in", "1 value, 7 1/4 in"),
            ("7; 7 1/4; 8 in", "3 values, 7 in; 7 1/4 in; 8 in"),
        ):
            await it.clear()
            await it.type(typed)
            await it.sees(f"exactly 36 1/4 in: {understood}")
        await it.press("enter")
        await it.sees(" does", "7 1/4 in  gives 36 1/4 in", "All 3 values that were asked for were tried.")


async def test_what_was_ticked_before_it_was_found_idle_stays(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    """More patches down make no sheet wider; who ticks them meanwhile is told so by the search."""
    let = threading.Event()
    real = Sift.run

    def later(self: Any) -> Any:
        let.wait(10)
        return real(self)

    monkeypatch.setattr(Sift, "run", later)
    async with shell() as it:
        await found(it)
        await it.press("tab", "tab", "down", "down", "space")
        await it.sees(">(o) “Sheet”: Down", "Which given ")
        let.set()
        await it.pilot.pause(0.3)
        await it.sees(">(o) “Sheet”: Down")
        assert "left out" not in it.text()


async def test_without_a_chosen_found_it_is_asked_which(shell: Shell) -> None:
    async with shell() as it:
        await it.to("size")
        await it.press("alt+w")
        await it.sees("What should “Sheet” find?", "Patches", "15")
        await it.type("")
        await it.press("down", "enter")
        await it.sees("Height of “Sheet”")


async def test_the_total_to_buy(sewing: Shell) -> None:
    """A button is $0.50, and the least of cloth 1/8 yd: $1.50."""
    async with sewing(text=BAG) as it:
        await it.press("f8")
        await it.sees("Total")
        await it.press("alt+w")

        await it.sees("the total to buy so?", "“Bag”: Buttons, now 3", "Wanted now $")
        await it.type("at most 5 USD")
        await it.press("tab", "tab")
        for _ in range(5):
            if ">( ) “Bag”: Buttons" in it.text():
                break
            await it.press("down")
        await it.press("enter")
        await it.sees("that does")
        amounts = [one.cell.amount for one in it.app.screen.tries]
        assert amounts
        assert all(amount <= 5 for amount in amounts)


async def test_esc_stops_a_search_and_tells_what_it_has(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    let = threading.Event()
    real = Search.at

    def slowly(self: Any, place: int) -> Any:
        assert threading.current_thread() is not threading.main_thread(), "searched on the screen's thread"
        if len(self.known) == 3:
            while not let.wait(0.01) and not self.stopped():
                pass
        return real(self, place)

    monkeypatch.setattr(Search, "at", slowly)
    async with shell() as it:
        await found(it)
        await it.type("1")
        await it.press("tab", "tab", "down", "enter")  # across, of which the width does not say that it grows
        await it.sees("3 of ", "values tried", "Esc stops")
        await it.press("escape")
        await it.sees("that does", "Stopped: 3 of")
        await it.press("escape")
        assert len(it.app.screen_stack) == 2


async def test_what_answers_later_is_waited_for(shell: Shell) -> None:
    text = 'boltend = 1\n[[tab]]\nname = "Twice"\ncalculator = "slow"\n[tab.given]\nmany = 3\n'
    async with shell(text=text) as it:
        it.bench.finish()
        await it.sees("Twice", "6")
        await found(it)
        await it.type("exactly 8")
        await it.press("tab")
        await it.type("2 to 5")
        await it.press("enter")
        for _ in range(4):
            await it.wait(lambda: it.bench.waiting, "a call")
            it.bench.finish()
        await it.sees(" does", "4  gives 8")
        await it.press("enter")
        await it.wait(lambda: it.given("Twice")["many"] == 4)


async def test_by_mouse(shell: Shell) -> None:
    async with shell(size=(120, 40)) as it:
        await it.click_on("Patches")
        await it.press("alt+w")
        await it.sees("Patches of “Sheet”")
        await it.type("30")
        await it.click_on("“Sheet”: Down")
        await it.click_on("at most")
        await it.click_on("Search: Enter")
        await it.sees("that does")
        await it.click_on("6  gives 30")
        await it.wait(lambda: it.given("Sheet")["down"] == 6)


async def test_not_from_the_map_and_not_without_numbers(shell: Shell) -> None:
    async with shell() as it:
        await it.press("alt+m", "alt+w")
        await it.pilot.pause()
        assert len(it.app.screen_stack) == 2


async def test_the_given_that_the_person_came_from_is_the_first_and_ticked(shell: Shell) -> None:
    """From the second ring's corner: of its row the width, for a corner has no steps."""
    async with shell() as it:
        await it.press("f6")
        await it.to("rings", 1, "width")
        await it.press("alt+w", "enter")
        await it.sees("(o) “Frame”: Width of row 2", "( ) “Frame”: Width of “Inner”")
        await it.press("escape")
        await it.to("rings", 1, "corner")
        await it.press("alt+r", "alt+w")
        await it.sees("(o) “Frame”: Width of row 2")
        await it.type("exactly 48")
        await it.press("enter")
        # 30 in, 2 in and then 7 in at both sides.
        await it.sees(" does", "7 in  gives 48 in")
        await it.press("enter")
        await it.wait(lambda: it.given("Frame")["rings"][1]["width"] == "7 in")


async def test_of_many_values_the_least_a_few_more_and_the_rest_on_request(shell: Shell) -> None:
    """5 patches of 7 in are 35 in; by 1/16 in to 25 1/2 in are 18 1/2 × 16 + 1 = 297 values."""
    async with shell() as it:
        await found(it)
        await it.type("35")
        await it.press("enter")
        await it.sees(
            "7 in is the least that does (by 1/16 in): it gives exactly 35 in",
            "7 1/4 in",
            "… 291 more, 7 5/16 in to 25 7/16 in",
        )
        await it.press(*("down",) * 5, "enter")
        await it.sees("7 5/16 in    gives 36 9/16 in", "7 in is the least")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet")["size"] == "7 5/16 in")


@pytest.mark.parametrize(
    ("count", "near", "spans"),
    [
        (1, 0, [(0, 1)]),
        (9, 8, [(0, 9)]),
        (10, 0, [(0, 5), (9, 10)]),
        (10, 8, [(0, 5), (7, 10)]),
        (30, 7, [(0, 9), (29, 30)]),  # 5 stands between 4 and 6: no gap of one
        (30, 20, [(0, 5), (19, 22), (29, 30)]),
        (30, 29, [(0, 5), (28, 30)]),
    ],
)
def test_which_of_many_values_are_shown_at_first(count: int, near: int, spans: list[Any]) -> None:
    assert shortened(count, near) == spans


async def test_help_in_the_dialogs_and_back(shell: Shell) -> None:
    async with shell() as it:
        await found(it)
        await it.press("f1")
        await it.sees("Wanted: what it should be", "12 1/2", "The step of “Size of a patch” is 1/16 in.")
        await it.press("f1")
        await it.sees("Which given makes")
        await it.type("35")
        await it.press("enter")
        await it.sees("that does")
        await it.press("f1")
        await it.sees("Each line is a value of the given")
        await it.press("escape")
        await it.sees("that does")


async def test_the_line_of_keys_holds_whole_keys_and_the_menu(shell: Shell) -> None:
    for width in (40, 60, 80):
        async with shell(size=(width, 24)) as it:
            await it.press("alt+r")
            last = it.rows()[-1]
            shown = [
                f"{key.display} {key.words}" for key in whole_keys(it.view.query_one(KeyLine).keys, width)
            ]
            assert last == " ".join(shown)
            assert shown[:2] == ["Alt+W Backwards", "F9 Menu"]


async def test_asked_anew_from_what_came_of_it(shell: Shell) -> None:
    """What was typed and ticked stands there again; 4 in a row of 6 in are the most within 29 in."""
    async with shell() as it:
        await found(it)
        await it.type("at most 29")
        await it.press("tab", "tab", "down", "enter")
        await it.sees("that does", "Alt+W asks anew")
        await it.press("alt+w")
        await it.sees("Which given makes Width of “Sheet” so?", "(o) “Sheet”: Across", "(o) at most")
        await it.sees("Wanted at most 29", "at most 29 in: ")
        await it.press("escape")
        assert len(it.app.screen_stack) == 2


async def test_a_given_that_changes_nothing_is_told_so(sewing: Shell) -> None:
    """Without a price of the cloth three buttons alone are counted: $1.50 at any size of the squares."""
    text = BAG.replace('price = "12 per yard"\n', "")
    async with sewing(text=text) as it:
        await it.press("f8")
        await it.sees("Total")
        await it.press("alt+w")
        await it.type("at most 1 USD")
        await it.press("tab")
        await it.type("4 in to 5 in")
        await it.press("enter")
        await it.sees("changes nothing here: each of", "gives $1.50", "Alt+W asks anew")


async def test_esc_leads_from_what_was_found_back_to_the_field(shell: Shell) -> None:
    async with shell() as it:
        await it.to("across")
        await it.press("alt+r")
        await it.sees("Alt+C copies one; Alt+W asks what makes it so; Esc back")
        await it.press("escape")
        await it.wait(lambda: it.view.place is not None and it.view.place.given == "across", "the field")
