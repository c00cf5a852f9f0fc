"""From the blocks in hand to the quilts that they make."""

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Finished,
    Rows,
    calculator,
    found,
    given,
    row,
)
from boltend_precut_yield.grid_picture import picture
from boltend_precut_yield.grid_words import cautions, none_fits, working
from boltend_precut_yield.grids import Block, Shape, grids

MOST_CHOICES = 50
"""Nobody reads more; the last ones are strips of one block anyway."""


@row
class Offer:
    """One grid that can be made."""

    across: Count = found("Across")
    down: Count = found("Down")
    width: Finished = found("Width", nearest="size")
    height: Finished = found("Height", nearest="size")
    spare: Count = found("Left over")


class Found:
    """What the blocks in hand make: the chosen grid, and all that there are to choose from."""

    across: Count = found("Blocks across")
    down: Count = found("Blocks down")
    width: Finished = found("Width", nearest="size", help="With the sash between blocks and the border")
    height: Finished = found("Height", nearest="size", help="With the sash between blocks and the border")
    top_width: Finished = found("Width without a border", nearest="size", help="For a tab of borders")
    top_height: Finished = found("Height without a border", nearest="size", help="For a tab of borders")
    spare: Count = found("Blocks left over")
    block_width: Finished = found("Block width", nearest="size", help="As given, for the setting")
    block_height: Finished = found("Block height", nearest="size", help="As given, for the setting")
    choices: Rows[Offer] = found("Choices", help="Best first")


@calculator("fabric_in_hand", asks="Which quilts do so many blocks make?", found=Found)
def fabric_in_hand(
    blocks: Count = given("Blocks in hand", takes=("pieces",), least="1", most="50000"),
    block_width: Finished = given(
        "Block width", takes=("finished_size", "piece_width"), least="1/2 in", most="120 in", step="1/2 in"
    ),
    block_height: Finished | None = given(
        "Block height",
        takes=("piece_height",),
        least="1/2 in",
        most="120 in",
        step="1/2 in",
        help="Left empty: square blocks",
        empty="square",
    ),
    sash: Finished = given(
        "Sash width", default="0 in", metric="0 cm", least="0 in", most="36 in", help="Between blocks only"
    ),
    border: Finished = given(
        "Border to allow for",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="60 in",
        help="On each side, all together; only in the sizes. Leave 0 where a tab plans borders",
    ),
    shape: Shape = given("Shape", default="any", help="Near square: one side at most a quarter longer"),
    leave_at_most: Count | None = given("Leave at most", help="Blocks that may be left over"),
    pick: Count = given("Pick", default="1", least="1", help="The number of the choice to go on with"),
) -> Answer:
    """Every grid that the blocks make, best first.

    Sizes are finished lengths in exact inches: blocks 1/2 to 120 in, 1 to 50000 of them. A grid is offered
    where no other one of the asked shape is at least as large both ways. Order: near squares (longer side at
    most 5/4 of the shorter), then up to twice as long as wide, in both fewest blocks left over first and then
    nearest to square; then longer ones, nearest to square first; of equals tall before wide. The size is
    across·block + (across − 1)·sash + 2·border, the height alike. Worked: 31 blocks of 10 in give 5 × 6,
    50 × 60 in, one left over. Arithmetic; the order is ours, no source.
    """
    block = Block(block_width, block_width if block_height is None else block_height, sash, border)
    every = grids(blocks, block, shape)
    kept = [grid for grid in every if leave_at_most is None or grid.spare <= leave_at_most]
    if not kept:
        raise none_fits(every, blocks, shape)
    shown = kept[:MOST_CHOICES]
    if pick > len(shown):
        raise Cannot("pick", f"There are {len(shown)} choices, no number {pick}.", f"Pick 1 to {len(shown)}.")
    grid = shown[pick - 1]
    return Answer(
        found={
            **vars(grid),
            "top_width": grid.width - 2 * border,
            "top_height": grid.height - 2 * border,
            "block_width": block_width,
            "block_height": block.height,
            "choices": [vars(each) for each in shown],
        },
        working=working(grid, block, pick, len(kept)),
        cautions=cautions(border),
        picture=picture(grid, block),
    )
