"""The graph against brute force: reachability by repeated squaring of a relation, nothing of `graph.py`."""

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.flow.graph import build

Sources = dict[int, list[int]]


@st.composite
def digraphs(draw: st.DrawFn) -> Sources:
    size = draw(st.integers(0, 9))
    keys = draw(st.permutations(range(10, 10 + size)))
    node = st.integers(10, 10 + size)  # one beyond the last: a source that is not there
    return {key: draw(st.lists(node, max_size=3)) for key in keys}


def reach(sources: Sources) -> dict[int, set[int]]:
    """From each key, what can be come to against its links in one step or more."""
    far = {key: {s for s in fed if s in sources} for key, fed in sources.items()}
    for _ in sources:
        far = {key: got.union(*(far[g] for g in got)) for key, got in far.items()}
    return far


@settings(max_examples=300, deadline=None)
@given(digraphs())
def test_order_circles_and_feeds(sources: Sources) -> None:
    graph, far = build(sources), reach(sources)
    assert sorted(graph.order) == sorted(sources)
    assert all(graph.order[at] == key for key, at in graph.position.items())
    on_a_circle = {key for key in sources if key in far[key]}
    assert set(graph.circles) == on_a_circle
    for key, fed in sources.items():
        if key in on_a_circle:
            continue
        for source in fed:
            if source in sources:
                assert graph.position[source] < graph.position[key]
    for key in sources:
        assert sorted(graph.feeds[key]) == sorted(k for k, fed in sources.items() if key in fed)


@settings(max_examples=300, deadline=None)
@given(digraphs())
def test_each_path_round_follows_real_links_once(sources: Sources) -> None:
    for key, path in build(sources).circles.items():
        assert path[0] == path[-1] == key
        assert len(path) == len(set(path)) + 1
        assert all(there in sources[here] for here, there in pairwise(path))


def test_a_chain_of_five_thousand_and_a_circle_of_five_thousand_need_no_recursion() -> None:
    chain = {n: [n + 1] for n in range(5000)} | {5000: []}
    assert build(chain).order[0] == 5000
    ring = {n: [(n + 1) % 5000] for n in range(5000)}
    assert build(ring).circles[7][:3] == (7, 8, 9)
    assert len(build(ring).circles) == 5000


@settings(max_examples=100, deadline=None)
@given(digraphs(), st.lists(st.integers(10, 20), max_size=3))
def test_reached_is_all_that_is_fed(sources: Sources, starts: list[int]) -> None:
    far = reach(sources)
    there = [start for start in starts if start in sources]
    assert build(sources).reached(starts) == {k for k in sources if k in there or far[k].intersection(there)}


@settings(max_examples=100, deadline=None)
@given(st.integers(101, 160), st.lists(st.tuples(st.integers(0, 159), st.integers(0, 159)), max_size=200))
def test_a_path_round_in_a_large_knot_follows_real_links_once(size: int, more: list[tuple[int, int]]) -> None:
    """Larger knots get a path that is quick to find; it need not be the shortest."""
    sources = {n: [(n + 1) % size] for n in range(size)}
    for a, b in more:
        sources[a % size].append(b % size)
    circles = build(sources).circles
    assert len(circles) == size
    for key, path in circles.items():
        assert path[0] == path[-1] == key
        assert len(path) == len(set(path)) + 1
        assert all(there in sources[here] for here, there in pairwise(path))
