"""Whether all that a block needs comes out of one precut."""

from boltend.plugin import (
    Answer,
    Count,
    Cut,
    Fabric,
    Job,
    Length,
    Percent,
    Rows,
    TableRow,
    Text,
    YesNo,
    calculator,
    found,
    given,
    row,
)
from boltend_precut_yield.precut_sheet import precut_sheet


@row
class Wanted:
    """Pieces of one size that a set needs."""

    name: Text | None = given("Piece", empty="piece {}")
    width: Cut = given("Width", least="1/4 in", step="cutting")
    height: Cut = given("Height", least="1/4 in", step="cutting")
    count: Count = given(
        "How many", default="1", least="1", most="1000", help="Of this size, for the block: 1 unless you say."
    )
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

    sets_each: Count = found("Whole sets from one precut", help="A set is the pieces given, once.")
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
    cuts: Rows[Wanted] = given(
        "Pieces for a block", help="All that one block takes: a row for each size, and how many of it."
    ),
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
    blocks_per_set: Count = given(
        "Blocks from these pieces",
        default="1",
        least="1",
        most="1000",
        help="1 where the pieces are those of one block; more where they make several at once.",
    ),
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
    from boltend_precut_yield.plan_answer import plan_answer  # a search, so the worker imports it: see there

    sheet = precut_sheet(precut, precut_width, precut_length, squaring)
    return plan_answer(
        cuts, sheet, blocks_per_set=blocks_per_set, blocks_wanted=blocks_wanted, precuts=precuts,
        layers=layers, fabric=fabric, job=job,
    )  # fmt: skip
