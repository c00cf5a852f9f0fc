"""Cutting rectangles from a bolt or from sheets: pure geometry, exact, by straight cuts from edge to edge.

A name is looked up when it is asked for: a start needs two or three of them, and all of the engine costs it
20 ms of CPU.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from boltend.core.cutting.asked import cutting_plan, unplaced_unseen
    from boltend.core.cutting.check import check_plan
    from boltend.core.cutting.claims import Standing, amount_text, claim, claim_of, standing_of
    from boltend.core.cutting.fewer import at_least
    from boltend.core.cutting.grid import Grid
    from boltend.core.cutting.order import CutStep, cut_order
    from boltend.core.cutting.planner import plan
    from boltend.core.cutting.plans import Kind, Leftover, Placed, Plan, Sheetplan, Stack, Strip, Unplaced
    from boltend.core.cutting.pooling import plan_pooled
    from boltend.core.cutting.proofs import Proof, prove
    from boltend.core.cutting.shapes import Bolt, Direction, Job, Part, PlanError, Sheet, Stock
    from boltend.core.cutting.stacks import stacks_of
    from boltend.core.cutting.steps import Aim, AtMost, Steps
    from boltend.core.cutting.yields import Block, Split, Yield, yield_of

__all__ = [
    "Aim",
    "AtMost",
    "Block",
    "Bolt",
    "CutStep",
    "Direction",
    "Grid",
    "Job",
    "Kind",
    "Leftover",
    "Part",
    "Placed",
    "Plan",
    "PlanError",
    "Proof",
    "Sheet",
    "Sheetplan",
    "Split",
    "Stack",
    "Standing",
    "Steps",
    "Stock",
    "Strip",
    "Unplaced",
    "Yield",
    "amount_text",
    "at_least",
    "check_plan",
    "claim",
    "claim_of",
    "cut_order",
    "cutting_plan",
    "plan",
    "plan_pooled",
    "prove",
    "stacks_of",
    "standing_of",
    "unplaced_unseen",
    "yield_of",
]

_MODULES = {
    "asked": "cutting_plan unplaced_unseen",
    "check": "check_plan",
    "claims": "Standing amount_text claim claim_of standing_of",
    "fewer": "at_least",
    "grid": "Grid",
    "order": "CutStep cut_order",
    "planner": "plan",
    "plans": "Kind Leftover Placed Plan Sheetplan Stack Strip Unplaced",
    "pooling": "plan_pooled",
    "proofs": "Proof prove",
    "shapes": "Bolt Direction Job Part PlanError Sheet Stock",
    "stacks": "stacks_of",
    "steps": "Aim AtMost Steps",
    "yields": "Block Split Yield yield_of",
}
_WHERE = {name: module for module, names in _MODULES.items() for name in names.split()}

if not TYPE_CHECKING:

    def __getattr__(name: str) -> object:
        """A name of this package, from its module."""
        if name not in _WHERE:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        found = getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
        globals()[name] = found  # kept: it is asked for once
        return found
