"""A backing drawn with its panels, and the quilt that lies on it."""

from fractions import Fraction
from itertools import pairwise

from boltend.plugin import Rect
from boltend_backing_batting.panels import Cloth, Layout

MOST_PANELS = 60
"""More cannot be told apart in any picture: then the backing is drawn as one."""


def picture(each: Layout, cloth: Cloth, quilt: tuple[Fraction, Fraction], fill: str) -> list[Rect]:
    """The sewn panels, seam to seam, and the quilt in their middle; inches."""
    edges = [Fraction(0), each.span]
    if each.panels <= MOST_PANELS:
        pitch = cloth.usable - 2 * cloth.seam
        edges[1:1] = [i * pitch + cloth.seam for i in range(1, each.panels)]
    whole = [Fraction(0), each.length]
    panels = []
    for near, far in pairwise(edges):
        across = (
            [whole[0], each.length / 2, whole[1]] if each.half is not None and far == each.span else whole
        )
        for start, end in pairwise(across):
            if each.way == "down":
                panels.append(Rect(near, start, far - near, end - start, fill, "panel"))
            else:
                panels.append(Rect(start, near, end - start, far - near, fill, "panel"))
    width, height = (each.span, each.length) if each.way == "down" else (each.length, each.span)
    return [*panels, Rect((width - quilt[0]) / 2, (height - quilt[1]) / 2, *quilt, "top", "quilt")]
