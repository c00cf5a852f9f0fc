"""The picture of quilting in straight lines: the quilt, and each line from edge to edge."""

from collections.abc import Iterator
from fractions import Fraction

from boltend.plugin import ROOT2, Rect, Rule, Shape, floor_div, nearest
from boltend_quilting_thread.paths import Quilting

MOST_LINES = 160
"""Above so many lines no screen shows them apart."""

_FINE = Fraction(1, 2**20)
"""Inches that √2 is drawn to: with the root itself 90 lines take 10 ms."""


def picture(quilting: Quilting) -> list[Shape]:
    """Lines drawn to scale, the first half a spacing in; nothing where they are too many or not straight."""
    spacing = quilting.spacing
    if not quilting.sets or spacing is None or quilting.pattern == "meander":
        return []
    width, height = quilting.width, quilting.height
    if quilting.sets * (width + height) / spacing > MOST_LINES:
        return []
    quilt = Rect(Fraction(0), Fraction(0), width, height, fill="top")
    return [quilt, *_lines(quilting, spacing)]


def _lines(quilting: Quilting, spacing: Fraction) -> Iterator[Rule]:
    width, height = quilting.width, quilting.height
    if quilting.pattern == "diagonal grid":
        yield from _falling(width, height, spacing)
        for rule in _falling(width, height, spacing):
            yield Rule(width - rule.x1, rule.y1, width - rule.x2, rule.y2)
        return
    for x in _steps(width, spacing):
        yield Rule(x, Fraction(0), x, height)
    if quilting.pattern == "square grid":
        for y in _steps(height, spacing):
            yield Rule(Fraction(0), y, width, y)


def _steps(reach: Fraction, step: Fraction) -> Iterator[Fraction]:
    """Places from half a step on, below `reach`."""
    for number in range(floor_div(reach + step / 2, step)):
        at = step * (number + Fraction(1, 2))
        if at < reach:
            yield at


def _falling(width: Fraction, height: Fraction, spacing: Fraction) -> Iterator[Rule]:
    """Lines at 45° from upper left to lower right: where they cross the left or upper edge, and leave."""
    pitch = nearest(spacing * ROOT2, _FINE)
    for along in _steps(width + height, pitch):  # from the lower left corner, up and along the top
        first = along - height  # x less y, the same all along the line
        x1, y1 = (first, Fraction(0)) if first > 0 else (Fraction(0), -first)
        x2 = width if first + height > width else first + height
        yield Rule(x1, y1, x2, x2 - first)
