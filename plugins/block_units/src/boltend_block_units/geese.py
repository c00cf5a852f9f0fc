"""Flying geese, twice as wide as high: four at a time, with sewn corners, or from loose triangles."""

from typing import Literal

from boltend.plugin import (
    Answer,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Line,
    Settings,
    calculator,
    found,
    given,
)
from boltend_block_units.geese_methods import METHODS, Gaggle
from boltend_block_units.geese_picture import picture
from boltend_block_units.geese_words import working
from boltend_block_units.parts import check_seams
from boltend_block_units.words import BIAS

_SIZES = ("finished_width", "oversize")


class Found:
    """What is found."""

    large_square: Cut | None = found("Large square", up="cutting", grows_with=_SIZES, help="Of the middles.")
    large_squares: Count = found("Large squares", grows_with=("count",))
    rectangle_width: Cut | None = found("Width of a rectangle", up="cutting", grows_with=_SIZES)
    rectangle_height: Cut | None = found("Height of a rectangle", up="cutting", grows_with=_SIZES)
    rectangles: Count = found("Rectangles", grows_with=("count",))
    small_square: Cut = found("Small square", up="cutting", grows_with=_SIZES, help="Of the wings.")
    small_squares: Count = found("Small squares", grows_with=("count",))
    trim_to: Cut = found("Trim each to this width", nearest="size")
    trim_to_height: Cut = found("Trim each to this height", nearest="size")
    made: Count = found("Geese that come out", grows_with=("count",))
    seam_length: Length = found(
        "Seams, raw edge to raw edge", up="size", grows_with=("count",), help="Of all geese."
    )


@calculator("flying_geese", asks="What do I cut for flying geese?", found=Found)
def flying_geese(
    finished_width: Finished = given(
        "Finished width",
        least="1/2 in",
        most="120 in",
        step="1 in",
        help="The height is half of it.",
        example=("6 in", "15 cm"),
    ),
    count: Count = given("Geese wanted", least="1", most="10000"),
    method: Literal["four at a time", "sewn corners", "loose triangles"] = given(
        "Method", default="four at a time"
    ),
    oversize: Length = given(
        "Oversize",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="6 in",
        step="1/8 in",
        help="How much higher each is made, and twice as much wider, to be trimmed.",
    ),
    centre_fabric: Fabric | None = given("Fabric of the middles"),
    corner_fabric: Fabric | None = given("Fabric of the wings"),
    *,
    setting: Settings,
) -> Answer:
    """Squares and rectangles for geese of a finished width w and height h = w/2; s is the seam.

    All lengths in inches. `finished_width` 1/2 to 120, `count` 1 to 10 000, `oversize` 0 to 6. Four at a
    time: one square of w + 2s(1 + √2), four of half of that + s, which is h + s(2 + √2) until the large one
    is rounded. Sewn corners: a rectangle of (w + 2s) × (h + 2s), two squares as high. Loose triangles: the
    large square cut twice gives four middles, small ones of h + s(2 + √2) cut once two wings each. All
    rounded up to the cutting step, the geese trimmed to (w + 2s) × (h + 2s). 4 in wide at 1/4 in, four at a
    time: 5 1/4 and 2 7/8 in. By geometry; common practice, no source.
    """
    gaggle = METHODS[method](finished_width, oversize, count, setting)
    check_seams(gaggle.seams)
    rectangle = gaggle.rectangle
    return Answer(
        found={
            "large_square": gaggle.large.exact if gaggle.large else None,
            "large_squares": gaggle.large_count,
            "rectangle_width": rectangle[0].exact if rectangle else None,
            "rectangle_height": rectangle[1].exact if rectangle else None,
            "rectangles": gaggle.made if rectangle else 0,
            "small_square": gaggle.small.exact,
            "small_squares": gaggle.small_count,
            "trim_to": finished_width + 2 * setting.seam,
            "trim_to_height": finished_width / 2 + 2 * setting.seam,
            "made": gaggle.made,
            "seam_length": gaggle.seams,
        },
        pieces=gaggle.pieces(centre_fabric, corner_fabric),
        working=working(gaggle, count),
        cautions=_cautions(gaggle),
        picture=picture(gaggle, centre_fabric, corner_fabric),
    )


def _cautions(gaggle: Gaggle) -> list[Line | str]:
    said: list[Line | str] = []
    if gaggle.rectangle is None:
        said.append(f"No rectangle has a value: {gaggle.method} cuts squares only.")
    if gaggle.large is None:
        said.append(f"No large square has a value: with {gaggle.method} the middles are rectangles.")
    if gaggle.method == "four at a time":
        said.append("The first cut leaves bias edges, which stretch: " + BIAS)
    if gaggle.method == "loose triangles":
        said.append("The edges that are sewn together are on the bias and stretch: " + BIAS)
    return said
