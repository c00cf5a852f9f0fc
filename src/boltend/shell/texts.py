"""Text for cells: clipped, wrapped and padded by what it takes on the screen, with nothing unseen in it."""

from functools import lru_cache

from rich.cells import cell_len, chop_cells, set_cell_size

from boltend.core.values import visible
from boltend.core.values.unbroken import broken, unbroken


def shown(text: str) -> str:
    """Text from outside, safe for a terminal: line ends become blanks, other unseen characters are named."""
    return visible(" ".join(text.split("\n"))) if not text.isprintable() else text


def clipped(text: str, width: int) -> str:
    """Text that takes at most `width` cells, with … where it was cut."""
    text = shown(text)
    if cell_len(text) <= width:
        return text
    return set_cell_size(text, max(0, width - 1)).rstrip() + "…" if width > 0 else ""


def padded(text: str, width: int) -> str:
    """Text that takes exactly `width` cells."""
    return set_cell_size(clipped(text, width), width)


@lru_cache(maxsize=512)
def wrapped(text: str, width: int) -> tuple[str, ...]:
    """Lines of at most `width` cells, broken at blanks; a word that is longer is broken where it must be."""
    width = max(4, width)  # two wide signs: less is no line
    lines: list[str] = []
    line, cells = "", 0
    for word in unbroken(shown(text)).split(" "):
        if not word:
            continue
        more = cell_len(word)
        if line and cells + 1 + more <= width:
            line, cells = f"{line} {word}", cells + 1 + more
            continue
        if line:
            lines.append(line)
        *full, line = [word] if more <= width else chop_cells(word, width) or [""]
        lines += full
        cells = cell_len(line)
    return tuple(broken(each) for each in ([*lines, line] if line or not lines else lines))
