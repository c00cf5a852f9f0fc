"""A day at the screen in a minute: nothing that is counted grows. `tests/walks/all_day.py` is all of it."""

import os
import sys
from pathlib import Path
from random import Random

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "walks"))  # test files are no package here
from day import Day, Look, quilt, replay
from fault_shell import faulty

pytestmark = pytest.mark.skipif(not os.path.isdir("/proc/self/fd"), reason="counts in /proc")

KEYS, INTERVALS, SEED = 450, 3, 7


@pytest.fixture(autouse=True)
def quick_pilot(monkeypatch: pytest.MonkeyPatch) -> None:
    """Textual's Pilot sleeps 20 ms at least twice a key; 5 ms tell as well that there is nothing to do."""
    monkeypatch.setattr("textual._wait.SLEEP_GRANULARITY", 1 / 200)
    monkeypatch.setattr("textual._wait.SLEEP_IDLE", 1 / 4000)


async def test_in_a_day_nothing_grows(strangers: Path, project_file: Path) -> None:
    project_file.write_text(quilt(), encoding="utf-8")
    looks: list[Look] = []
    async with faulty(project_file) as it:
        day = Day(it, project_file, Random(SEED))
        await replay(day, KEYS, INTERVALS, looks.append)
    assert day.keys >= KEYS
    assert len(day.moves) > 5, day.moves
    first, last = looks[0], looks[-1]
    assert last.widgets <= first.widgets + 3, (first.widgets, last.widgets)  # a dialog may still be held
    assert last.threads <= first.threads, (first.threads, last.threads)
    assert last.descriptors <= first.descriptors, (first.descriptors, last.descriptors)
    assert last.processes <= first.processes, (first.processes, last.processes)
