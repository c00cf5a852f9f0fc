"""Calculators of what precuts and blocks in hand will make."""

from boltend.plugin import Calculator, Start, hookimpl
from boltend_precut_yield.fabric_in_hand import fabric_in_hand
from boltend_precut_yield.starts import THIS_IS_ALL

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of what there is."""
    return [fabric_in_hand]


@hookimpl
def boltend_starts() -> list[Start]:
    """Questions that begin with what there is."""
    return [THIS_IS_ALL]
