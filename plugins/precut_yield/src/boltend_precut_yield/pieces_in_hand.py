"""From yards in hand to pieces of one size."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from boltend.plugin import (
    Answer,
    Area,
    Cannot,
    Count,
    Cut,
    Length,
    Percent,
    Piece,
    Rows,
    Settings,
    Text,
    YesNo,
    calculator,
    found,
    given,
    row,
)
from boltend_precut_yield.in_hand_cut import Laid, Most
from boltend_precut_yield.in_hand_rows import Precuts, Yards, cloths
from boltend_precut_yield.pieces_words import cautions, picture, working
from boltend_precut_yield.yield_words import Size


@row
class OfEach:
    """What one row gives."""

    name: Text = found("Name")
    pieces_each: Count = found("Pieces from one")
    how_many: Count = found("How many")
    pieces: Count = found("Pieces")
    used: Percent = found("Used", nearest="0.1 %")


class Found:
    """The pieces of all rows together, and their size for the quilt."""

    pieces: Count = found("Pieces in all", help="For the blocks in hand of a quilt of plain squares.")
    each: Rows[OfEach] = found("Of each")
    piece_width: Cut = found("Width of a piece", nearest="size", help="As given, for the quilt")
    piece_height: Cut = found("Height of a piece", nearest="size", help="As given, for the quilt")
    used: Percent = found("Used of all", nearest="0.1 %")
    leftover: Area = found("Left over of all", nearest=("0.01 sq in", "0.1 sq cm"))


@calculator(
    "pieces_in_hand",
    asks="How many squares or other pieces of one size come out of my yards?",
    found=Found,
)
def pieces_in_hand(
    piece_width: Cut = given(
        "Square, or piece width",
        least="1/4 in",
        most="200 in",
        step="cutting",
        help="Raw edge to raw edge. A size seen in the quilt is typed so: 9 in finished.",
        example=("9 in", "23 cm"),
    ),
    piece_height: Cut | None = given(
        "Piece height", least="1/4 in", most="1000 in", step="cutting", empty="square"
    ),
    fabrics: Rows[Yards] | None = given("Yards in hand"),
    precuts: Rows[Precuts] | None = given("Fat quarters and other precuts"),
    may_turn: YesNo = given("May turn", default="yes", help="No for one-way prints."),
    usable_width: Length = given("Usable width of the fabric", least="1 in", most="200 in"),
    squaring: Length = given("Lost to square an end", least="0 in"),
    *,
    setting: Settings,
) -> Answer:
    """The most pieces of one size out of lengths of fabric, fat quarters and other precuts in hand.

    All sizes in exact cut inches, raw edge to raw edge. A length off a bolt is cut across its usable width,
    once `squaring` is lost to square its end; a precut loses nothing. Every sheet gives the most pieces that
    cuts from edge to edge can, lying both ways where they may turn; where the sheet is so large beside an
    oblong piece that this is not proved, the working says so. Worked: 9 in squares at 42 in and 1/2 in of
    squaring: 3 yd give 4 × 11, 2 yd 4 × 7, 1 yd 4 × 3 (35 1/2 in is less than four), in all 84. Only where a
    row names a fabric of the project does To cut get its pieces. Source: geometry; squaring and the sizes of
    precuts are common practice.
    """
    size = piece_width, piece_width if piece_height is None else piece_height
    setting = replace(setting, usable_width=usable_width, squaring=squaring)
    most = Most(size, may_turn)
    laid = [Laid(cloth, most.layout(cloth.usable)) for cloth in cloths(fabrics or (), precuts or (), setting)]
    total = sum(each.pieces for each in laid)
    if not total:
        raise Cannot("piece_width", "no such piece lies in any of them.", "Cut smaller.")
    unsquared = sum(Laid(each.cloth, most.layout(each.cloth.unsquared)).pieces for each in laid)
    area = sum((each.cloth.area for each in laid), Fraction(0))
    sewn = total * size[0] * size[1]
    return Answer(
        found={
            "pieces": total, "each": [_row(each, size) for each in laid],
            "piece_width": size[0], "piece_height": size[1],
            "used": 100 * sewn / area, "leftover": area - sewn,
        },
        pieces=_pieces(laid, size, may_turn),
        working=working(laid, size, setting.seam, total),
        cautions=cautions(laid, unsquared - total),
        picture=picture(laid),
    )  # fmt: skip


def _row(each: Laid, size: Size) -> dict[str, object]:
    return {
        "name": each.cloth.name,
        "pieces_each": each.pieces_each,
        "how_many": each.cloth.count,
        "pieces": each.pieces,
        "used": 100 * each.pieces * size[0] * size[1] / each.cloth.area,
    }


def _pieces(laid: Sequence[Laid], size: Size, may_turn: bool) -> list[Piece]:
    return [
        Piece("piece", *size, each.pieces, each.cloth.fabric, may_turn=may_turn)
        for each in laid
        if each.cloth.fabric is not None and each.pieces
    ]
