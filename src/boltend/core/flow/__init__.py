"""The flow: tabs and links make a graph; an edit runs through what it reaches, and no further."""

from boltend.core.flow.links import Link
from boltend.core.flow.results import Result, State
from boltend.core.flow.workbook import Workbook

__all__ = ["Link", "Result", "State", "Workbook"]
