"""Line ends: remember each line's own, give new lines the file's usual one; keep a byte-order mark."""

from __future__ import annotations

import difflib

BOM = "\ufeff"


def split_lines(text: str) -> list[str]:
    """The lines of a TOML text with their ends. Only LF (and CRLF) ends a line there, unlike `splitlines`."""
    lines = text.split("\n")
    ended = [line + "\n" for line in lines[:-1]]
    return [*ended, lines[-1]] if lines[-1] else ended


def usual_end(text: str) -> str:
    """The line end that most lines of the text have; LF where it has none."""
    crlf = text.count("\r\n")
    return "\r\n" if crlf > text.count("\n") - crlf else "\n"


def bare(line: str) -> str:
    """A line without its end."""
    return line.removesuffix("\n").removesuffix("\r")


def with_ends_of(old: str, new: str, usual: str) -> str:
    """`new` (written with LF) with the line ends that its unchanged lines have in `old`."""
    before = split_lines(old)
    after = [bare(line) for line in split_lines(new)]
    ends = [usual] * len(after)
    matcher = difflib.SequenceMatcher(None, [bare(line) for line in before], after, autojunk=False)
    for tag, i1, i2, j1, j2 in matcher.get_opcodes():
        if tag == "equal" or (tag == "replace" and i2 - i1 == j2 - j1):
            for i, j in zip(range(i1, i2), range(j1, j2), strict=True):
                ends[j] = before[i][len(bare(before[i])) :] or usual
    return "".join(line + end for line, end in zip(after, ends, strict=True))
