"""Half-square triangles, sewn as squares and then cut: two, four or eight at a time."""

from typing import Literal

from boltend.plugin import (
    Answer,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Line,
    Piece,
    Settings,
    calculator,
    found,
    given,
    line,
)
from boltend_block_units.half_square_methods import METHODS, Method
from boltend_block_units.half_square_picture import picture
from boltend_block_units.parts import check_seams, sets_for, sized
from boltend_block_units.words import BIAS, made_line, seams_line, size_line, trim_later, trim_line

Way = Literal["two at a time", "four at a time", "eight at a time"]


class Found:
    """What is found."""

    square: Cut = found("Square to cut", up="cutting", grows_with=("finished_size", "oversize"))
    squares: Count = found("Squares of each fabric", grows_with=("count",))
    trim_to: Cut = found("Trim each unit to", nearest="size")
    made: Count = found("Units that come out", grows_with=("count",))
    seam_length: Length = found(
        "Seams, raw edge to raw edge", up="size", grows_with=("count",), help="Of all units"
    )


@calculator(
    "half_square_triangles", asks="What do I cut for half-square triangles, so many at a time?", found=Found
)
def half_square_triangles(
    finished_size: Finished = given(
        "Finished size",
        least="1/4 in",
        most="120 in",
        step="1/2 in",
        help="Of the sewn unit, a square.",
        example=("6 in", "15 cm"),
    ),
    count: Count = given("Units wanted", least="1", most="10000"),
    method: Way = given("Method", default="two at a time"),
    oversize: Length = given(
        "Oversize",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="6 in",
        step="1/8 in",
        help="How much larger each unit is made, to be trimmed.",
    ),
    light_fabric: Fabric | None = given("Light fabric"),
    dark_fabric: Fabric | None = given("Dark fabric"),
    *,
    setting: Settings,
) -> Answer:
    """Squares of two fabrics that give half-square triangles of one finished size f; s is the seam.

    All lengths in inches. `finished_size` 1/4 to 120, `count` 1 to 10 000, `oversize` 0 to 6 more on each
    unit. Two at a time: squares of f + s(2 + √2), sewn on both sides of a diagonal and cut on it. Four:
    squares of (f + 2s)√2 + 2s, sewn all round and cut on both diagonals. Eight: squares of 2f + 2s(2 + √2),
    sewn on both sides of both diagonals and cut on these and across the middles. Each is rounded up to the
    cutting step, and a unit trimmed to f + 2s. 3 in at 1/4 in: 3 7/8, 5 1/2 and 7 3/4 in. By geometry;
    common practice, no source.
    """
    way, seam = METHODS[method], setting.seam
    square = sized(way.square(finished_size, oversize, seam), setting)
    sets = sets_for(count, way.units)
    trim = finished_size + 2 * seam
    seams = sets * way.seams(square.cut, seam)
    later = trim_later(way.as_sewn(square.cut, seam), trim)
    check_seams(seams)
    return Answer(
        found={
            "square": square.exact,
            "squares": sets,
            "trim_to": trim,
            "made": sets * way.units,
            "seam_length": seams,
        },
        pieces=[
            Piece("light square", square.cut, square.cut, sets, light_fabric, later=later),
            Piece("dark square", square.cut, square.cut, sets, dark_fabric, later=later),
        ],
        working=[
            size_line("square", *way.sum_in_words(finished_size, oversize, seam), square),
            line("one light and one dark square, right sides together, {}", way.sewn),
            made_line(f"pairs of squares × units {method}", sets, way.units, count),
            trim_line(way.as_sewn(square.cut, seam), trim, seam),
            seams_line("{} × " + way.seams_in_words, (sets, *way.seam_values(square.cut, seam)), seams),
        ],
        cautions=_cautions(way),
        picture=picture(method, finished_size, square.cut, light_fabric, dark_fabric),
    )


def _cautions(way: Method) -> list[Line | str]:
    if not way.bias_edges:
        return []
    return ["Four at a time leaves all four edges of each unit on the bias, so they stretch: " + BIAS]
