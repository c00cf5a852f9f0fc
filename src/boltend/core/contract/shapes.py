"""A picture: one list of shapes in exact inches. Small back ends draw it in cells, SVG, PDF or text.

x runs to the right, y downwards, from the top left corner of the quilt.
"""

from fractions import Fraction
from typing import NamedTuple, TypeAlias

from boltend.core.values import Number

Inches: TypeAlias = int | Number


class Rect(NamedTuple):
    """A rectangle from its top left corner. `fill` names a fabric or a role (`block`, `sash`, …)."""

    x: Inches
    y: Inches
    width: Inches
    height: Inches
    fill: str = ""
    label: str = ""


class Polygon(NamedTuple):
    """A closed polygon through its corners."""

    corners: tuple[tuple[Inches, Inches], ...]
    fill: str = ""
    label: str = ""


class Rule(NamedTuple):
    """A straight line: a seam, a cut."""

    x1: Inches
    y1: Inches
    x2: Inches
    y2: Inches


class Note(NamedTuple):
    """Words at a place."""

    x: Inches
    y: Inches
    words: str


Shape: TypeAlias = Rect | Polygon | Rule | Note

ZERO = Fraction(0)
