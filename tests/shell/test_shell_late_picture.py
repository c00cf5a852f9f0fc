"""A picture comes after the figures, and never another tab's."""

from collections.abc import Callable
from typing import Any, NamedTuple

from boltend.core.contract import Answer, Rect, Settings
from boltend.core.flow import Result
from boltend.shell.late_picture import LatePicture, Wanted

SMALL, LARGE = Rect(0, 0, 2, 2), Rect(0, 0, 4, 2)


class Later(NamedTuple):
    """What is to be done later, and whether anybody was told that it is done."""

    to_do: list[Callable[[], None]]
    told: list[bool]

    @property
    def picture(self) -> LatePicture:
        return LatePicture(self.to_do.append, lambda: self.told.append(True))

    def do(self) -> None:
        for each in self.to_do:
            each()
        self.to_do.clear()


def wanted(shape: Rect, tab: int = 1, width: int = 40) -> Wanted:
    """A picture of one rectangle; every result is a new one, as after a key."""
    answer = Answer(found={}, picture=[shape])
    spec: Any = None
    return Wanted(tab, Result(tab, "worked out", spec, Settings(), answer=answer), width, 12)


def test_it_comes_later_and_then_at_once() -> None:
    later = Later([], [])
    picture = later.picture
    assert picture.lines(wanted(SMALL)) == ()
    assert not later.told
    later.do()
    assert later.told == [True]
    assert picture.lines(wanted(SMALL)) == wanted(SMALL).drawn() != ()
    assert not later.to_do, "the same shapes are not drawn again"


def test_until_another_is_drawn_the_last_one_of_the_tab_stays() -> None:
    later = Later([], [])
    picture = later.picture
    picture.lines(wanted(SMALL))
    later.do()
    assert picture.lines(wanted(LARGE)) == wanted(SMALL).drawn()
    assert picture.lines(wanted(LARGE, tab=2)) == (), "not that of another tab"
    later.do()
    assert picture.lines(wanted(LARGE, tab=2)) == wanted(LARGE).drawn()
    assert picture.lines(wanted(LARGE, tab=2, width=20)) == wanted(LARGE).drawn()
    later.do()
    assert picture.lines(wanted(LARGE, tab=2, width=20)) == wanted(LARGE, width=20).drawn()


def test_of_several_keys_only_the_last_is_drawn() -> None:
    later = Later([], [])
    picture = later.picture
    for shape in (SMALL, LARGE, SMALL):
        picture.lines(wanted(shape))
    assert len(later.to_do) == 1
    later.do()
    assert picture.lines(wanted(SMALL)) == wanted(SMALL).drawn()


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
