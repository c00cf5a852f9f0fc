"""Boltend called as a person calls it, in a process of its own."""

import os
import subprocess
import sys
from pathlib import Path


def call(*words: str | Path, **extra: str) -> "subprocess.CompletedProcess[str]":
    env = {**os.environ, "PYTHONIOENCODING": "utf-8", **extra}
    line = [sys.executable, "-m", "boltend", *map(str, words)]
    return subprocess.run(
        line,
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=env,
        check=False,
        timeout=60,
        stdin=subprocess.DEVNULL,
    )
