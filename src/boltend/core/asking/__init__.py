"""Asking a project the other way round: many values of one given at once."""

from boltend.core.asking.back import Backwards, back
from boltend.core.asking.finer import Finer, Try
from boltend.core.asking.ladder import Cell, Ladder, Rung, Take, climb, read_ladder
from boltend.core.asking.spots import AskError, Spot
from boltend.core.asking.wish import Wish, read_wish

__all__ = [
    "AskError",
    "Backwards",
    "Cell",
    "Finer",
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
