"""The questions of the built-in plugins name a cloth for whatever they buy: no nameless heap in To buy."""

from collections.abc import Iterator

import pytest

from boltend.core.contract import Start
from boltend.core.host import Host

BUYS = ("borders", "binding", "backing")
"""Calculators whose question is what to buy of a cloth."""


def cloths(start: Start) -> Iterator[tuple[str, object]]:
    """Tab and fabric of all that a question buys: a border each, a binding, a backing."""
    for tab, calculator, givens in start.tabs:
        if calculator not in BUYS:
            continue
        rows = givens.get("borders")
        parts = rows if isinstance(rows, list) else [givens]
        yield from ((f"{tab}: {part.get('name', calculator)}", part.get("fabric")) for part in parts)


def starts() -> list[Start]:
    with Host.load() as host:
        return [start for plugin in host.plugins for start in plugin.starts if plugin.built_in]


STARTS = [start for start in starts() if any(True for _ in cloths(start))]


def test_there_are_such_questions() -> None:
    assert len(STARTS) >= 8


@pytest.mark.parametrize("start", STARTS, ids=lambda start: start.question)
def test_each_border_binding_and_backing_has_a_cloth_of_its_own(start: Start) -> None:
    named = list(cloths(start))
    assert all(fabric for _, fabric in named), named
    assert len({fabric for _, fabric in named}) == len(named)


def test_a_border_to_allow_for_never_counts_twice() -> None:
    """Borders that are planned lie round the blocks alone."""
    (start,) = (s for s in STARTS if s.question.startswith("So many blocks of one size"))
    (borders,) = (givens for _, calculator, givens in start.tabs if calculator == "borders")
    assert borders["top_width"] == {"from": "Blocks", "take": "top_width"}
    assert borders["top_height"] == {"from": "Blocks", "take": "top_height"}
