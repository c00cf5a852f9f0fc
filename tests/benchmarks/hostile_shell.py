"""Hostile projects in the shell: seconds until it stands, the longest that a key takes, and whether it quits.

A key is done when the screen is idle. Others may be answered before: how long they wait tells the longest
turn of the event loop, in CPU time of its thread, so that other work on the machine does not count.

    python tests/benchmarks/hostile_shell.py [--only NAME …] [--share 0.5]

Each shell is a process of its own, without a terminal (Textual's headless driver), at 100 × 30.
"""

from __future__ import annotations

import argparse
import asyncio
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from hostile import PROJECTS

KEYS = ("f6", "f6", "down", "5", "f5", "f6", "alt+m", "escape", "f8", "escape", "ctrl+s")
SECONDS = 300


class Turns:
    """The longest turn of the event loop since it was asked last, in seconds of CPU."""

    def __init__(self) -> None:
        self.longest, run = 0.0, asyncio.events.Handle._run

        def timed(handle: asyncio.Handle) -> None:
            begun = time.thread_time()
            run(handle)
            self.longest = max(self.longest, time.thread_time() - begun)

        asyncio.events.Handle._run = timed


async def walk(path: str) -> str:
    """Open, wait until all is worked out, press keys, quit; one line of figures."""
    from boltend.shell.app import BoltendApp
    from boltend.shell.desk import Desk

    begun = time.monotonic()
    app = BoltendApp(Desk.open(path))
    worst, key_of_worst = 0.0, ""
    turns = Turns()
    async with app.run_test(size=(100, 30)) as pilot:
        while app.desk.book is None:
            await pilot.pause(0.02)
        await pilot.pause()
        opened = time.monotonic() - begun
        while any(result.state == "working" for result in app.desk.book.results.values()):
            await pilot.pause(0.05)
        await pilot.press("escape")
        turns.longest = 0.0
        for key in KEYS:
            before = time.monotonic()
            await pilot.press(key)
            await pilot.pause()
            took = time.monotonic() - before
            if took > worst:
                worst, key_of_worst = took, key
        await asyncio.sleep(3)  # lists that come late
        longest = turns.longest
        await pilot.press("escape", "escape", "ctrl+q")
        await pilot.pause(0.2)
        if app.return_code is None:
            await pilot.press("down", "down", "down", "enter")
            await pilot.pause(0.5)
    quits = "quits" if app.return_code == 0 else f"does NOT quit ({app.return_code})"
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    cpu = time.process_time()
    return (
        f"{opened:8.2f} {worst:8.2f} ({key_of_worst}) {longest * 1000:8.0f} {cpu:8.2f} {peak:6.0f}  {quits}"
    )


def main() -> None:
    """Print a line for each project."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--only", nargs="*", default=list(PROJECTS))
    parser.add_argument("--share", type=float, default=1.0)
    parser.add_argument("--walk", help=argparse.SUPPRESS)
    said = parser.parse_args()
    if said.walk is not None:
        print(asyncio.run(walk(said.walk)))
        return
    print(
        f"{'project':<16} {'kB':>6} {'opens s':>8} {'worst key s':>14} {'turn ms':>8} {'CPU s':>8} {'MB':>6}"
    )
    with tempfile.TemporaryDirectory() as folder:
        env = {**os.environ, "BOLTEND_STATE": f"{folder}/state", "BOLTEND_CONFIG": f"{folder}/config"}
        for name in said.only:
            make, count = PROJECTS[name]
            path = Path(folder) / "h.toml"
            path.write_text(make(int(count * said.share)), encoding="utf-8")
            size = path.stat().st_size / 1000
            call = [sys.executable, __file__, "--walk", str(path)]
            try:
                done = subprocess.run(
                    call, capture_output=True, text=True, env=env, timeout=SECONDS, check=False
                )
                line = (done.stdout.strip() or done.stderr.strip()).splitlines()[-1:]
            except subprocess.TimeoutExpired:
                line = [f"NOT DONE in {SECONDS} s"]
            print(f"{name:<16} {size:6.0f} {line[0] if line else 'nothing'}", flush=True)


if __name__ == "__main__":
    main()
