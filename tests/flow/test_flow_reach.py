"""Only what an edit reaches is worked out, counted by a runner that notes each call."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.core.flow import Workbook
from boltend.core.project import edits
from boltend.core.project.history import History
from boltend.plugin import Answer, Finished, calculator, found, given


@pytest.fixture
def book(small: Any, bench: Any) -> Workbook:
    made = small.chain(50)
    made = edits.add_tab(made, "Apart", "square", {"width": "3 in"})
    return Workbook(bench, made)


def test_opening_works_each_tab_out_once(book: Workbook, bench: Any) -> None:
    assert bench.counted() == 51
    assert book.result("P50").found["width"] == 60  # 10 in and fifty strips of 1 in


@pytest.mark.parametrize(
    ("tab", "given_", "raw", "calls"),
    [
        ("P1", "width", "20 in", 50),
        ("P50", "by", "2 in", 1),
        ("Apart", "width", "4 in", 1),
        ("P30", "by", "2 in", 21),
    ],
)
def test_an_edit_reaches_what_it_feeds_and_no_more(
    book: Workbook, bench: Any, tab: str, given_: str, raw: str, calls: int
) -> None:
    bench.counted()
    key = book.project.tab(tab).key
    touched = book.update(edits.set_given(book.project, key, given_, raw))
    assert bench.counted() == calls
    assert key in touched
    assert len(touched) == calls


def test_what_changes_no_value_calls_nobody(book: Workbook, bench: Any) -> None:
    bench.counted()
    first = book.project.tab("P1").key
    book.update(edits.set_tab_flag(book.project, first, "note", "counted twice"))
    book.update(edits.set_given(book.project, first, "width", "25.4 cm"))  # the same 10 in, said otherwise
    book.update(edits.rename_tab(book.project, first, "The first"))
    book.update(edits.move_tab(book.project, first, 40))
    book.update(edits.set_tab_flag(book.project, first, "aside", True))
    book.update(book.project)
    assert bench.counted() == 0
    assert book.result("P50").found["width"] == 60


def test_a_change_that_ends_on_the_way_is_not_carried_further(small: Any, bench: Any) -> None:
    """`count` is the whole inches of the width: 1/2 in more changes P's width, and no whole inch."""
    made = small.project(
        ("P", "panel", {"width": "10 in"}),
        ("Next", "square", {"width": "8 in", "parts": small.link("P", "count")}),
        ("After", "square", {"width": small.link("Next", "half")}),
    )
    book = Workbook(bench, made)
    bench.counted()
    touched = book.update(edits.set_given(made, made.tab("P").key, "width", "10 1/2 in"))
    assert bench.calls == ["panel"]
    assert book.result("P").found["width"] == Fraction(23, 2)
    assert made.tab("After").key not in touched


def test_undo_calls_again_only_what_it_changes_back(book: Workbook, bench: Any) -> None:
    history = History(book.project)
    history.do(edits.set_given(history.now, book.project.tab("P48").key, "by", "3 in"), "wider")
    book.update(history.now)
    bench.counted()
    history.undo()
    book.update(history.now)
    assert bench.counted() == 3
    assert book.result("P50").found["width"] == 60


def test_a_setting_reaches_every_tab_that_it_changes(book: Workbook, bench: Any) -> None:
    bench.counted()
    book.update(edits.set_setting(book.project, "notes", "for the sofa"))
    assert bench.counted() == 0
    book.update(edits.set_setting(book.project, "seam", "3/8 in"))
    assert bench.counted() == 51


def test_another_calculator_with_the_same_givens_is_called(small: Any) -> None:
    class Found:
        width: Finished = found("Width", nearest="size")

    @calculator("once", asks="?", found=Found)
    def once(width: Finished = given("Width")) -> Answer:
        return Answer(found={"width": width})

    @calculator("twice", asks="?", found=Found)
    def twice(width: Finished = given("Width")) -> Answer:
        return Answer(found={"width": 2 * width})

    made = small.project(("A", "once", {"width": "2 in"}), ("B", "once", {"width": small.link("A", "width")}))
    book = Workbook(small.Bench([once, twice]), made)
    book.update(edits.set_tab_calculator(made, made.tab("A").key, "twice"))
    assert book.result("B").found["width"] == 4


def test_a_found_of_the_same_name_and_value_but_another_kind_is_carried(small: Any, bench: Any) -> None:
    """Width 9 finished becomes width 9 cut: what takes it as cut takes 9 1/2 before and 9 after."""
    made = small.project(
        ("A", "naughty", {"how": 9}),
        ("B", "square", {"width": small.link("A", "width")}),
    )
    book = Workbook(bench, made)
    assert book.result("B").args["width"] == Fraction(19, 2)
    data = {"name": "A", "calculator": "square", "given": {"width": "9 in"}}
    book.update(edits.replace_tab(made, made.tab("A").key, data))
    assert book.result("B").args["width"] == 9


def test_users_are_told_by_tab_and_given(book: Workbook) -> None:
    first, second = book.project.tab("P1").key, book.project.tab("P2").key
    assert book.users(first, "width") == [(second, "width")]
    assert book.users(first, "square") == []


def test_refresh_works_everything_out_anew(book: Workbook, bench: Any) -> None:
    bench.counted()
    bench.absent.add("square")
    book.refresh()
    assert bench.counted() == 50
    assert book.result("Apart").state == "cannot"
    bench.absent.clear()
    book.refresh()
    assert book.result("Apart").state == "worked out"


def test_the_tab_asked_for_first_then_a_few_then_the_rest(book: Workbook, bench: Any) -> None:
    bench.counted()
    head = book.project.tab("P1").key
    book.update(edits.set_given(book.project, head, "width", "20 in"), book.project.tab("P7").key)
    assert bench.counted() == 7
    assert book.result("P7").found["width"] == 27
    assert book.result("P50").found["width"] == 60  # not yet
    assert book.unfinished
    book.finish(10)
    assert bench.counted() == 10
    book.update(edits.set_given(book.project, head, "width", "30 in"), head)  # before all is done
    assert bench.counted() == 1
    book.finish()
    assert bench.counted() == 49
    assert not book.unfinished
    assert book.result("P50").found["width"] == 80
