"""What to look out for in a set on point."""

from fractions import Fraction

from boltend.plugin import Line, Settings, cut, finished, length, line
from boltend_quilt_setting.on_point_layout import Edge, OnPoint
from boltend_quilt_setting.on_point_parts import Square


def cautions(
    layout: OnPoint, setting: Settings, said_edge: Edge | None, squares: list[Square], fabric: str | None
) -> list[Line | str]:
    """Bias, trimming, and pieces too large for their cloth."""
    said: list[Line | str] = [
        "The short sides of side triangles and the long sides of corner triangles are on the bias: do not "
        "pull them; press, do not slide the iron; sew with the bias edge underneath and the straight edge on "
        "top.",
    ]
    said += _edge(layout, said_edge)
    said += _too_large(setting, squares, fabric)
    return said


def _edge(layout: OnPoint, said_edge: Edge | None) -> list[Line | str]:
    if not layout.sash:
        if said_edge in (None, "points"):
            return []
        return ["Without a sash the edge lies at the blocks' points, whichever edge is asked for."]
    if layout.clear >= 0:
        return []
    if layout.tip_cornerstones == "whole":
        words = "The edge cuts through the cornerstones {} inside their points: there it is on the bias."
        return [line(words, finished(-layout.clear))]
    if layout.tip_cornerstones == "half" and layout.beyond == 0:
        return []
    words = (
        "Sashes end on the slant at the edge: sew them in whole, trim them with the top, there on the bias."
    )
    return [words]


def _too_large(setting: Settings, squares: list[Square], fabric: str | None) -> list[Line | str]:
    # The whole width, also of a cloth that is washed: what it loses there To cut tells.
    usable: Fraction = setting.on(fabric).usable_width
    largest = max(square.size for square in squares)
    if largest <= usable:
        return []
    words = "A square of {} does not fit a usable width of {}: take a wider cloth, or piece it."
    return [line(words, cut(largest), length(usable))]
