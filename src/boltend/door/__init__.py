"""The Python door: a project opened, worked out and asked from Python. `boltend.open` leads here."""

from boltend.core.asking import AskError, Backwards, Cell, Finer, Rung, Try
from boltend.core.project.problems import ProjectUnreadable
from boltend.core.project.saving import ChangedOnDisk
from boltend.core.project.whole_file import SaveFailed
from boltend.core.values import Price
from boltend.door.quilt import Purchase, Quilt, QuiltTab, open_quilt
from boltend.door.value import Value

__all__ = [
    "AskError",
    "Backwards",
    "Cell",
    "ChangedOnDisk",
    "Finer",
    "Price",
    "ProjectUnreadable",
    "Purchase",
    "Quilt",
    "QuiltTab",
    "Rung",
    "SaveFailed",
    "Try",
    "Value",
    "open_quilt",
]
