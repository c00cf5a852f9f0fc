"""The shell's way of calling: outcomes come later under their tickets; searches are stopped and dropped."""

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from queue import Empty, Queue

import pytest

from boltend.core.contract import Settings
from boltend.core.host import Call, Host, Outcome

TWICE = 'return Answer(found={"made": 2 * many})'

SEARCH = """
n = 0
while not job.stopped():
    n += 1
    job.better(Answer(found={"made": n}), Fraction(n))
    time.sleep(0.01)
return Answer(found={"made": 1000 + n})
"""

DEAF = """
job.better(Answer(found={"made": 41}), None)
job.better(Answer(found={"made": 42}), None)
time.sleep(60)
"""

JOB = ", *, job: Job"


class Shell:
    """What the shell does with a host: starts calls and hears of them."""

    def __init__(self) -> None:
        self.heard: Queue[tuple[object, Outcome]] = Queue()
        self.betters: Queue[tuple[object, object, object]] = Queue()
        self.host: Host | None = None

    def start(self, calculator: str, ticket: object, many: int = 3) -> None:
        outcome = self.host.start(Call(self.host.specs[calculator], {"many": many}, Settings()), ticket)
        assert outcome is None

    def outcome(self, ticket: object) -> Outcome:
        heard, outcome = self.heard.get(timeout=20)
        assert heard == ticket
        return outcome

    def silent(self, seconds: float) -> bool:
        try:
            return not self.heard.get(timeout=seconds)
        except Empty:
            return True


@pytest.fixture
def shell(load: Callable[..., Host]) -> Callable[..., Shell]:
    def shell(**settings: object) -> Shell:
        made = Shell()
        made.host = load(
            on_outcome=lambda *told: made.heard.put(told),
            on_better=lambda *told: made.betters.put(told),
            **settings,
        )
        return made

    return shell


def test_outcomes_come_in_order_under_their_tickets(maker, shell):
    maker.simple("loom")
    s = shell()
    for many in range(5):
        s.start("loom_twice", ("tab", many), many)
    assert [s.outcome(("tab", n)).answer.found["made"] for n in range(5)] == [0, 2, 4, 6, 8]


def test_a_newer_call_takes_the_place_of_a_queued_one(maker, shell):
    maker.simple("loom", "time.sleep(0.5 if many == 3 else 0)\n" + TWICE)
    s = shell()
    s.start("loom_twice", "first", 3)
    for many in (1, 2, 4):
        s.start("loom_twice", "tab", many)
    s.start("loom_twice", "last", 5)
    assert s.outcome("first").answer.found == {"made": 6}
    assert s.outcome("tab").answer.found == {"made": 8}  # of the three, only the newest
    assert s.outcome("last").answer.found == {"made": 10}
    assert s.silent(0.2)


def test_a_newer_call_takes_the_place_of_a_running_one(maker, shell):
    maker.simple("slow", "time.sleep(60 if many == 1 else 0)\n" + TWICE)
    s = shell()
    s.start("slow_twice", "tab", 1)
    time.sleep(0.5)
    s.start("slow_twice", "tab", 2)
    assert s.outcome("tab").answer.found == {"made": 4}
    assert s.silent(0.2)


def test_a_stopped_search_gives_its_best_and_says_so(maker, shell):
    maker.simple("seek", SEARCH, extra=JOB)
    s = shell()
    s.start("seek_twice", "tab")
    ticket, answer, bound = s.betters.get(timeout=20)
    assert ticket == "tab"
    assert answer.found["made"] == bound
    s.host.stop("tab")
    outcome = s.outcome("tab")
    assert outcome.stopped
    assert outcome.answer.found["made"] > 1000  # it heard the stop and answered itself


def test_a_search_that_does_not_hear_is_killed_and_its_last_better_answer_counts(maker, shell):
    maker.simple("deaf", DEAF, extra=JOB)
    maker.simple("loom")
    s = shell()
    s.start("deaf_twice", "tab")
    s.betters.get(timeout=20)
    begin = time.monotonic()
    s.host.stop("tab")
    outcome = s.outcome("tab")
    assert outcome.stopped
    assert outcome.answer.found == {"made": 42}
    assert 0.5 < time.monotonic() - begin < 10  # the grace was given; more than ten would be the sleep
    s.start("loom_twice", "next")
    assert s.outcome("next").answer.found == {"made": 6}


def test_a_search_that_runs_out_of_time_gives_its_best(maker, shell):
    maker.simple("seek", SEARCH, extra=JOB)
    maker.simple("deaf", DEAF, extra=JOB)
    maker.simple("mute", "time.sleep(60)", extra=JOB)
    s = shell(timeout=0.7)
    s.start("seek_twice", 1)
    outcome = s.outcome(1)
    assert outcome.stopped
    assert outcome.answer.found["made"] > 1000
    s.start("deaf_twice", 2)
    outcome = s.outcome(2)
    assert (outcome.stopped, outcome.answer.found) == (True, {"made": 42})
    s.start("mute_twice", 3)
    outcome = s.outcome(3)
    assert (outcome.stopped, outcome.answer) == (False, None)
    assert "ran longer than 0.7 s" in outcome.fault.why


def test_a_search_that_ends_by_itself_is_not_stopped(maker, load, work):
    maker.simple(
        "seek", "job.better(Answer(found={'made': 1}))\nassert not job.stopped()\n" + TWICE, extra=JOB
    )
    outcome = work(load(), "seek_twice")
    assert (outcome.stopped, outcome.answer.found) == (False, {"made": 6})


def test_a_search_that_tells_nonsense_harms_its_call_only(maker, load, work):
    maker.simple("odd", "job.better(3)", extra=JOB)
    maker.simple("alien", "job.better(Answer(found={'made': os.getcwd}))\ntime.sleep(60)", extra=JOB)
    maker.simple("loom")
    host = load()
    assert "job.better takes an Answer, not int" in work(host, "odd_twice").fault.why
    assert "holds a posix.getcwd" in work(host, "alien_twice").fault.why
    assert work(host, "loom_twice").answer.found == {"made": 6}


def test_a_call_that_is_no_search_is_stopped_at_once(maker, shell):
    maker.simple("slow", "time.sleep(60)")
    s = shell()
    s.start("slow_twice", "tab")
    time.sleep(0.3)
    s.host.stop("tab")
    assert s.outcome("tab") == Outcome(stopped=True, seconds=pytest.approx(0, abs=20))


def test_a_queued_call_can_be_stopped_and_dropped(maker, shell):
    maker.simple("slow", "time.sleep(0.5)\n" + TWICE)
    s = shell()
    s.start("slow_twice", "running")
    s.start("slow_twice", "stopped")
    s.start("slow_twice", "dropped")
    s.host.stop("stopped")
    s.host.drop("dropped")
    assert s.outcome("stopped") == Outcome(stopped=True)
    assert s.outcome("running").answer is not None
    assert s.silent(0.8)


def test_a_dropped_call_is_never_heard_of(maker, shell):
    maker.simple("slow", "time.sleep(60)")
    maker.simple("seek", SEARCH, extra=JOB)
    maker.simple("loom")
    s = shell()
    for calculator in ("slow_twice", "seek_twice"):
        s.start(calculator, "tab")
        time.sleep(0.3)
        s.host.drop("tab")
        s.start("loom_twice", "next")
        assert s.outcome("next").answer is not None
    s.host.drop("nobody")
    s.host.stop("nobody")
    assert s.silent(0.2)


def test_a_listener_that_raises_does_not_end_the_line(maker, load):
    maker.simple("loom")
    heard = Queue()

    def listen(ticket, outcome):
        heard.put(ticket)
        raise RuntimeError("the shell has gone")  # as it does when it closes

    host = load(on_outcome=listen)
    for ticket in (1, 2):
        host.start(Call(host.specs["loom_twice"], {"many": 1}, Settings()), ticket)
        assert heard.get(timeout=20) == ticket
    host.close()
    assert "RuntimeError: the shell has gone" in host.last_problem.why


def test_outcomes_never_come_in_the_callers_own_thread(maker, load):
    maker.simple("slow", "time.sleep(0.5)\n" + TWICE)
    heard = Queue()
    host = load(on_outcome=lambda ticket, outcome: heard.put((ticket, threading.current_thread())))
    for ticket in ("running", "queued"):
        host.start(Call(host.specs["slow_twice"], {"many": 1}, Settings()), ticket)
    host.stop("queued")
    threads = dict(heard.get(timeout=20) for _ in range(2))
    assert set(threads) == {"running", "queued"}
    assert threading.current_thread() not in threads.values()


def test_closing_ends_the_worker_even_in_the_middle_of_a_call(maker, shell):
    maker.simple("slow", "time.sleep(60)")
    s = shell()
    before = threading.active_count()
    s.start("slow_twice", "tab")
    time.sleep(0.5)
    s.host.close()
    assert threading.active_count() == before
    assert s.silent(0.1)
    s.start("slow_twice", "late")  # after the end: stopped at once, no new worker
    assert threading.active_count() == before
    s.host.close()


def test_a_blocking_call_that_is_interrupted_leaves_no_call_behind(maker, load, monkeypatch):
    maker.simple("slow", "time.sleep(60)")
    maker.simple("loom")
    host = load()
    timer = threading.Timer(0.7, lambda: os.kill(os.getpid(), signal.SIGINT))
    # A shell starts what runs in its background with this signal ignored; a person's Ctrl-C never is.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        timer.start()
        with pytest.raises(KeyboardInterrupt):
            host.start(Call(host.specs["slow_twice"], {"many": 1}, Settings()), "tab")
        timer.join()
    finally:
        signal.signal(signal.SIGINT, before)
    begin = time.monotonic()
    assert host.start(Call(host.specs["loom_twice"], {"many": 1}, Settings()), "other").answer is not None
    assert time.monotonic() - begin < 20  # the interrupted call would hold the line for sixty


@pytest.mark.skipif(not os.path.isdir("/proc/self"), reason="looks for the worker in /proc")
def test_when_the_main_process_is_killed_its_worker_goes_too(maker, tmp_path):
    mark = tmp_path / "pid"
    maker.simple("slow", f"open({str(mark)!r}, 'w').write(str(os.getpid()))\ntime.sleep(60)")
    script = (
        "from boltend.core.host import Host, Call\nfrom boltend.core.contract import Settings\n"
        "host = Host.load()\nhost.start(Call(host.specs['slow_twice'], {'many': 1}, Settings()), 1)\n"
    )
    path = os.pathsep.join([str(maker.folder), os.environ.get("PYTHONPATH", "")])
    environment = {**os.environ, "PYTHONPATH": path}
    main = subprocess.Popen([sys.executable, "-c", script], env=environment)
    deadline = time.monotonic() + 20
    while not (mark.exists() and mark.read_text()) and time.monotonic() < deadline:
        time.sleep(0.05)
    pid = mark.read_text()
    main.kill()
    main.wait()
    while os.path.exists(f"/proc/{pid}") and not _zombie(pid) and time.monotonic() < deadline:
        time.sleep(0.05)
    assert not os.path.exists(f"/proc/{pid}") or _zombie(pid)


def _zombie(pid: str) -> bool:
    try:
        with open(f"/proc/{pid}/stat") as file:
            return file.read().rsplit(")", 1)[1].split()[0] == "Z"
    except OSError:
        return True
