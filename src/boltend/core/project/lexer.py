"""A line lexer for TOML: which lines are headers, keys, comments, blank, or the inside of a longer value.

It knows just enough to cut a text into tables: strings of all four kinds, arrays, inline tables, comments. It
is only given texts that tomllib has read, so it need not find faults.
"""

from __future__ import annotations

import re
import tomllib
from typing import Literal, NamedTuple

from boltend.core.project.lines import split_lines

Kind = Literal["blank", "comment", "header", "key", "more"]
Names = tuple[str, ...]

_PART = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\]|\\.)*"|'[^']*')"""
_DOTTED = re.compile(rf"\s*({_PART}(?:[ \t]*\.[ \t]*{_PART})*)[ \t]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_TOKEN = re.compile(
    r"\"\"\"|'''"  # opens a long string
    r'|"(?:[^"\\]|\\.)*"|' + r"'[^']*'"  # a short string
    r"|\#.*"  # a comment, to the end of the line
    r"|[\[\]{}]"
)
_LONG_BASIC_END = re.compile(r'(?:[^"\\]|\\.|"(?!""))*"{3,5}', re.DOTALL)
_LONG_LITERAL_END = re.compile(r"(?:[^']|'(?!''))*'{3,5}")


class Line(NamedTuple):
    """One line with its end, what it is, and the names in its header or key."""

    text: str
    kind: Kind
    names: Names = ()
    is_list: bool = False


def read_names(text: str) -> tuple[Names, int]:
    """The dotted names at the start of a text, unquoted, and where they end."""
    match = _DOTTED.match(text)
    if match is None:
        return (), 0
    dotted = match.group(1)
    if _BARE.fullmatch(dotted):
        return (dotted,), match.end()
    names: list[str] = []
    table = tomllib.loads(f"{dotted} = 0")
    while isinstance(table, dict):
        (name,) = table
        names.append(name)
        table = table[name]
    return tuple(names), match.end()


class _Scanner:
    """What is open at the end of a line: a long string, or so many brackets."""

    def __init__(self) -> None:
        self.string = ""
        self.depth = 0

    @property
    def inside(self) -> bool:
        return bool(self.string) or self.depth > 0

    def feed(self, text: str) -> None:
        """Take in one line (or the rest of one)."""
        at = 0
        while True:
            if self.string:
                end = _LONG_BASIC_END if self.string == '"""' else _LONG_LITERAL_END
                closed = end.match(text, at)
                if closed is None:
                    return
                self.string, at = "", closed.end()
            token = _TOKEN.search(text, at)
            if token is None:
                return
            at = token.end()
            self._take(token.group())

    def _take(self, word: str) -> None:
        if word in ('"""', "'''"):
            self.string = word
        elif word in ("[", "{"):
            self.depth += 1
        elif word in ("]", "}"):
            self.depth -= 1


def lex(text: str) -> list[Line]:
    """The lines of a text, each with its kind. Joined again they are the text."""
    scanner = _Scanner()
    lines: list[Line] = []
    for raw in split_lines(text):
        start = raw.lstrip()
        if scanner.inside:
            scanner.feed(raw)
            lines.append(Line(raw, "more"))
        elif not start:
            lines.append(Line(raw, "blank"))
        elif start.startswith("#"):
            lines.append(Line(raw, "comment"))
        elif start.startswith("["):
            opening = 2 if start.startswith("[[") else 1
            lines.append(Line(raw, "header", read_names(start[opening:])[0], opening == 2))
        else:
            names, end = read_names(raw)
            scanner.feed(raw[end:])
            lines.append(Line(raw, "key", names))
    return lines
