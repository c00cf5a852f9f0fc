"""Everything that a calculator plugin needs, and the only module of ours that it imports.

A plugin is a module with `boltend_contract = 1` that marks `boltend_calculators` (and, if it likes,
`boltend_tables` and `boltend_starts`) with `hookimpl`, and enters by the entry-point group
`boltend.plugins`. Lengths are exact `Fraction` inches of a known kind; DEVELOPERS.md tells the rest.
"""

from typing import TYPE_CHECKING, Literal
from typing import Literal as Choice  # a choice among words: Choice["diagonal", "straight"]

from boltend.core.contract import (
    CONTRACT,
    Answer,
    Area,
    Calculator,
    Cannot,
    Colour,
    Count,
    Cut,
    Fabric,
    Finished,
    Goods,
    Job,
    Length,
    Line,
    Measured,
    Money,
    Note,
    Percent,
    Piece,
    PlainNumber,
    Polygon,
    Rate,
    Rect,
    Rows,
    Rule,
    Run,
    Settings,
    Shape,
    Start,
    Table,
    TableRow,
    Text,
    ThreadNumber,
    Time,
    YesNo,
    calculator,
    cut,
    finished,
    found,
    given,
    hookimpl,
    length,
    line,
    percent,
    row,
    yards,
)
from boltend.core.values import ROOT2, Number, Price, Surd, ceil_div, down, floor_div, nearest, tex, up

if TYPE_CHECKING:
    from boltend.core.cutting import Block as YieldBlock
    from boltend.core.cutting import (
        Bolt,
        Part,
        Sheet,
        Sheetplan,
        Stock,
        Yield,
        cutting_plan,
        stacks_of,
        yield_of,
    )
    from boltend.core.cutting import Plan as CuttingPlan

__all__ = [
    "CONTRACT",
    "ROOT2",
    "Answer",
    "Area",
    "Bolt",
    "Calculator",
    "Cannot",
    "Choice",
    "Colour",
    "Count",
    "Cut",
    "CuttingPlan",
    "Fabric",
    "Finished",
    "Goods",
    "Job",
    "Length",
    "Line",
    "Literal",
    "Measured",
    "Money",
    "Note",
    "Number",
    "Part",
    "Percent",
    "Piece",
    "PlainNumber",
    "Polygon",
    "Price",
    "Rate",
    "Rect",
    "Rows",
    "Rule",
    "Run",
    "Settings",
    "Shape",
    "Sheet",
    "Sheetplan",
    "Start",
    "Stock",
    "Surd",
    "Table",
    "TableRow",
    "Text",
    "ThreadNumber",
    "Time",
    "YesNo",
    "Yield",
    "YieldBlock",
    "calculator",
    "ceil_div",
    "cut",
    "cutting_plan",
    "down",
    "finished",
    "floor_div",
    "found",
    "given",
    "hookimpl",
    "length",
    "line",
    "nearest",
    "percent",
    "row",
    "stacks_of",
    "tex",
    "up",
    "yards",
    "yield_of",
]

_OF_CUTTING = {
    "YieldBlock": "Block", "Bolt": "Bolt", "Part": "Part", "Sheet": "Sheet", "Sheetplan": "Sheetplan",
    "Stock": "Stock", "Yield": "Yield", "stacks_of": "stacks_of", "yield_of": "yield_of",
    "CuttingPlan": "Plan", "cutting_plan": "cutting_plan",
}  # fmt: skip
"""What comes from the cutting engine, which is loaded for who asks for it: few plugins do."""

if not TYPE_CHECKING:

    def __getattr__(name: str) -> object:
        """A name of the cutting engine."""
        from boltend.core import cutting

        if name not in _OF_CUTTING:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(cutting, _OF_CUTTING[name])

    def __dir__() -> list[str]:
        """Every name, also of the cutting engine: `help()` lists what stands here."""
        return sorted({*globals(), *__all__})
