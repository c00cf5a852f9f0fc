"""How large the parts of a picture are, each name once: from the shapes' exact corners."""

from collections.abc import Collection, Sequence
from fractions import Fraction
from math import isqrt
from typing import TypeAlias

from boltend.core.contract import Polygon, Rect, Shape
from boltend.core.contract.shapes import Inches
from boltend.core.drawing import Show

Size: TypeAlias = tuple[Inches, Inches] | tuple[Inches]

NO_FABRIC = "no fabric chosen"

_MOST = 2  # widths of one part, as of a border whose ends differ from its sides


def part_sizes(shapes: Sequence[Shape], show: Show) -> dict[str, str]:
    """`block: 9 in × 9 in`, `sash: 2 in wide` of finished parts, by label or else by fill.

    A part has its size where all of it is of one; else its width where that is one, or one for the sides and
    one for the ends. What is neither (triangles, units of many shapes) has none.
    """
    found: dict[str, dict[Size | None, None]] = {}
    for shape in shapes:
        if isinstance(shape, Rect | Polygon):
            found.setdefault(shape.label or shape.fill, {})[_size(shape)] = None
    said = {name: _said(sizes, show) for name, sizes in found.items() if name}
    return {name: words for name, words in said.items() if words}


def part_facts(shapes: Sequence[Shape], show: Show, no_fabric: Collection[str]) -> dict[str, str]:
    """The sizes, and what has no fabric yet: `block: 9 in × 9 in, no fabric chosen`. By label or fill."""
    facts = part_sizes(shapes, show)
    for shape in shapes:
        if isinstance(shape, Rect | Polygon) and shape.fill in no_fabric:
            name = shape.label or shape.fill
            if not facts.get(name, "").endswith(NO_FABRIC):
                facts[name] = f"{facts[name]}, {NO_FABRIC}" if name in facts else NO_FABRIC
    return facts


def _said(sizes: Collection[Size | None], show: Show) -> str:
    if None in sizes:
        return ""
    known = [size for size in sizes if size is not None]
    if len(known) == 1 and len(known[0]) == 2:
        return " × ".join(map(show, known[0]))
    widths = dict.fromkeys(show(min(size)) for size in known)
    return f"{' and '.join(widths)} wide" if len(widths) <= _MOST else ""


def _size(shape: Rect | Polygon) -> Size | None:
    """Width and height; of a mitred border its width alone; None of what has neither."""
    if isinstance(shape, Rect):
        return shape.width, shape.height
    if len(shape.corners) != 4:
        return None
    ahead = [*shape.corners[1:], shape.corners[0]]
    sides = [(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in zip(shape.corners, ahead, strict=True)]
    (a, b), (c, d), (e, f), _ = sides
    if a * c + b * d == 0 and (a + e, b + f) == (0, 0):  # square corners all round: a block on point
        wide, high = _root(a * a + b * b), _root(c * c + d * d)
        return (wide, high) if wide and high else None
    level, upright = [not y for _, y in sides].count(True), [not x for x, _ in sides].count(True)
    if (level, upright) == (2, 0):
        return (max([y for _, y in sides]),)
    if (level, upright) == (0, 2):
        return (max([x for x, _ in sides]),)
    return None


def _root(square: Inches) -> Fraction | None:
    """The square root where it is a fraction."""
    if not isinstance(square, int | Fraction):
        return None
    top, bottom = isqrt(Fraction(square).numerator), isqrt(Fraction(square).denominator)
    root = Fraction(top, bottom)
    return root if root * root == square else None
