"""How a command ends, and how it complains."""

import sys
from enum import IntEnum

from boltend.core.values import visible


class Exit(IntEnum):
    """Exit codes."""

    DONE = 0
    CANNOT = 1
    """The project has something that cannot be worked out; it was said where and why."""
    UNREADABLE = 2
    """A call or a file that cannot be read."""


class BadCall(Exception):
    """A call that cannot be read: what was wrong, and what would do."""


def complain(text: str) -> None:
    """Say on standard error what is wrong; whatever a person typed is shown as text."""
    for line in text.splitlines():
        print(visible(line), file=sys.stderr)
