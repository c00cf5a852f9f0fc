"""Asking a project the other way round: many values of one given at once."""

from boltend.core.asking.back import Backwards, Try, Wish, back, read_wish
from boltend.core.asking.ladder import AskError, Cell, Ladder, Rung, Take, climb, read_ladder

__all__ = [
    "AskError",
    "Backwards",
    "Cell",
    "Ladder",
    "Rung",
    "Take",
    "Try",
    "Wish",
    "back",
    "climb",
    "read_ladder",
    "read_wish",
]
