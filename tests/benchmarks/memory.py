"""What a project of 200 tabs keeps in memory once all of it is worked out, against a bare app.

Resident memory as Linux counts it for the process (`VmRSS`), some seconds after the first tab is filled; that
of the worker process, which runs the searches, is counted in the second line.
"""

import re
import tempfile
from collections.abc import Sequence
from pathlib import Path
from statistics import median

from figures import Figure
from first_paint import FILLED, SIGHT, bare_command, environment, shell_command, sight_of_first
from quilts import write_quilts
from terminal import Terminal

AIM = 2.0
TABS = 200
TIMES = 3
SETTLED = 3.0
"""Seconds in which the searches of all tabs come to their end."""


def figures() -> Sequence[Figure]:
    """The shell with its project, and the bare app with as many widgets in sight."""
    with tempfile.TemporaryDirectory() as folder:
        env = environment(folder)
        path = write_quilts(TABS, Path(folder) / "many.toml")
        sight = sight_of_first(path, folder)
        ours = [_settled(shell_command(path), env, FILLED) for _ in range(TIMES)]
        bare = [_settled(bare_command(sight), env, SIGHT)[0] for _ in range(TIMES)]
    own, worker = median(o for o, _ in ours), median(w for _, w in ours)
    return [
        _line(f"memory with {TABS} tabs", own, median(bare)),
        _line("the same with the worker process", own + worker, median(bare)),
    ]


def _line(what: str, ours: float, theirs: float) -> Figure:
    return Figure(what, ours, theirs, AIM, f"medians of {TIMES}", lambda size: f"{size / 2**20:.1f} MiB")


def _settled(command: Sequence[str], env: dict[str, str], words: Sequence[str]) -> tuple[int, int]:
    """Bytes of the process, and of its children."""
    with Terminal(command, env) as terminal:
        terminal.until(*words)
        terminal.read_on(SETTLED)
        return _resident(terminal.pid), sum(map(_resident, _children(terminal.pid)))


def _resident(pid: int) -> int:
    found = re.search(r"VmRSS:\s+(\d+) kB", Path(f"/proc/{pid}/status").read_text())
    return int(found[1]) * 1024 if found is not None else 0


def _children(pid: int) -> list[int]:
    tasks = Path(f"/proc/{pid}/task").iterdir()
    return [int(child) for task in tasks for child in (task / "children").read_text().split()]
