"""The straight set: blocks in rows and columns, with or without sashing."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Settings,
    YesNo,
    calculator,
    found,
    given,
)
from boltend_quilt_setting.of_fabrics import of_fabrics
from boltend_quilt_setting.straight_layout import Layout
from boltend_quilt_setting.straight_parts import long_sash, pieces
from boltend_quilt_setting.straight_picture import picture
from boltend_quilt_setting.straight_words import cautions, working


class Found:
    """What a straight set finds."""

    width: Finished = found("Width of the top", nearest="size", help="Finished: without the outer seams")
    height: Finished = found("Height of the top", nearest="size", help="Finished: without the outer seams")
    raw_width: Cut = found("Raw width of the top", nearest="size", help="As measured, raw edge to raw edge")
    raw_height: Cut = found("Raw height of the top", nearest="size", help="As measured, raw edge to raw edge")
    blocks: Count = found("Blocks")
    sashes_down: Count = found(
        "Short sashes in the rows", help="Beside the blocks, as long as these are high"
    )
    sashes_across: Count = found(
        "Short sashes between rows", help="As long as a block is wide; with cornerstones"
    )
    long_sashes: Count = found(
        "Long sashes between rows", help="As long as the top is wide; without cornerstones"
    )
    long_sash_length: Cut | None = found(
        "Length of a long sash",
        up="cutting",
        empty="There is no long sash: without a sash, in a single row, and where cornerstones part it.",
    )
    joins: Count = found("Joins in the long sashes", help="In all of them, each sewn by itself from strips")
    cornerstone_count: Count = found("Cornerstones")
    seam_length: Length = found("Seams, raw edge to raw edge", nearest="size", help="Each once, to sew")
    ditch_length: Length = found("Seams, finished", nearest="size", help="Each once, to quilt in the ditch")


MOST_SEAMS = 10**7
"""Inches: no length in Boltend is longer, and nobody sews 158 miles."""


@calculator(
    "straight_set", asks="How large is a top of straight rows, and what does its sashing take?", found=Found
)
def straight_set(
    block_width: Finished = given(
        "Block width", takes=("finished_size",), least="1/2 in", most="120 in", step="1/2 in"
    ),
    block_height: Finished | None = given(
        "Block height",
        least="1/2 in",
        most="120 in",
        step="1/2 in",
        help="Left empty: square blocks",
        empty="square",
    ),
    across: Count = given("Blocks across", least="1", most="500"),
    down: Count = given("Blocks down", least="1", most="500"),
    sash: Finished = given(
        "Sash width", default="0 in", metric="0 cm", least="0 in", most="36 in", step="1/4 in"
    ),
    sash_all_round: YesNo = given("Sash all round", default="no", help="Round the outside too"),
    cornerstones: YesNo = given("Cornerstones", default="no", help="Squares where the sashes cross"),
    sash_fabric: Fabric | None = given("Sash fabric"),
    cornerstone_fabric: Fabric | None = given("Cornerstone fabric"),
    *,
    setting: Settings,
) -> Answer:
    """Size, sashing and seams of a straight set.

    Block sizes and the sash are finished lengths, in exact inches: blocks 1/2 in to 120 in, sash 0 to 36 in,
    1 to 500 blocks each way. The width is across·block + (across − 1)·sash, or + (across + 1)·sash with the
    sash all round; the height alike. Without cornerstones the long sashes run across and win every crossing.
    Seams are counted once each: within the rows first, then between them; joins within a long sash are not
    among them. Worked: sixteen blocks of 12 in, four by four, make 48 in (common practice, no source).
    """
    high = block_width if block_height is None else block_height
    layout = Layout(block_width, high, across, down, sash, sash_all_round, cornerstones)
    seams = layout.seams(setting.seam)
    if seams > MOST_SEAMS:
        raise Cannot("across", "The seams come to more than 10 000 000 in.", "Take fewer or smaller blocks.")
    long = long_sash(layout, setting, sash_fabric) if layout.long_sashes else None
    cut, runs = pieces(layout, setting, long, sash_fabric, cornerstone_fabric)
    return Answer(
        found={
            "width": layout.width,
            "height": layout.height,
            "raw_width": layout.width + 2 * setting.seam,
            "raw_height": layout.height + 2 * setting.seam,
            "blocks": across * down,
            "sashes_down": layout.sashes_down,
            "sashes_across": layout.sashes_across,
            "long_sashes": layout.long_sashes,
            "long_sash_length": long.length if long else None,
            "joins": layout.long_sashes * (long.strips - 1) if long else 0,
            "cornerstone_count": layout.cornerstone_count,
            "seam_length": seams,
            "ditch_length": layout.seams(Fraction(0)),
        },
        pieces=cut,
        runs=runs,
        working=working(layout, setting, long),
        cautions=cautions(layout),
        picture=of_fabrics(picture(layout), {"sash": sash_fabric, "cornerstone": cornerstone_fabric}),
    )
