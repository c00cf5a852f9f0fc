"""Faults in the middle of a calculation: it never comes to an answer, or leaves something behind."""

import builtins
import ctypes
import math
import os
import re
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from fractions import Fraction

MINUTE = 60


class Own(BaseException):
    """An exception that no `except Exception` catches."""


class Unsayable(Exception):
    """An exception that cannot be shown."""

    def __str__(self) -> str:
        raise self


def raises(error: BaseException) -> Callable[[], None]:
    """A fault that raises."""

    def fault() -> None:
        raise error

    return fault


def deep() -> None:
    """Recurse without end."""
    deep()


def prints() -> None:
    """Print in every way: Python, both descriptors, C, a child, the terminal itself."""
    print("NOISE stdout", flush=True)
    print("NOISE stderr", file=sys.__stderr__, flush=True)
    os.write(1, b"NOISE descriptor 1\n")
    os.write(2, b"NOISE descriptor 2\n")
    c = ctypes.CDLL(None)
    c.puts(b"NOISE from C")
    c.fflush(None)
    subprocess.run("echo NOISE child; echo NOISE child >&2; echo NOISE > /dev/tty", shell=True, check=False)


def holds_sort() -> None:
    """Sort in C, where no other thread gets a turn: some minutes in all."""
    while True:
        sorted(range(30_000_000, 0, -1), key=None)
        sorted([(-n * 7919) % 10_000_019 for n in range(4_000_000)])


def eats_memory() -> None:
    """Take memory until it is refused: 64 GiB, of which next to nothing is touched."""
    kept = []
    for _ in range(256):
        kept.append((ctypes.c_char * (256 * 2**20))())


def leaks_threads() -> None:
    """Leave threads behind."""
    for _ in range(5):
        threading.Thread(target=time.sleep, args=(MINUTE,), daemon=True).start()


def forks() -> None:
    """Fork, and let both of the two answer."""
    os.fork()


def forks_away() -> None:
    """Leave a process behind that is in no group of ours."""
    if os.fork() == 0:
        os.setsid()
        time.sleep(10)
        os._exit(0)


def moves() -> None:
    """Change everything that a process has."""
    os.chdir("/")
    os.environ.clear()
    sys.path[:] = []


def patches() -> None:
    """Change what others calculate with."""
    Fraction.__add__ = Fraction.__sub__ = lambda self, other: Fraction(1)
    math.floor = math.ceil = lambda value: 1
    builtins.len = lambda value: 1
    builtins.isinstance = lambda value, kind: True


def takes_signals() -> None:
    """Take over every signal that it can."""
    for number in signal.valid_signals():
        try:
            signal.signal(number, signal.SIG_IGN)
        except (OSError, ValueError):
            continue


def rings_later() -> None:
    """An alarm that rings in the middle of somebody else's call."""
    signal.setitimer(signal.ITIMER_REAL, 0.3)


def writes_elsewhere() -> None:
    """Write nonsense to every descriptor that is open."""
    for fd in range(3, 20):
        try:
            os.write(fd, b"\xff\xff\xff\xffNOISE" * 100)
        except OSError:
            continue


FAULTS: dict[str, Callable[[], None]] = {
    "raises": raises(ValueError("no thread left")),
    "raises KeyboardInterrupt": raises(KeyboardInterrupt()),
    "raises GeneratorExit": raises(GeneratorExit()),
    "raises SystemExit": raises(SystemExit(3)),
    "raises its own BaseException": raises(Own("own")),
    "raises what cannot be shown": raises(Unsayable()),
    "raises a megabyte": raises(RuntimeError("so long " * 131_072)),
    "raises markup": raises(RuntimeError("[/x] [@click=app.quit]\x1b[31m\x07\u202e red")),
    "recurses": deep,
    "prints": prints,
    "sleeps": lambda: time.sleep(MINUTE),
    "dawdles": lambda: time.sleep(0.5),
    "holds: pow": lambda: pow(3, 1 << 40),
    "holds: regex": lambda: re.match(r"(a+)+$", "a" * 60 + "b"),
    "holds: sort": holds_sort,
    "exits: sys.exit": lambda: sys.exit(4),
    "exits: os._exit": lambda: os._exit(9),
    "exits: SIGKILL": lambda: os.kill(os.getpid(), signal.SIGKILL),
    "exits: SIGSEGV": lambda: ctypes.string_at(0),
    "eats memory": eats_memory,
    "leaks threads": leaks_threads,
    "forks": forks,
    "forks away": forks_away,
    "moves": moves,
    "closes descriptors": lambda: os.closerange(0, 256),
    "writes to descriptors": writes_elsewhere,
    "patches": patches,
    "takes signals": takes_signals,
    "rings later": rings_later,
}
"""What happens in a call; where the fault returns, the call goes on to a plain answer."""
