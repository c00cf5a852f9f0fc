"""The top and its borders as plain frames, finished."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Rect

Size = tuple[Fraction, Fraction]


def picture(top: Size, plan: Sequence[Size]) -> list[Rect]:
    """The top, and four rectangles a border: sides as high as what they lie against, ends over all."""
    shapes: list[Rect] = []
    x = sum((border[0] for border in plan), Fraction(0))
    y = sum((border[1] for border in plan), Fraction(0))
    width, height = top
    shapes.append(Rect(x, y, width, height, "top", "top"))
    for number, (side, end) in enumerate(plan, 1):
        name = f"border {number}"
        shapes += [Rect(at, y, side, height, "border", name) for at in (x - side, x + width)]
        x, width = x - side, width + 2 * side
        shapes += [Rect(x, at, width, end, "border", name) for at in (y - end, y + height)]
        y, height = y - end, height + 2 * end
    return shapes
