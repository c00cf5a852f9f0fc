"""The order in which tabs are worked out, and the circles that cannot be.

Written without recursion: a project may hold thousands of tabs in one chain.
"""

from collections.abc import Iterable, Mapping, Set
from types import MappingProxyType
from typing import NamedTuple

from boltend.core.flow.circles import Circles


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
    circles = Circles([key for key in sources if key not in done], fed_by)
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
