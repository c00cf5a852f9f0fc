"""Borders drawn round their top, finished."""

from fractions import Fraction

from boltend.plugin import Polygon, Rect, Shape
from boltend_borders_binding.border_rows import Laid


def picture(top: tuple[Fraction, Fraction], laid: list[Laid]) -> list[Shape]:
    """The top and every side of every border; they tile the outermost rectangle without gap or overlap."""
    whole = laid[-1].outer if laid else top
    shapes: list[Shape] = [
        Rect((whole[0] - top[0]) / 2, (whole[1] - top[1]) / 2, *top, fill="top", label="top")
    ]
    for border in laid:
        x, y = (whole[0] - border.outer[0]) / 2, (whole[1] - border.outer[1]) / 2
        shapes += _mitred(border, x, y) if border.border.corners == "mitred" else _squared(border, x, y)
    return shapes


def _squared(laid: Laid, x: Fraction, y: Fraction) -> list[Shape]:
    fill = laid.border.fabric or "border"
    a, b = laid.border.width, laid.width_ends
    (width, height), (across, down) = laid.inner, laid.outer
    corners = laid.border.corners
    left, long = (x, across) if corners == "sides first" else (x + a, width)
    top, tall = (y, down) if corners == "ends first" else (y + b, height)
    sides = [Rect(at, top, a, tall, fill=fill, label=laid.name) for at in (x, x + a + width)]
    ends = [Rect(left, at, long, b, fill=fill, label=laid.name) for at in (y, y + b + height)]
    sides, ends = sides if laid.has_sides else [], ends if laid.has_ends else []
    if not laid.cornerstones:
        return [*sides, *ends]
    stone = laid.border.cornerstone_fabric or laid.border.fabric or "cornerstone"
    stones = [Rect(u, v, a, b, fill=stone) for u in (x, x + a + width) for v in (y, y + b + height)]
    return [*sides, *ends, *stones]


def _mitred(laid: Laid, x: Fraction, y: Fraction) -> list[Shape]:
    a, b = laid.border.width, laid.width_ends
    (width, height), (across, down) = laid.inner, laid.outer
    outer = [(x, y), (x + across, y), (x + across, y + down), (x, y + down)]
    inner = [(x + a, y + b), (x + a + width, y + b), (x + a + width, y + b + height), (x + a, y + b + height)]
    return [
        Polygon(
            (outer[i], outer[(i + 1) % 4], inner[(i + 1) % 4], inner[i]),
            fill=laid.border.fabric or "border",
            label=laid.name,
        )
        for i in range(4)
    ]
