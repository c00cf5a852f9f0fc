"""A chain of many tabs: the tab in sight is painted first, and nobody finds the others as they were."""

from itertools import pairwise
from typing import Any

from boltend.shell.looks import Place

Shell = Any

LINKS = 40


def chain() -> str:
    """A sheet of patches in forty frames, each around the one before."""
    names = ["Sheet", *(f"Frame {n}" for n in range(1, LINKS + 1))]
    text = (
        'boltend = 1\n[[tab]]\nname = "Sheet"\ncalculator = "patch"\ngiven = { size = "6 in", across = 5 }\n'
    )
    for before, name in pairwise(names):
        text += f'[[tab]]\nname = "{name}"\ncalculator = "frame"\n[tab.given]\n'
        text += f'width = {{ from = "{before}", take = "width" }}\nrings = [{{ width = "1 in" }}]\n'
    return text


async def test_the_tab_in_sight_first_and_whoever_asks_finds_all(shell: Shell) -> None:
    async with shell(text=chain()) as it:
        it.view.typed(Place("across"), "7")
        book = it.desk.book_so_far
        assert book.result("Sheet").found["width"] == 42
        assert book.result(f"Frame {LINKS}").found["width"] == 30 + 2 * LINKS
        assert it.desk.unfinished
        assert it.desk.book.result(f"Frame {LINKS}").found["width"] == 42 + 2 * LINKS
        assert not it.desk.unfinished


async def test_the_rest_follows_by_itself_and_marks_the_tabs(shell: Shell) -> None:
    async with shell(text=chain()) as it:
        await it.to("across")
        await it.type("7")
        await it.wait(lambda: not it.desk.unfinished, "the rest")
        assert it.desk.book_so_far.result(f"Frame {LINKS}").found["width"] == 42 + 2 * LINKS
        await it.clear()
        await it.wait(lambda: it.view.bar.labels[-1].state == "waiting", "the marks")
        assert not it.desk.unfinished


async def test_another_tab_is_worked_out_when_it_comes_into_sight(shell: Shell) -> None:
    async with shell(text=chain()) as it:
        it.view.typed(Place("across"), "7")
        assert it.desk.unfinished
        it.view.show_tab(it.desk.project.tabs[-1].key)
        assert not it.desk.unfinished
        await it.sees(f"{42 + 2 * LINKS} in finished")
