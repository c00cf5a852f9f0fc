"""How much thread the quilting and the piecing take."""

from boltend.plugin import Calculator, hookimpl

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return []
