"""Hatches as lines: what a mark of `core.drawing` is on paper, and the ink that shows on a colour."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

Way = Literal["rise", "fall", "level", "upright", "dots"]


class Lines(NamedTuple):
    """Parallel lines (or rows of dots) `gap` points apart, `thick` points thick."""

    way: Way
    gap: float
    thick: float = 0.5


HATCHES: dict[str, tuple[Lines, ...]] = {
    " ": (),
    "░": (Lines("rise", 5),),
    "▒": (Lines("fall", 4),),
    "·": (Lines("dots", 5, 1.0),),
    "+": (Lines("level", 5), Lines("upright", 5)),
    "~": (Lines("level", 4),),
    "▓": (Lines("rise", 3), Lines("fall", 3)),
    "×": (Lines("rise", 6), Lines("fall", 6)),
    "=": (Lines("level", 2.5),),
    "%": (Lines("upright", 3),),
}
"""The lines of every mark that `hatches.MARKS` has; the blank has none."""

WHITE = "#ffffff"
_MIDDLE = 0.179
"""The luminance at which white and black ink have the same contrast, 4.58 : 1: (1.05 × 0.05)^½ − 0.05."""


def ink_on(colour: str, paper: str = "#000000") -> str:
    """The ink that shows best on a colour #rrggbb: black or white; on none of its own, `paper`'s."""
    if not colour:
        return paper
    # Relative luminance as WCAG 2.2 (W3C, 2023) defines it.
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return WHITE if 0.2126 * red + 0.7152 * green + 0.0722 * blue < _MIDDLE else "#000000"


def segments(
    lines: Lines, left: float, top: float, right: float, bottom: float
) -> Iterator[tuple[float, float, float, float]]:
    """The lines over a box, from one edge to another, on a grid that starts at 0: neighbours join."""
    gap, wide, high = lines.gap, right - left, bottom - top
    if lines.way in ("level", "dots"):
        for n in range(int(top // gap) + 1, int(bottom // gap) + 1):
            yield left, n * gap, right, n * gap
    elif lines.way == "upright":
        for n in range(int(left // gap) + 1, int(right // gap) + 1):
            yield n * gap, top, n * gap, bottom
    else:
        step = gap * 2**0.5  # along the edge, for a slanting line
        low, far = (top + left, bottom + right) if lines.way == "rise" else (top - right, bottom - left)
        for n in range(int(low // step) + 1, int(far // step) + 1):
            at = n * step
            if lines.way == "rise":
                yield (at - top, top, at - top - high, bottom)
            else:
                yield (left, at + left, right, at + left + wide)
