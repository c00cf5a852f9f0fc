"""A stranger's answer that is too large, or not fit to be shown, never reaches the screen's process."""

import os
import time
from pathlib import Path

import pytest

from boltend.core.contract import Settings
from boltend.core.host import WrongAnswer, settle
from boltend.core.host.bounds import MOST_PARTS, MOST_TEXT, bounded, plain_words
from boltend.core.host.invoke import Prepared, invoke
from boltend.plugin import ROOT2, Answer, Cannot, Goods, Line, Piece, Polygon, Rect, Run, finished, line

NASTY = "[/x]\x1b[31m\x07\u202e red\r\n"
SHOWN = "[/x]�[31m�� red  "
PIECE = "Piece('p', Fraction(1), Fraction(1), 1)"

TOO_MUCH = {
    "rows": ("Answer({'made': [{'n': 1}] * 300_000})", "holds more than 100000 values"),
    "pieces": (f"Answer({{'made': 1}}, pieces=[{PIECE}] * 50_000)", "holds more than 100000 values"),
    "lengths of a run": (
        "Answer({'made': 1}, runs=[Run('r', Fraction(1), (Fraction(1),) * 300_000)])",
        "holds more than 100000 values",
    ),
    "corners": (
        "Answer({'made': 1}, picture=[Polygon(((Fraction(1), Fraction(1)),) * 100_000)])",
        "holds more than 100000 values",
    ),
    "characters": (
        "Answer({'made': 1}, working=['a line '] * 30_000)",
        "holds more than 200000 characters",
    ),
    "digits": ("Answer({'made': 10**5000})", "holds a number of too many digits"),
    "digits below the line": ("Answer({'made': Fraction(1, 10**5000)})", "holds a number of too many digits"),
    "digits of a root": ("Answer({'made': 10**5000 * ROOT2})", "holds a number of too many digits"),
    "digits in the working": (
        "Answer({'made': 1}, working=[line('{}', finished(10**5000))])",
        "holds a number of too many digits",
    ),
}


@pytest.mark.parametrize("what", TOO_MUCH)
def test_too_much_is_a_fault_before_it_is_sent(what, maker, load, work):
    answer, expected = TOO_MUCH[what]
    maker.simple("bent", f"return {answer} if many < 9 else {{}}")
    fault = work(load(), "bent_twice").fault
    assert fault is not None
    assert fault.why == f"its answer {expected}."


def test_too_much_from_a_search_is_a_fault(maker, load, work):
    maker.simple(
        "seek", "job.better(Answer({'made': 10**5000}))\nreturn Answer({'made': 1})", extra=", *, job: Job"
    )
    assert "holds a number of too many digits" in work(load(), "seek_twice").fault.why


def test_words_for_the_screen_are_plain_and_short(maker, load, work):
    body = f"""
    nasty = {NASTY!r}
    return Answer(
        {{"made": 1}},
        working=[nasty, line(nasty + "{{}}", nasty), line("{{}}", finished(Fraction(1))), "long " * 100_000],
        cautions=[nasty],
        first=[nasty],
        pieces=[Piece(nasty, Fraction(1), Fraction(1), 1)],
        runs=[Run(nasty, Fraction(1), (Fraction(9),))],
        goods=[Goods(nasty, Fraction(1), "box")],
        picture=[Rect(0, 0, 1, 1, label=nasty), Note(0, 0, nasty)],
    )
    """
    maker.simple("bent", body, head="from boltend.plugin import *")
    answer = work(load(), "bent_twice").answer
    assert answer is not None
    assert answer.working[:3] == (SHOWN, Line(SHOWN + "{}", (SHOWN,)), line("{}", finished(1)))
    assert len(answer.working[3]) == MOST_TEXT
    assert answer.cautions == answer.first == (SHOWN,)
    assert [p.name for p in (*answer.pieces, *answer.runs, *answer.goods)] == [SHOWN] * 3
    assert [answer.picture[0].label, answer.picture[1].words] == [SHOWN] * 2


def test_a_sound_answer_is_the_very_same():
    answer = Answer(
        {"a": 1, "b": ROOT2, "rows": [{"c": "x"}]},
        pieces=[Piece("p", 1, 1, 1)],
        runs=[Run("r", 1, (1,))],
        goods=[Goods("g", 1, "box")],
        working=["½ × ⅜ = “3/16”"],
        picture=[Rect(0, 0, 1, 1)] * 10_000,
    )
    assert bounded(answer) is answer
    assert 10_000 * len(Rect(0, 0, 1, 1)) < MOST_PARTS
    assert bounded(Answer({}, picture=[Polygon(((0, 0), (1, 1)))])).picture == [Polygon(((0, 0), (1, 1)))]


def test_words_of_the_declared_error_are_plain_and_short(maker, load, work):
    maker.simple("bent", f"raise Cannot({NASTY!r}, 'why ' * 100_000, {NASTY!r})")
    cannot = work(load(), "bent_twice").cannot
    assert (cannot.given, cannot.way_out) == (SHOWN, SHOWN)
    assert cannot.why == plain_words("why " * 100_000)
    assert len(cannot.why) == MOST_TEXT


class Hostile:
    def __str__(self):
        raise SystemExit("looked at")

    __repr__ = __str__


@pytest.mark.parametrize("kind", ["Cannot", "SystemExit"])
def test_an_error_that_must_not_be_looked_at_is_a_fault(kind):
    def bent() -> Answer:
        raise Cannot(Hostile(), "why", "") if kind == "Cannot" else SystemExit(Hostile())

    fault = invoke(Prepared(bent, False, False, ()), {}, Settings()).fault
    assert fault is not None
    assert kind in fault.why


def test_the_words_of_a_wrong_answer_are_short(maker, load, work):
    maker.simple("bent", "return Answer({'made': 1, 'x' * 100_000: 1})")
    host = load()
    with pytest.raises(WrongAnswer) as told:
        settle(host.specs["bent_twice"], work(host, "bent_twice").answer, Settings())
    assert len(str(told.value)) <= 300


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_a_call_that_forks_is_answered_once(maker, load, work):
    """Both of the two come to an answer; the second would be taken for that of the next call."""
    maker.simple("forks", "os.fork()\n" + "return Answer({'made': many})")
    host = load()
    for many in range(1, 8):
        assert work(host, "forks_twice", many=many).answer.found == {"made": many}


@pytest.mark.skipif(not os.path.isdir("/proc/self/fd"), reason="counts descriptors in /proc")
def test_a_fork_that_goes_its_own_way_holds_no_pipe_of_ours(maker, load, work, tmp_path):
    mark = tmp_path / "pid"
    body = f"""
    if os.fork() == 0:
        os.setsid()
        open({str(mark)!r}, "w").write(str(os.getpid()))
        time.sleep(30)
        os._exit(0)
    while not os.path.exists({str(mark)!r}): time.sleep(0.01)
    os._exit(3)
    """
    maker.simple("forks", body)
    maker.simple("loom")
    host = load()
    work(host, "loom_twice")
    before = len(os.listdir("/proc/self/fd"))
    begin = time.monotonic()
    assert "exit code 3" in work(host, "forks_twice").fault.why
    assert time.monotonic() - begin < 20  # the fork lives for thirty seconds
    work(host, "loom_twice")
    os.kill(int(Path(mark).read_text()), 9)
    assert len(os.listdir("/proc/self/fd")) <= before + 2  # a pipe each way for the plugin's own process


@pytest.mark.skipif(not os.path.isdir("/proc/self"), reason="the bound is Linux's")
def test_memory_is_refused_before_the_machine_has_none_left(maker, load, work):
    body = "import ctypes\nkept = [(ctypes.c_char * 2**28)() for _ in range(200)]\nreturn Answer({'made': 1})"
    maker.simple("eats", body)  # 50 GiB that nobody touches
    maker.simple("loom")
    host = load()
    assert "MemoryError" in work(host, "eats_twice").fault.why
    assert work(host, "loom_twice").answer.found == {"made": 6}


def test_what_is_written_into_the_pipe_is_told_at_once(maker, load, work):
    garbage = "for fd in range(3, 20):\n    try: os.write(fd, b'\\xff' * 100)\n    except OSError: pass\n"
    maker.simple("writes", garbage + "return Answer({'made': 1})")
    maker.simple("loom")
    host = load()
    assert "its answer" in work(host, "writes_twice").fault.why
    assert work(host, "loom_twice").answer.found == {"made": 6}


def test_what_a_finished_search_still_says_belongs_to_no_run(maker, load, work):
    """A thread that a search leaves behind goes on telling: the next search must not take it for its own."""
    late = """
    def later():
        while True:
            job.better(Answer({"made": 13}))
            time.sleep(0.01)
    import _thread
    _thread.start_new_thread(later, ())  # one that `threading` knows nothing of
    time.sleep(0.1)
    return Answer({"made": 1})
    """
    maker.simple("late", f"if many == 1:\n{late}\ntime.sleep(60)", extra=", *, job: Job")
    host = load(timeout=2)
    assert work(host, "late_twice", many=1).answer.found == {"made": 1}
    outcome = work(host, "late_twice", many=2)
    assert outcome.answer is None, outcome
