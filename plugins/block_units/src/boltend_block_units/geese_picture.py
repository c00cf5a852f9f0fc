"""The picture of a goose: finished, and beside it what its middle is cut from, with the cuts."""

from boltend.plugin import Polygon, Rect, Rule, Shape
from boltend_block_units.geese_methods import Gaggle


def picture(gaggle: Gaggle, middle: str | None, wing: str | None) -> list[Shape]:
    """The goose with its base below; then the large square or the rectangle as it is cut and sewn."""
    width, height, half = gaggle.width, gaggle.height, gaggle.width / 2
    goose, sky = middle or "middle", wing or "wing"
    return [
        Polygon(((0, height), (width, height), (half, 0)), goose, "middle"),
        Polygon(((0, 0), (half, 0), (0, height)), sky, "wing"),
        Polygon(((half, 0), (width, 0), (width, height)), sky, "wing"),
        *_cut(gaggle, goose, sky),
    ]


def _cut(gaggle: Gaggle, goose: str, sky: str) -> list[Shape]:
    if gaggle.rectangle:
        return _rectangle(gaggle, goose, sky)
    if gaggle.large is None:
        return []
    side, small = gaggle.large.cut, gaggle.small.cut
    left = gaggle.width + side / 8
    shapes: list[Shape] = [Rect(left, 0, side, side, goose, "large square")]
    if gaggle.method == "loose triangles":
        further = left + side + side / 8
        return [
            *shapes,
            Rule(left, 0, left + side, side),
            Rule(left, side, left + side, 0),
            Rect(further, 0, small, small, sky, "small square"),
            Rule(further, small, further + small, 0),
        ]
    return [
        *shapes,
        Rect(left, 0, small, small, sky, "small square"),
        Rect(left + side - small, side - small, small, small, sky, "small square"),
        Rule(left, 0, left + side, side),
    ]


def _rectangle(gaggle: Gaggle, goose: str, sky: str) -> list[Shape]:
    """The rectangle with its two corner squares and the seams on them; sewn one after the other."""
    assert gaggle.rectangle is not None
    wide, high, small = gaggle.rectangle[0].cut, gaggle.rectangle[1].cut, gaggle.small.cut
    left, right = gaggle.width + wide / 8, gaggle.width + wide / 8 + wide
    return [
        Rect(left, 0, wide, high, goose, "rectangle"),
        Rect(left, high - small, small, small, sky, "small square"),
        Rect(right - small, high - small, small, small, sky, "small square"),
        Rule(left, high, left + small, high - small),
        Rule(right, high, right - small, high - small),
    ]
