"""A search that was quick the last time is waited for, a little; what is slow never is."""

import time
from queue import Queue

from boltend.core.contract import Settings
from boltend.core.host import Call, Host, Outcome

QUICK = 'return Answer(found={"made": 2 * many})'
SLOW = 'time.sleep(1.5)\nreturn Answer(found={"made": 2 * many})'
JOB = ", *, job: Job"


def call(host: Host, many: int) -> Call:
    return Call(host.specs["loom_twice"], {"many": many}, Settings())


def opened(maker, body: str, heard: "Queue[tuple[object, Outcome]]") -> Host:
    maker.simple("loom", body, extra=JOB, built_in=True)
    host = Host.load(maker.order, lambda ticket, outcome: heard.put((ticket, outcome)), wait=False)
    host.linger = 5.0
    return host


def test_a_quick_search_answers_at_once_from_its_second_run_on(maker, monkeypatch):
    monkeypatch.setattr("boltend.core.host.host.QUICK", 20.0)  # however busy the machine is
    heard: Queue[tuple[object, Outcome]] = Queue()
    with opened(maker, QUICK, heard) as host:
        assert host.start(call(host, 3), 1) is None, "nobody knows yet how long it takes"
        assert heard.get(timeout=20)[0] == 1
        outcome = host.start(call(host, 4), 2)
        assert outcome is not None
        assert outcome.answer is not None
        assert outcome.answer.found == {"made": 8}
        assert heard.get(timeout=20) == (2, outcome), "and it is told as ever"


def test_a_slow_one_is_not_waited_for(maker):
    heard: Queue[tuple[object, Outcome]] = Queue()
    with opened(maker, SLOW, heard) as host:
        for ticket in (1, 2):
            begin = time.perf_counter()
            assert host.start(call(host, 3), ticket) is None
            assert time.perf_counter() - begin < 1.2
            assert heard.get(timeout=20)[0] == ticket


def test_without_lingering_all_comes_later(maker):
    heard: Queue[tuple[object, Outcome]] = Queue()
    with opened(maker, QUICK, heard) as host:
        host.linger = 0.0
        for ticket in (1, 2):
            assert host.start(call(host, 3), ticket) is None
            assert heard.get(timeout=20)[0] == ticket
