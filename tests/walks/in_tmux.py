"""Walk through five questions in a real tmux at 80 × 24, keys only, and read the screen: no test.

    python tests/walks/in_tmux.py

Each walk is passed where its right answer, worked by hand beside it, stands on the screen within 60 keys and
60 s. tmux is not on every machine, so the tests walk the same ways without it (`tests/shell`). The exit code
is the number of walks that failed.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

MOST = 60
SESSION = f"boltend-walk-{os.getpid()}"


@dataclass
class Walk:
    """One shell in tmux; `keys` counts what was pressed."""

    folder: Path
    keys: int = 0
    begun: float = field(default_factory=time.monotonic)

    def tmux(self, *words: str) -> str:
        return subprocess.run(["tmux", *words], capture_output=True, text=True, check=False).stdout

    def start(self) -> None:
        env = f"BOLTEND_STATE={self.folder}/state BOLTEND_CONFIG={self.folder}/config"
        self.tmux("kill-session", "-t", SESSION)
        command = f"cd {self.folder}; {env} {sys.executable} -m boltend"
        self.tmux("new-session", "-d", "-s", SESSION, "-x", "80", "-y", "24", command)

    def end(self) -> None:
        self.tmux("kill-session", "-t", SESSION)

    def screen(self) -> str:
        return self.tmux("capture-pane", "-p", "-t", SESSION)

    def type(self, text: str) -> None:
        """Type a text, letter for letter."""
        self.keys += len(text)
        self.tmux("send-keys", "-t", SESSION, "-l", text)
        time.sleep(0.3)

    def press(self, *keys: str) -> None:
        """Press keys by tmux's names."""
        for key in keys:
            self.keys += 1
            self.tmux("send-keys", "-t", SESSION, key)
            time.sleep(0.15)

    def sees(self, *words: str) -> None:
        """Wait until all of these stand on the screen."""
        until = time.monotonic() + 15
        while not all(word in re.sub(r"\s+", " ", self.screen()) for word in words):
            if time.monotonic() > until:
                raise AssertionError(f"{words} did not come. The screen:\n{self.screen()}")
            time.sleep(0.1)

    def ask(self, words: str) -> None:
        """Type into the start screen and take its first line."""
        self.sees("type to search")
        self.type(words)
        time.sleep(0.5)
        self.press("Enter")
        self.sees("Given ·")


def thirty_blocks(walk: Walk) -> None:
    """Thirty blocks of 9 in: 5 × 6 are 45 × 54 in; borders of 2 and 4 in make 57 × 66; binding 258 in."""
    walk.ask("blocks two borders")
    walk.type("30")
    walk.press("Enter")
    walk.type("9")
    walk.press("Enter")
    walk.type("9")
    walk.sees("45 in finished", "54 in finished")
    walk.press("F6")
    walk.type("2")
    walk.press("Enter")
    walk.type("4")
    walk.sees("57 in finished", "66 in finished")
    walk.press("F8")
    walk.sees("Inner border", "Outer border", "Binding", "yd")


def queen_bed(walk: Walk) -> None:
    """A queen bed, drop 13 in, 9 in blocks: 60 + 26 and 80 + 13; 9 × 10 blocks and 2 1/2 in: 86 × 95."""
    walk.ask("cover bed")
    walk.press("Space")
    walk.sees("queen")
    walk.type("us queen")
    walk.press("Enter")
    time.sleep(0.5)
    walk.press("Enter", "Enter", "Enter")
    walk.type("13")
    walk.sees("86 in finished", "93 in finished")
    walk.press("F6")
    walk.type("9")
    walk.sees("2 1/2 in finished", "86 in finished", "95 in finished")


def measured_top(walk: Walk) -> None:
    """60 1/4, 60 3/8, 60 1/4 by 72: to 70 × 84 by 6 1/2 in on each side, 84 1/2 in high."""
    walk.ask("borders to size")
    walk.type("60 1/4;60 3/8;60 1/4")
    walk.press("Enter")
    walk.type("72")
    walk.press("F6")
    walk.type("70")
    walk.press("Enter")
    walk.type("84")
    walk.sees("84 1/2 in finished")


def backing(walk: Walk) -> None:
    """A raw top of 87 1/2 × 93 1/2: three panels of 95 1/2 in, 286 1/2 in, are 8 yd."""
    walk.ask("how much backing")
    walk.type("87 1/2")
    walk.press("Enter")
    walk.type("93 1/2")
    walk.press("F6")
    walk.sees("8 yd")


def a_map_and_back(walk: Walk) -> None:
    """The map leads to every tab, To cut draws the cloth, Find goes to a working line."""
    walk.ask("blocks two borders")
    walk.type("30")
    walk.press("Enter")
    walk.type("9")
    walk.press("Enter")
    walk.type("9")
    walk.press("F6")
    walk.type("2")
    walk.press("Enter")
    walk.type("4")
    walk.press("M-m")
    walk.sees("3 tabs: 3 worked out", "← Blocks")
    walk.press("Escape")
    walk.sees("[Borders]")
    walk.press("F5")
    walk.sees("selvage to selvage")
    walk.press("Escape")
    walk.press("C-f")
    walk.type("joins")
    time.sleep(0.5)
    walk.press("Enter")
    walk.sees("for joins")


WALKS: Sequence[Callable[[Walk], None]] = (thirty_blocks, queen_bed, measured_top, backing, a_map_and_back)


def main() -> int:
    """Walk them all."""
    if shutil.which("tmux") is None:
        print("There is no tmux here. The tests in tests/shell walk the same ways without it.")
        return 1
    failed = 0
    for walk in WALKS:
        with tempfile.TemporaryDirectory() as folder:
            one = Walk(Path(folder))
            one.start()
            try:
                walk(one)
                seconds = time.monotonic() - one.begun
                passed = one.keys <= MOST and seconds <= MOST
                print(
                    f"{'passed' if passed else 'TOO LONG'}: {walk.__name__}: {one.keys} keys, {seconds:.1f} s"
                )
                failed += not passed
            except AssertionError as error:
                print(f"FAILED: {walk.__name__}: {one.keys} keys: {error}")
                failed += 1
            finally:
                one.end()
    return failed


if __name__ == "__main__":
    sys.exit(main())
