"""Which fabrics go together in each block."""

from boltend.plugin import Calculator, Start, hookimpl
from boltend_fabric_mix.fabric_mix import fabric_mix
from boltend_fabric_mix.starts import WHICH_GO_TOGETHER

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return [fabric_mix]


@hookimpl
def boltend_starts() -> list[Start]:
    """Where a person may start."""
    return [WHICH_GO_TOGETHER]
