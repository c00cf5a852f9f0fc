"""Boltend: quilt arithmetic, from the fabric in hand to the last eighth of a yard to buy."""

from os import PathLike
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from boltend.door import Quilt

__version__ = "0.1.0"


def open(path: "str | PathLike[str]") -> "Quilt":  # noqa: A001 - called boltend.open, as gzip.open is
    """Open a project file from Python: tabs and founds as typed values. See `boltend.door.Quilt`.

    Raises `boltend.door.ProjectUnreadable` where the file cannot be read.
    """
    from boltend.door import open_quilt  # late: the shell and most commands need none of it

    return open_quilt(path)
