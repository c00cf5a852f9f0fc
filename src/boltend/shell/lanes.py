"""Lanes beside the screen's own thread: what a disk may keep waiting is done there, in its order."""

import sys
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any, TypeVar

T = TypeVar("T")

TURN = 0.001
"""Seconds after which a thread beside the screen gives way. By Python's own 5 ms the screen waited 5.3 ms in
the median while twelve tabs of borders were planned, by this 1.3 ms (3.11, two cores)."""


def give_way() -> None:
    """From now on threads of this process take turns that a person does not feel."""
    sys.setswitchinterval(min(TURN, sys.getswitchinterval()))


def done_within(seconds: float, future: Future[Any]) -> bool:
    """Wait for something, but not for long; whether it is done."""
    try:
        future.exception(seconds)  # what it raised is for who asks for its result
    except TimeoutError:
        return False
    return True


class Lane:
    """One thread, made when it is first needed, in which one thing is done after another.

    The interpreter ends only when all that was asked for is done.
    """

    def __init__(self, name: str) -> None:
        self._thread = ThreadPoolExecutor(1, thread_name_prefix=name, initializer=give_way)

    def do(self, job: Callable[[], T]) -> Future[T]:
        """Do it after all that was asked for before; `result()` raises what it raised."""
        return self._thread.submit(job)
