"""What the tests of the text layer ask of two texts."""

from __future__ import annotations

import difflib
import tomllib
from collections import Counter

from boltend.core.project.document import Document
from boltend.core.project.model import Project
from boltend.core.project.plain import same_plain


def lines_of(text: str) -> list[str]:
    """Lines with their ends, cut only where TOML cuts."""
    return [part + "\n" for part in text.split("\n")[:-1]] + [text.split("\n")[-1]]


def changed_lines(old: str, new: str) -> tuple[list[str], list[str]]:
    """The lines that went and the lines that came, by difflib."""
    gone: list[str] = []
    come: list[str] = []
    a, b = lines_of(old), lines_of(new)
    for tag, i1, i2, j1, j2 in difflib.SequenceMatcher(None, a, b, autojunk=False).get_opcodes():
        if tag != "equal":
            gone += a[i1:i2]
            come += b[j1:j2]
    return gone, come


def comment_lines(text: str) -> list[str]:
    """The lines that hold nothing but a comment, in order, without outer blanks."""
    return [line.strip() for line in text.split("\n") if line.strip().startswith("#")]


def counts(text: str) -> Counter[str]:
    """Each line with its end, counted."""
    return Counter(lines_of(text))


def applied(document: Document, saved: Project, wanted: Project) -> str:
    """The new text, which must read back as wanted with nothing lost."""
    edited = document.apply(saved, wanted)
    assert edited.note == ""
    assert same_plain(tomllib.loads(edited.text.removeprefix("\ufeff")), wanted.to_plain())
    return edited.text
