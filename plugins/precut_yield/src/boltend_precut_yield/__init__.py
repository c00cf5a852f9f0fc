"""Calculators of what yards, precuts and blocks in hand will make."""

from boltend.plugin import Calculator, Start, Table, hookimpl
from boltend_precut_yield.fabric_in_hand import fabric_in_hand
from boltend_precut_yield.pieces_in_hand import pieces_in_hand
from boltend_precut_yield.precut_plan import precut_plan
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS
from boltend_precut_yield.starts import (
    FROM_BLOCKS,
    FROM_YARDS,
    OUT_OF_PRECUTS,
    SQUARES_AS_BLOCKS,
    THIS_IS_ALL,
)

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of what there is."""
    return [precut_yield, precut_plan, pieces_in_hand, fabric_in_hand]


@hookimpl
def boltend_tables() -> list[Table]:
    """Precuts by generic names, with their sizes and the pieces of a pack."""
    return [PRECUTS]


@hookimpl
def boltend_starts() -> list[Start]:
    """Questions that begin with what there is."""
    return [THIS_IS_ALL, OUT_OF_PRECUTS, FROM_BLOCKS, FROM_YARDS, SQUARES_AS_BLOCKS]
