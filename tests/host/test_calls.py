"""Calls of a stranger's calculator: whatever it does harms that one call, and the next one works."""

import os
import sys
import time
from fractions import Fraction
from pathlib import Path
from types import SimpleNamespace

import pytest

from boltend.core.contract import Settings
from boltend.core.host import Call, WrongAnswer, settle
from boltend.core.host.host import QUICK
from boltend.plugin import ROOT2, Note, Piece, Polygon, Price, Rect, Rule, Run, finished, line

TWICE = 'return Answer(found={"made": 2 * many})'

WHERE = "return Answer(found={'made': os.getpid()})"

HARM = {
    "raises": ("raise ValueError('no thread')", "it raised ValueError: no thread."),
    "sys.exit": ("sys.exit(4)", "it raised SystemExit(4), as if it were the program."),
    "os._exit": ("os._exit(9)", "it ended the worker process with exit code 9."),
    "a signal": ("import signal; os.kill(os.getpid(), signal.SIGABRT)", "by signal SIGABRT"),
    "recursion": ("def deep(): return deep()\ndeep()", "RecursionError"),
    "a crash in C": ("import ctypes; ctypes.string_at(0)", "it ended the worker process by signal SIGSEGV."),
    "own BaseException": ("class Odd(BaseException): pass\nraise Odd('x')", "Odd: x"),
    "KeyboardInterrupt": ("raise KeyboardInterrupt", "it ended the worker process"),
    "memory": ("raise MemoryError", "it raised MemoryError"),
    "sleeps": ("time.sleep(60)", "it ran longer than 1.5 s and was stopped."),
    "holds the GIL": ("import re; re.match(r'(a+)+$', 'a' * 60 + 'b')", "it ran longer than 1.5 s"),
    "closes every descriptor": (
        "os.closerange(0, 100)\n" + "return Answer(found={'made': 1})",
        "worker process",
    ),
    "a process of its own that outlives it": (
        "import subprocess; subprocess.Popen(['sleep', '60'], close_fds=False); os._exit(5)",
        "it ended the worker process with exit code 5.",
    ),
    "answers a dict": ("return {'made': 1}", "it answered dict, not an Answer."),
    "answers nothing": ("pass", "it answered NoneType, not an Answer."),
    "a class of its own": (
        "class Odd(int): pass\nglobals()['Odd'] = Odd\nOdd.__qualname__ = 'Odd'\n"
        "return Answer(found={'made': Odd(3)})",
        ".Odd, which is no value of the contract.",
    ),
    "a function": ("return Answer(found={'made': print})", "holds a builtins.print, which is no value"),
    "what cannot be pickled": (
        "return Answer(found={'made': lambda: 1})",
        "holds something that cannot be sent",
    ),
    "an exception that cannot be shown": (
        "class Odd(Exception):\n    def __str__(self): raise self\nraise Odd",
        "Odd",
    ),
    "a huge answer": ("return Answer(found={'made': 'x' * (40 * 2**20)})", "is larger than 32 MiB"),
}


@pytest.mark.parametrize("what", HARM)
def test_a_harmful_call_is_a_fault_and_the_next_call_works(what, maker, load, work):
    body, expected = HARM[what]
    maker.simple("bent", body)
    maker.simple("good")
    host = load(timeout=1.5 if "ran longer" in expected else 30)
    outcome = work(host, "bent_twice")
    assert outcome.answer is None
    assert outcome.fault is not None, outcome
    assert expected in outcome.fault.why
    assert work(host, "good_twice").answer.found == {"made": 6}
    assert expected in work(host, "bent_twice").fault.why
    assert not [m for m in maker.modules if m in sys.modules]


def test_a_fault_holds_the_whole_traceback(maker, load, work):
    maker.simple("bent", "raise ValueError('no thread')")
    fault = work(load(), "bent_twice").fault
    assert "in bent_twice" in fault.traceback
    assert "ValueError: no thread" in fault.traceback


def test_what_it_prints_goes_nowhere(maker, load, work, capfd):
    noise = """
    print("NOISE"); print("NOISE", file=sys.stderr); print("NOISE", file=sys.__stdout__)
    os.write(1, b"NOISE"); os.write(2, b"NOISE"); os.system("echo NOISE; echo NOISE >&2")
    print("\\udc80 \\u20ac")
    try:
        open("/dev/tty", "w").write("NOISE")
    except OSError:
        pass
    """
    maker.simple(
        "loud", noise + '    assert sys.stdin.read() == ""\n    return Answer(found={"made": 1})', head=""
    )
    outcome = work(load(), "loud_twice")
    assert outcome.fault is None, outcome.fault
    assert outcome.answer.found == {"made": 1}
    assert capfd.readouterr() == ("", "")


def test_cannot_crosses_whole(maker, load, work):
    maker.simple("bent", "raise Cannot('many', 'is too many.', 'Fewer would do.')")
    cannot = work(load(), "bent_twice").cannot
    assert (cannot.given, cannot.why, cannot.way_out) == ("many", "is too many.", "Fewer would do.")


@pytest.mark.parametrize("made", ["float('nan')", "1.5", "Fraction(3, 2)", "True", "-1", "'many'"])
def test_a_wrong_found_is_refused_when_it_is_settled(maker, load, work, made):
    maker.simple("bent", f"return Answer(found={{'made': {made}}})")
    host = load()
    outcome = work(host, "bent_twice")
    assert outcome.fault is None
    with pytest.raises(WrongAnswer):
        settle(host.specs["bent_twice"], outcome.answer, Settings())


def test_a_right_found_is_settled(maker, load, work):
    maker.simple("good")
    host = load()
    assert settle(host.specs["good_twice"], work(host, "good_twice").answer, Settings()).found == {"made": 6}


def test_threads_that_it_leaves_do_not_meet_the_next_call(maker, load, work):
    leak = "if many == 2: threading.Thread(target=time.sleep, args=(60,)).start()\n"
    maker.simple("leaky", leak + WHERE)
    host = load()
    places = [work(host, "leaky_twice", many=many).answer.found["made"] for many in (1, 1, 2, 1)]
    first, second, third, fourth = places
    assert first == second == third  # one process, as long as it is clean
    assert fourth != third


@pytest.mark.skipif(not os.path.isdir("/proc/self"), reason="looks for the process in /proc")
@pytest.mark.parametrize("end", ["os._exit(1)", "time.sleep(60)"])
def test_a_process_that_it_started_ends_with_the_worker(maker, load, work, tmp_path, end):
    mark = tmp_path / "pid"
    start = "import subprocess\nchild = subprocess.Popen(['sleep', '600'])\n"
    maker.simple("forks", start + f"open({str(mark)!r}, 'w').write(str(child.pid))\n{end}")
    assert work(load(timeout=3), "forks_twice").fault is not None
    stat = Path("/proc") / mark.read_text() / "stat"
    deadline = time.monotonic() + 10
    while time.monotonic() < deadline and stat.exists() and ") Z" not in stat.read_text():
        time.sleep(0.05)
    assert not stat.exists() or ") Z" in stat.read_text()  # a zombie is one that nobody has buried yet


def test_a_process_that_dies_of_anothers_leavings_is_not_held_against_the_next(maker, load, work):
    """Two plugins of one distribution share a process; searches, so that ours run there too."""
    job = ", *, job: Job"
    alarm = "import signal; signal.alarm(1)\n" + TWICE  # it rings in somebody else's call
    maker.simple("mine", alarm, built_in=True, extra=job)
    maker.simple("slow", "time.sleep(1.5)\n" + TWICE, built_in=True, extra=job)
    host = load()
    assert work(host, "mine_twice").answer.found == {"made": 6}
    assert work(host, "slow_twice").answer.found == {"made": 6}


def test_every_kind_of_value_crosses_both_ways(maker, load, work):
    head = """
    @row
    class Border:
        wide: Finished = given("Wide")
        spool: TableRow | None = given("Spool", table="spools")

    @hookimpl
    def boltend_tables():
        return [Table("spools", {"wide": "length", "long": "length"},
                      {"a": {"wide": "3 1/2 in", "source": "invented"}})]
    """
    extra = """, borders: Rows[Border] = given("Borders"), sizes: Measured = given("Sizes"),
    price: Money = given("Price"), spool: TableRow = given("Spool", table="spools"), *, setting: Settings"""
    body = """
    assert price == Price(Fraction(25, 2), "USD", "yard"), price
    assert setting.fabrics == {"plain": {"squaring": Fraction(1)}} and setting.seam == Fraction(3, 8)
    assert [type(b) for b in borders] == [Border, Border]
    assert dict(spool) == {"name": "a", "source": "invented", "wide": Fraction(7, 2), "long": None}
    return Answer(
        found={"made": many}, pieces=[Piece("p", Fraction(3), Fraction(4), 2)],
        runs=[Run("r", Fraction(5, 2), (Fraction(7),))],
        goods=[Goods("spool", Fraction(1), "spools", price)],
        working=[line("{} {}", finished(borders[0].wide), ROOT2), borders[1].spool["wide"].__str__()],
        picture=[
            Rect(0, 0, sum(sizes), ROOT2), Polygon(((0, 0), (1, ROOT2))), Rule(0, 0, 1, 1), Note(0, 0, "n"),
        ],
    )
    """
    maker.simple("all", body, head=head, extra=extra)
    host = load()
    price = Price(Fraction(25, 2), "USD", "yard")
    args = {
        "many": 3,
        "borders": ({"wide": Fraction(2), "spool": None}, {"wide": Fraction(3), "spool": "a"}),
        "sizes": (Fraction(12), Fraction(49, 4)),
        "price": price,
        "spool": "a",
    }
    settings = Settings(seam=Fraction(3, 8), fabrics={"plain": {"squaring": Fraction(1)}})
    outcome = host.start(Call(host.specs["all_twice"], args, settings), 1)
    assert outcome.fault is None, outcome.fault
    answer = outcome.answer
    assert answer.pieces == [Piece("p", Fraction(3), Fraction(4), 2)]
    assert answer.runs == [Run("r", Fraction(5, 2), (Fraction(7),))]
    assert answer.goods[0].price_each == price
    assert answer.working == [line("{} {}", finished(Fraction(2)), ROOT2), "7/2"]
    assert answer.picture == [
        Rect(0, 0, Fraction(97, 4), ROOT2),
        Polygon(((0, 0), (1, ROOT2))),
        Rule(0, 0, 1, 1),
        Note(0, 0, "n"),
    ]


def test_a_row_that_no_table_has_cannot_be_worked_out(maker, load, work):
    head = """
    @hookimpl
    def boltend_tables():
        return [Table("spools", {"wide": "length"}, {"small": {"wide": "3 in", "source": "invented"}})]
    """
    maker.simple("pick", extra=', spool: TableRow | None = given("Spool", table="spools")', head=head)
    host = load()
    cannot = work(host, "pick_twice", many=3, spool="smal").cannot
    assert (cannot.given, cannot.way_out) == ("spool", "Did you mean 'small'?")
    assert work(host, "pick_twice", many=3, spool=None).answer.found == {"made": 6}


def test_givens_that_cannot_be_sent_are_a_fault(maker, load, work):
    maker.simple("good")
    host = load()
    assert "one of its givens holds something" in work(host, "good_twice", many=lambda: 1).fault.why
    assert "TypeError" in work(host, "good_twice", few=1).fault.why
    assert work(host, "good_twice").answer.found == {"made": 6}


def test_without_a_worker_the_call_is_a_fault(maker, load, work, monkeypatch):
    maker.simple("good")
    host = load()
    monkeypatch.setattr("boltend.core.host.process.COMMAND", ("/nonexistent/python",))
    assert "worker process could not be started" in work(host, "good_twice").fault.why
    monkeypatch.setattr("boltend.core.host.process.COMMAND", (sys.executable, "-c", "raise SystemExit(3)"))
    assert "could not be started (it ended with exit code 3)" in work(host, "good_twice").fault.why


def test_built_in_calculators_run_here_and_a_faulty_one_harms_its_call_only(maker, load, work, monkeypatch):
    maker.simple("good", built_in=True)
    maker.simple("bent", "raise ValueError('no thread')", built_in=True)
    maker.simple("exits", "sys.exit(1)", built_in=True)
    maker.simple("deep", "def deep(): return deep()\ndeep()", built_in=True)
    maker.simple("answers", "return 3", built_in=True)
    host = load()
    monkeypatch.setattr("boltend.core.host.process.subprocess", SimpleNamespace())  # no worker can be started
    assert work(host, "good_twice").answer.found == {"made": 6}
    assert work(host, "bent_twice").fault.why == "it raised ValueError: no thread."
    assert "in bent_twice" in work(host, "bent_twice").fault.traceback
    assert "SystemExit(1)" in work(host, "exits_twice").fault.why
    assert "RecursionError" in work(host, "deep_twice").fault.why
    assert work(host, "answers_twice").fault.why == "it answered int, not an Answer."
    assert work(host, "good_twice").answer.found == {"made": 6}


def test_ctrl_c_in_a_built_in_calculator_is_the_persons(maker, load, work):
    maker.simple("bent", "raise KeyboardInterrupt", built_in=True)
    host = load()
    with pytest.raises(KeyboardInterrupt):
        work(host, "bent_twice")


def where(outcome):
    return "here" if outcome.answer.found["made"] == os.getpid() else "worker"


def test_where_a_call_runs(maker, load, work, monkeypatch):
    assert QUICK == 0.005  # of the design; wider here, so that a busy machine does not make a quick run slow
    monkeypatch.setattr("boltend.core.host.host.QUICK", 0.3)
    slow_when_asked = "if many > 5: time.sleep(0.5)\n" + WHERE
    maker.simple("ours", slow_when_asked, built_in=True)
    maker.simple("search", WHERE, extra=", *, job: Job", built_in=True)
    maker.simple("theirs", WHERE)
    host = load()
    assert where(work(host, "theirs_twice")) == "worker"
    assert where(work(host, "theirs_twice")) == "worker"  # however quick it is
    assert where(work(host, "search_twice")) == "worker"
    assert where(work(host, "ours_twice", many=3)) == "here"
    assert where(work(host, "ours_twice", many=9)) == "here"  # its first slow run
    assert where(work(host, "ours_twice", many=9)) == "worker"
    assert where(work(host, "ours_twice", many=3)) == "worker"  # quick again, so the next one is here
    assert where(work(host, "ours_twice", many=3)) == "here"
