"""Ladders in the shell: made from a given, worked out beside it, edited, taken, copied, exported, removed."""

import csv
import io
import threading
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from ladder_projects import BAGS, KEPT, SLOW
from textual.events import Key

import boltend.shell.climbing as climbing
from boltend.core.asking.ladder import climb, read_ladder
from boltend.core.project.reading import read_bytes

Shell = Any
Golden = Any
SIZES = {"80x24": (80, 24), "120x40": (120, 40)}


class Gate:
    """Holds every rung back until the test lets it through."""

    def __init__(self) -> None:
        self.let = threading.Semaphore(0)
        self.runs: list[Any] = []

    def climb(self, apart: Any, project: Any, ladder: Any, pool: Any, run: Any, real: Any) -> Iterator[Any]:
        self.runs.append(run)
        assert threading.current_thread() is not threading.main_thread(), "worked out on the screen's thread"
        for told in real(apart, project, ladder, pool, run):
            while not self.let.acquire(timeout=0.01):
                if run.stopped():
                    return
            yield told


@pytest.fixture
def gate(monkeypatch: pytest.MonkeyPatch) -> Gate:
    held = Gate()
    monkeypatch.setattr(climbing, "climb_in_turns", partial(held.climb, real=climbing.climb_in_turns))
    monkeypatch.setattr(climbing, "TOGETHER", 0.0)
    return held


def calm(it: Any) -> Callable[[], bool]:
    """Nothing is worked out any more."""
    return lambda: it.view._climbing is None


async def opened(it: Any) -> None:
    await it.press("alt+a")
    await it.wait(lambda: it.view._climbs is not None and it.view._climbing is None, "all rungs")


@pytest.mark.parametrize("size", list(SIZES))
async def test_screens(sewing: Shell, golden: Golden, size: str) -> None:
    """Names with markup are text; the value of now is marked; a rung that cannot be says why."""
    async with sewing(text=KEPT, size=SIZES[size]) as it:
        await opened(it)
        golden(it, f"ladders-{size}")
        await it.press("alt+o")
        await it.sees("Work it out")
        golden(it, f"ladder-edit-{size}")


async def test_it_shows_what_bare_runs_find(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        project = read_bytes(KEPT.encode(), "q.toml").project
        book = it.desk.book
        bare = list(climb(book, read_ladder(book, project.ladders[0])))
        (first, lost) = it.view._climbs.standing
        assert list(first.rungs) == bare
        assert [rung.value for rung in bare if "Total" not in rung.cells] == ["many"]
        assert "there is no tab “Gone”" in lost.why


async def test_from_a_given_with_few_keys(sewing: Shell) -> None:
    async with sewing(text=BAGS) as it:
        await it.to("across")
        await it.press("alt+l")
        await it.sees("Ladder: Across of “Sheet [/x]”", "from 3 to 7 by 1", "5 values: 3; 4; 5; 6; 7")
        await it.type("4")
        await it.press("semicolon")
        await it.type("6")
        await it.sees("2 values: 4; 6")
        await it.press("enter")
        await it.sees("[Ladders", "Across of Sheet [/x]", "24 in")
        (row,) = it.desk.project.ladders
        assert dict(row.data) == {
            "name": "Across of Sheet [/x]",
            "tab": "Sheet [/x]",
            "given": "across",
            "values": [4, 6],
            "take": ["to buy", "width", "height"],
        }
        await it.press("escape")
        assert it.view.place.given == "across", "back in the field"
        await it.press("ctrl+z")
        await it.wait(lambda: it.desk.project.ladders == ())
        assert "Ladders" not in it.rows()[1], "no ladder, no place in the bar"


async def test_a_new_ladder_comes_first_and_stays_in_sight(sewing: Shell, gate: Gate) -> None:
    """Others above it grow while they are worked out; it is worked out before them."""
    text = KEPT + KEPT.partition("[[ladder]]")[2].join(("[[ladder]]", "")).replace('"How many', '"Other')
    async with sewing(text=text.replace('name = "Lost"', 'name = "Gone"', 1)) as it:
        await it.to("across")
        await it.press("alt+l")
        await it.type("9")
        await it.press("enter")
        await it.sees("0 of 9 worked out", ">Across of Sheet [/x]")
        gate.let.release()
        await it.sees("1 of 9 worked out", "36 in")
        gate.let.release(30)
        await it.wait(calm(it))
        await it.sees(">Across of Sheet [/x]", "36 in")
        await it.press("up")
        assert it.view._ladder_chosen() != (4, None)
        await it.press("home")


async def test_from_a_choice_as_a_terminal_sends_it(sewing: Shell) -> None:
    """Alt and a letter come with the letter in them: it must not step to a choice."""
    async with sewing() as it:
        await it.press("f6")
        await it.to("way")
        it.app.post_message(Key("alt+l", "l"))
        await it.sees("Ladder: Way of “Frame”")
        assert "way" not in it.given("Frame")


async def test_values_and_founds_are_ticked(sewing: Shell) -> None:
    async with sewing() as it:
        await it.press("f6")
        await it.to("way")
        await it.press("alt+l")
        await it.sees("along; across; on the bias", "3 values")
        await it.press("down", "down", "space")  # name, then the first choice
        await it.sees("2 values: across; on the bias", "[ ] along")
        await it.click_on("[x] on the bias")
        await it.sees("1 value: across")
        await it.press("down", "space")  # nothing to buy
        await it.sees("[ ] To buy")
        await it.click_on("Work it out: Enter")
        await it.sees("[Ladders", "Way of Frame")
        assert it.desk.project.ladders[0].values == ("across",)
        assert it.desk.project.ladders[0].take == ["width", "to_buy"]


async def test_a_cell_of_rows_runs_through_values(sewing: Shell) -> None:
    async with sewing() as it:
        await it.press("f6")
        await it.to("rings", 1, "width")
        await it.press("alt+l")
        await it.sees("Width of row 2 of “Frame”", "from 2 1/2 in to 4 1/2 in by 1/2 in")
        await it.press("enter")
        await it.sees("now 3 1/2 in")
        assert it.desk.project.ladders[0].given == "rings.2.width"
        await it.wait(calm(it))
        # 30 in and the inner ring of 2 in at both sides, and the second.
        amounts = [rung.cells["Framed width"].text for rung in it.view._climbs.standing[0].rungs]
        assert amounts == ["39 in", "40 in", "41 in", "42 in", "43 in"]


async def test_what_is_wrong_is_told_and_nothing_is_made(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await it.to("across")
        await it.press("alt+l")
        for typed, said in {"x": "“x”: ", "600": "more than 500"}.items():
            await it.clear()
            await it.type(typed)
            await it.sees(f"! {said}" if typed == "x" else said)
            await it.press("enter")
            assert len(it.app.screen_stack) == 3
        await it.clear()
        await it.type("7")
        await it.press("tab")
        await it.clear()
        await it.type("lost")
        await it.sees('There is a ladder called "Lost" already')
        await it.press("enter", "escape")
        assert len(it.desk.project.ladders) == 2
        it.view.bar.focus()
        await it.press("alt+l")
        await it.sees("Go to a given first")


async def test_rung_by_rung_while_keys_go_on(sewing: Shell, gate: Gate) -> None:
    async with sewing(text=KEPT) as it:
        await it.press("alt+a")
        await it.sees("0 of 4 worked out", "Esc stops")
        gate.let.release()
        await it.sees("1 of 4 worked out", "16 in")
        await it.press("down", "right")  # the keys are not held up
        assert it.view._ladder_chosen() == (0, 1)
        gate.let.release(9)
        await it.wait(calm(it))
        assert it.view._ladder_chosen() == (0, 1), "the chosen line stays chosen"


async def test_esc_stops_and_what_is_there_stays(sewing: Shell, gate: Gate) -> None:
    async with sewing(text=KEPT) as it:
        await it.press("alt+a")
        gate.let.release()
        await it.sees("1 of 4 worked out")
        await it.press("escape")
        await it.sees("stopped at 1 of 4", "^r goes on")
        assert gate.runs[0].stopped()
        assert it.view.list_in_sight == "ladders"
        gate.let.release(20)
        await it.press("ctrl+r")
        await it.wait(calm(it))
        await it.wait(lambda: "stopped" not in it.text())
        await it.press("escape")
        assert not it.view.list_in_sight


async def test_a_change_of_the_project_works_them_out_anew(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.sees("* what the project has now", "32 in")
        await it.press("escape")
        await it.to("size")
        await it.clear()
        await it.type("3 in")
        await it.press("alt+a")
        await it.wait(calm(it))
        await it.sees("24 in")
        before = it.view._climbs.standing
        await it.press("escape", "alt+a")
        assert it.view._climbs.standing is before, "nothing changed, nothing is worked out"


async def test_what_answers_later_is_waited_for_and_is_no_answer_of_the_tab(shell: Shell) -> None:
    async with shell(text=SLOW) as it:
        assert it.state("Twice") == "working"
        it.bench.finish()
        await it.sees("Twice", "8")
        await it.press("alt+a")
        for n in range(1, 4):
            await it.wait(lambda: it.bench.waiting, f"rung {n}")
            assert all(ticket < 0 for ticket in it.bench.waiting)
            it.bench.finish()
        await it.wait(calm(it))
        assert [rung.cells["Twice"].text for rung in it.view._climbs.standing[0].rungs] == ["2", "4", "6"]
        assert it.desk.book.result("Twice").found["twice"] == 8


async def test_stopped_while_nothing_answers(shell: Shell) -> None:
    async with shell(text=SLOW) as it:
        it.bench.finish()
        await it.press("alt+a")
        await it.wait(lambda: any(ticket < 0 for ticket in it.bench.waiting), "a call")
        await it.press("escape")
        await it.sees("stopped at 0 of 3")
        await it.wait(lambda: not it.bench.waiting, "the call is let go")


async def test_a_value_is_put_into_the_given(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.press("down")
        await it.press("alt+p")
        await it.wait(lambda: it.given("Sheet [/x]")["across"] == 4)
        await it.sees("is 4 now; ^z takes it back")
        await it.press("ctrl+z")
        assert it.given("Sheet [/x]")["across"] == 5
        await it.wait(calm(it))
        await it.press("enter")
        await it.sees("Put 4 into Across", "Edit or rename", "Remove")
        await it.press("enter")
        await it.wait(lambda: it.given("Sheet [/x]")["across"] == 4)


async def test_edited_renamed_and_removed(sewing: Shell, project_file: Path) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.press("enter")
        await it.sees("4; 5; many; 8", "! “many”")
        await it.clear()
        await it.type("4 to 6")
        await it.press("tab")
        await it.clear()
        await it.type("Three")
        await it.press("enter")
        await it.sees("Three", "20 in")
        assert it.desk.project.ladders[0].values == (4, 5, 6)
        await it.press("ctrl+s")
        await it.sees("Saved")
        again = read_bytes(project_file.read_bytes(), "q.toml").project
        assert again.ladders[0].name == "Three"
        assert again.ladders[0].take == ["to buy", "width", {"from": "Bag", "take": "squares"}]
        await it.press("alt+x")
        await it.wait(lambda: len(it.desk.project.ladders) == 1)
        await it.press("ctrl+z")
        assert [row.name for row in it.desk.project.ladders] == ["Three", "Lost"]


async def test_a_ladder_that_cannot_be_read_is_removed_all_the_same(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await opened(it)
        await it.press("end")
        assert it.view._standing().row.name == "Lost"
        await it.press("alt+o")
        await it.sees("It cannot be edited here: there is no tab “Gone”")
        await it.press("alt+x")
        assert [row.name for row in it.desk.project.ladders] == ["How many [/x]"]


async def test_copied_and_exported(sewing: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with sewing(text=KEPT) as it:
        copied: list[str] = []
        monkeypatch.setattr(it.app, "copy_to_clipboard", copied.append)
        await opened(it)
        await it.press("alt+c")
        assert copied[0].startswith("How many [/x]\n\nAcross ")
        await it.press("alt+e")
        await it.sees("Write the ladder “How many [/x]” to which file?", "how-many---x.csv")
        await it.sees("This ladder alone", "The whole plan is written with Alt+E from")
        await it.press("enter")
        await it.sees("Written to")
        text = (tmp_path / "how-many---x.csv").read_text(encoding="utf-8")
        head, *rows = csv.reader(io.StringIO(text, newline=""))
        assert head[:4] == ["Across", "Width", "Bag: Squares", "Total"]
        assert [row[:3] for row in rows] == [
            ["4", "16 in", "12"], ["5", "20 in", "15"], ["many", "!", "!"], ["8", "32 in", "24"],
        ]  # fmt: skip
        await it.press("alt+e", "enter")
        await it.sees("There is a file")


async def test_by_mouse(sewing: Shell) -> None:
    async with sewing(text=KEPT) as it:
        await it.click_on("Ladders")
        await it.wait(lambda: it.view._climbs is not None and it.view._climbing is None)
        await it.click_on("32 in")
        await it.sees("Put 8 into Across")
        await it.click_on("Put 8 into Across")
        await it.wait(lambda: it.given("Sheet [/x]")["across"] == 8)
        await it.click_on("How many [/x]")
        await it.sees("Work it out: Enter")
        await it.click_on("Leave: Esc")
        await it.wait(lambda: len(it.app.screen_stack) == 2)


async def test_without_ladders_it_says_how_to_make_one(shell: Shell) -> None:
    async with shell() as it:
        await it.press("alt+a")
        await it.sees("No ladder yet.", "Alt+L")
        await it.press("f9")
        await it.type("ladder")
        await it.sees("Ladders: one given through several values")


async def test_the_least_window_still_shows_rungs(sewing: Shell) -> None:
    async with sewing(text=KEPT, size=(40, 10)) as it:
        await opened(it)
        await it.sees("How many [/x]", "16 in")
        await it.press("alt+o")
        await it.sees("Values", "Work it out")
