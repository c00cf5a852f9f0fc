"""An edit in a chain of 200 tabs until all founds are there, against the bare calls of the calculators.

Ours: the edited project is made, read, worked out on the real host, checked and rounded. Theirs: the
functions of the same tabs, called with the same arguments, which lie ready, and nothing kept. In turns, with
another value each time, so that nothing is known from before.

A call that the machine holds up for 5 ms sends the next one of that calculator to the worker, by the rule of
the design; such a run is among the medians, not among the least.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from itertools import count

from chains import TABS, mixed_chain, straight_chain
from figures import ROUNDS, Figure, figure, timed

from boltend.core.flow import Result, Workbook
from boltend.core.host import Host
from boltend.core.project.edits import set_given
from boltend.core.project.model import Project

AIM = 2.0
AT_TAIL = 10
"""Edits that one time at the tail is taken over: one is too short for the clock."""

BETWEEN = "9 in"
"""Never among the others, so that each of them is news."""

BareCall = tuple[Callable[..., object], Mapping[str, object]]
"""A calculator's function with all that it takes, made ready."""

_lengths = (f"{10 + n % 15} {n % 7 + 1}/8 in" for n in count())
"""What is typed: 105 lengths, so that a run of edits never types the same twice."""


def figures() -> Sequence[Figure]:
    """Head and tail of both chains."""
    with Host.load() as host:
        return [
            *_of_chain(host, straight_chain(), "200 straight sets", "block_width", "sash"),
            *_of_chain(host, mixed_chain(), "200 mixed tabs", "block_width", "tail"),
        ]


def _of_chain(host: Host, project: Project, words: str, head: str, tail: str) -> Iterator[Figure]:
    book = Workbook(host, project)
    wrong = [result.why for result in book.results.values() if result.state != "worked out"]
    if wrong:
        raise ValueError(f"the chain does not work itself out: {wrong[0]}")
    keys = [tab.key for tab in book.project.tabs]
    yield _figure(f"edit at the head of {words}", host, book, head, keys, 1)
    yield _figure(f"edit at the tail of {words}", host, book, tail, keys[-1:], AT_TAIL)


def _figure(what: str, host: Host, book: Workbook, given: str, reached: Sequence[int], times: int) -> Figure:
    """Edits of the first tab that is reached."""
    ours, theirs = [], []
    for _ in range(ROUNDS + 1):  # the first one warms up
        lengths = [next(_lengths) for _ in range(times)]
        ours.append(timed(partial(_edit_all, book, reached[0], given, lengths)) / times)
        _edit(book, reached[0], given, BETWEEN)
        calls: list[BareCall] = []
        for length in lengths:  # once more, to see with what each calculator was called
            if _edit(book, reached[0], given, length) != set(reached):
                raise ValueError(f"{what} does not reach {len(reached)} of {TABS} tabs")
            calls += [bare_call(host, book.results[key]) for key in reached]
        theirs.append(timed(partial(call_all, calls)) / times)
    return figure(what, ours[1:], theirs[1:], AIM)


def _edit_all(book: Workbook, key: int, given: str, lengths: Sequence[str]) -> None:
    for length in lengths:
        _edit(book, key, given, length)


def _edit(book: Workbook, key: int, given: str, length: str) -> set[int]:
    return book.update(set_given(book.project, key, given, length))


def call_all(calls: Sequence[BareCall]) -> None:
    for function, arguments in calls:
        function(**arguments)


def bare_call(host: Host, result: Result) -> BareCall:
    return host.plugins.prepared[_name(result)].function, _arguments(host, result)


def _name(result: Result) -> str:
    assert result.spec is not None  # it is worked out
    return result.spec.name


def _arguments(host: Host, result: Result) -> Mapping[str, object]:
    """What the host hands over: rows as objects of their class, settings where they are taken."""
    prepared = host.plugins.prepared[_name(result)]
    arguments: dict[str, object] = dict(result.args)
    for name, made in prepared.rows:
        rows = result.args[name]
        assert isinstance(rows, tuple)  # of the cells of each row
        arguments[name] = tuple(made(**row) for row in rows)
    if prepared.takes_setting:
        arguments["setting"] = result.settings
    return arguments
