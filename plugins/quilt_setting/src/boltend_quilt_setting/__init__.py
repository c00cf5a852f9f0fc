"""Calculators of how blocks are set together into a top."""

from boltend.plugin import Calculator, hookimpl
from boltend_quilt_setting.straight_set import straight_set

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of quilt settings."""
    return [straight_set]
