"""How long the quilting lines are, all together."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.plugin import Cannot

Pattern = Literal["parallel lines", "square grid", "diagonal grid", "in the ditch", "meander", "other"]

SETS = {"parallel lines": 1, "square grid": 2, "diagonal grid": 2, "meander": 1}
"""Patterns whose length follows from their spacing: how often their lines cover the quilt."""


@dataclass(frozen=True, slots=True)
class Quilting:
    """What is quilted: finished inches of the quilt, and what is said of its lines."""

    width: Fraction
    height: Fraction
    pattern: Pattern
    spacing: Fraction | None
    ditch_length: Fraction | None
    path: Fraction | None
    margin: Fraction

    @property
    def area(self) -> Fraction:
        """Square inches, finished."""
        return self.width * self.height

    @property
    def sets(self) -> int:
        """How many sets of lines their spacing tells of; 0 where the path comes from elsewhere."""
        return SETS.get(self.pattern, 0) if self.path is None else 0

    @property
    def margined(self) -> Fraction:
        """Inches of path with the margin for edges and travel."""
        return lines_of(self) * (1 + self.margin / 100)


def lines_of(quilting: Quilting) -> Fraction:
    """Inches of line: the `path` where it is given, else by the pattern.

    Lines spaced g on an area A take A/g (parallel lines; a meander, with g its mean gap), two crossing sets
    2·A/g. In the ditch: the finished seams. 7200 sq in at 1 in: 200 yd. Common practice, no source.

    Against lines really drawn on a quilt of W × H, wherever the first one lies:

    - parallel lines down it: off by less than one line, H (half a line where the first lies half a spacing
      in);
    - a square grid: by less than W + H;
    - **a diagonal grid**, at 45° with g square across the lines: by g at most, both sets together. The line
      at a distance t from the corner is f(t) long, a trapezoid: it rises by 2 an inch, stays, and falls by
      2. Lines g apart sum it by the trapezoidal rule, whose error at a bend in slope of c is c·(g²/2)·θ(1 −
      θ), with θ between 0 and 1, so at most c·g²/8. The bends are +2, −2, −2, +2: two of a sign make g²/2
      at most, which is g/2 of line in each set. Edges cost a diagonal grid almost nothing.

    Raises:
        Cannot: what the pattern needs is not given.
    """
    if quilting.path is not None:
        return quilting.path
    if quilting.pattern == "in the ditch":
        why = "in the ditch the path is the seams that are followed, and their length is not given."
        return _needed(quilting.ditch_length, "ditch_length", why, "Link it to the setting's ditch length.")
    if quilting.pattern == "other":
        why = "the length of another pattern's lines is not known here."
        return _needed(None, "path", why, "Give it: measure the lines of one block, times the blocks.")
    why = f"without a spacing the lines of a {_ONE.get(quilting.pattern, quilting.pattern)} have no length."
    spacing = _needed(quilting.spacing, "spacing", why, "Say how far apart they lie, or give the path.")
    return SETS[quilting.pattern] * quilting.area / spacing


_ONE = {"parallel lines": "set of parallel lines"}


def _needed(value: Fraction | None, given: str, why: str, way_out: str) -> Fraction:
    if value is None:
        raise Cannot(given, why, way_out)
    return value
