"""How many cells a text takes, and texts that are safe to stand in a picture."""

import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache

from boltend.core.values import visible

# Wide since Unicode 16, which the running Python may not know yet.
_WIDE = ((0x2630, 0x2638), (0x268A, 0x2690), (0x4DC0, 0x4E00), (0x1D300, 0x1D377))
# Vowels and finals of a Hangul syllable, and the tones of a face: they join what stands before them.
_JOINED = ((0x1160, 0x1200), (0xD7B0, 0xD800), (0x1F3FB, 0x1F400))
_VARIATION_SELECTORS = dict.fromkeys((*range(0xFE00, 0xFE10), *range(0xE0100, 0xE01F0)))
_PLAIN = str.maketrans({
    "×": "x", "–": "-", "—": "-", "−": "-", "“": '"', "”": '"', "‘": "'", "’": "'", "…": "...", "≈": "~",
    "·": "*", "½": "1/2", "¼": "1/4", "¾": "3/4",
})  # fmt: skip


NO_BREAK = "\N{NO-BREAK SPACE}"
_BLANKS = re.compile(r"[ \t\r\n\f\v]+")


def cells_of(text: str) -> int:
    """The cells that a text takes on a screen: two for a wide character, none for a mark over another."""
    return len(text) if text.isascii() else sum(map(_cells, text))


@lru_cache(maxsize=4096)
def _cells(character: str) -> int:
    code = ord(character)
    if unicodedata.category(character) in ("Mn", "Me", "Mc", "Cf", "Cc"):
        return 0
    if any(first <= code < end for first, end in _JOINED):
        return 0
    if any(first <= code < end for first, end in _WIDE):
        return 2
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1


def clean(text: str, *, ascii: bool) -> str:  # noqa: A002 - the word that `draw` is called with
    """One line of text without anything unseen, and in ASCII only where that is asked for.

    A no-break space stays what it is: words are not parted there.
    """
    flat = " ".join(text.split()) if NO_BREAK not in text else _BLANKS.sub(" ", text).strip()
    if flat.isascii() and flat.isprintable():
        return flat
    flat = visible(flat.translate(_VARIATION_SELECTORS))
    return NO_BREAK.join(map(_plain, flat.split(NO_BREAK))) if ascii else flat


def _plain(text: str) -> str:
    letters = unicodedata.normalize("NFKD", text.translate(_PLAIN))
    bare = "".join(c for c in letters if not unicodedata.combining(c))
    return bare.encode("ascii", "replace").decode("ascii")


def clusters(text: str) -> Iterator[tuple[str, int]]:
    """Each character with the marks over it, and how many cells it takes."""
    held, wide = "", 0
    for character in text.replace(NO_BREAK, " "):
        cells = _cells(character)
        if cells and held:
            yield held, wide
            held, wide = "", 0
        held, wide = held + character, wide + cells
    if wide:
        yield held, wide
