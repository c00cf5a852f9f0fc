"""What is cut for the units of a block, method by method."""

from boltend.plugin import Calculator, hookimpl

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return []
