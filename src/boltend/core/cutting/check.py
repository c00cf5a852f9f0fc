"""Check a plan by itself, in whole numbers."""

from collections.abc import Sequence

from boltend.core.cutting.plans import Plan
from boltend.core.cutting.shapes import Part, Stock


def check_plan(plan: Plan, demand: Sequence[Part], stock: Stock) -> None:
    """Check."""
    raise NotImplementedError
