"""Plans made in a process of their own: the same plans, stopped with the best so far, and never lost."""

import os
import signal
import sys
import threading
from collections.abc import Iterator
from fractions import Fraction
from random import Random

import pytest

from boltend.core.cutting import Bolt, Part, Plan, Proof, Steps, Stock, check_plan
from boltend.core.pool.cutter import CutTask, cut_here
from boltend.core.pool.elsewhere import Elsewhere

BOLT = Stock((), Bolt(Fraction(42)))
EASY = CutTask(((Part("square", Fraction(13, 2), Fraction(13, 2), 32),),), BOLT, 15_000, Proof())


def hard() -> CutTask:
    """Twenty sizes in odd sixteenths: its proof takes seconds, all of which a stop can end."""
    chance = Random(15)
    parts = tuple(
        Part(f"p{n}", Fraction(chance.randint(24, 240), 16), Fraction(chance.randint(24, 240), 16), 20)
        for n in range(20)
    )
    return CutTask((parts,), BOLT, 15_000, Proof(10**12, Steps(Fraction(9, 2))))


class Stop:
    """Wants no more once it is asked for the n-th time (every 50 ms)."""

    def __init__(self, after: int) -> None:
        self.asked, self.after = 0, after

    def stopped(self) -> bool:
        self.asked += 1
        return self.asked > self.after


@pytest.fixture
def elsewhere() -> Iterator[Elsewhere]:
    made = Elsewhere()
    yield made
    made.end()


def whole(plan: Plan, task: CutTask) -> None:
    check_plan(plan, [part for group in task.groups for part in group], task.stock)
    assert not plan.unplaced


def test_the_plan_is_the_one_that_this_process_makes(elsewhere: Elsewhere) -> None:
    assert elsewhere(EASY, None) == cut_here(EASY, None)
    assert elsewhere(EASY, None) == cut_here(EASY, None)


def test_a_stop_gives_the_best_so_far_and_the_next_plan_is_sound(elsewhere: Elsewhere) -> None:
    task = hard()
    found = elsewhere(task, Stop(20))
    whole(found, task)
    assert found.stopped
    assert found.length_used <= cut_here(CutTask(task.groups, BOLT, 0), None).length_used
    again = elsewhere(EASY, None)
    assert (again, again.stopped) == (cut_here(EASY, None), False)


def test_a_process_that_dies_costs_the_proof_not_the_plan(elsewhere: Elsewhere) -> None:
    elsewhere(EASY, None)
    assert elsewhere._process is not None
    killed = elsewhere._process._child.pid
    killer = threading.Timer(0.5, lambda: os.kill(killed, signal.SIGKILL))
    killer.start()
    task = hard()
    found = elsewhere(task, None)
    whole(found, task)
    assert found.stopped
    assert elsewhere(EASY, None) == cut_here(EASY, None)
    assert elsewhere._process._child.pid != killed


@pytest.mark.parametrize("command", [("/nonexistent/python",), (sys.executable, "-c", "raise SystemExit(3)")])
def test_without_a_process_there_is_a_plan_all_the_same(
    elsewhere: Elsewhere, monkeypatch: pytest.MonkeyPatch, command: tuple[str, ...]
) -> None:
    monkeypatch.setattr("boltend.core.host.process.COMMAND", command)
    found = elsewhere(EASY, None)
    whole(found, EASY)
    assert found.stopped


def test_ended_from_another_thread_it_still_answers(elsewhere: Elsewhere) -> None:
    elsewhere(EASY, None)
    ender = threading.Timer(0.5, elsewhere.end)
    ender.start()
    task = hard()
    whole(elsewhere(task, None), task)
