"""Blocks that came out unequal: what to trim to, and what they finish at."""

from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Cut,
    Finished,
    Length,
    Line,
    Measured,
    Settings,
    calculator,
    cut,
    finished,
    found,
    given,
    length,
    line,
)

_NO_NOMINAL = "Say the nominal size."


class Found:
    """What is found."""

    trim_to: Cut = found("Trim to", down="size", help="Raw edge to raw edge; never more than there is.")
    finished_size: Finished = found("Finishes at", down="size")
    short: Count | None = found("Short ones", help="Below the nominal size.", empty=_NO_NOMINAL)
    long: Count | None = found("Long ones", help="Above the nominal size.", empty=_NO_NOMINAL)
    coping_strip: Finished | None = found(
        "Coping strip",
        nearest="size",
        help="On each side, to bring the smallest up to the nominal size.",
        empty=_NO_NOMINAL,
    )
    spread: Length = found("Spread", nearest="size", help="The largest less the smallest.")


@calculator(
    "measured_blocks",
    asks="My blocks came out unequal: what do I trim to, and what do they finish at?",
    found=Found,
)
def measured_blocks(
    sizes: Measured = given(
        "Sizes, raw edge to edge",
        least="1/2 in",
        most="400 in",
        help="One for each block.",
        example=("12 1/2; 12 3/8; 12 1/2", "31.5; 31.2; 31.5"),
    ),
    nominal: Cut | None = given(
        "Nominal size",
        least="1 in",
        most="400 in",
        help="Cut: what they should measure. Trimmed to the smallest, they need none.",
        empty="not said",
        example=("12 1/2 in", "31.5 cm"),
    ),
    trim: Literal["smallest", "nominal"] = given("Trim to the", default="smallest"),
    coping_most: Finished | None = given(
        "Widest coping strip", least="0 in", most="12 in", help="A wider one is warned of."
    ),
    *,
    setting: Settings,
) -> Answer:
    """What blocks are trimmed to so that they fit each other.

    All in inches; `sizes` and `nominal` are cut. Trimmed to the smallest, all blocks are alike and finish at
    that less two seams; the `nominal` size may then be left out, and short ones are not counted. Trimmed to
    the nominal size, each short block first gets a coping strip on its four sides: half of what it lacks,
    finished. Blocks of 12 1/4, 12 1/2 and 12 5/8 in that should be 12 1/2 in: trim to 12 1/4 in, they finish
    at 11 3/4 in; or a strip of 1/8 in round the short one. Common practice, no source.
    """
    smallest, largest = min(sizes), max(sizes)
    seams = 2 * setting.seam
    for name, size in (("sizes", smallest), ("nominal", nominal)):
        if size is not None and size <= seams:
            why = "a block is no more than its two seam allowances."
            raise Cannot(name, why, "Check the unit, or the seam.")
    if trim == "smallest":
        trim_to = smallest
    elif nominal is None:
        raise Cannot("nominal", "it is what they are trimmed to.", "Say it, or trim to the smallest.")
    else:
        trim_to = nominal
    coping = None if nominal is None else max(nominal - smallest, Fraction(0)) / 2
    short = None if nominal is None else sum(s < nominal for s in sizes)
    long = None if nominal is None else sum(s > nominal for s in sizes)
    coped = (short or 0) if trim == "nominal" else 0
    return Answer(
        found={
            "trim_to": trim_to,
            "finished_size": trim_to - seams,
            "short": short,
            "long": long,
            "coping_strip": coping,
            "spread": largest - smallest,
        },
        working=_working(sizes, nominal, trim, trim_to, setting.seam),
        cautions=_cautions(
            sizes,
            trim_to,
            coping or Fraction(0),
            coping_most,
            coped,
            setting.seam,
        ),
        first=_first(sizes, trim_to, coped),
    )


def _first(sizes: tuple[Fraction, ...], trim_to: Fraction, coped: int) -> list[Line]:
    """What is done to the blocks; one size may stand for all of them, so that nobody knows how many."""
    blocks = f"all {len(sizes)} blocks" if len(sizes) > 1 else "every block"
    if coped:
        return [
            line(
                "sew coping strips round the short ones ({}), then trim {} to {} cut",
                coped,
                blocks,
                cut(trim_to),
            )
        ]
    return [line("trim {} to {} cut", blocks, cut(trim_to))] if max(sizes) > trim_to else []


def _working(
    sizes: tuple[Fraction, ...], nominal: Fraction | None, trim: str, trim_to: Fraction, seam: Fraction
) -> list[Line]:
    smallest, largest, many = min(sizes), max(sizes), len(sizes)
    measured = "{} blocks measured, from {} to {}: they differ by {}."
    trimmed = "Trim to the {}: {}; finished {} − 2 seams of {} = {}."
    lines = [
        line(measured, many, cut(smallest), cut(largest), length(largest - smallest)),
        line(trimmed, trim, cut(trim_to), cut(trim_to), length(seam), finished(trim_to - 2 * seam)),
    ]
    if nominal is None:
        return lines
    short, long = sum(s < nominal for s in sizes), sum(s > nominal for s in sizes)
    counted = line("{} below {}, {} above it, {} just so.", short, cut(nominal), long, many - short - long)
    return [lines[0], counted, lines[1], *_coping(nominal, smallest)]


def _coping(nominal: Fraction, smallest: Fraction) -> list[Line]:
    if smallest >= nominal:
        return [line("None is short, so no coping strip is needed.")]
    words = "A coping strip on each side of the smallest: ({} − {}) ÷ 2 = {} finished."
    return [line(words, cut(nominal), cut(smallest), finished((nominal - smallest) / 2))]


def _cautions(
    sizes: tuple[Fraction, ...],
    trim_to: Fraction,
    coping: Fraction,
    coping_most: Fraction | None,
    to_cope: int,
    seam: Fraction,
) -> list[Line]:
    said = []
    if to_cope:
        words = "Short blocks ({}) get a coping strip before they are trimmed; the smallest one of {} a side."
        said.append(line(words, to_cope, finished(coping)))
    if coping_most is not None and coping > coping_most:
        words = (
            "A coping strip of {} is wider than {}: it shows. Make the block anew, or trim to the smallest."
        )
        said.append(line(words, finished(coping), finished(coping_most)))
    lost = (max(sizes) - trim_to) / 2
    if lost > 0:
        words = "The largest loses {} on each side: points that end {} from its edge lose their seam."
        said.append(line(words, length(lost), length(seam)))
    if len(sizes) == 1:
        said.append(line("Only one block is measured: measure all, or at least one of every make."))
    return said
