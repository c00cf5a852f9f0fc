"""A framed square: a centre and rounds of strips, whole or halved into corners round a centre on point."""

from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    Answer,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Rows,
    Settings,
    Text,
    calculator,
    found,
    given,
    row,
)
from boltend_block_units.framed_cut import parts
from boltend_block_units.framed_halved import Halved, halve
from boltend_block_units.framed_picture import picture
from boltend_block_units.framed_rounds import Frame, Round, frame, sewn_seams
from boltend_block_units.framed_words import cautions, working
from boltend_block_units.parts import check_seams

Way = Literal["cut to size", "trimmed as sewn", "halved into corners"]
_SEWN = ("centre", "count")
_WHOLE = "A centre on point and a block round it are of squares that are halved: choose that method."


@row
class Each:
    """What one round takes, and what the square measures after it."""

    name: Text = found("Round")
    strip_width: Cut = found("Strip width", up="cutting")
    sides_cut: Cut = found("Sides", up="cutting", help="Two a square, sewn first.")
    ends_cut: Cut = found("Ends", up="cutting", help="Two a square, sewn last.")
    sides: Count = found("How many of each", help="So many sides, and as many ends.")
    after: Finished = found("Square after it", nearest="size")


class Found:
    """What is found."""

    centre_square: Cut = found("Centre square", up="cutting", grows_with=("centre",))
    centre_squares: Count = found("Centre squares", grows_with=("count",))
    each: Rows[Each] = found("Each round")
    trim_to: Cut = found("Trim each square to", nearest="size", help="Halved: before it is cut.")
    made: Count = found("Units that come out", grows_with=("count",), help="Halved: corners.")
    centre_on_point: Finished | None = found(
        "Centre on point",
        nearest="size",
        help="Halved: the finished side of what four corners go round.",
        empty=_WHOLE,
    )
    block: Finished | None = found(
        "Block round it", nearest="size", help="Halved: its finished side.", empty=_WHOLE
    )
    seam_length: Length = found(
        "Seams, raw edge to raw edge", up="size", grows_with=_SEWN, help="Of all squares."
    )


@calculator(
    "framed_square", asks="What do I cut for a square in frames, whole or halved into corners?", found=Found
)
def framed_square(
    centre: Finished = given(
        "Centre",
        least="1/4 in",
        most="60 in",
        step="1/2 in",
        help="Its finished side.",
        example=("2 in", "5 cm"),
    ),
    rounds: Rows[Round] = given("Rounds, from the inside out"),
    count: Count = given(
        "Units wanted", least="1", most="1000", help="Squares; halved: corners, four a block."
    ),
    method: Way = given("Method", default="cut to size"),
    finished_size: Finished | None = given(
        "Finished size of the block",
        least="1/2 in",
        most="120 in",
        step="1/2 in",
        help="Halved: of the block that four corners and a centre on point make.",
    ),
    oversize: Length = given(
        "Oversize",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="6 in",
        step="1/8 in",
        help="How much larger each unit is made, to be trimmed.",
    ),
    spare: Length = given(
        "Spare on each strip",
        default="1/2 in",
        metric="1 cm",
        least="0 in",
        most="12 in",
        step="1/8 in",
        help="Trimmed as sewn: every side and end is cut so much longer.",
    ),
    centre_fabric: Fabric | None = given("Centre fabric"),
    *,
    setting: Settings,
) -> Answer:
    """Centre and strips of a framed square; s is the seam. Sizes finished in inches, cuts + 2s.

    `centre` 1/4 to 60, up to 20 rounds of 1/8 to 36 each, `count` 1 to 1000, `oversize` 0 to 6. A round of
    w adds 2w: its sides are as long as the square so far, its ends 2w longer. Centre 4, strips of 1: 4 1/2
    and 6 1/2 in. Halved: two squares give the four corners of a block of f round a centre on point of f/√2;
    their legs finish at f/2, so each is trimmed to f/2 + s(2 + √2), rounded up, and cut once. A block of 12
    at 1/4 in: a centre of 8.485 and squares of 6 7/8 in. Without a block's size, that of the square as it
    is sewn. Source: common practice, no source; the halves by geometry.
    """
    halved = method == "halved into corners"
    made = frame(centre, rounds, Fraction(0) if halved else oversize, setting)
    half = halve(made, finished_size, oversize, setting) if halved else None
    squares = -(-count // 2) if halved else count
    seams = squares * sewn_seams(made)
    check_seams(seams)
    trim = half.trim if half else made.finished + 2 * setting.seam
    pieces, runs = parts(
        made, squares, spare if method == "trimmed as sewn" else None, centre_fabric, setting, trim
    )
    return Answer(
        found={
            "centre_square": made.centre.exact,
            "centre_squares": squares,
            "each": _rows(made, squares),
            "trim_to": trim,
            "made": 2 * squares if halved else squares,
            **_round_it(half),
            "seam_length": seams,
        },
        pieces=pieces,
        runs=runs,
        working=working(made, half, squares, count, spare if runs else None, seams),
        cautions=cautions(made, half, finished_size, setting),
        picture=picture(made, half, centre_fabric),
    )


def _rows(made: Frame, squares: int) -> list[dict[str, object]]:
    return [
        {
            "name": each.name, "strip_width": each.strip.exact, "sides_cut": each.side.exact,
            "ends_cut": each.end.exact, "sides": 2 * squares, "after": each.after,
        }
        for each in made.rounds
    ]  # fmt: skip


def _round_it(half: Halved | None) -> dict[str, object]:
    if half is None:
        return {"centre_on_point": None, "block": None}
    return {"centre_on_point": half.on_point, "block": half.block}
