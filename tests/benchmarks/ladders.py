"""A ladder of 50 values over a project of 40 tabs, against 50 bare runs of the same calculators.

Ours: every rung is the edited project, read, worked out on the real host, checked, rounded and shown. Theirs:
the functions of all tabs, called once a rung with the arguments of that rung, which lie ready. A ladder whose
given stands near the end runs through few tabs only: theirs are then the calls of those, while ours must work
the project out whole for its first rung; there is no aim for it.
"""

from collections.abc import Sequence
from functools import partial

from chain_edit import BareCall, bare_call, call_all
from chains import mixed_chain
from figures import ROUNDS, Figure, figure, timed

from boltend.core.asking import Ladder, climb, read_ladder
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.edits import set_given
from boltend.core.project.model import Project

AIM = 2.0
TABS, VALUES = 40, 50


def figures() -> Sequence[Figure]:
    """A given that all tabs hang on, and one that only the last tab does."""
    whole = mixed_chain()
    project = Project(whole.root, whole.settings, whole.fabrics, whole.tabs[:TABS], ())
    with Host.load() as host:
        book = Workbook(host, project)
        first, last = project.tabs[0], project.tabs[TABS - 1]
        takes = [{"from": last.name, "take": "length"}, {"from": last.name, "take": "bound_width"}]
        sizes = [f"{8 + n // 8} {n % 8}/8 in" if n % 8 else f"{8 + n // 8} in" for n in range(VALUES)]
        head, tail = f"{VALUES} rungs through all {TABS} tabs", f"{VALUES} rungs through the last tab"
        return [
            _figure(head, host, book, first.name, "block_width", sizes, takes, AIM),
            _figure(tail, host, book, last.name, "tail", sizes, takes),
        ]


def _figure(
    what: str,
    host: Host,
    book: Workbook,
    tab: str,
    given: str,
    values: list[str],
    takes: list[dict[str, str]],
    aim: float | None = None,
) -> Figure:
    ladder = read_ladder(book, {"tab": tab, "given": given, "values": values, "take": takes})
    calls = _bare_calls(host, book, ladder)
    ours, theirs = [], []
    for _ in range(ROUNDS + 1):  # the first one warms up
        ours.append(timed(partial(_climbed, book, ladder)))
        theirs.append(timed(partial(call_all, calls)))
    return figure(what, ours[1:], theirs[1:], aim)


def _climbed(book: Workbook, ladder: Ladder) -> None:
    rungs = list(climb(book, ladder))
    if any(cell.why for rung in rungs for cell in rung.cells.values()):
        raise ValueError("a rung cannot be worked out")


def _bare_calls(host: Host, book: Workbook, ladder: Ladder) -> list[BareCall]:
    """The calls of the tabs that each rung reaches, ready to be made."""
    calls: list[BareCall] = []
    reached = book.graph.reached([ladder.tab])
    for raw in ladder.values:
        own = Workbook(host, set_given(book.project, ladder.tab, ladder.given.name, raw))
        calls += [bare_call(host, own.results[key]) for key in reached]
    return calls
