"""Strangers run beside each other: what one holds up, or changes in its process, no other meets."""

import threading
import time
from collections.abc import Callable
from queue import Queue

import pytest

from boltend.core.contract import Settings
from boltend.core.host import Call, Host

TWICE = 'return Answer(found={"made": 2 * many})'
WHERE = "return Answer(found={'made': os.getpid()})"
JOB = ", *, job: Job"

PATCHES = """
import math
Fraction.__add__ = lambda self, other: Fraction(1)
math.floor = lambda value: 1
return Answer(found={"made": 1})
"""
ADDS = """
import math
return Answer(found={"made": int(Fraction(2) + Fraction(3)) + math.floor(2.5)})
"""


@pytest.fixture
def heard(load: Callable[..., Host]) -> Callable[[], tuple[Host, Queue]]:
    def heard() -> tuple[Host, Queue]:
        told: Queue = Queue()
        return load(on_outcome=lambda *outcome: told.put(outcome)), told

    return heard


def call(host: Host, calculator: str, many: int = 3) -> Call:
    return Call(host.specs[calculator], {"many": many}, Settings())


@pytest.mark.parametrize("holds", ["time.sleep(60)", "import re; re.match(r'(a+)+$', 'a' * 60 + 'b')"])
def test_who_holds_up_its_own_line_holds_up_no_other(maker, heard, holds):
    maker.simple("slow", holds)
    maker.simple("loom")
    maker.simple("ours", TWICE, built_in=True, extra=JOB)
    host, told = heard()
    host.start(call(host, "slow_twice"), "slow")
    host.start(call(host, "loom_twice"), "loom")
    host.start(call(host, "ours_twice"), "ours")
    assert {told.get(timeout=30)[0] for _ in range(2)} == {"loom", "ours"}  # and not sixty seconds later
    host.stop("slow")
    ticket, outcome = told.get(timeout=20)
    assert (ticket, outcome.stopped) == ("slow", True)


def test_what_one_changes_in_its_process_no_other_calculates_with(maker, load, work):
    maker.simple("changes", PATCHES)
    maker.simple("adds", ADDS)
    maker.simple("ours", ADDS, built_in=True, extra=JOB)
    host = load()
    for _ in range(2):
        assert work(host, "changes_twice").answer is not None
        assert work(host, "adds_twice").answer.found == {"made": 7}
        assert work(host, "ours_twice").answer.found == {"made": 7}


def test_plugins_of_one_distribution_share_a_process_and_others_do_not(maker, load, work):
    for name in ("one", "two"):
        maker.simple(name, WHERE, built_in=True, extra=JOB)
    maker.simple("loom", WHERE)
    host = load()
    one, two, loom = (work(host, f"{n}_twice").answer.found["made"] for n in ("one", "two", "loom"))
    assert one == two != loom


def test_a_ticket_that_moves_to_another_line_is_dropped_in_the_first(maker, heard):
    """As where a tab gets another calculator while its run is under way."""
    maker.simple("slow", "time.sleep(1)\n" + TWICE)
    maker.simple("loom")
    host, told = heard()
    host.start(call(host, "slow_twice", 7), "tab")
    time.sleep(0.3)
    host.start(call(host, "loom_twice"), "tab")
    assert told.get(timeout=20)[1].answer.found == {"made": 6}
    time.sleep(1.2)
    assert told.empty()


def test_a_worker_that_nobody_needs_is_ended_and_comes_again(maker, load, work, monkeypatch):
    monkeypatch.setattr("boltend.core.host.line.IDLE", 0.3)
    maker.simple("loom", WHERE)
    host = load()
    before = threading.active_count()
    first = work(host, "loom_twice").answer.found["made"]
    assert threading.active_count() == before + 2  # its line, and who reads its pipe
    until = time.monotonic() + 20
    while threading.active_count() > before + 1 and time.monotonic() < until:
        time.sleep(0.05)
    assert threading.active_count() == before + 1
    assert work(host, "loom_twice").answer.found["made"] != first


def test_closing_ends_every_line(maker, heard):
    for name in ("slow", "sleepy"):
        maker.simple(name, "time.sleep(60)")
    host, told = heard()
    before = threading.active_count()
    for name in ("slow", "sleepy"):
        host.start(call(host, f"{name}_twice"), name)
    time.sleep(0.5)
    host.close()
    assert threading.active_count() == before
    host.start(call(host, "slow_twice"), "late")
    host.close()
    assert threading.active_count() == before
    assert told.empty()
