"""Asking a project the other way round: many values of one given at once."""

from boltend.core.asking.ladder import AskError, Cell, Ladder, Rung, Take, climb, read_ladder

__all__ = ["AskError", "Cell", "Ladder", "Rung", "Take", "climb", "read_ladder"]
