"""Cutting rectangles from a bolt or from sheets: pure geometry, exact, by straight cuts from edge to edge."""

from boltend.core.cutting.check import check_plan
from boltend.core.cutting.claims import Standing, amount_text, claim, claim_of, standing_of
from boltend.core.cutting.fewer import at_least
from boltend.core.cutting.grid import Grid
from boltend.core.cutting.order import CutStep, cut_order, stacks_of
from boltend.core.cutting.planner import plan
from boltend.core.cutting.plans import Kind, Leftover, Placed, Plan, Sheetplan, Stack, Strip, Unplaced
from boltend.core.cutting.pooling import plan_pooled
from boltend.core.cutting.proofs import Proof, prove
from boltend.core.cutting.shapes import Bolt, Direction, Job, Part, PlanError, Sheet, Stock
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
    "plan",
    "plan_pooled",
    "prove",
    "stacks_of",
    "standing_of",
    "yield_of",
]
