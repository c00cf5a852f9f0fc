"""Type faces of a PDF: the shipped one, faces of the reader's own for Chinese, Japanese and Korean, and words
for what none of them has.

A character without a glyph would print as a box and nobody would be told; here it is written as <U+1F9F5>.
"""

from collections.abc import Iterator
from functools import lru_cache
from importlib.resources import as_file, files
from itertools import groupby
from typing import NamedTuple

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.cidfonts import UnicodeCIDFont
from reportlab.pdfbase.ttfonts import TTFont

from boltend.core.paper.texts import joined
from boltend.core.values.errors import code_point

PLAIN, BOLD = "DejaVuSans", "DejaVuSans-Bold"
_EAST = (
    ("STSong-Light", "gbk"),
    ("HeiseiMin-W3", "cp932"),
    ("HYSMyeongJo-Medium", "cp949"),
    ("MSung-Light", "big5"),
)
"""Faces that every PDF reader can bring along, each with the national set of characters that it holds."""

_FIRST_EAST = 0x2E80
"""Below it the national sets have Latin, Greek and signs, which the shipped face draws better."""


class Run(NamedTuple):
    """Characters of one face."""

    face: str
    words: str


@lru_cache(maxsize=1)
def _glyphs() -> dict[str, frozenset[int]]:
    """Make the shipped faces known to reportlab, once a process; the code points that each has."""
    found = {}
    for name in (PLAIN, BOLD):
        with as_file(files(__package__) / "fonts" / f"{name}.ttf") as path:
            font = TTFont(name, str(path))
        pdfmetrics.registerFont(font)
        found[name] = frozenset(font.face.charToGlyph)
    return found


@lru_cache(maxsize=8)
def _east(name: str) -> str:
    """Make one of the reader's faces known, when it is first needed."""
    pdfmetrics.registerFont(UnicodeCIDFont(name))
    return name


def runs(text: str, face: str) -> list[Run]:
    """A text, as it is read from left to right, in runs of one face; what no face has is written out."""
    has = _glyphs()[face]
    if text.isascii():
        return [Run(face, text)] if text else []
    japanese = any("\u3040" <= c <= "\u30ff" for c in text)
    signs = ((_face(c, face, has, japanese), c) for c in text)
    named = ((name or face, c if name else f"<{code_point(c)}>") for name, c in signs)
    return [
        Run(name, "".join(c for _, c in group)) for name, group in groupby(named, key=lambda each: each[0])
    ]


def _face(character: str, face: str, has: frozenset[int], japanese: bool) -> str:
    code = ord(character)
    if code in has:
        return face
    if not _FIRST_EAST <= code <= 0xFFFF:
        return ""
    for name, codec in (_EAST[1], *_EAST) if japanese else _EAST:
        try:
            character.encode(codec)
        except UnicodeEncodeError:
            continue
        return _east(name)
    return ""


@lru_cache(maxsize=4096)
def wide(text: str, face: str, size: float) -> float:
    """The points that a text takes: as it will be set, joined and written out."""
    _glyphs()
    return sum(pdfmetrics.stringWidth(run.words, run.face, size) for run in runs(joined(text), face))


def lines_of(text: str, face: str, size: float, room: float) -> Iterator[str]:
    """A paragraph as lines that are no wider than `room` points, in the order of reading.

    Parted at blanks; a word that is wider than a line is parted anywhere, for names have 500 characters.
    """
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if wide(longer, face, size) <= room:
            line = longer
            continue
        if line:
            yield line
        line = word
        while wide(line, face, size) > room and len(line) > 1:
            fits = _fitting(line, face, size, room)
            yield line[:fits]
            line = line[fits:]
    yield line


def _fitting(word: str, face: str, size: float, room: float) -> int:
    """How many characters of a word fit, at least one."""
    least, most = 1, len(word)
    while least < most:
        middle = (least + most + 1) // 2
        if wide(word[:middle], face, size) <= room:
            least = middle
        else:
            most = middle - 1
    return least
