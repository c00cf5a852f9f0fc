"""A program in a terminal of ours: started, written to, and read until certain words stand on the screen."""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import termios
import time
from collections.abc import Mapping, Sequence
from types import TracebackType

GIVE_UP = 20.0
"""Seconds after which words that do not come are an error."""

_CONTROL = re.compile(rb"\x1b(?:\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)|P[^\x1b]*\x1b\\|[@-_])")


class Terminal:
    """A child process on a pseudo-terminal of 80 by 24."""

    def __init__(self, command: Sequence[str], env: Mapping[str, str]) -> None:
        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self._seen = b""
        self.begun = time.perf_counter()
        self._child = subprocess.Popen(
            command, stdin=slave, stdout=slave, stderr=slave, env=dict(env), start_new_session=True
        )
        os.close(slave)

    def __enter__(self) -> "Terminal":
        return self

    def until(self, *words: str) -> float:
        """Seconds since the start until all these words were written, each in one piece."""
        wanted = [word.encode() for word in words]
        end = time.monotonic() + GIVE_UP
        while True:
            text = _CONTROL.sub(b"\x00", self._seen)
            if all(word in text for word in wanted):
                return time.perf_counter() - self.begun
            ready, _, _ = select.select([self._master], [], [], max(0, end - time.monotonic()))
            if not ready:
                raise TimeoutError(f"{words} never stood on the screen, only {text[-2000:]!r}")
            try:
                self._seen += os.read(self._master, 65536)
            except OSError:  # nobody writes to the other side any more
                said = self._seen[-2000:].decode(errors="replace")
                raise RuntimeError(f"the program ended by itself. It said: {said}") from None

    @property
    def pid(self) -> int:
        """The child's."""
        return self._child.pid

    def read_on(self, seconds: float) -> None:
        """Take in what is written meanwhile: a child that nobody reads from stands still."""
        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            if select.select([self._master], [], [], left)[0]:
                self._seen += os.read(self._master, 65536)

    def end(self) -> float:
        """Kill the child; the seconds of CPU that it had used."""
        os.kill(self._child.pid, signal.SIGKILL)
        _, _, used = os.wait4(self._child.pid, 0)
        self._child.returncode = -signal.SIGKILL
        os.close(self._master)
        return used.ru_utime + used.ru_stime

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._child.returncode is None:
            self.end()
