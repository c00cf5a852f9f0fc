"""Long lists come in slices: what is in sight first, all of it in the end, and nothing of what is gone."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import count
from typing import Any

import pytest

from boltend.shell import growing
from boltend.shell.growing import Growing, Made
from boltend.shell.result_lines import ResultLine
from boltend.shell.tab_bar import _first_in_sight

Shell = Any


class Pane:
    """What asks for lists and shows them; time goes on by a second with every line that is made."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, sight: int = 5) -> None:
        self.later: list[Callable[[], None]] = []
        self.shown: list[tuple[int, bool]] = []
        self.texts: list[str] = []
        self.sight, self.made = sight, 0
        clock = count()
        monkeypatch.setattr(growing, "perf_counter", lambda: next(clock))
        monkeypatch.setattr(growing, "SLICE", 2)
        monkeypatch.setattr(growing, "IN_SIGHT", 8)
        self.growing = Growing(self.later.append, self._show, lambda: self.sight)

    def _show(self, lines: tuple[ResultLine, ...], from_top: bool) -> None:
        self.shown.append((len(lines), from_top))
        self.texts = [line.parts[0][0] for line in lines]

    def list_of(self, lines: int, name: str = "list", *of: object, still: bool = True) -> Made:
        def make() -> Iterator[ResultLine]:
            for number in range(lines):
                self.made += 1
                yield ResultLine(((f"{name} {number}", ""),))

        return Made((name, *of), make, lambda: still)

    def go_on(self) -> None:
        """One turn."""
        due, self.later[:] = list(self.later), []
        for each in due:
            each()


def test_what_is_in_sight_comes_first_and_all_in_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    pane = Pane(monkeypatch)
    pane.growing.want(pane.list_of(100), from_top=True)
    assert pane.shown == [(5, True)]
    assert len(pane.later) == 1
    while pane.later:
        pane.go_on()
    assert pane.texts == [f"list {number}" for number in range(100)]
    assert not any(from_top for _, from_top in pane.shown[1:]), "what was scrolled to stays"
    assert len(pane.shown) < 10, "it is not shown with every slice"


def test_a_short_one_comes_at_once_and_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    pane = Pane(monkeypatch)
    pane.growing.want(pane.list_of(3), from_top=True)
    pane.growing.want(pane.list_of(3), from_top=False)
    assert (pane.shown, pane.made, pane.later) == ([(3, True), (3, False)], 3, [])


def test_asked_for_again_it_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    pane = Pane(monkeypatch)
    for from_top in (True, False, False):
        pane.growing.want(pane.list_of(30), from_top=from_top)
    assert len(pane.later) == 1
    while pane.later:
        pane.go_on()
    assert (len(pane.texts), pane.made) == (30, 30)


def test_another_takes_its_place(monkeypatch: pytest.MonkeyPatch) -> None:
    pane = Pane(monkeypatch)
    pane.growing.want(pane.list_of(100, "old"), from_top=True)
    pane.growing.want(pane.list_of(20, "new"), from_top=True)
    while pane.later:
        pane.go_on()
    assert pane.texts == [f"new {number}" for number in range(20)]


def test_what_was_scrolled_to_stays_in_sight_while_it_is_made_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """Fewer lines than were scrolled to would take the eye back to the top."""
    pane = Pane(monkeypatch)
    pane.growing.want(pane.list_of(3, "old"), from_top=True)
    pane.sight = 50
    pane.growing.want(pane.list_of(100, "new"), from_top=False)
    assert pane.texts[0] == "old 0"
    while pane.later:
        pane.go_on()
        assert pane.texts[0] == "old 0" or len(pane.texts) >= 50
    assert len(pane.texts) == 100


def test_nothing_is_made_of_what_has_changed(monkeypatch: pytest.MonkeyPatch) -> None:
    pane = Pane(monkeypatch)
    pane.growing.want(pane.list_of(100, still=False), from_top=True)
    made = pane.made
    pane.go_on()
    pane.growing.finish()
    assert (pane.made, pane.later) == (made, [])
    pane.growing.want(pane.list_of(100), from_top=False)
    assert pane.made > made, "asked for again it is made anew"


def test_all_of_it_at_once_where_all_is_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    pane = Pane(monkeypatch)
    pane.growing.want(pane.list_of(1_000), from_top=True)
    pane.growing.finish()
    assert len(pane.texts) == 1_000
    pane.go_on()
    assert pane.made == 1_000


def test_a_list_of_the_same_objects_is_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """Equal is not enough: to compare thousands of results would take longer than to make the lines."""
    pane, one, other = Pane(monkeypatch), [1], [1]
    pane.growing.want(pane.list_of(3, "list", one, 80), from_top=True)
    pane.growing.want(pane.list_of(3, "list", one, 80), from_top=True)
    assert pane.made == 3
    pane.growing.want(pane.list_of(3, "list", other, 80), from_top=True)
    pane.growing.want(pane.list_of(3, "list", other, 79), from_top=True)
    assert pane.made == 9


# In the shell -----------------------------------------------------------------------------------------

MANY = 400


def many() -> str:
    """Many tabs, the last of which no other is like."""
    tabs = [
        f'[[tab]]\nname = "T{n}"\ncalculator = "patch"\n[tab.given]\nsize = "6 in"\n' for n in range(MANY)
    ]
    return "boltend = 1\n" + "".join(tabs).replace(f'"T{MANY - 1}"', '"The very last"')


async def test_the_map_of_many_tabs_grows_and_what_is_sought_in_it_is_found(shell: Shell) -> None:
    async with shell(text=many()) as it:
        await it.press("alt+m")
        await it.sees("400 tabs: ", "T0")
        await it.press("ctrl+f")
        await it.type("very last")
        await it.sees("The very last")
        await it.press("escape", "end", "end")
        await it.wait(lambda: len(it.view.pane.lines.lines) > 2 * MANY)
        await it.press("end")
        await it.sees("The very last")
        await it.press("enter")
        await it.sees("[! The very last]")


async def test_the_map_follows_what_is_taken_out_while_it_grows(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(growing, "SLICE", 0)
    async with shell(text=many()) as it:
        await it.press("alt+m")
        await it.sees("400 tabs: ", "T0")
        it.desk.edit(replace(it.desk.project, tabs=it.desk.project.tabs[:3]), "tabs out")
        it.view.show_again()
        await it.sees("3 tabs: ", "T2")
        await it.wait(lambda: not any("T3" in row for row in it.rows()))


def test_the_first_tab_in_sight_among_ten_thousand_is_found_at_once() -> None:
    """Only those that may be in sight are measured, wherever the bar stood before."""
    asked: list[int] = []

    def width(at: int) -> int:
        asked.append(at)
        return 10

    for first, at in ((0, 9_999), (9_999, 0), (0, 5_000), (5_000, 5_001)):
        asked.clear()
        found = _first_in_sight(first, at, 10_000, width, 80)
        assert found <= at < found + 8
        assert len(asked) < 30
