"""The order in which tabs are worked out, and the circles that cannot be.

Written without recursion: a project may hold thousands of tabs in one chain.
"""

from collections.abc import Iterable, Mapping, Set
from types import MappingProxyType
from typing import NamedTuple


class Graph(NamedTuple):
    """Tabs by key: an order in which each comes after what feeds it, who is fed by whom, and circles.

    `circles` maps each tab on a circle to the path round it, starting and ending with that tab, each tab
    before the one that feeds it.
    """

    order: tuple[int, ...] = ()
    position: Mapping[int, int] = MappingProxyType({})
    feeds: Mapping[int, tuple[int, ...]] = MappingProxyType({})
    circles: Mapping[int, tuple[int, ...]] = MappingProxyType({})

    def reached(self, keys: Iterable[int]) -> set[int]:
        """The keys, and all that they feed, at any distance."""
        seen: set[int] = set()
        open_ = [k for k in keys if k in self.position]
        while open_:
            key = open_.pop()
            if key not in seen:
                seen.add(key)
                open_.extend(self.feeds.get(key, ()))
        return seen


def build(sources: Mapping[int, Iterable[int]]) -> Graph:
    """The graph of tabs, from each tab to the tabs that feed it."""
    fed_by = {key: tuple(dict.fromkeys(s for s in fed if s in sources)) for key, fed in sources.items()}
    feeds: dict[int, list[int]] = {key: [] for key in sources}
    for key, fed in fed_by.items():
        for source in fed:
            feeds[source].append(key)
    missing = {key: len(fed) for key, fed in fed_by.items()}
    order = _follow([key for key, count in missing.items() if count == 0], missing, feeds)
    done = set(order)
    circles = _circles([key for key in sources if key not in done], fed_by)
    # What a circle feeds comes after it: it waits, and says for whom.
    order += _follow(list(circles), missing, feeds, set(circles))
    return Graph(
        tuple(order),
        {key: i for i, key in enumerate(order)},
        {key: tuple(fed) for key, fed in feeds.items()},
        circles,
    )


def _follow(
    order: list[int], missing: dict[int, int], feeds: Mapping[int, list[int]], done: Set[int] = frozenset()
) -> list[int]:
    """Take these tabs as worked out, and add all that then can follow, in order (Kahn)."""
    for key in order:  # grows while it is walked
        for fed in feeds[key]:
            missing[fed] -= 1
            if missing[fed] == 0 and fed not in done:
                order.append(fed)
    return order


def _circles(rest: list[int], fed_by: Mapping[int, tuple[int, ...]]) -> dict[int, tuple[int, ...]]:
    """Tarjan's strongly connected components, iteratively; then one path round each."""
    circles: dict[int, tuple[int, ...]] = {}
    for group in _components(rest, fed_by):
        members = set(group)
        if len(group) == 1 and group[0] not in fed_by[group[0]]:
            continue
        # From the oldest tab, so that the path told does not hang on the order of edits.
        path = _path_round(min(group), members, fed_by)
        for key in group:
            circles[key] = _turned(path, key) if key in path else _path_round(key, members, fed_by)
    return circles


def _turned(path: tuple[int, ...], start: int) -> tuple[int, ...]:
    at = path.index(start)
    ring = path[:-1]
    return (*ring[at:], *ring[:at], start)


def _path_round(start: int, members: set[int], fed_by: Mapping[int, tuple[int, ...]]) -> tuple[int, ...]:
    """The shortest way from a tab, against its links, back to itself."""
    came_from: dict[int, int] = {}
    queue = [start]
    for key in queue:  # grows while it is walked
        for source in fed_by[key]:
            if source == start:
                path = [key]
                while path[-1] != start:
                    path.append(came_from[path[-1]])
                return (*reversed(path), start)
            if source in members and source not in came_from:
                came_from[source] = key
                queue.append(source)
    raise AssertionError("a strongly connected group has a way round")  # guards the algorithm, not the input


def _components(nodes: list[int], fed_by: Mapping[int, tuple[int, ...]]) -> list[list[int]]:
    index: dict[int, int] = {}
    low: dict[int, int] = {}
    stack: list[int] = []
    on_stack: set[int] = set()
    groups: list[list[int]] = []
    inside = set(nodes)
    for root in nodes:
        if root in index:
            continue
        work = [(root, iter(fed_by[root]))]
        index[root] = low[root] = len(index)
        stack.append(root)
        on_stack.add(root)
        while work:
            node, sources = work[-1]
            for source in sources:
                if source not in inside:
                    continue
                if source not in index:
                    index[source] = low[source] = len(index)
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
                    at = stack.index(node)
                    groups.append(stack[at:])
                    on_stack.difference_update(stack[at:])
                    del stack[at:]
    return groups
