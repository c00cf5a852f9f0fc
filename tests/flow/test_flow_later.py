"""A runner that answers later: working until the outcome arrives, and outcomes that nobody wants any more."""

from typing import Any

import pytest

from boltend.core.contract import Answer, Cannot
from boltend.core.flow import Workbook
from boltend.core.host.calls import Fault, Outcome
from boltend.core.project import edits


@pytest.fixture
def slow(small: Any) -> Any:
    return small.Bench(later=True)


def states(book: Workbook) -> list[str]:
    return [book.results[tab.key].state for tab in book.project.tabs]


def test_working_until_it_arrives_then_what_it_feeds_is_worked(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(3))
    assert states(book) == ["working", "waiting", "waiting"]
    assert book.result("P2").why == "Width: waits for “P1”."
    assert len(slow.started) == 1
    touched = slow.finish(book)
    assert states(book) == ["worked out", "working", "waiting"]
    assert touched == set(
        book.results
    )  # the third no longer waits for one that waits, but for one that works
    slow.finish(book)
    slow.finish(book)
    assert book.result("P3").found["width"] == 13
    assert slow.started == {}


def test_an_edit_replaces_the_call_under_way(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(1))
    (first,) = slow.started
    late = slow.outcome(slow.started[first])
    book.update(edits.set_given(book.project, book.project.tab("P1").key, "width", "20 in"))
    assert slow.dropped == [first]
    (second,) = slow.started
    assert book.arrived(first, late) == set()  # it came all the same: too late
    assert book.result("P1").state == "working"
    slow.finish(book, second)
    assert book.result("P1").found["width"] == 21
    assert book.arrived(second, late) == set()  # and not twice


def test_an_edit_that_changes_nothing_leaves_the_call_alone(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(1))
    book.update(edits.set_tab_flag(book.project, book.project.tab("P1").key, "note", "x"))
    book.update(edits.rename_tab(book.project, book.project.tab("P1").key, "Other"))
    assert slow.dropped == []
    assert len(slow.calls) == 1
    slow.finish(book)
    assert book.result("Other").found["width"] == 11


def test_a_removed_tab_drops_its_call(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(1))
    (ticket,) = slow.started
    late = slow.outcome(slow.started[ticket])
    book.update(edits.remove_tab(book.project, book.project.tab("P1").key))
    assert slow.dropped == [ticket]
    assert book.arrived(ticket, late) == set()
    assert book.results == {}


def test_a_source_that_fails_again_drops_what_it_feeds(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(2))
    slow.finish(book)
    assert book.result("P2").state == "working"
    book.update(edits.set_given(book.project, book.project.tab("P1").key, "width", "x"))
    assert book.result("P2").state == "waiting"
    assert slow.started == {}


def test_a_stopped_answer_is_shown_with_its_mark_and_not_kept(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(2))
    (ticket,) = slow.started
    best = slow.outcome(slow.started.pop(ticket)).answer
    book.arrived(ticket, Outcome(best, stopped=True))
    first = book.result("P1")
    assert (first.state, first.stopped, first.found["width"]) == ("worked out", True, 11)
    assert book.result("P2").state == "working"  # others may use what is shown
    slow.counted()
    book.update(edits.set_tab_flag(book.project, first.key, "note", "look again"))
    assert slow.calls == ["panel"]  # worked out again: the stopped answer was not the last word
    assert book.result("P1").state == "working"


def test_stopped_before_any_answer(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(1))
    book.arrived(next(iter(slow.started)), Outcome(stopped=True))
    assert book.result("P1").state == "cannot"
    assert book.result("P1").why == "it was stopped before it had an answer. Work it out again."


@pytest.mark.parametrize(
    ("outcome", "why"),
    [
        (Outcome(fault=Fault("it took longer than 60 s.", "Traceback …")), "it took longer than 60 s."),
        (Outcome(cannot=Cannot("width", "too wide.", "Take less.")), "too wide. Take less."),
        (Outcome(Answer(found={})), "it gave a wrong answer"),
    ],
)
def test_a_late_failure_is_kept_as_one(small: Any, slow: Any, outcome: Outcome, why: str) -> None:
    book = Workbook(slow, small.chain(2))
    book.arrived(next(iter(slow.started)), outcome)
    assert book.result("P1").state == "cannot"
    assert why in book.result("P1").why
    assert book.result("P2").state == "waiting"


def test_an_unknown_ticket_is_nobodys(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(1))
    assert book.arrived(999, Outcome(Answer(found={}))) == set()


def test_refresh_drops_what_runs(small: Any, slow: Any) -> None:
    book = Workbook(slow, small.chain(2))
    book.refresh()
    assert len(slow.dropped) == 1
    assert len(slow.started) == 1
