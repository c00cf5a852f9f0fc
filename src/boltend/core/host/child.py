"""The beginning of every process of ours: its pipes, kept from whatever is printed in it, and its path."""

import os
import pickle
import sys
from typing import BinaryIO

from boltend.core.host.frames import read_frame
from boltend.core.host.messages import Hello


def take_pipes() -> tuple[BinaryIO, BinaryIO]:
    """Give private copies of stdin and stdout, once the main process has said hello.

    The first three descriptors become the null device, and the import path that of the main process.
    """
    requests, replies = os.dup(0), os.dup(1)
    null = os.open(os.devnull, os.O_RDWR)
    for fd in (0, 1, 2):
        os.dup2(null, fd)
    os.close(null)
    sys.stdin = open(0, encoding="utf-8", closefd=False)  # noqa: SIM115 - open as long as the process lives
    # "replace": a plugin that prints what the locale cannot write must not fail for it
    sys.stdout = open(1, "w", encoding="utf-8", errors="replace", closefd=False)  # noqa: SIM115
    sys.stderr = open(2, "w", encoding="utf-8", errors="replace", closefd=False)  # noqa: SIM115
    found = os.fdopen(requests, "rb"), os.fdopen(replies, "wb")
    hello = pickle.loads(read_frame(found[0]))
    assert isinstance(hello, Hello)
    sys.path[:] = hello.path
    return found
