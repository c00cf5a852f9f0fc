"""Quarter-square triangles: loose ones from a square cut twice, or hourglass units sewn two at a time."""

from fractions import Fraction
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
    cut,
    finished,
    found,
    given,
    length,
    line,
)
from boltend_block_units.parts import (
    Size,
    check_seams,
    hourglass_seams,
    hourglass_sewn,
    quarter_square,
    sized,
)
from boltend_block_units.quarter_square_picture import hourglass_picture, triangles_picture
from boltend_block_units.words import (
    BIAS,
    larger,
    made_line,
    seams_line,
    size_line,
    trim_later,
    trim_line,
    unused,
)


class Found:
    """What is found."""

    square: Cut = found("Square to cut", up="cutting", grows_with=("finished_size", "oversize"))
    squares: Count = found("Squares of each fabric", grows_with=("count",))
    trim_to: Cut | None = found("Trim each unit to", nearest="size", help="Triangles are not trimmed.")
    made: Count = found("Units that come out", grows_with=("count",), help="Triangles, or hourglass units.")
    seam_length: Length = found(
        "Seams, raw edge to raw edge", up="size", grows_with=("count",), help="Of all units."
    )


@calculator(
    "quarter_square_triangles",
    asks="What do I cut for quarter-square triangles or hourglass units?",
    found=Found,
)
def quarter_square_triangles(
    finished_size: Finished = given(
        "Finished size",
        least="1/4 in",
        most="120 in",
        step="1/2 in",
        help="Of the triangle's long side, which is the side of an hourglass unit.",
        example=("6 in", "15 cm"),
    ),
    count: Count = given("Units wanted", least="1", most="10000", help="Triangles, or hourglass units."),
    method: Literal["triangles", "hourglass two at a time"] = given("Method", default="triangles"),
    oversize: Length = given(
        "Oversize",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="6 in",
        step="1/8 in",
        help="How much larger each unit is made, to be trimmed.",
    ),
    triangle_fabric: Fabric | None = given("Fabric of the triangles", help="Of loose triangles."),
    light_fabric: Fabric | None = given("Light fabric", help="Of hourglass units."),
    dark_fabric: Fabric | None = given("Dark fabric", help="Of hourglass units."),
    *,
    setting: Settings,
) -> Answer:
    """Squares that give quarter-square triangles of a finished long side f; s is the seam.

    All lengths in inches. `finished_size` 1/4 to 120, `count` 1 to 10 000, `oversize` 0 to 6. A square of f
    + 2s(1 + √2), rounded up to the cutting step, is cut on both diagonals into four triangles whose long
    side is on the straight of grain; or two such squares are sewn as half-square triangles two at a time,
    and these once more across their seam, into two hourglass units that are trimmed to f + 2s. 3 in at 1/4
    in: 4 1/4 in. By geometry; common practice, no source.
    """
    square = sized(quarter_square(finished_size + oversize, setting.seam), setting)
    words, values = larger("{}", finished(finished_size), oversize)
    first = size_line("square", words + " + 2 × {} × (1 + √2)", (*values, length(setting.seam)), square)
    if method == "triangles":
        spare = unused({"Light fabric": light_fabric, "Dark fabric": dark_fabric}, method)
        return _triangles(finished_size, count, square, triangle_fabric, first, spare)
    spare = unused({"Fabric of the triangles": triangle_fabric}, method)
    return _hourglass(finished_size, count, square, (light_fabric, dark_fabric), first, spare, setting.seam)


def _triangles(
    size: Fraction, count: int, square: Size, fabric: str | None, first: Line, spare: list[Line]
) -> Answer:
    sets = -(-count // 4)
    return Answer(
        found={
            "square": square.exact, "squares": sets, "trim_to": None, "made": 4 * sets,
            "seam_length": Fraction(0),
        },
        pieces=[Piece("square for triangles", square.cut, square.cut, sets, fabric, made_from="quarter")],
        working=[
            first,
            line("each square is cut on both diagonals, so the long sides are on the straight of grain"),
            made_line("squares × triangles", sets, 4, count),
            line("cutting sews nothing yet: the seams are those of the unit that the triangles go into"),
        ],
        cautions=[
            "The short sides of the triangles are on the bias and stretch: " + BIAS,
            "Triangles have no size to trim to; the unit that they are sewn into has.",
            *spare,
        ],
        picture=triangles_picture(size, square.cut, fabric),
    )  # fmt: skip


def _hourglass(
    size: Fraction,
    count: int,
    square: Size,
    fabrics: tuple[str | None, str | None],
    first: Line,
    spare: list[Line],
    seam: Fraction,
) -> Answer:
    sets, trim = -(-count // 2), size + 2 * seam
    later = trim_later(hourglass_sewn(square.cut, seam), trim)
    each = hourglass_seams(square.cut, seam)
    check_seams(sets * each)
    return Answer(
        found={
            "square": square.exact, "squares": sets, "trim_to": trim, "made": 2 * sets,
            "seam_length": sets * each,
        },
        pieces=[
            Piece("light square", square.cut, square.cut, sets, fabrics[0], later=later),
            Piece("dark square", square.cut, square.cut, sets, fabrics[1], later=later),
        ],
        working=[
            first,
            line("a light and a dark square are sewn a seam from both sides of a diagonal, and cut on it"),
            line("the two halves, seams against each other, are sewn and cut so again on the other diagonal"),
            made_line("pairs of squares × units", sets, 2, count),
            trim_line(hourglass_sewn(square.cut, seam), trim, seam),
            seams_line("{} × (4 × {} × √2 − 12 × {})", (sets, cut(square.cut), length(seam)), sets * each),
        ],
        cautions=["Cut edges are on the bias and stretch: " + BIAS,
                  *spare],
        picture=hourglass_picture(size, square.cut, *fabrics),
    )  # fmt: skip
