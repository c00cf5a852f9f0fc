"""Tabs whose links run in circles, and a path round for each: found when it is asked for.

A circle of ten thousand tabs has ten thousand paths of ten thousand steps: none is kept.
"""

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

_FEW = 100
"""Members up to which each gets the shortest path round; in larger knots one that is quick to find."""

FedBy = Mapping[int, tuple[int, ...]]


class Circles(Mapping[int, tuple[int, ...]]):
    """Each tab on a circle, with the path round it: from that tab to that tab, each before what feeds it."""

    def __init__(self, rest: list[int], fed_by: FedBy) -> None:
        groups = [g for g in components(rest, fed_by) if len(g) > 1 or g[0] in fed_by[g[0]]]
        self._knots = {key: knot for knot in (_Knot(g, fed_by) for g in groups) for key in knot.members}

    def __getitem__(self, key: int) -> tuple[int, ...]:
        return self._knots[key].path(key)

    def __iter__(self) -> Iterator[int]:
        return iter(self._knots)

    def __len__(self) -> int:
        return len(self._knots)

    def __contains__(self, key: object) -> bool:
        return key in self._knots


class _Knot:
    """Tabs each of which can be come to from each."""

    def __init__(self, group: list[int], fed_by: FedBy) -> None:
        self.members, self._fed_by = frozenset(group), fed_by
        self._first = min(group)  # from the oldest tab, so that the path does not hang on the order of edits

    def path(self, key: int) -> tuple[int, ...]:
        at = self._at.get(key)
        if at is not None:
            ring = self._ring[:-1]
            return (*ring[at:], *ring[:at], key)
        return self._short(key) if len(self.members) <= _FEW else self._by_the_first(key)

    @cached_property
    def _ring(self) -> tuple[int, ...]:
        return self._short(self._first)

    @cached_property
    def _at(self) -> dict[int, int]:
        return {key: at for at, key in enumerate(self._ring[:-1])}

    def _short(self, start: int) -> tuple[int, ...]:
        """The shortest way from a tab, against its links, back to itself."""
        came_from: dict[int, int] = {}
        queue = [start]
        for key in queue:  # grows while it is walked
            for source in self._fed_by[key]:
                if source == start:
                    return (start, *_back(key, start, came_from), start)
                if source in self.members and source not in came_from:
                    came_from[source] = key
                    queue.append(source)
        raise AssertionError("each of a knot has a way round")  # guards the algorithm, not the input

    def _by_the_first(self, key: int) -> tuple[int, ...]:
        """The way to the first tab until it meets the way back from there."""
        there, back = self._trees
        home = [self._first, *_back(key, self._first, there)]  # from the first to this one
        at = {step: n for n, step in enumerate(home)}
        way, step = [key], back[key]
        while step not in at:
            way.append(step)
            step = back[step]
        return (*way, *home[at[step] :])

    @cached_property
    def _trees(self) -> tuple[dict[int, int], dict[int, int]]:
        """For each tab the one before it on a way from the first, and the one after it on a way there."""
        feeds: dict[int, list[int]] = {key: [] for key in self.members}
        for key in self.members:
            for source in self._fed_by[key]:
                if source in self.members:
                    feeds[source].append(key)
        return _tree(self._first, self._fed_by, self.members), _tree(self._first, feeds, self.members)


def _tree(start: int, steps: Mapping[int, Iterable[int]], members: frozenset[int]) -> dict[int, int]:
    came_from: dict[int, int] = {}
    queue = [start]
    for key in queue:  # grows while it is walked
        for other in steps[key]:
            if other in members and other != start and other not in came_from:
                came_from[other] = key
                queue.append(other)
    return came_from


def _back(key: int, start: int, came_from: Mapping[int, int]) -> list[int]:
    """The steps behind `start` to a key, in order."""
    path: list[int] = []
    while key != start:
        path.append(key)
        key = came_from[key]
    path.reverse()
    return path


def components(nodes: list[int], fed_by: FedBy) -> list[list[int]]:
    """Tarjan's strongly connected components among some tabs, without recursion."""
    index: dict[int, int] = {}
    low: dict[int, int] = {}
    stack: list[int] = []
    height: dict[int, int] = {}
    on_stack: set[int] = set()
    groups: list[list[int]] = []
    inside = set(nodes)
    for root in nodes:
        if root in index:
            continue
        work = [(root, iter(fed_by[root]))]
        index[root] = low[root] = len(index)
        height[root] = len(stack)
        stack.append(root)
        on_stack.add(root)
        while work:
            node, sources = work[-1]
            for source in sources:
                if source not in inside:
                    continue
                if source not in index:
                    index[source] = low[source] = len(index)
                    height[source] = len(stack)
                    stack.append(source)
                    on_stack.add(source)
                    work.append((source, iter(fed_by[source])))
                    break
                if source in on_stack:
                    low[node] = min(low[node], index[source])
            else:
                work.pop()
                if work:
                    low[work[-1][0]] = min(low[work[-1][0]], low[node])
                if low[node] == index[node]:
                    at = height[node]
                    groups.append(stack[at:])
                    on_stack.difference_update(stack[at:])
                    del stack[at:]
    return groups
