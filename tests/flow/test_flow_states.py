"""Worked out, waiting, cannot: each with its reason and the way out."""

from typing import Any

from boltend.core.flow import Workbook
from boltend.core.project import edits
from boltend.core.project.history import History
from boltend.core.project.model import Tab, new_key


def test_a_circle_is_refused_with_its_path_in_the_order_of_the_links(small: Any, bench: Any) -> None:
    made = small.project(
        ("A", "panel", {"width": small.link("B", "width")}),
        ("B", "panel", {"width": small.link("C", "width")}),
        ("C", "panel", {"width": small.link("A", "width")}),
        ("D", "panel", {"width": small.link("C", "width")}),
    )
    book = Workbook(bench, made)
    (trouble,) = book.result("B").troubles
    assert trouble.why == "its links run in a circle: “B” ← “C” ← “A” ← “B”."
    assert trouble.way_out == "Type one of these values instead."
    assert [book.result(n).state for n in "ABCD"] == ["cannot", "cannot", "cannot", "waiting"]
    assert book.result("D").why == "Width: waits for “C”. Put “C” right first."
    assert bench.counted() == 0


def test_a_tab_linked_to_itself_is_a_circle(small: Any, bench: Any) -> None:
    made = small.project(("A", "panel", {"width": small.link("A", "width")}))
    assert "circle: “A” ← “A”." in Workbook(bench, made).result("A").why


def test_a_long_circle_is_told_short(small: Any, bench: Any) -> None:
    names = [f"T{n}" for n in range(40)]
    made = small.project(
        *((n, "panel", {"width": small.link(names[i - 1], "width")}) for i, n in enumerate(names))
    )
    why = Workbook(bench, made).result("T5").troubles[0].why
    assert why.startswith("its links run in a circle: “T5” ← “T4” ← “T3”")
    assert why.endswith("… ← “T5”.")
    assert why.count("←") == 11


def test_a_circle_made_by_an_edit_is_broken_by_undo(small: Any, bench: Any) -> None:
    history = History(small.chain(4))
    book = Workbook(bench, history.now)
    history.do(
        edits.set_given(history.now, history.now.tab("P1").key, "width", small.link("P3", "width")), "link"
    )
    book.update(history.now)
    assert [book.result(f"P{n}").state for n in (1, 2, 3, 4)] == ["cannot", "cannot", "cannot", "waiting"]
    history.undo()
    book.update(history.now)
    assert [book.result(f"P{n}").found["width"] for n in (1, 2, 3, 4)] == [11, 12, 13, 14]


def test_the_path_of_a_circle_follows_a_renamed_tab_everywhere(small: Any, bench: Any) -> None:
    made = small.project(*((a, "panel", {"width": small.link(b, "width")}) for a, b in ("AB", "BC", "CA")))
    book = Workbook(bench, made)
    book.update(edits.rename_tab(made, made.tab("A").key, "New"))
    assert book.result("C").troubles[0].why.endswith("“C” ← “New” ← “B” ← “C”.")
    assert book.result("B").troubles[0].why.endswith("“B” ← “C” ← “New” ← “B”.")


def test_a_link_to_nothing_waits_and_offers_the_nearest(small: Any, bench: Any) -> None:
    made = small.project(
        ("Lantern", "panel", {"width": "9 in"}),
        ("A", "panel", {"width": small.link("Lantrn", "width")}),
        ("B", "panel", {"width": small.link("Lantern", "widht")}),
        ("C", "panel", {"width": small.link("Qqq", "width")}),
    )
    book = Workbook(bench, made)
    assert [book.result(n).state for n in "ABC"] == ["waiting"] * 3
    assert book.result("A").why == "Width: there is no tab “Lantrn” to take it from. Did you mean “Lantern”?"
    assert book.result("B").why == "Width: “Lantern” finds no 'widht'. Did you mean “width”?"
    assert book.result("C").why == (
        "Width: there is no tab “Qqq” to take it from. There are “Lantern”, “A”, “B”, “C”."
    )


def test_an_absent_calculator_cannot_and_who_needs_it_waits(small: Any, bench: Any) -> None:
    made = small.project(
        ("A", "nobody", {"width": "9 in"}), ("B", "panel", {"width": small.link("A", "width")})
    )
    book = Workbook(bench, made)
    assert (book.result("A").state, book.result("A").why) == ("cannot", "nobody brings nobody. Bring it.")
    assert (book.result("B").state, book.result("B").spec) == ("waiting", bench.spec("panel"))
    assert book.result("B").why == "Width: waits for “A”, whose calculator is absent. That tab says why."
    assert book.prepared(made.tab("A").key) is None


def test_what_a_calculator_says_or_does_wrong_harms_its_own_tab(small: Any, bench: Any) -> None:
    tabs = [(f"N{how}", "naughty", {"how": how}) for how in (1, 2, 3, 4, 5, 6)]
    book = Workbook(bench, small.project(*tabs))
    why = {how: book.result(f"N{how}").why for how in (1, 2, 3, 5)}
    assert "ZeroDivisionError" in why[1]
    assert "ZeroDivisionError" in book.result("N1").troubles[0].traceback
    assert why[2] == (
        "it gave a wrong answer: width is 2.5, not an exact number (a Fraction). Tell the people who made it."
    )
    assert "width is missing, widht is not declared" in why[3]
    assert why[5] == "five is too many. Take four."
    assert book.result("N5").troubles[0].given == "how"
    assert [book.result(f"N{how}").state for how in (1, 2, 3, 4, 5, 6)] == [
        "cannot", "cannot", "cannot", "worked out", "cannot", "worked out",
    ]  # fmt: skip
    assert book.result("N4").found == {"width": None}


def test_a_tab_that_waits_still_tells_what_is_given(small: Any, bench: Any) -> None:
    made = small.project(("A", "panel", {"width": small.link("Nowhere", "width"), "by": "2 in"}))
    assert Workbook(bench, made).result("A").args == {"width": None, "by": 2, "spaced": False}


def test_waiting_names_every_tab_that_it_waits_for(small: Any, bench: Any) -> None:
    made = small.project(
        ("A", "panel", {}),
        ("B", "panel", {}),
        ("C", "panel", {"width": small.link("A", "width"), "by": small.link("B", "width")}),
    )
    book = Workbook(bench, made)
    assert [t.why for t in book.result("C").troubles] == ["Width: waits for “A”.", "Wider by: waits for “B”."]
    assert [t.given for t in book.result("C").troubles] == ["width", "by"]
    assert (
        book.result("A").why == "Width: nothing is given yet. Type it, as 12 in, or link it to another tab."
    )


def test_removing_and_renaming_tabs(small: Any, bench: Any) -> None:
    made = small.chain(3)
    book = Workbook(bench, made)
    gone = made.tab("P1").key
    after = edits.rename_tab(made, made.tab("P2").key, "Zwei")
    book.update(after)
    assert after.tab("P3").given["width"] == {"from": "Zwei", "take": "width"}
    assert book.result("P3").found["width"] == 13
    after = edits.remove_tab(after, gone)
    assert gone in book.update(after)
    assert gone not in book.results
    assert book.result("Zwei").state == book.result("P3").state == "waiting"
    assert "there is no tab “P1”" in book.result("Zwei").why
    book.update(edits.rename_tab(after, after.tab("Zwei").key, "P1"))  # now it would take from itself
    assert "circle: “P1” ← “P1”" in book.result("P1").why


def test_of_two_tabs_with_one_name_the_first_is_meant_also_after_a_move(small: Any, bench: Any) -> None:
    made = small.project(
        ("Twin", "panel", {"width": "10 in"}), ("Q", "panel", {"width": small.link("twin", "width")})
    )
    second = Tab(new_key(), {"name": "TWIN", "calculator": "panel", "given": {"width": "20 in"}})
    made = edits.insert_tab(made, second)
    book = Workbook(bench, made)
    assert book.result("Q").found["width"] == 12
    book.update(edits.move_tab(made, second.key, 0))
    assert book.result("Q").found["width"] == 22
