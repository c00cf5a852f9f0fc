"""Which fabrics go together in each block."""

from boltend.plugin import Calculator, hookimpl

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return []
