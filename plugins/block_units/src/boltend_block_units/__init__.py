"""What is cut for the units of a block, method by method."""

from boltend.plugin import Calculator, Start, hookimpl
from boltend_block_units.framed import framed_square
from boltend_block_units.geese import flying_geese
from boltend_block_units.half_square import half_square_triangles
from boltend_block_units.quarter_square import quarter_square_triangles
from boltend_block_units.square_in_square import square_in_square
from boltend_block_units.starts import HALF_SQUARES, NINE_PATCHES
from boltend_block_units.strip_grid import strip_pieced_grid

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return [
        half_square_triangles,
        quarter_square_triangles,
        flying_geese,
        square_in_square,
        framed_square,
        strip_pieced_grid,
    ]


@hookimpl
def boltend_starts() -> list[Start]:
    """Questions for the start screen."""
    return [NINE_PATCHES, HALF_SQUARES]
