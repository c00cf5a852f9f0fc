"""Planned once, remembered, held still, stopped: the pool beside a person who types."""

import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import boltend_shared
from boltend.commands.opened import open_project
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool, snapshot_of
from boltend.core.pool import planner as planner_module
from boltend.core.project.edits import rename_tab, set_given
from boltend.core.report.list_words import cut_sheets

from .kit import EFFORT, Made, piece, plan_of, run, snapshot

EXAMPLE = Path(boltend_shared.__file__).parent / "examples" / "harbour-steps.toml"


@pytest.fixture
def planned(monkeypatch: pytest.MonkeyPatch) -> list[set[object]]:
    """The widths of the bolts that are planned, call by call."""
    calls: list[set[object]] = []
    plan_pooled = planner_module.plan_pooled

    def counted(groups: Any, stock: Any, *args: Any, **more: Any) -> Any:
        calls.append({stock.bolt.width})
        return plan_pooled(groups, stock, *args, **more)

    monkeypatch.setattr(planner_module, "plan_pooled", counted)
    return calls


@pytest.fixture
def book() -> Iterator[Workbook]:
    with Host.load() as host:
        yield open_project(str(EXAMPLE), host).book


A = Made("A", [piece("a", "5", "7", 8)], [run("r", "2", "100")])
B = Made("B", [piece("b", "3", "4", 11)])
C = Made("C", [piece("c", "3", "3", 4, "Mustard")])
MANY = replace(C, pieces=[piece("c", "3", "3", 50, "Mustard")])
FABRICS = [{"name": "Slate", "printed": "3 in"}, {"name": "Mustard", "usable_width": "40 in"}]


def test_the_same_again_plans_nothing(planned: list[set[object]]) -> None:
    pool = Pool(EFFORT)
    first = pool.lists_of(snapshot(A, B, C, fabrics=FABRICS))
    assert planned
    planned.clear()
    again = pool.lists_of(snapshot(A, B, C, fabrics=FABRICS))
    assert not planned
    assert [plan_of(f) for f in again.fabrics] == [plan_of(f) for f in first.fabrics]
    assert [f.printed for f in again.fabrics] == [f.printed for f in first.fabrics]


@pytest.mark.parametrize(
    ("change", "widths"),
    [
        (lambda: snapshot(A, B, MANY, fabrics=FABRICS), {40}),
        (lambda: snapshot(replace(A, name="Renamed"), B, C, fabrics=FABRICS), set()),
        (lambda: snapshot(A, B, C, fabrics=[{**FABRICS[0], "price": "9"}, FABRICS[1]]), set()),
        (lambda: snapshot(A, B, C, fabrics=[FABRICS[0], {**FABRICS[1], "name": "MUSTARD"}]), set()),
    ],
)
def test_an_edit_plans_only_the_fabrics_that_it_touches(
    change: Callable[[], Any], widths: set[int], planned: list[set[object]]
) -> None:
    pool = Pool(EFFORT)
    pool.lists_of(snapshot(A, B, C, fabrics=FABRICS))
    planned.clear()
    pool.lists_of(change())
    assert set().union(*planned) == widths


def test_a_renamed_tab_is_named_anew_in_the_same_plan() -> None:
    pool = Pool(EFFORT)
    for name in ("A", "Renamed"):
        (slate, _) = pool.lists_of(snapshot(replace(A, name=name), C, fabrics=FABRICS)).fabrics
        assert {use.tab for use in slate.demand.uses.values()} == {name}


def test_the_same_project_has_the_same_lists_whatever_was_planned_before() -> None:
    pool = Pool(EFFORT)
    pool.lists_of(snapshot(A, B, B, C, fabrics=FABRICS))
    assert pool.lists_of(snapshot(A, B, fabrics=FABRICS)) == Pool(EFFORT).lists_of(
        snapshot(A, B, fabrics=FABRICS)
    )


def test_a_snapshot_stays_as_it_was_while_the_project_is_edited(book: Workbook) -> None:
    before = Pool().lists(book)
    taken = snapshot_of(book)
    binding = book.project.tab("Binding")
    book.update(set_given(book.project, binding.key, "strip_width", "3 in"))
    book.update(rename_tab(book.project, binding.key, "The binding"))
    assert Pool().lists_of(taken) == before
    assert Pool().lists(book) != before


def test_planned_in_another_thread_while_the_project_is_edited(book: Workbook) -> None:
    pool, before, found = Pool(), Pool().lists(book), []
    taken = snapshot_of(book)
    thread = threading.Thread(target=lambda: found.append(pool.lists_of(taken)))
    thread.start()
    for width in ("3 in", "2 1/4 in", "2 in", "2 1/2 in"):
        book.update(set_given(book.project, book.project.tab("Binding").key, "strip_width", width))
    thread.join()
    assert found == [before]
    assert pool.lists(book) == before


class Stop:
    def stopped(self) -> bool:
        return True


def test_stopped_lists_are_whole_but_are_said_so_and_not_kept(planned: list[set[object]]) -> None:
    pool = Pool()
    hard = Made("H", [piece(f"h{n}", f"{5 + 2 * n}/2", f"{11 + 3 * n}/4", 7 + n) for n in range(6)])
    taken = snapshot(hard, fabrics=[{"name": "Slate"}])
    (stopped,) = pool.lists_of(taken, Stop()).fabrics
    assert stopped.whole
    assert plan_of(stopped).stopped
    assert (
        "Stopped early: the best found so far." in cut_sheets(pool.lists_of(taken, Stop()), _how())[0].notes
    )
    planned.clear()
    (fabric,) = pool.lists_of(taken).fabrics
    assert planned
    assert not plan_of(fabric).stopped
    assert plan_of(fabric).length_used <= plan_of(stopped).length_used


def _how() -> Any:
    from boltend.core.values import Notation

    return Notation()
