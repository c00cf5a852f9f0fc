"""Backing and batting: what lies under the top, and what that takes."""

from boltend.plugin import Calculator, Start, Table, hookimpl
from boltend_backing_batting.backing import backing
from boltend_backing_batting.batting import batting
from boltend_backing_batting.battings import BATTINGS
from boltend_backing_batting.starts import PRINTED_BACKING, UNDER_MY_TOP

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return [backing, batting]


@hookimpl
def boltend_tables() -> list[Table]:
    """Battings: the usual packages, and kinds with their widest quilting gap and their shrinkage."""
    return [BATTINGS]


@hookimpl
def boltend_starts() -> list[Start]:
    """Questions for the start screen."""
    return [UNDER_MY_TOP, PRINTED_BACKING]
