"""Ladders and searches beside the person's own workbook: in a thread, with answers that come later."""

import threading
from collections.abc import Callable
from typing import Any

import pytest

from boltend.core.asking import climb, read_ladder, read_wish
from boltend.core.asking.apart import Apart
from boltend.core.asking.back import Search, back
from boltend.core.asking.ladder import climb_in_turns
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.host.calls import Call, Outcome
from boltend.core.pool import Pool
from boltend.core.project.model import Project
from boltend.core.project.reading import read_bytes
from boltend_shared.examples import path


class Job:
    """Stops after it was asked so many times, or when told."""

    def __init__(self, after: int = 10**9) -> None:
        self.left, self.told = after, False

    def stopped(self) -> bool:
        self.left -= 1
        return self.told or self.left < 0


class Later:
    """A host whose every answer comes later, from a thread of its own, while `holds` is not set."""

    def __init__(self, host: Host, report: Callable[[int, Outcome], object]) -> None:
        self.host, self.report = host, report
        self.holds = threading.Event()
        self.dropped: list[int] = []
        self.asked: list[int] = []

    def __getattr__(self, name: str) -> Any:
        return getattr(self.host, name)

    def start(self, call: Call, ticket: int) -> Outcome | None:
        self.asked.append(ticket)

        def answer() -> None:
            outcome = self.host.start(call, ticket)
            assert outcome is not None
            if not self.holds.is_set():
                self.report(ticket, outcome)

        threading.Thread(target=answer, daemon=True).start()
        return None

    def drop(self, ticket: int) -> None:
        self.dropped.append(ticket)


def project(name: str) -> Project:
    return read_bytes(path(name).read_bytes(), f"{name}.toml").project


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


ASKED: dict[str, Any] = {
    "tab": "Squares in hand",
    "given": "precuts",
    "values": ["8", "16", "40", "many"],
    "take": ["blocks", {"from": "Borders", "take": "height"}, "to buy"],
}


def later(host: Host, job: Job) -> tuple[Later, Apart]:
    slow = Later(host, lambda ticket, outcome: apart.arrived(ticket, outcome))
    apart = Apart(slow, job)
    return slow, apart


def test_a_ladder_with_answers_that_come_later_is_the_same_ladder(host: Host) -> None:
    book = Workbook(host, project("harbour-steps"))
    ladder = read_ladder(book, ASKED)
    slow, apart = later(host, Job())
    told = dict(climb_in_turns(apart, book.project, ladder, Pool(), Job()))  # the last word on each rung
    assert list(told.values()) == list(climb(book, ladder))
    assert slow.asked
    assert all(ticket < 0 for ticket in slow.asked), "no ticket of the person's own workbook"
    assert len(set(slow.asked)) == len(slow.asked)


def test_at_first_quickly_then_proved(host: Host) -> None:
    book = Workbook(host, project("tidewater"))
    asked = {
        "tab": "Window bed",
        "given": "bed",
        "values": ["US crib", "US queen"],
        "take": ["width", "to buy"],
    }
    ladder = read_ladder(book, asked)
    told = list(climb_in_turns(host, book.project, ladder, Pool(), Job()))
    assert [at for at, _ in told[:2]] == [0, 1]
    quick = dict(told[:2])
    proved = dict(told)
    again = [at for at, _ in told[2:]]
    assert again == [at for at, rung in quick.items() if rung.open]
    assert again, "this one does have more to look for"
    assert [proved[0], proved[1]] == list(climb(book, ladder))
    for at in again:
        first, last = (rungs[at].cells["Total"].amount for rungs in (quick, proved))
        assert first is not None
        assert last is not None
        assert last <= first


@pytest.mark.parametrize("after", [0, 1, 2, 3, 5, 8])
def test_a_ladder_that_is_stopped_tells_whole_rungs_only(host: Host, after: int) -> None:
    book = Workbook(host, project("harbour-steps"))
    ladder = read_ladder(book, ASKED)
    whole = list(climb(book, ladder))
    told = list(climb_in_turns(host, book.project, ladder, Pool(), Job(after)))
    assert len(told) < len(whole) or after > 4
    for at, rung in told:
        assert rung.cells["Blocks"] == whole[at].cells["Blocks"]


def test_a_call_that_never_answers_is_let_go(host: Host) -> None:
    job = Job()
    slow, apart = later(host, job)
    slow.holds.set()
    book = Workbook(host, project("harbour-steps"))
    ladder = read_ladder(book, ASKED)
    threading.Timer(0.1, lambda: setattr(job, "told", True)).start()
    assert list(climb_in_turns(apart, book.project, ladder, Pool(), job)) == []
    assert slow.dropped == slow.asked == slow.asked[:1]
    assert not apart.arrived(slow.asked[0], Outcome()), "nobody waits for it any more"
    assert not apart.arrived("another's ticket", Outcome())


def test_backwards_with_answers_that_come_later(host: Host) -> None:
    book = Workbook(host, project("harbour-steps"))
    asked = {"tab": "Squares in hand", "given": "precuts", "take": {"from": "Steps", "take": "width"}}
    wish = read_wish(book, {**asked, "reach": "exactly", "wanted": "40 1/2 in", "most": 24})
    heard: list[tuple[int, int]] = []
    _, apart = later(host, Job())
    told = Search(book, wish, apart, Pool(), Job(), lambda tried, of: heard.append((tried, of))).run()
    assert told == back(book, wish)
    assert told.hits
    assert heard == [(n, 24) for n in range(1, 25)]


def test_a_search_whose_call_never_answers_tells_what_it_has(host: Host) -> None:
    job = Job()
    slow, apart = later(host, job)
    book = Workbook(host, project("harbour-steps"))
    asked = {"tab": "Steps", "given": "sash", "take": "width", "wanted": "1 in", "most": "9 in"}
    wish = read_wish(book, asked)

    def hear(tried: int, of: int) -> None:
        if tried == 3:
            slow.holds.set()
            threading.Timer(0.1, lambda: setattr(job, "told", True)).start()

    told = Search(book, wish, apart, Pool(), job, hear).run()
    assert told.stopped
    assert not told.whole
    assert told.tried == 3
    assert len(told.hits) == 3
