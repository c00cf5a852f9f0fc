"""From the start of a fresh process to the first filled screen, seen from outside, in a terminal.

Ours is filled when the form, its last value and the last result of the first tab that 80 by 24 shows are
there, not when the empty frame is. Of the bare app all four widgets must be there.
"""

import os
import sys
import tempfile
from collections.abc import Sequence
from importlib.resources import as_file, files
from importlib.resources.abc import Traversable
from importlib.util import cache_from_source
from pathlib import Path

from figures import ROUNDS, Figure, figure
from terminal import Terminal

from boltend.shell import desk

AIM = 1.5
FILLED = ("Harbour Steps", "Given", "Precuts in hand", "Found", "Blocks in hand", "Stacks to cut", "Quit")
BARE = ("BareApp", "only echoed", "32", "palette")


def figures() -> Sequence[Figure]:
    """Wall time and CPU time of nine starts each, taken in turns after one to warm up."""
    with tempfile.TemporaryDirectory() as folder, as_file(_example()) as example:
        env = environment(folder)
        bare = [sys.executable, str(Path(__file__).with_name("bare_app.py"))]
        shell = [sys.executable, "-m", "boltend", str(example)]
        taken = [(_start(shell, env, FILLED), _start(bare, env, BARE)) for _ in range(ROUNDS + 1)][1:]
        if not Path(cache_from_source(desk.__file__)).exists():
            raise ValueError(
                "no byte code was kept: each start compiled every module, which is not measured here"
            )
    ours, theirs = [o for o, _ in taken], [t for _, t in taken]
    return [
        figure("first filled paint, wall", [t[0] for t in ours], [t[0] for t in theirs], AIM),
        figure("first filled paint, CPU", [t[1] for t in ours], [t[1] for t in theirs], AIM),
    ]


def _example() -> Traversable:
    return files("boltend_shared.examples").joinpath("harbour-steps.toml")


def environment(folder: str) -> dict[str, str]:
    """A home of its own, a plain colour terminal, and byte code kept, as after an installation."""
    kept = {k: v for k, v in os.environ.items() if k in ("PATH", "LANG", "LC_ALL", "VIRTUAL_ENV")}
    return {
        **kept, "HOME": folder, "BOLTEND_STATE": folder, "TERM": "xterm-256color", "COLORTERM": "truecolor",
    }  # fmt: skip


def _start(command: Sequence[str], env: dict[str, str], words: Sequence[str]) -> tuple[float, float]:
    with Terminal(command, env) as terminal:
        wall = terminal.until(*words)
        return wall, terminal.end()
