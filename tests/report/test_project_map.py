"""The map: what feeds what, what goes to the lists, what is not worked out and why."""

from boltend.core.flow import Workbook
from boltend.core.host import Host, load_plugins
from boltend.core.project.reading import read_bytes
from boltend.core.report.project_map import Feed, map_summary, project_map

QUILT = """boltend = 1
[[tab]]
name = "Top"
calculator = "straight_set"
[tab.given]
block_width = "9 in"
block_height = "9 in"
across = 4
down = 5
[[tab]]
name = "Edge"
calculator = "binding"
[tab.given]
width = { from = "Top", take = "width" }
height = { from = "Top", take = "height" }
[[tab]]
name = "What if"
calculator = "binding"
aside = true
[tab.given]
width = { from = "Top", take = "width" }
height = { from = "Nowhere", take = "height" }
[[tab]]
name = "Lost"
calculator = "gone_away"
"""


def test_the_map_of_a_small_quilt() -> None:
    book = Workbook(Host(load_plugins()), read_bytes(QUILT.encode(), "q.toml").project)
    top, edge, what_if, lost = project_map(book)
    assert (top.name, top.state, top.takes, top.why) == ("Top", "worked out", (), ())
    assert [(feed.name, feed.things) for feed in top.gives] == [
        ("Edge", ("Width of the top", "Height of the top")),
        ("What if", ("Width of the top",)),
    ]
    # 4 × 9 in is 36 in, 5 × 9 in is 45 in.
    brought = ("Width of the quilt = 36 in finished", "Height of the quilt = 45 in finished")
    assert edge.takes == (Feed(top.key, "Top", brought),)
    assert (edge.gives, edge.lists) == ((), ("To cut", "To buy"))
    assert (what_if.state, what_if.flags, what_if.lists) == ("waiting", ("aside",), ())
    assert [why for why in what_if.why if "Nowhere" in why] == list(what_if.why)
    assert (lost.state, lost.asks) == ("cannot", "")
    assert "gone_away" in lost.why[0]
    assert map_summary(book) == "4 tabs: 2 worked out, 1 waiting, 1 not possible."


def test_the_map_of_nothing() -> None:
    book = Workbook(Host(load_plugins()), read_bytes(b"boltend = 1\n", "q.toml").project)
    assert project_map(book) == ()
    assert map_summary(book) == "There is no tab yet."
