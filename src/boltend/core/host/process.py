"""A process of ours as the main process holds it: started, spoken to, listened to, ended."""

import contextlib
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from queue import Empty, SimpleQueue
from time import monotonic
from typing import Generic, TypeVar

from boltend.core.host.faults import how_it_ended
from boltend.core.host.frames import FrameError, read_frame, read_reply, write_frame
from boltend.core.host.messages import Hello, Ready, Reply

WORKER = "boltend.core.host.worker_main"

COMMAND = (sys.executable, "-P", "-m")
"""-P: a file in the folder where Boltend was started never stands for one of our modules."""

START_TIMEOUT = 30.0
"""Seconds for a bare worker to come up; it takes a tenth of one, on a machine that is not overloaded."""

_LOOK = 0.5
"""Seconds between looks whether the process still lives: a grandchild can hold its pipe open after it."""


class Gone(Exception):
    """The worker process is not there any more. `code` is its exit code, negative for a signal."""

    def __init__(self, code: int | None) -> None:
        super().__init__(code)
        self.code = code


R = TypeVar("R")


class Process(Generic[R]):
    """A running process of `module`. Used by one thread, but for `wake`, which any thread may call.

    A thread of its own reads the pipe, so that waiting for a reply can be ended by a clock or a call; `read`
    makes replies of what it brings.
    """

    def __init__(self, module: str, read: Callable[[bytes], R]) -> None:
        self._make = read
        self._child = subprocess.Popen(
            (*COMMAND, module),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            start_new_session=True,  # no terminal to write to, no Ctrl-C from it, one group to kill
        )
        assert self._child.stdin is not None
        assert self._child.stdout is not None
        self._to, self._from = self._child.stdin, self._child.stdout
        self._inbox: SimpleQueue[bytes | str | FrameError] = SimpleQueue()
        self._reader = threading.Thread(target=self._read, name="boltend-worker-reader", daemon=True)
        self._reader.start()
        try:
            self._greet()
        except BaseException:
            self.end()
            raise

    def _greet(self) -> None:
        deadline = monotonic() + START_TIMEOUT
        try:
            self.send(Hello(tuple(p or os.getcwd() for p in sys.path)))
            while monotonic() < deadline:
                if isinstance(self.receive(deadline - monotonic()), Ready):
                    return
        except Gone as gone:
            raise OSError(f"it ended {how_it_ended(gone.code)}") from gone
        raise OSError("it did not answer")

    def _read(self) -> None:
        try:
            while True:
                self._inbox.put(read_frame(self._from))
        except FrameError as error:
            self._inbox.put(error)
        except (EOFError, OSError, ValueError):
            self._inbox.put("end")

    def send(self, request: object) -> None:
        """Say something. Raises `Gone`, or `FrameError` where the request cannot be sent."""
        try:
            write_frame(self._to, request)
        except OSError as error:
            raise Gone(self._exit_code()) from error

    def wake(self) -> None:
        """End a `receive` that is waiting, or the next one."""
        self._inbox.put("wake")

    def receive(self, seconds: float) -> R | None:
        """The next reply, or None after `seconds`, or when woken.

        Raises `Gone` when the process ended, `FrameError` when a reply is none.
        """
        deadline = monotonic() + seconds
        while True:
            left = deadline - monotonic()
            try:
                item = self._inbox.get(timeout=max(0.0, min(left, _LOOK)))
            except Empty:
                if self._child.poll() is not None and self._inbox.empty():
                    raise Gone(self._child.returncode) from None
                if left <= _LOOK:
                    return None
                continue
            if isinstance(item, FrameError):  # something else was written into the pipe
                raise item
            if item == "end":
                raise Gone(self._exit_code())
            return None if isinstance(item, str) else self._make(item)

    def _exit_code(self) -> int | None:
        with contextlib.suppress(subprocess.TimeoutExpired):
            self._child.wait(1)
        return self._child.returncode

    def close(self) -> None:
        """End an idle process in peace: it goes by itself when its pipe is closed."""
        with contextlib.suppress(OSError):
            self._to.close()
        with contextlib.suppress(subprocess.TimeoutExpired):
            self._child.wait(1)
        self.end()

    def end(self) -> None:
        """Kill the process and whatever it started."""
        if hasattr(os, "killpg"):
            with contextlib.suppress(ProcessLookupError, PermissionError):
                os.killpg(self._child.pid, signal.SIGKILL)
        self._child.kill()
        self._child.wait()
        with contextlib.suppress(OSError):
            self._to.close()
        self._reader.join(1)
        if not self._reader.is_alive():  # else a process that left its group still holds the pipe
            self._from.close()


def worker_process() -> Process[Reply]:
    """Start a process that runs plugins. Raises `OSError` where it does not come up."""
    return Process(WORKER, read_reply)
