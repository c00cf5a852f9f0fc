"""A line as it stands on paper from left to right, whatever of it reads from right to left.

python-bidi gives the order (the Unicode bidirectional algorithm). What it leaves to whoever draws is done
here: brackets that face the other way, and marks that belong over the letter before them.
"""

import re
import unicodedata
from collections.abc import Iterator

from bidi import get_display  # type: ignore[import-untyped]  # it brings no types
from bidi.mirror import MIRRORED  # type: ignore[import-untyped]  # as above

from boltend.core.paper.texts import END, FIRST_STRONG, isolated, joined

_PIN = "\u034f"
"""A mark without a look; it goes where the character before it goes, and tells which way round that was."""

_POINTS = re.compile("([\u0591-\u05c7\u0610-\u061a\u064b-\u065f\u0670]+)(.)")


def in_sight(line: str, *, from_right: bool = False) -> str:
    """The line in the order in which it is drawn, Arabic letters joined.

    `from_right` is for a line that a person wrote from right to left as a whole; in any other a part that
    reads so turns nothing beside it.
    """
    if line.isascii():
        return line
    shaped = joined(line.replace(_PIN, ""))
    pinned = "".join(f"{c}{_PIN}" if unicodedata.mirrored(c) else c for c in shaped)
    turned = str(get_display(pinned if from_right else isolated(pinned), base_dir="R" if from_right else "L"))
    drawn = "".join(_faced(turned.replace(FIRST_STRONG, "").replace(END, "")))
    return _POINTS.sub(r"\2\1", drawn)


def _faced(turned: str) -> Iterator[str]:
    """Without pins: a bracket whose pin came to stand before it is turned round."""
    at = 0
    while at < len(turned):
        if turned[at] == _PIN and at + 1 < len(turned):
            at += 1
            yield MIRRORED.get(turned[at], turned[at])
        else:
            yield turned[at]
            at += bool(unicodedata.mirrored(turned[at])) and turned[at + 1 : at + 2] == _PIN
        at += 1
