"""The real thing in a pty: killed by SIGTERM, by SIGHUP, by kill -9; what was typed is there again."""

import fcntl
import os
import pty
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

START = "import sys; from boltend.shell import run; sys.exit(run(sys.argv[1]))"


class Terminal:
    """The shell in a pseudo terminal of 80×24."""

    def __init__(self, path: Path) -> None:
        self.master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        env = {**os.environ, "TERM": "xterm-256color", "TEXTUAL_ANIMATIONS": "none"}
        self.process = subprocess.Popen(
            [sys.executable, "-c", START, str(path)],
            stdin=slave, stdout=slave, stderr=slave, env=env, start_new_session=True,
        )  # fmt: skip
        os.close(slave)
        self.seen = ""

    def read(self) -> None:
        """Take in what is there."""
        while select.select([self.master], [], [], 0)[0]:
            try:
                data = os.read(self.master, 65536)
            except OSError:  # the other end is closed
                return
            if not data:
                return
            self.seen += data.decode("utf-8", "replace")

    def until(self, *words: str) -> None:
        """Wait until all of these were painted since the last call."""
        end = time.monotonic() + 20
        while not all(word in self.seen for word in words):
            assert time.monotonic() < end, f"{words} never came. Seen:\n{self.seen[-3000:]!r}"
            assert self.process.poll() is None, f"it ended: {self.seen[-3000:]!r}"
            select.select([self.master], [], [], 0.05)
            self.read()

    def type(self, text: str) -> None:
        """Keys, as a terminal sends them."""
        self.seen = ""
        os.write(self.master, text.encode())

    def end(self, number: int) -> int:
        """Send a signal; the exit code."""
        self.process.send_signal(number)
        until = time.monotonic() + 20
        while self.process.poll() is None and time.monotonic() < until:
            select.select([self.master], [], [], 0.05)
            self.read()
        assert self.process.poll() is not None, "it does not end"
        self.read()
        return self.process.returncode

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        os.close(self.master)


FILE = """boltend = 1
[[tab]]
name = "Set"
calculator = "straight_set"
[tab.given]
block_height = "12 in"
across = 4
down = 4
"""


@pytest.fixture
def quilt(tmp_path: Path) -> Path:
    path = tmp_path / "quilt.toml"
    path.write_text(FILE, encoding="utf-8")
    return path


@pytest.fixture
def terminals() -> Iterator[list[Terminal]]:
    opened: list[Terminal] = []
    yield opened
    for terminal in opened:
        terminal.close()


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGKILL], ids=lambda n: n.name)
def test_what_was_typed_survives(quilt: Path, terminals: list[Terminal], number: signal.Signals) -> None:
    first = Terminal(quilt)
    terminals.append(first)
    first.until("needed", "Quit")
    first.type("12 1/")
    first.until("changed")
    first.type("2")
    first.until("50 in")  # 4 × 12 1/2 in
    code = first.end(number)
    if number != signal.SIGKILL:
        assert code == 128 + number
        assert "\x1b[?1049l" in first.seen, "the terminal was not restored"
    assert quilt.read_text(encoding="utf-8") == FILE, "the file itself was not asked for"
    second = Terminal(quilt)
    terminals.append(second)
    second.until("There is unsaved work")
    second.type("\r")
    second.until("12 1/2", "50 in")
    second.type("\x13")  # ^s
    second.until("Saved in quilt.toml")
    assert 'block_width = "12 1/2"' in quilt.read_text(encoding="utf-8")
    second.type("\x11")  # ^q
    end = time.monotonic() + 20
    while second.process.poll() is None and time.monotonic() < end:
        select.select([second.master], [], [], 0.05)
        second.read()
    assert second.process.returncode == 0


def test_a_terminal_that_goes_away_loses_nothing(quilt: Path, terminals: list[Terminal]) -> None:
    """The window is closed: the pty hangs up, with nobody left to draw for."""
    first = Terminal(quilt)
    first.until("needed")
    first.type("9")
    first.until("changed")
    os.close(first.master)
    first.process.send_signal(signal.SIGHUP)
    first.process.wait(20)
    second = Terminal(quilt)
    terminals.append(second)
    second.until("There is unsaved work")
    second.type("\r")
    second.until("36")


def test_the_real_calculators_come_in(quilt: Path, terminals: list[Terminal]) -> None:
    terminal = Terminal(quilt)
    terminals.append(terminal)
    terminal.until("How large is a top of straight rows")
    terminal.type("\x1b[18~")  # F7
    terminal.until("What do you want to know?", "How much backing")
