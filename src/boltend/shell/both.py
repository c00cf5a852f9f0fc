"""Whether the other system stands beside a length: it does on request, and is only to read.

Of the whole process, as the keys are, for one shell runs in it.
"""

_both = False


def show_both(on: bool) -> None:
    """From now on the other system stands beside, or does not."""
    global _both
    _both = on


def both_shown() -> bool:
    """Whether it stands beside."""
    return _both


def also(words: str) -> str:
    """The length in the other system, where it was asked for."""
    return words if _both else ""
