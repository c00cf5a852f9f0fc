"""Whether all that a block needs comes out of one precut."""

from collections.abc import Sequence

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Cut,
    Fabric,
    Job,
    Length,
    Line,
    Part,
    Percent,
    Piece,
    Rows,
    TableRow,
    Text,
    YesNo,
    calculator,
    ceil_div,
    found,
    given,
    line,
    row,
)
from boltend_precut_yield.counts import counts
from boltend_precut_yield.plan_words import sets_lines, sets_picture, used
from boltend_precut_yield.precut_sheet import precut_sheet
from boltend_precut_yield.sets import Sets, most_sets


@row
class Wanted:
    """Pieces of one size that a set needs."""

    name: Text | None = given("Piece")
    width: Cut = given("Width", least="1/4 in", step="cutting")
    height: Cut = given("Height", least="1/4 in", step="cutting")
    count: Count = given("Count in a set", default="1", least="1", most="1000")
    may_turn: YesNo = given("May turn", default="yes")


@row
class CutOut:
    """Pieces of one size that are cut."""

    name: Text = found("Piece")
    width: Cut = found("Width", up="cutting")
    height: Cut = found("Height", up="cutting")
    in_a_set: Count = found("In a set")
    in_all: Count = found("In all")


class Found:
    """What one precut gives, and what so many give."""

    sets_each: Count = found("Whole sets from one precut")
    blocks: Count = found("Blocks", help="From the precuts in hand, or else from those needed, or from one.")
    precuts_needed: Count = found("Precuts needed", grows_with=("blocks_wanted",))
    used: Percent = found("Used of the precuts", nearest="0.1 %")
    stacks: Count = found("Stacks to cut")
    cuts_out: Rows[CutOut] = found("Pieces cut")


@calculator(
    "precut_plan",
    asks="Does all that a block needs come out of one precut, and how many blocks do my precuts make?",
    found=Found,
)
def precut_plan(
    cuts: Rows[Wanted] = given("Pieces of a set"),
    precut: TableRow | None = given("Precut", table="precuts"),
    precut_width: Cut | None = given("Width of the precut", least="1/2 in", help="Across the bolt."),
    precut_length: Cut | None = given("Length of the precut", least="1/2 in", help="Along the selvage."),
    squaring: Length = given(
        "Lost to squaring, each way", default="0 in", metric="0 cm", least="0 in", inherits=False
    ),
    blocks_per_set: Count = given("Blocks that a set makes", default="1", least="1", most="1000"),
    precuts: Count | None = given("Precuts in hand", least="1", most="100000"),
    blocks_wanted: Count | None = given("Blocks wanted", least="1", most="100000"),
    layers: Count = given("Layers at a time", least="1"),
    fabric: Fabric | None = given("Fabric", help="Named, its pieces go into To cut."),
    *,
    job: Job | None,
) -> Answer:
    """How many whole sets of pieces come out of one precut, by the same engine that plans To cut.

    Sizes in exact cut inches. Pieces of one size: the exact yield; several: a plan of strips and stacks, so
    that a set more may be possible where area promises more, which the working shows. Where not even one set
    comes out of one precut, it says out of how many. Worked: 4 of 2 1/2 in and 2 of 2 1/2 × 5 in fill half of
    a 10 in square: 2 sets. Only
    with a `fabric` does it ask for its pieces, so that a what-if is not counted beside the blocks' own tab.
    Source: geometry; layers are common practice.
    """
    sheet = precut_sheet(precut, precut_width, precut_length, squaring)
    parts = _parts(cuts)
    got = most_sets(parts, sheet, job)
    if got is None:
        raise Cannot("cuts", "a piece is larger than the precut.", "Cut smaller, or take a larger precut.")
    each = max(got.each, 1) * blocks_per_set
    said = counts(each, blocks_wanted, precuts, layers, "blocks", got.precuts)
    return Answer(
        found={
            "sets_each": got.each, "blocks": said.made, "precuts_needed": said.needed,
            "used": used(parts, sheet, got), "stacks": said.stacks,
            "cuts_out": _cut_out(parts, said.made // blocks_per_set),
        },
        pieces=_pieces(fabric, parts, ceil_div(blocks_wanted or said.made, blocks_per_set)),
        working=[
            *sheet.lines(),
            *sets_lines(parts, sheet, got),
            *said.working,
            *sheet.packs(said.cuts, precuts),
        ],
        cautions=[*said.cautions, *_cautions(got)],
        picture=sets_picture(sheet, got),
    )  # fmt: skip


def _parts(cuts: Sequence[Wanted]) -> list[Part]:
    if not cuts:
        raise Cannot("cuts", "no pieces are given.", "Add a row for each size that a set needs.")
    parts: list[Part] = []
    for number, each in enumerate(cuts, 1):
        name = each.name or f"piece {number}"
        if name in {part.name for part in parts}:  # the engine tells parts apart by their names
            name = f"{name} ({number})"
        parts.append(Part(name, each.width, each.height, each.count, each.may_turn))
    return parts


def _cut_out(parts: Sequence[Part], sets: int) -> list[dict[str, object]]:
    return [
        {"name": p.name, "width": p.across, "height": p.along, "in_a_set": p.count, "in_all": p.count * sets}
        for p in parts
    ]


def _pieces(fabric: str | None, parts: Sequence[Part], sets: int) -> list[Piece]:
    if fabric is None:
        return []
    return [Piece(p.name, p.across, p.along, p.count * sets, fabric, may_turn=p.may_turn) for p in parts]


def _cautions(got: Sets) -> list[Line]:
    if got.each:
        return []
    return [
        line("A set does not come out of one precut: it takes {}, of one fabric or several.", got.precuts)
    ]
