"""A square in a square: a centre set on point, four triangles round it."""

from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    ROOT2,
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
    up,
)
from boltend_block_units.parts import Exact, Size, check_seams, chord, half_square, sized
from boltend_block_units.square_in_square_picture import picture
from boltend_block_units.words import BIAS, larger, seams_line, size_line, trim_later, trim_line


class Found:
    """What is found."""

    centre_square: Cut = found("Centre square", up="cutting", grows_with=("finished_size",))
    centre_squares: Count = found("Centre squares", grows_with=("count",))
    corner_square: Cut = found(
        "Square for the corners", up="cutting", grows_with=("finished_size", "oversize"),
        help="Cut once on the diagonal: two corners.",
    )  # fmt: skip
    corner_squares: Count = found("Squares for the corners", grows_with=("count",))
    trim_to: Cut = found("Trim each unit to", nearest="size")
    made: Count = found("Units that come out", grows_with=("count",))
    seam_length: Length = found(
        "Seams, raw edge to raw edge", up="size", grows_with=("count",), help="Of all units."
    )


@calculator("square_in_square", asks="What do I cut for a square in a square?", found=Found)
def square_in_square(
    finished_size: Finished = given(
        "Finished size",
        least="1/4 in",
        most="120 in",
        step="1/2 in",
        help="Of the whole, or of the centre.",
        example=("6 in", "15 cm"),
    ),
    count: Count = given("Units wanted", least="1", most="10000"),
    method: Literal["from the whole", "from the centre"] = given(
        "Method", default="from the whole", help="Which of the two the finished size is."
    ),
    oversize: Length = given(
        "Oversize",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="6 in",
        step="1/8 in",
        help="How much larger each unit is made, by its corners, to be trimmed.",
    ),
    centre_fabric: Fabric | None = given("Centre fabric"),
    corner_fabric: Fabric | None = given("Corner fabric"),
    *,
    setting: Settings,
) -> Answer:
    """The centre square and the corners of a square in a square; s is the seam.

    All lengths in inches. `finished_size` 1/4 to 120, `count` 1 to 10 000, `oversize` 0 to 6. From a whole
    that finishes at f: a centre square of f/√2 + 2s, and two squares of f/2 + s(2 + √2), cut once, for four
    corners. From a centre that finishes at c: c + 2s, and c/√2 + s(2 + √2). Rounded up to the cutting step,
    and the unit trimmed to its exact f + 2s, where f is c√2. A centre of 6 in at 1/4 in: 6 1/2 and 5 1/8
    in. By geometry; common practice, no source.
    """
    seam, whole_given = setting.seam, method == "from the whole"
    centre: Exact = finished_size / ROOT2 if whole_given else finished_size
    whole: Exact = finished_size if whole_given else finished_size * ROOT2
    inner = sized(centre + 2 * seam, setting)
    corner = sized(half_square(whole / 2 + oversize, seam), setting)
    seams = count * _seams_of_one(inner.cut, corner.cut, seam)
    later = trim_later(_as_sewn(inner.cut, corner.cut, seam), whole + 2 * seam)
    check_seams(seams)
    return Answer(
        found={
            "centre_square": inner.exact, "centre_squares": count, "corner_square": corner.exact,
            "corner_squares": 2 * count, "trim_to": whole + 2 * seam, "made": count, "seam_length": seams,
        },
        pieces=[
            Piece("centre square", inner.cut, inner.cut, count, centre_fabric, later=later),
            Piece(
                "square for corners", corner.cut, corner.cut, 2 * count, corner_fabric, made_from="half",
                later=later,
            ),
        ],
        working=[
            *_sizes(finished_size, oversize, seam, inner, corner, whole_given=whole_given),
            line("four corners from two squares, cut once: {} × 2 = {} squares", count, 2 * count),
            line("corners on two opposite sides first, then on the other two, each centred on its side"),
            trim_line(_as_sewn(inner.cut, corner.cut, seam), whole + 2 * seam, seam),
            *_points(inner),
            _seams(count, inner.cut, corner.cut, seam, seams),
        ],
        cautions=["The corners' long sides are on the bias and stretch: " + BIAS, *_blunt(inner, setting)],
        picture=picture(whole, corner.cut, centre_fabric, corner_fabric),
    )  # fmt: skip


def _sizes(
    size: Fraction, oversize: Fraction, seam: Fraction, inner: Size, corner: Size, *, whole_given: bool
) -> list[Line]:
    shown, allowance = finished(size), length(seam)
    centre = "{} ÷ √2 + 2 × {}" if whole_given else "{} + 2 × {}"
    words, values = larger("{} ÷ 2" if whole_given else "{} ÷ √2", shown, oversize)
    lines = [
        size_line("centre square", centre, (shown, allowance), inner),
        size_line("square for corners", words + " + {} × (2 + √2)", (*values, allowance), corner),
    ]
    if not whole_given:
        lines.append(line("the whole finishes at {} × √2 = {}", shown, finished(size * ROOT2)))
    return lines


def _as_sewn(inner: Fraction, corner: Fraction, seam: Fraction) -> Exact:
    """The raw edge of the whole before it is trimmed, as its corners give it; inches."""
    return (inner - 2 * seam) / ROOT2 + corner - seam * ROOT2


def _seams_of_one(inner: Fraction, corner: Fraction, seam: Fraction) -> Exact:
    """The four seams of a unit, raw edge to raw edge, as far as both layers reach; inches.

    A seam below its long side a corner is narrower than that by two seams. The first two corners lie on the
    centre alone, which as a rule is narrower still; the last two on the centre and the first two.
    """
    across = chord(corner, seam)
    return 2 * min(inner, across) + 2 * across


def _seams(count: int, inner: Fraction, corner: Fraction, seam: Fraction, total: Exact) -> Line:
    values = (cut(corner), length(seam))
    if inner < chord(corner, seam):
        return seams_line("{} × (2 × {} + 2 × ({} × √2 − 2 × {}))", (count, cut(inner), *values), total)
    return seams_line("{} × 4 × ({} × √2 − 2 × {})", (count, *values), total)


def past_the_edge(inner: Size) -> Exact:
    """How far each point of a centre that is rounded up lies past the finished edge; inches."""
    return inner.over / ROOT2


def _points(inner: Size) -> list[Line]:
    if not inner.over:
        return []
    said = "the centre is {} larger than its exact size, so its points lie {} past the finished edge"
    return [line(said, length(inner.over), length(past_the_edge(inner)))]


def _blunt(inner: Size, setting: Settings) -> list[Line]:
    """A caution where the rounding would be seen: half a step of size and more."""
    past, trim = past_the_edge(inner), up(inner.exact, setting.size_step)
    if past < setting.size_step / 2 or trim >= inner.cut:
        return []
    said = "The seam takes {} off each point of the centre: trim the centre to {} before it is sewn."
    return [line(said, length(past), cut(trim))]
