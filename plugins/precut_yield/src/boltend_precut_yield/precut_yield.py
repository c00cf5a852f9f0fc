"""How many pieces of one size a precut gives."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Area,
    Cannot,
    Count,
    Cut,
    Fabric,
    Length,
    Percent,
    Piece,
    TableRow,
    YesNo,
    calculator,
    found,
    given,
    yield_of,
)
from boltend_precut_yield.counts import counts
from boltend_precut_yield.precut_sheet import precut_sheet
from boltend_precut_yield.yield_words import cut_lines, picture


class Found:
    """What one precut gives, and what so many give."""

    pieces_each: Count = found("Pieces from one precut")
    pieces: Count = found("Pieces", help="From the precuts in hand, or else from those needed, or from one.")
    precuts_needed: Count = found("Precuts needed", grows_with=("pieces_wanted",))
    spare: Count = found("Pieces to spare")
    leftover: Area = found(
        "Left over of each precut", nearest=("0.01 sq in", "0.1 sq cm"), help="Its pieces are in the working."
    )
    used: Percent = found("Used of each precut", nearest="0.1 %")
    stacks: Count = found("Stacks to cut")


@calculator(
    "precut_yield",
    asks="How many pieces of one size does a precut give, and how many precuts do I need?",
    found=Found,
)
def precut_yield(
    precut: TableRow | None = given("Precut", table="precuts"),
    precut_width: Cut | None = given(
        "Width of the precut", least="1/2 in", help="Across the bolt.", empty="the precut's"
    ),
    precut_length: Cut | None = given(
        "Length of the precut", least="1/2 in", help="Along the selvage.", empty="the precut's"
    ),
    squaring: Length = given(
        "Lost to squaring, each way", default="0 in", metric="0 cm", least="0 in", inherits=False
    ),
    piece_width: Cut = given("Width of a piece", least="1/4 in", step="cutting"),
    piece_height: Cut = given("Height of a piece", least="1/4 in", step="cutting"),
    may_turn: YesNo = given("May turn", default="yes", help="No for a one-way print."),
    precuts: Count | None = given("Precuts in hand", least="1", most="100000"),
    pieces_wanted: Count | None = given("Pieces wanted", least="1", most="1000000"),
    layers: Count = given("Layers at a time", least="1"),
    fabric: Fabric | None = given("Fabric", help="Named, its pieces go into To cut."),
) -> Answer:
    """The most pieces of one size out of a precut, by cuts from edge to edge, lying both ways.

    Sizes in exact cut inches, raw edge to raw edge; sizes given go before the table's. `squaring` is
    lost once across and once along; a precut loses nothing unless this tab says so. A 10 in square gives 4
    of 5 in, and 3 of 3 1/2 × 6 1/2 in. Only with a `fabric` does it ask for its
    pieces, so that a what-if is not counted beside the tab of their blocks. Source: geometry; layers are
    common practice.
    """
    sheet = precut_sheet(precut, precut_width, precut_length, squaring)
    got = yield_of((piece_width, piece_height, may_turn), sheet.usable)
    if not got.pieces:
        raise Cannot(
            "piece_width", "no such piece lies in the precut.", "Cut smaller, or take a larger precut."
        )
    said = counts(got.pieces, pieces_wanted, precuts, layers, "pieces")
    area = got.pieces * piece_width * piece_height
    return Answer(
        found={
            "pieces_each": got.pieces, "pieces": said.made, "precuts_needed": said.needed,
            "spare": said.spare, "leftover": sheet.usable[0] * sheet.usable[1] - area,
            "used": 100 * area / sheet.area, "stacks": said.stacks,
        },
        working=[
            *sheet.lines(), *cut_lines(sheet.usable, got, (piece_width, piece_height)), *said.working,
            *sheet.packs(said.cuts, precuts),
        ],
        pieces=_pieces(fabric, piece_width, piece_height, may_turn, pieces_wanted or said.made),
        cautions=said.cautions,
        picture=picture(sheet.usable, got),
    )  # fmt: skip


def _pieces(fabric: str | None, width: Fraction, height: Fraction, may_turn: bool, count: int) -> list[Piece]:
    return [Piece("piece", width, height, count, fabric, may_turn=may_turn)] if fabric else []
