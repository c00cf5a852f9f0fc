"""Numbers that no line end may part: “3” at the end of a line, and “1/2 in” below it, reads as 3."""

import re

_PARTS = re.compile(r"\d (?:\d+/\d+(?: (?:in|yd|cm|mm|m|ft|oz)\b)?|(?:in|yd|cm|mm|m|ft|oz)\b)")
_KEEPING = "\u00a0"


def unbroken(text: str) -> str:
    """Text to be broken into lines, whose numbers hold together with their fraction and unit."""
    return _PARTS.sub(lambda part: part.group().replace(" ", _KEEPING), text)


def broken(line: str) -> str:
    """A line of such a text with plain blanks again."""
    return line.replace(_KEEPING, " ")
