"""A picture comes after the figures, and never another tab's."""

import asyncio
import threading
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

import pytest

from boltend.core.contract import Answer, Rect, Settings
from boltend.core.flow import Result
from boltend.shell.late_picture import MANY_SHAPES, LatePicture, Wanted
from boltend.shell.picture_lines import picture_lines
from boltend.shell.result_lines import ResultLine

SMALL, LARGE = Rect(0, 0, 2, 2), Rect(0, 0, 4, 2)


class Later(NamedTuple):
    """What is to be done later, and whether anybody was told that it is done."""

    to_do: list[Callable[[], None]]
    told: list[bool]

    @property
    def picture(self) -> LatePicture:
        """All are slow."""
        return LatePicture(self.to_do.append, lambda: self.told.append(True), self.to_do.append, quick=0)

    def do(self) -> None:
        for each in self.to_do:
            each()
        self.to_do.clear()


def wanted(shape: Rect, tab: int = 1, width: int = 40) -> Wanted:
    """A picture of one rectangle; every result is a new one, as after a key."""
    answer = Answer(found={}, picture=[shape])
    spec: Any = None
    return Wanted(tab, Result(tab, "worked out", spec, Settings(), answer=answer), width, 12)


def drawn(what: Wanted) -> tuple[ResultLine, ...]:
    """The picture as it must look."""
    return picture_lines(what.result, what.width, what.rows)


def test_it_comes_later_and_then_at_once() -> None:
    later = Later([], [])
    picture = later.picture
    assert picture.lines(wanted(SMALL)) == ()
    assert not later.told
    later.do()
    assert later.told == [True]
    assert picture.lines(wanted(SMALL)) == drawn(wanted(SMALL)) != ()
    assert not later.to_do, "the same shapes are not drawn again"


def test_until_another_is_drawn_the_last_one_of_the_tab_stays() -> None:
    later = Later([], [])
    picture = later.picture
    picture.lines(wanted(SMALL))
    later.do()
    assert picture.lines(wanted(LARGE)) == drawn(wanted(SMALL))
    assert picture.lines(wanted(LARGE, tab=2)) == (), "not that of another tab"
    later.do()
    assert picture.lines(wanted(LARGE, tab=2)) == drawn(wanted(LARGE))
    assert picture.lines(wanted(LARGE, tab=2, width=20)) == drawn(wanted(LARGE))
    later.do()
    assert picture.lines(wanted(LARGE, tab=2, width=20)) == drawn(wanted(LARGE, width=20))


def test_of_several_keys_only_the_last_is_drawn() -> None:
    later = Later([], [])
    picture = later.picture
    for shape in (SMALL, LARGE, SMALL):
        picture.lines(wanted(shape))
    assert len(later.to_do) == 1
    later.do()
    assert picture.lines(wanted(SMALL)) == drawn(wanted(SMALL))


def test_what_is_wanted_no_more_is_not_drawn() -> None:
    later = Later([], [])
    picture = later.picture
    picture.lines(wanted(SMALL))
    later.do()
    picture.lines(wanted(LARGE))
    picture.lines(wanted(SMALL))  # undone before it was drawn
    later.told.clear()
    later.do()
    assert not later.told


def test_after_a_quick_one_the_next_comes_at_once() -> None:
    later = Later([], [])
    picture = LatePicture(later.to_do.append, lambda: later.told.append(True), later.to_do.append, quick=60)
    assert picture.lines(wanted(SMALL)) == (), "nobody knows yet how long it takes"
    later.do()
    assert picture.lines(wanted(LARGE)) == drawn(wanted(LARGE))
    assert not later.to_do


# Of very many shapes ----------------------------------------------------------------------------------


def large(size: int) -> Wanted:
    """A picture of more shapes than are drawn on the screen's own thread."""
    shapes = [Rect(n, 0, 1, size) for n in range(MANY_SHAPES + 1)]
    small = wanted(SMALL)
    return small._replace(result=small.result._replace(answer=Answer(found={}, picture=shapes)))


async def came(later: Later, count: int = 1) -> None:
    """Until the lane has called back so often."""
    while len(later.to_do) < count:
        await asyncio.sleep(0.001)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[threading.Event]:
    """Drawing in a lane waits for this; it tells in which threads was drawn."""
    goes = threading.Event()

    def slowly(result: Result, width: int, rows: int) -> tuple[ResultLine, ...]:
        if threading.current_thread() is not threading.main_thread():
            assert goes.wait(60)
        return picture_lines(result, width, rows)

    monkeypatch.setattr("boltend.shell.picture_lines.picture_lines", slowly)
    yield goes
    goes.set()


async def test_it_is_drawn_beside_the_screen(held: threading.Event) -> None:
    later = Later([], [])
    picture, what = later.picture, large(2)
    assert picture.lines(what) == ()
    later.do()
    assert not later.told, "it is being drawn, and nothing waits for it"
    assert picture.lines(what) == ()
    assert not later.to_do, "it is not asked for twice"
    held.set()
    await came(later)
    later.do()
    assert later.told == [True]
    assert picture.lines(what) == drawn(what) != ()


async def test_what_was_asked_for_meanwhile_stays(held: threading.Event) -> None:
    later = Later([], [])
    picture = later.picture
    picture.lines(large(2))
    later.do()
    picture.lines(wanted(LARGE))
    later.do()
    assert picture.lines(wanted(LARGE)) == drawn(wanted(LARGE))
    held.set()
    await came(later)
    later.told.clear()
    later.do()
    assert not later.told
    assert picture.lines(wanted(LARGE)) == drawn(wanted(LARGE))


async def test_a_large_one_after_a_quick_one_is_not_drawn_at_once(held: threading.Event) -> None:
    later = Later([], [])
    picture = LatePicture(later.to_do.append, lambda: later.told.append(True), later.to_do.append, quick=60)
    picture.lines(wanted(SMALL))
    later.do()
    assert picture.lines(large(2)) == drawn(wanted(SMALL))
    later.do()
    held.set()
    await came(later)
    later.do()
    assert picture.lines(large(2)) == drawn(large(2))
