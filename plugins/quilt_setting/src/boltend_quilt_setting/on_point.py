"""The set on point: blocks standing on a corner, with or without sashing, and the triangles round them."""

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
    ceil_div,
    found,
    given,
)
from boltend_quilt_setting.of_fabrics import of_fabrics
from boltend_quilt_setting.on_point_cautions import cautions
from boltend_quilt_setting.on_point_layout import Edge, OnPoint
from boltend_quilt_setting.on_point_parts import Fabrics, corner_square, pieces, side_square
from boltend_quilt_setting.on_point_picture import picture
from boltend_quilt_setting.on_point_seams import finished_seams, raw_seams
from boltend_quilt_setting.on_point_words import working


class Found:
    """What a set on point finds."""

    width: Finished = found("Width of the top", nearest="size", help="Finished: without the outer seams")
    height: Finished = found("Height of the top", nearest="size", help="Finished: without the outer seams")
    raw_width: Cut = found("Raw width of the top", nearest="size", help="As measured, raw edge to raw edge")
    raw_height: Cut = found("Raw height of the top", nearest="size", help="As measured, raw edge to raw edge")
    blocks: Count = found("Blocks")
    inner_blocks: Count = found("Inner blocks", help="Between those counted; often plain or alternate ones")
    side_triangles: Count = found("Side triangles")
    corner_triangles: Count = found("Corner triangles")
    side_square: Cut | None = found(
        "Side square",
        up="cutting",
        help="Cut twice on the diagonal",
        empty="The side square has no value: a single block has no side triangles.",
    )
    corner_square: Cut = found("Corner square", up="cutting", help="Cut once on the diagonal")
    side_squares: Count = found("Side squares to cut")
    corner_squares: Count = found("Corner squares to cut")
    diagonal: Finished = found("Diagonal of a block", nearest="size")
    sashes: Count = found("Sashes", help="Short ones, as long as a block")
    long_sashes: Count = found(
        "Long sashes between rows", help="Between the diagonal rows; without cornerstones"
    )
    cornerstone_count: Count = found("Cornerstones", help="Whole ones")
    half_cornerstones: Count = found("Half cornerstones", help="Triangles at the edge, four a square")
    diagonal_rows: Count = found("Diagonal rows")
    seam_length: Length = found("Seams, raw edge to raw edge", nearest="size", help="Each once, to sew")
    ditch_length: Length = found("Seams, finished", nearest="size", help="Each once, to quilt in the ditch")


MOST_SEAMS = 10**7
"""Inches: no length in Boltend is longer, and nobody sews 158 miles."""


@calculator(
    "on_point",
    asks="How large is a top of blocks on point, and what do I cut for its edges?",
    found=Found,
)
def on_point(
    block: Finished = given(
        "Block, its side", takes=("finished_size",), least="1/2 in", most="120 in", step="1/2 in"
    ),
    across: Count = given("Blocks across", least="1", most="500", help="Along the edge"),
    down: Count = given("Blocks down", least="1", most="500", help="Along the edge"),
    sash: Finished = given(
        "Sash width", default="0 in", metric="0 cm", least="0 in", most="36 in", step="1/4 in"
    ),
    edge: Edge | None = given(
        "Edge",
        help="Where it lies. Left empty: cornerstone centres with a sash, points without one",
        empty="by the sash",
    ),
    cornerstones: YesNo = given("Cornerstones", default="yes", help="Squares where the sashes cross"),
    float: Finished = given(  # noqa: A002 - the trade's word, and the vocabulary's
        "Float", default="0 in", metric="0 cm", least="0 in", most="36 in", step="1/4 in",
        help="How far the edge lies outside the place named above",
    ),
    oversize: Length = given(
        "Oversize", default="0 in", metric="0 cm", least="0 in", most="12 in", step="1/8 in",
        help="Added to the setting squares, and trimmed off when the top is sewn",
    ),
    setting_fabric: Fabric | None = given("Setting fabric", help="Of the triangles at the edges"),
    inner_fabric: Fabric | None = given("Inner fabric", help="Of plain blocks; empty: blocks of your own"),
    sash_fabric: Fabric | None = given("Sash fabric"),
    cornerstone_fabric: Fabric | None = given("Cornerstone fabric"),
    *,
    setting: Settings,
) -> Answer:  # fmt: skip
    """Size, setting triangles, sashing and sewing order of blocks on point.

    Lengths in exact inches: block finished, 1/2 in to 120 in; sash 0 to 36 in, float 0 to 36 in, oversize 0
    to 12 in; 1 to 500 blocks each way, counted along the edges. There are across·down blocks and
    (across − 1)(down − 1) inner ones between them. The width is across · (block + sash) · √2 and twice what
    the edge lies outside the outer crossings' centres; the height alike. Side triangles are quarters of a
    square, so that their long side, on the quilt's edge, is on the straight of grain; corner triangles are
    halves.

    Worked: block 9, sash 2, 3 × 4: width 43.84, 46.67, 49.50 in for the three edges. Without a sash
    1.414 · 9 + 1 1/4 gives a side square of 14 in, 9 ÷ 1.414 + 7/8 a corner square of 7 1/4 in; the working
    shows the exact least beside them. Source: geometry; the constants are common practice, no source.
    """
    place: Edge = edge or ("cornerstone centres" if sash else "points")
    layout = OnPoint(block, across, down, sash, place, cornerstones, float)
    _check(layout, setting)
    side, corner = side_square(layout, setting, oversize), corner_square(layout, setting, oversize)
    cut, runs = pieces(
        layout, setting, side, corner, Fabrics(setting_fabric, inner_fabric, sash_fabric, cornerstone_fabric)
    )
    squares = [side, corner] if layout.side_triangles else [corner]
    return Answer(
        found={
            "width": layout.width,
            "height": layout.height,
            "raw_width": layout.width + 2 * setting.seam,
            "raw_height": layout.height + 2 * setting.seam,
            "blocks": layout.blocks,
            "inner_blocks": layout.inner_blocks,
            "side_triangles": layout.side_triangles,
            "corner_triangles": 4,
            "side_square": side.wanted if layout.side_triangles else None,
            "corner_square": corner.wanted,
            "side_squares": ceil_div(layout.side_triangles, 4),
            "corner_squares": 2,
            "diagonal": 2 * layout.half_diagonal,
            "sashes": layout.sashes,
            "long_sashes": layout.long_sashes,
            "cornerstone_count": layout.cornerstone_count,
            "half_cornerstones": layout.half_cornerstones,
            "diagonal_rows": layout.rows,
            "seam_length": raw_seams(layout, setting.seam),
            "ditch_length": finished_seams(layout),
        },
        pieces=cut,
        runs=runs,
        working=working(layout, setting, side, corner, oversize),
        cautions=cautions(layout, setting, edge, squares, setting_fabric),
        picture=of_fabrics(
            picture(layout),
            {
                "setting": setting_fabric,
                "inner block": inner_fabric,
                "sash": sash_fabric,
                "cornerstone": cornerstone_fabric,
            },
        ),
    )


def _check(layout: OnPoint, setting: Settings) -> None:
    """Refuse what cannot be sewn: no corner or no edge is left, or more seams than a length can say."""
    if layout.leg <= 0:
        raise Cannot(
            "sash",
            "With the edge at the points and a sash of half the block or more, no corner triangle is left.",
            "Make the sash narrower, give a float, or put the edge at the cornerstone centres.",
        )
    if layout.side_triangles and 2 * layout.clear >= layout.pitch:
        # The seam of a corner triangle would cut the side triangle beside it off from the quilt's edge.
        raise Cannot(
            "float",
            "The blocks float half their distance along the edge or more, so a side triangle loses its edge.",
            "Take a smaller float, and sew a border round the top for the rest.",
        )
    if raw_seams(layout, setting.seam) > MOST_SEAMS:
        raise Cannot("across", "The seams come to more than 10 000 000 in.", "Take fewer or smaller blocks.")
