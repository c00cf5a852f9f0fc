"""Gathering: what comes into which heap, how often, and what stays out and is named."""

from dataclasses import replace
from fractions import Fraction

from boltend.core.contract import Goods
from boltend.core.pool.heaps import gather
from boltend.core.report.list_words import list_notes
from boltend.core.values import Price

from .kit import Made, lists, piece, run, snapshot

SLATE, MUSTARD = {"name": "Slate"}, {"name": "Mustard"}


def test_tabs_on_one_fabric_make_one_heap_in_the_order_of_the_tabs() -> None:
    gathered = gather(
        snapshot(
            Made("A", [piece("a", "2", "2", 3)], [run("r", "2", "50", fabric="Mustard")]),
            Made("B", [piece("b", "3", "3", 1, "Mustard"), piece("none", "3", "3", 0)]),
            Made("C", [piece("c", "4", "4", 2)]),
            fabrics=[SLATE, MUSTARD],
        ),
        1,
    )
    assert [(heap.name, [share.tab for share in heap.shares]) for heap in gathered.heaps] == [
        ("Slate", ["A", "C"]),
        ("Mustard", ["A", "B"]),
    ]


def test_a_fabric_is_the_same_however_it_is_written() -> None:
    tabs = [Made("A", [piece("a", "2", "2", 3)]), Made("B", [piece("b", "2", "2", 3, "SLATE")])]
    assert [f.cloth.name for f in lists(*tabs, fabrics=[SLATE]).fabrics] == ["Slate"]


def test_pieces_without_a_fabric_are_never_pooled() -> None:
    tabs = [Made(name, [piece("square", "20", "20", 1, None)]) for name in ("A", "B")]
    found = lists(*tabs).fabrics
    assert [(f.cloth.name, f.named) for f in found] == [("A", False), ("B", False)]
    # 20 1/2 in each, up to 22 1/2 in; pooled they would lie side by side in one length.
    assert [f.buy.length for f in found] == [Fraction(45, 2), Fraction(45, 2)]


def test_the_heap_of_a_tab_keeps_that_tabs_own_settings() -> None:
    wide = Made("Back", [piece("panel", "90", "60", 1, None)], says={"usable_width": Fraction(108)})
    (found,) = lists(wide).fabrics
    assert found.whole
    assert found.plan is not None
    assert found.plan.length_used == 60


def test_copies_multiply_pieces_runs_and_goods() -> None:
    goods = Goods("spool", Fraction(2), "spool", Price(Fraction(5), "USD"))
    tab = Made("A", [piece("a", "2", "2", 3)], [run("r", "2", "30", "40")], [goods])
    found = lists(tab, fabrics=[SLATE], copies=3)
    (fabric,) = found.fabrics
    assert sorted((p.across, p.count) for p in fabric.demand.parts) == [(2, 9), (30, 3), (40, 3)]
    assert (found.goods[0].goods.amount, found.goods[0].cost) == (6, Price(Fraction(30), "USD"))
    assert "For 3 copies of the quilt." in list(list_notes(found))


def test_wrong_copies_are_told_and_count_as_one() -> None:
    for copies in (0, -2, "many", 1.5):
        found = lists(Made("A", [piece("a", "2", "2", 3)]), fabrics=[SLATE], copies=copies)
        assert found.copies == 1
        assert [note for note in list_notes(found) if "copies" in note]
        assert [part.count for part in found.fabrics[0].demand.parts] == [3]


def test_aside_and_done_stay_out_and_are_named() -> None:
    tabs = [
        Made("A", [piece("a", "2", "2", 3)]),
        Made("B", [piece("b", "2", "2", 3)], flags={"aside": True}),
        Made("C", [piece("c", "2", "2", 3)], flags={"done": True}),
    ]
    found = lists(*tabs, fabrics=[SLATE])
    assert [part.count for part in found.fabrics[0].demand.parts] == [3]
    assert found.left_out == (("B", "aside"), ("C", "done"))
    notes = " ".join(list_notes(found))
    assert "“B” is aside" in notes
    assert "“C” is done" in notes


def test_a_tab_that_is_not_worked_out_is_named_with_its_reason() -> None:
    found = lists(Made("A", [piece("a", "2", "2", 3)]), Made("Top", why="no width."), fabrics=[SLATE])
    assert found.missing == (("Top", "no width."),)
    assert "Not whole: “Top” is not worked out (no width)." in list(list_notes(found))


def test_a_tab_that_cannot_but_is_aside_is_no_gap() -> None:
    found = lists(Made("Top", why="no width.", flags={"aside": True}))
    assert not found.missing


def test_a_search_stopped_early_is_named() -> None:
    found = lists(Made("Mix", [piece("a", "2", "2", 3)], stopped=True), fabrics=[SLATE])
    assert [note for note in list_notes(found) if "“Mix” was stopped early" in note]


def test_only_the_tabs_asked_for() -> None:
    taken = snapshot(
        Made("A", [piece("a", "2", "2", 3)]), Made("B", [piece("b", "2", "2", 5)]), fabrics=[SLATE]
    )
    gathered = gather(replace(taken, tabs=taken.tabs[1:]), 1)
    assert [share.tab for heap in gathered.heaps for share in heap.shares] == ["B"]
