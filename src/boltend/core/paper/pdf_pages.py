"""Slabs on pages: what belongs together stays together, and a table's head stands on every page."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from boltend.core.paper.pdf_slabs import Slab


class Placed(NamedTuple):
    """A slab, and how far below the top of the page's own room it begins."""

    slab: Slab
    y: float


def on_pages(slabs: Iterable[Slab], height: float) -> list[list[Placed]]:
    """The slabs on pages with room for `height` points; at least one page.

    Slabs that keep together go to the next page together, unless not even an empty one holds them.
    """
    pages = _Pages(height)
    for group in _groups(slabs):
        if not pages.holds(group) and pages.whole(group):
            pages.turn()
        for slab in group:
            if not pages.holds([slab]):
                pages.turn()
            pages.put(slab)
    return pages.pages


def _groups(slabs: Iterable[Slab]) -> Iterator[list[Slab]]:
    group: list[Slab] = []
    for slab in slabs:
        group.append(slab)
        if not slab.keep:
            yield group
            group = []
    if group:
        yield group


class _Pages:
    def __init__(self, height: float) -> None:
        self.height, self.y = height, 0.0
        self.pages: list[list[Placed]] = [[]]

    def holds(self, group: Sequence[Slab]) -> bool:
        """Whether the rest of this page has room for them."""
        return self.y + self._needed(group, first=not self.pages[-1]) <= self.height + 1e-6

    def whole(self, group: Sequence[Slab]) -> bool:
        """Whether an empty page has room for them."""
        return self._needed(group, first=True) <= self.height + 1e-6

    @staticmethod
    def _needed(group: Sequence[Slab], *, first: bool) -> float:
        needed = sum(slab.height + slab.space for slab in group)
        head = group[0].head
        return needed - group[0].space + (head.height if head else 0.0) if first else needed

    def turn(self) -> None:
        """Go on to the next page, unless this one is empty."""
        if self.pages[-1]:
            self.pages.append([])
            self.y = 0.0

    def put(self, slab: Slab) -> None:
        """Put one on this page."""
        if not self.pages[-1] and slab.head is not None:
            self.pages[-1].append(Placed(slab.head, self.y))
            self.y += slab.head.height
        elif self.pages[-1]:
            self.y += slab.space
        self.pages[-1].append(Placed(slab, self.y))
        self.y += slab.height
