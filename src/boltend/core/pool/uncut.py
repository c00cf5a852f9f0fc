"""Blocks that are only counted: whether any tab cuts what the blocks of a quilt are made of."""

from boltend.core.contract import Polygon, Rect
from boltend.core.pool.snapshot import Snapshot
from boltend.core.project.model import Tab
from boltend.core.project.plain import folded

BLOCK = "block"
"""The role of a block in a picture, alone or as the last word of another role (`inner block`)."""


def is_block(fill: str) -> bool:
    """Whether a fill is the role of blocks, for which no fabric is said."""
    return fill.split(" ")[-1] == BLOCK


def blocks_uncut(snapshot: Snapshot) -> bool:
    """Whether tabs show blocks without a fabric, and no tab cuts for them.

    What cuts for blocks stands before the tabs that show them, takes a count from one of those (so many
    units) or from a tab before, or has nothing to do with them. Borders and what else takes the size of a
    top cuts for itself alone.
    """
    counted = [tab for tab in snapshot.tabs if not (tab.aside or tab.done)]
    settings = {tab.key for tab in counted if _shows_blocks(snapshot, tab)}
    if not settings:
        return False
    before = _reached(settings, {key: {s for s, _ in fed} for key, fed in snapshot.sources.items()})
    behind = _reached(settings, _feeds(snapshot)) - before
    for tab in counted:
        answer = snapshot.results[tab.key].answer
        if answer is None or tab.key in settings or not (answer.pieces or answer.runs):
            continue
        if tab.key not in behind or any(
            kind == "count" and source in before for source, kind in snapshot.sources.get(tab.key, ())
        ):
            return False
    return True


def _shows_blocks(snapshot: Snapshot, tab: Tab) -> bool:
    answer = snapshot.results[tab.key].answer
    named = snapshot.basis.fabric_names
    return answer is not None and any(
        is_block(shape.fill) and folded(shape.fill) not in named
        for shape in answer.picture
        if isinstance(shape, Rect | Polygon)
    )


def _feeds(snapshot: Snapshot) -> dict[int, set[int]]:
    feeds: dict[int, set[int]] = {}
    for key, fed in snapshot.sources.items():
        for source, _ in fed:
            feeds.setdefault(source, set()).add(key)
    return feeds


def _reached(first: set[int], ways: dict[int, set[int]]) -> set[int]:
    """These tabs, and all that the ways lead to from them."""
    found, turn = set(first), list(first)
    while turn:
        for key in ways.get(turn.pop(), ()):
            if key not in found:
                found.add(key)
                turn.append(key)
    return found
