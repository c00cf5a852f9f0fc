"""Which fabrics go together in each block."""

from boltend.plugin import (
    Answer,
    Count,
    Fabric,
    Job,
    PlainNumber,
    Rows,
    Settings,
    Text,
    calculator,
    found,
    given,
    row,
)


@row
class Cuts:
    """A fabric and what there is of it."""

    fabric: Fabric = given("Fabric")
    cuts: Count = given(
        "Cuts", least="0", most="1000000", help="Blocks that it is enough for: one cut a block."
    )


@row
class Combination:
    """Fabrics that go together, and in how many blocks."""

    blocks: Count = found("Blocks")
    fabrics: Text = found("Fabrics")
    contrast: PlainNumber = found("Least contrast", down="0.01")


class Found:
    """The blocks that can be made, and which fabrics are in each."""

    blocks_made: Count = found("Blocks made")
    least_contrast: PlainNumber = found(
        "Least contrast in a block", down="0.01", help="CIEDE2000: 0 is the same colour, 100 black and white."
    )
    layout: Rows[Combination] = found("Layout", help="Blocks by the fabrics in them, the most first.")


@calculator("fabric_mix", asks="Which fabrics go together in each block?", found=Found)
def fabric_mix(
    fabrics: Rows[Cuts] = given("Fabrics"),
    per_block: Count = given("Fabrics in a block", default="3", least="2", most="100", help="All different."),
    blocks: Count = given("Blocks", least="1", most="2500"),
    contrast_least: PlainNumber = given(
        "Least contrast",
        default="0",
        least="0",
        most="120",
        step="5",
        help="CIEDE2000 difference between any two fabrics of a block; 0: colours do not count.",
    ),
    *,
    setting: Settings,
    job: Job | None,
) -> Answer:
    """So many different fabrics in each block, no two of them too alike, and every fabric used evenly.

    A cut is enough for one block; colours are those of the project's fabrics. 2 to 100 fabrics a block, up to
    2500 blocks and 400 fabrics. First, as many blocks as are wanted, or else the most there can be. Of such
    mixes the most even one: its most used fabric is used as little as can be, by as few fabrics as can be,
    then the next one, and so on down. Then, without proof, few blocks are alike. Solved by integer programs
    (HiGHS); where it cannot be done, the cautions say what is short. Worked: 4, 4 and 1 cuts, 2 a block, give
    4 blocks. Contrast: CIEDE2000 by coloraide, source: Sharma, Wu, Dalal, "The CIEDE2000 color-difference
    formula", Color Research and Application 30(1), 2005.
    """
    from boltend_fabric_mix.mixing import (
        mixed,  # a search: what it works with is imported in the worker alone
    )

    return mixed(fabrics, per_block, blocks, contrast_least, setting, job)
