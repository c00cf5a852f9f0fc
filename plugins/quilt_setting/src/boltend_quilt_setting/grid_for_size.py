"""From the size that is wanted to the blocks and borders that reach it."""

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Finished,
    Length,
    Literal,
    Rows,
    Settings,
    Text,
    calculator,
    found,
    given,
    row,
)
from boltend_quilt_setting.grid_for_size_picture import picture
from boltend_quilt_setting.grid_for_size_rank import Reach
from boltend_quilt_setting.grid_for_size_search import BlocksSet, Wanted
from boltend_quilt_setting.grid_for_size_words import cautions, no_exact, working

REACHES = {
    "exactly": "Only what makes the size wanted, to the step.",
    "at least": "Never smaller than wanted: what is over is least.",
    "nearest": "Whatever misses it least, also a little too small.",
}
MOST_CHOICES = 50
"""Rows that are listed; the working says how many there are in all."""


@row
class Offer:
    """One grid that reaches the size."""

    across: Count = found("Across")
    down: Count = found("Down")
    blocks: Count = found("Blocks")
    border_sides: Finished = found("Border, sides", nearest="size")
    border_ends: Finished = found("Border, ends", nearest="size")
    width: Finished = found("Width", nearest="size")
    height: Finished = found("Height", nearest="size")
    over_width: Length = found("Over, width", nearest="size")
    over_height: Length = found("Over, height", nearest="size")


class Found:
    """The chosen grid, and all that there are to choose from."""

    across: Count = found("Blocks across")
    down: Count = found("Blocks down")
    blocks: Count = found("Blocks", help="On point with the inner ones")
    border_sides: Finished = found("Border at the sides", nearest="size", help="All borders together")
    border_ends: Finished = found("Border at the ends", nearest="size", help="All borders together")
    width: Finished = found("Width", nearest="size", help="With the borders")
    height: Finished = found("Height", nearest="size", help="With the borders")
    without_border: Text = found("Without a border", help="The fewest blocks that cover it by themselves")
    bare_width: Finished = found("Width without a border", nearest="size")
    bare_height: Finished = found("Height without a border", nearest="size")
    over_width: Length = found("Over the target, width", nearest="size", help="Below zero: too narrow")
    over_height: Length = found("Over the target, height", nearest="size", help="Below zero: too short")
    block_width: Finished = found("Block width", nearest="size", help="As given: a setting may take it")
    block_height: Finished = found("Block height", nearest="size", help="As given: a setting may take it")
    choices: Rows[Offer] = found("Choices", help="Best first")


@calculator(
    "grid_for_size", asks="How many blocks, and what sash and border, reach the size I want?", found=Found
)
def grid_for_size(
    target_width: Finished = given("Width wanted", least="1 in", most="1000 in", step="1 in"),
    target_height: Finished = given("Height wanted", least="1 in", most="1000 in", step="1 in"),
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
    blocks_set: BlocksSet = given(
        # The vocabulary says `setting`, a name that the contract keeps for the project's settings.
        "Setting", default="straight", was=("setting",), help="On point with setting triangles at the edges",
    ),
    sash: Finished = given(
        "Sash width", default="0 in", metric="0 cm", least="0 in", most="36 in", step="1/4 in",
        help="Between blocks only; on point the edge lies at the cornerstones' centres",
    ),
    border_least: Finished = given(
        "Narrowest border", default="0 in", metric="0 cm", least="0 in", most="36 in", step="1/2 in",
        help="On each side, all borders together",
    ),
    border_most: Finished = given(
        "Widest border", default="12 in", metric="30 cm", least="0 in", most="36 in", step="1/2 in",
        help="On each side, all borders together",
    ),
    step: Length = given(
        "Border step", default="1/2 in", metric="1 cm", least="1/16 in", most="12 in",
        help="Borders are whole steps wide",
    ),
    reach: Reach = given("Reach", default="at least", choices=REACHES),
    sides_and_ends: Literal["alike", "may differ"] = given("Sides and ends", default="alike"),
    pick: Count = given("Pick", default="1", least="1", help="The number of the choice to go on with"),
    *,
    setting: Settings,
) -> Answer:  # fmt: skip
    """Every grid of blocks that reaches a size with a border of whole steps, in order, and the one picked.

    Lengths in exact inches: targets 1 to 1000 in and blocks 1/2 to 120 in finished, sash and borders 0 to
    36 in, step 1/16 to 12 in; at most 500 blocks in a row. Straight: across·block + (across − 1)·sash +
    2·border. On point, of square blocks: across·(block + sash)·√2 + 2·border, the edge through the points,
    with a sash through the cornerstones' centres. Sides and ends alike, or each its own border.

    At least: every grid from which nothing can be taken: with one row or column of blocks fewer, or a border
    a step narrower, it would fall short. Order: least area over the target, then sides and ends most alike,
    then the narrower border, then fewer blocks, then tall before wide. Nearest: every count of blocks that is
    not too large with one block fewer and the narrowest border, nor too small with one more and the widest,
    each with the border that comes nearest. Order: the larger miss least, then the sum of both, then less of
    it too small, then as above. Exactly: those of the nearest that miss by nothing; √2 makes no whole steps,
    so on point by no more than half the step to which sizes are shown (1/32 in). The first 50 are listed.

    Without a border: the fewest blocks each way that reach the size by themselves, whatever the borders.

    Worked: 86 × 93 in from 9 in blocks, at least: 9 × 10 and a border of 2 1/2 in make 86 × 95 in, as do
    8 × 9 with 7 in and 7 × 8 with 11 1/2 in; without a border 10 × 11, 90 × 99 in. Arithmetic; the
    order is ours, no source.
    """
    wanted = Wanted(
        target=(target_width, target_height),
        block=(block_width, block_width if block_height is None else block_height),
        sash=sash, blocks_set=blocks_set,
        border_least=border_least, border_most=border_most, step=step,
        alike=sides_and_ends == "alike",
        hair=setting.size_step / 2,
    )  # fmt: skip
    listed, total = wanted.ranked(reach, MOST_CHOICES)
    if not listed:
        raise no_exact(wanted, setting)
    if pick > len(listed):
        raise _no_pick(pick, len(listed), total)
    grid, bare = listed[pick - 1], wanted.bare()
    said = dict(zip(("block_width", "block_height"), wanted.block, strict=True))
    return Answer(
        found={
            **grid.row(),
            **said,
            "choices": [each.row() for each in listed],
            "without_border": f"{bare.blocks} block{'s' * (bare.blocks > 1)}, {bare.across} × {bare.down}",
            "bare_width": bare.width,
            "bare_height": bare.height,
        },
        working=working(grid, bare, wanted, reach, (pick, len(listed), total)),
        cautions=cautions(grid, reach),
        picture=picture(grid, wanted),
    )


def _no_pick(pick: int, listed: int, total: int) -> Cannot:
    among = (
        f"the first {listed} of {total} choices are listed"
        if total > listed
        else f"there are {listed} choices"
    )
    way_out = "Pick 1." if listed == 1 else f"Pick 1 to {listed}."
    return Cannot("pick", f"There is no number {pick}: {among}.", way_out)
