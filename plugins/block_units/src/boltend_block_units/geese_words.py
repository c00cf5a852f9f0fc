"""The working of flying geese, in words."""

from fractions import Fraction

from boltend.plugin import Line, cut, finished, length, line
from boltend_block_units.geese_methods import Gaggle, loose_reach
from boltend_block_units.words import larger, made_line, seams_line, size_line


def working(gaggle: Gaggle, count: int) -> list[Line]:
    """How the founds came about, with the numbers."""
    steps = {"four at a time": _four, "sewn corners": _sewn, "loose triangles": _loose}
    trim = gaggle.width + 2 * gaggle.seam, gaggle.height + 2 * gaggle.seam
    said = "trim to {} × {}: finished + 2 seams of {}, the point a seam below the edge, from {} × {}"
    shown = length(gaggle.seam), cut(gaggle.room[0]), cut(gaggle.room[1])
    return [
        line("height: {} ÷ 2 = {}", finished(gaggle.width), finished(gaggle.height)),
        *steps[gaggle.method](gaggle, count),
        line(said, cut(trim[0]), cut(trim[1]), *shown),
    ]


def _large(gaggle: Gaggle) -> list[Line]:
    if gaggle.large is None:
        return []
    words, values = larger("{}", finished(gaggle.width), gaggle.oversize, 2)
    values = (*values, length(gaggle.seam))
    return [size_line("large square", words + " + 2 × {} × (1 + √2)", values, gaggle.large)]


def _four(gaggle: Gaggle, count: int) -> list[Line]:
    large = gaggle.large.cut if gaggle.large else 0
    sets, seam = gaggle.large_count, length(gaggle.seam)
    half = "half of {} + {}, so that the wings reach a seam above the point"
    return [
        *_large(gaggle),
        size_line("small square", half, (cut(large), seam), gaggle.small),
        line("two small squares on opposite corners of the large one, sewn a seam away from both sides of the"
             " diagonal and cut on it; then one on the third corner of each half, sewn and cut so too"),
        made_line("large squares × geese", sets, 4, count),
        line("small squares: {} × 4 = {}", sets, gaggle.small_count),
        seams_line("{} × (2 × ({} × √2 − 2 × {}) + 4 × ({} × √2 − 2 × {}))",
                   (sets, cut(large), seam, cut(gaggle.small.cut), seam), gaggle.seams),
    ]  # fmt: skip


def _sewn(gaggle: Gaggle, count: int) -> list[Line]:
    if gaggle.rectangle is None:
        return []
    wide, high = gaggle.rectangle
    seam = length(gaggle.seam)
    words, values = larger("{}", finished(gaggle.width), gaggle.oversize, 2)
    half = "half of {} + {}, a seam above the point"
    return [
        size_line("rectangle, width", words + " + 2 × {}", (*values, seam), wide),
        size_line("rectangle, height", half, (cut(wide.cut), seam), high),
        line("small square: as high as the rectangle, {}", cut(gaggle.small.cut)),
        line(
            "one small square on each end, sewn from its lower outer corner to the other, trimmed, folded out"
        ),
        line("small squares: {} × 2 = {}", count, gaggle.small_count),
        seams_line("{} × 2 × {} × √2", (count, cut(gaggle.small.cut)), gaggle.seams),
    ]


def _loose(gaggle: Gaggle, count: int) -> list[Line]:
    words, values = larger("{}", finished(gaggle.height), gaggle.oversize)
    values = (*values, length(gaggle.seam))
    sets = gaggle.large_count
    return [
        *_large(gaggle),
        size_line("small square", words + " + {} × (2 + √2)", values, gaggle.small),
        line(
            "large squares, cut twice: {} give {} middles, {} more than wanted",
            sets,
            4 * sets,
            4 * sets - count,
        ),
        line("small squares, cut once: {} give {} wings, two for each goose", count, 2 * count),
        _loose_seams(gaggle, count),
    ]


def _loose_seams(gaggle: Gaggle, count: int) -> Line:
    large, small, seam = gaggle.large.cut if gaggle.large else Fraction(0), gaggle.small.cut, gaggle.seam
    reach = loose_reach(large, small, seam)
    said = "{} × (2 × ({} × √2 − 2 × {}) − {} × (√2 − 1)), "
    said += "the first wing's as far as the middle reaches,"
    return seams_line(said, (count, cut(reach), length(seam), length(seam)), gaggle.seams)
