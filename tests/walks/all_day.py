"""Eight hours at the screen, replayed at full speed, and what has grown by the evening: no test.

    python tests/walks/all_day.py [KEYS] [INTERVALS] [SEED] [REOPENS]

Prints a line for each interval: keys so far, milliseconds of CPU a key, MiB of the shell and of the processes
that it has started, how many of those, threads, descriptors, widgets, objects; at the end which kinds of
objects grew from the second interval on. Twelve thousand keys are one every two and a half seconds for eight
hours.
REOPENS 0: one project from morning to evening; then its 500 steps of undo fill up first.
"""

import asyncio
import os
import sys
import tempfile
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "faults"))
from day import Day, Look, quilt, replay
from fault_shell import faulty, install
from textual import _wait

KEYS, INTERVALS, SEED, REOPENS = 12_000, 12, 1, 1


def tell(look: Look) -> None:
    """One line of the table."""
    print(
        f"{look.keys:7} {look.cpu * 1000:8.1f} {look.own:8.1f} {look.others:8.1f} {look.processes:6}"
        f" {look.threads:6} {look.descriptors:6} {look.widgets:6} {look.objects:9}",
        flush=True,
    )


_wait.SLEEP_GRANULARITY, _wait.SLEEP_IDLE = 1 / 200, 1 / 4000
# Textual's Pilot would sleep 20 ms at least twice a key until the process is idle.


async def work(path: Path, keys: int, intervals: int, seed: int, reopens: bool) -> None:
    """The day."""
    async with faulty(path) as it:
        day = Day(it, path, Random(seed), reopens)
        print("   keys   ms/key      MiB   others  procs thread  descr widget   objects")
        looks = await replay(day, keys, intervals, tell)
    print("moves:", ", ".join(f"{name} {count}" for name, count in day.moves.most_common()))
    grown = looks[-1].kinds - looks[min(2, len(looks) - 2)].kinds
    print(
        "grown since the second interval:",
        ", ".join(f"{k} {n}" for k, n in grown.most_common(12)) or "nothing",
    )


def main() -> None:
    """Install the strangers beside a fresh project, and work."""
    said = [int(word) for word in sys.argv[1:]]
    keys, intervals, seed, reopens = [*said, *(KEYS, INTERVALS, SEED, REOPENS)[len(said) :]]
    with tempfile.TemporaryDirectory() as folder:
        site = install(Path(folder))
        os.environ.update(
            BOLTEND_STATE=f"{folder}/state", BOLTEND_CONFIG=f"{folder}/config", PYTHONPATH=str(site)
        )
        sys.path.insert(0, str(site))
        path = Path(folder) / "quilt.toml"
        path.write_text(quilt(), encoding="utf-8")
        asyncio.run(work(path, keys, intervals, seed, bool(reopens)))


if __name__ == "__main__":
    main()
