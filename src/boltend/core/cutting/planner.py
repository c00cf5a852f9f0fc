"""`plan`: the one interface to the engine."""

from collections.abc import Sequence

from boltend.core.cutting.plans import Plan
from boltend.core.cutting.shapes import Job, Part, Stock


def plan(demand: Sequence[Part], stock: Stock, job: Job | None = None, *, stacks: bool = True) -> Plan:
    """Plan."""
    raise NotImplementedError


def plan_pooled(
    groups: Sequence[Sequence[Part]], stock: Stock, job: Job | None = None, *, stacks: bool = True
) -> Plan:
    """Plan."""
    raise NotImplementedError


def at_least(small: Plan, big: Plan) -> Plan:
    """Plan."""
    raise NotImplementedError
