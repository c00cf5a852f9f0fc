"""Asking a project the other way round: many values of one given at once."""

from boltend.core.asking.back import Backwards, Try, Wish, back, read_wish
from boltend.core.asking.ladder import Cell, Ladder, Rung, Take, climb, read_ladder
from boltend.core.asking.spots import AskError, Spot

__all__ = [
    "AskError",
    "Backwards",
    "Cell",
    "Ladder",
    "Rung",
    "Spot",
    "Take",
    "Try",
    "Wish",
    "back",
    "climb",
    "read_ladder",
    "read_wish",
]
